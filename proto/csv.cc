// RFC 4180: cells parted by commas, rows ended by CRLF (a bare LF is read too), quotes around a cell that holds a comma, a
// quote or a line break, and quotes in it doubled.
#include <fmt/format.h>

#include "proto/csv_rows.h"

namespace squeezeout {
namespace {

class CsvReader {
 public:
  CsvReader(std::string_view file, std::string_view text) : file_(file), text_(text) {
    if (text_.starts_with("\xEF\xBB\xBF"))
      text_.remove_prefix(3);  // the mark with which spreadsheets say UTF-8
  }

  Result<std::vector<CsvRow>, FileMistake> rows() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row{line_, {}};
      do {
        auto cell = text_.substr(at_).starts_with('"') ? quoted() : plain();
        if (!cell) return Unexpected(std::move(cell).error());
        row.cells.push_back(std::move(*cell));
      } while (take(","));
      if (!take("\r\n") && !take("\n") && at_ < text_.size())
        return no("stands where a comma or the end of the row belongs",
                  "put the whole cell in quotes, and double quotes in it");
      if (!rows.empty() && row.cells.size() != rows.front().cells.size()) {
        line_ = row.line;
        return no(fmt::format("the row has {} cells, the first row {}", row.cells.size(),
                              rows.front().cells.size()),
                  "give every row as many cells; a cell that holds a comma is put in quotes");
      }
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  Unexpected<FileMistake> no(std::string what, std::string mend) const {
    return Unexpected(
        FileMistake{std::string(file_), line_, 1, "", std::move(what), std::move(mend)});
  }

  bool take(std::string_view token) {
    if (!text_.substr(at_).starts_with(token)) return false;
    at_ += token.size();
    if (token.ends_with('\n')) ++line_;
    return true;
  }

  Result<std::string, FileMistake> plain() {
    const std::size_t begin = at_;
    at_ = std::min(text_.find_first_of(",\"\r\n", at_), text_.size());
    if (at_ < text_.size() && text_[at_] == '"')
      return no("a quote stands inside a cell without quotes",
                "put the whole cell in quotes, and double the quote");
    return std::string(text_.substr(begin, at_ - begin));
  }

  Result<std::string, FileMistake> quoted() {
    std::string cell;
    const int first_line = line_;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '"' && !text_.substr(at_ + 1).starts_with('"')) {
        ++at_;
        return cell;
      }
      if (text_[at_] == '"') ++at_;
      if (text_[at_] == '\n') ++line_;
      cell += text_[at_];
    }
    line_ = first_line;
    return no("a quote is not closed", "end the cell with a quote");
  }

  std::string_view file_, text_;
  std::size_t at_ = 0;
  int line_ = 1;
};

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (const std::string& cell : cells) {
    if (&cell != &cells.front()) row += ',';
    if (cell.find_first_of(",\"\r\n") == std::string::npos) {
      row += cell;
      continue;
    }
    row += '"';
    for (char c : cell) row += c == '"' ? std::string("\"\"") : std::string(1, c);
    row += '"';
  }
  return row + "\r\n";
}

Result<std::vector<CsvRow>, FileMistake> csv_rows_with_lines(std::string_view file,
                                                             std::string_view text) {
  return CsvReader(file, text).rows();
}

Result<std::vector<std::vector<std::string>>, FileMistake> csv_rows(std::string_view file,
                                                                    std::string_view text) {
  auto rows = csv_rows_with_lines(file, text);
  if (!rows) return Unexpected(std::move(rows).error());
  std::vector<std::vector<std::string>> cells;
  for (CsvRow& row : *rows) cells.push_back(std::move(row.cells));
  return cells;
}

}  // namespace squeezeout
