#include "client/words/columns.h"

#include <algorithm>

#include "common/base/check.h"

namespace squeezeout::words {
namespace {

bool begins_code_point(char ch) { return (static_cast<unsigned char>(ch) & 0xC0U) != 0x80U; }

void trim_end(std::string& line) { line.erase(line.find_last_not_of(' ') + 1); }

}  // namespace

std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_code_point));
}

std::string cut(std::string_view text, std::size_t most) {
  if (width(text) <= most) return std::string(text);
  if (most == 0) return {};
  std::size_t at = 0;
  for (std::size_t kept = 0; at < text.size(); ++at)
    if (begins_code_point(text[at]) && kept++ == most - 1) break;
  return std::string(text.substr(0, at)) + "…";
}

std::string left(std::string_view text, std::size_t columns) {
  std::string out = cut(text, columns);
  return out + std::string(columns - width(out), ' ');
}

std::string right(std::string_view text, std::size_t columns) {
  const std::string out = cut(text, columns);
  return std::string(columns - width(out), ' ') + out;
}

std::string table(const std::vector<Column>& columns,
                  const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> wide;
  for (const Column& c : columns) wide.push_back(width(c.head));
  for (const auto& row : rows) {
    CHECK(row.size() == columns.size());
    for (std::size_t i = 0; i < row.size(); ++i)
      wide[i] = std::max(wide[i], std::min(width(row[i]), columns[i].most));
  }
  std::string out;
  const auto add = [&](const auto& cell_of) {
    std::string line;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      if (i > 0) line += "  ";
      line +=
          columns[i].align == Align::left ? left(cell_of(i), wide[i]) : right(cell_of(i), wide[i]);
    }
    trim_end(line);
    out += line + "\n";
  };
  add([&](std::size_t i) { return columns[i].head; });
  for (const auto& row : rows) add([&](std::size_t i) { return row[i]; });
  return out;
}

}  // namespace squeezeout::words
