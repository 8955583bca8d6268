#include "proto/climate_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>

#include "common/time/rfc3339.h"
#include "proto/csv_rows.h"
#include "proto/fields.h"
#include "proto/hours_convert.h"

namespace squeezeout {
namespace {

std::string trimmed(std::string_view cell) {
  const std::size_t begin = cell.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return "";
  return std::string(cell.substr(begin, cell.find_last_not_of(" \t") + 1 - begin));
}

// Names of columns, as they are compared.
std::string lower(std::string name) {
  for (char& c : name)
    if ('A' <= c && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return name;
}

// A name that can be shown: of one that is no text, its place.
std::string told(const std::string& name, std::size_t place) {
  std::vector<FieldMistake> mistakes;
  const std::string checked = text(At(mistakes, ""), name);
  return mistakes.empty() ? checked : fmt::format("column {}", place + 1);
}

struct Columns {
  std::size_t time = 0, temperature = 0, humidity = 0;
  bool fahrenheit = false;
  std::vector<std::string> left_out;
};

Columns read_header(const At& at, const std::vector<std::string>& cells) {
  Columns columns;
  std::map<std::string, std::size_t> found;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string name = lower(trimmed(cells[i]));
    if (name != "time" && name != "celsius" && name != "fahrenheit" && name != "humidity_percent")
      columns.left_out.push_back(told(cells[i], i));
    else if (!found.emplace(name, i).second)
      at.wrong(fmt::format("the column \"{}\" comes twice", name), "keep one of them");
  }
  const auto need = [&](const char* name, const char* holds) {
    const auto it = found.find(name);
    if (it != found.end()) return it->second;
    at.wrong(fmt::format("no column is called \"{}\"", name),
             fmt::format("call the one that holds {} \"{}\"", holds, name));
    return std::size_t{0};
  };
  columns.time = need("time", "when it was read");
  columns.fahrenheit = found.contains("fahrenheit") && !found.contains("celsius");
  if (found.contains("fahrenheit") && found.contains("celsius"))
    at.wrong("there are columns \"celsius\" and \"fahrenheit\"", "keep one of them");
  columns.temperature = columns.fahrenheit ? found["fahrenheit"]
                                           : need("celsius", "the temperature (or \"fahrenheit\")");
  columns.humidity = need("humidity_percent", "the relative humidity");
  return columns;
}

// "2026-11-25 16:00", with or without seconds.
std::optional<LocalTime> parse_local(std::string_view s) {
  if (s.size() != 16 && s.size() != 19) return std::nullopt;
  const auto date = parse_date(s.substr(0, 10));
  const auto two_digits = [&](std::size_t at, char before) -> std::optional<int> {
    const auto digit = [&](std::size_t i) { return '0' <= s[i] && s[i] <= '9'; };
    if (s[at - 1] != before || !digit(at) || !digit(at + 1)) return std::nullopt;
    return (s[at] - '0') * 10 + (s[at + 1] - '0');
  };
  const auto hour = two_digits(11, s[10]), minute = two_digits(14, ':'),
             second = s.size() == 19 ? two_digits(17, ':') : std::optional(0);
  if (!date || (s[10] != ' ' && s[10] != 'T') || !hour || !minute || !second) return std::nullopt;
  if (*hour > 23 || *minute > 59 || *second > 59) return std::nullopt;
  return LocalTime{std::chrono::local_days{*date}} + std::chrono::hours{*hour} + Minutes{*minute} +
         Seconds{*second};
}

Instant read_time(const At& at, const std::string& cell, const Zone& zone) {
  std::string rfc = cell;
  if (rfc.size() > 10 && rfc[10] == ' ') rfc[10] = 'T';
  if (const auto t = parse_rfc3339(rfc)) return instant(at, t->time_since_epoch().count());
  const auto local = parse_local(cell);
  if (!local) {
    at.wrong(fmt::format("\"{}\" is no time", text(at, cell)),
             "write \"2026-11-25 16:00\" by the shop's clock, or \"2026-11-25T16:00:00Z\"");
  } else if (zone.in_gap(*local)) {
    at.wrong(
        fmt::format("\"{}\" is no time in {}: the clocks go forward over it", cell, zone.name()),
        "set the logger's clock, or write times with their offset from UTC");
  } else if (zone.repeats(*local)) {
    at.wrong(fmt::format("\"{}\" comes twice in {}: the clocks go back", cell, zone.name()),
             fmt::format("write which: \"{}\" or \"{}\"", rfc3339(zone.instant(*local), zone),
                         rfc3339(zone.instant(*local, Zone::Repeat::second), zone)));
  } else {
    return zone.instant(*local);
  }
  return {};
}

double read_number(const At& at, const std::string& cell, double least, double most) {
  if (cell.empty()) return at.wrong("is empty", "write a number, or leave out the row"), least;
  double v = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), v);
  if (error == std::errc{} && end == cell.data() + cell.size()) return measure(at, v, least, most);
  at.wrong(fmt::format("\"{}\" is no number", text(at, cell)), "write it as 21.5");
  return least;
}

constexpr Celsius kHottestAir{60};

constexpr double in_fahrenheit(Celsius c) { return c.value * 1.8 + 32; }

AirPoint read_row(const At& at, const Columns& columns, const std::vector<std::string>& cells,
                  const Zone& zone) {
  AirPoint point{
      .at = read_time(at("time"), trimmed(cells[columns.time]), zone),
      .air = {},
      .humidity = {read_number(at("humidity_percent"), trimmed(cells[columns.humidity]), 0, 100)}};
  const std::string temperature = trimmed(cells[columns.temperature]);
  if (columns.fahrenheit)
    point.air = {(read_number(at("fahrenheit"), temperature, in_fahrenheit(kColdest),
                              in_fahrenheit(kHottestAir)) -
                  32) /
                 1.8};
  else
    point.air = {read_number(at("celsius"), temperature, kColdest.value, kHottestAir.value)};
  return point;
}

// In order of time; of one instant the last row.
ClimateTable in_order(std::vector<AirPoint> rows) {
  std::stable_sort(rows.begin(), rows.end(),
                   [](const AirPoint& a, const AirPoint& b) { return a.at < b.at; });
  ClimateTable table;
  for (const AirPoint& row : rows) {
    if (!table.points.empty() && table.points.back().at == row.at) {
      table.points.back() = row;
      ++table.merged;
    } else {
      table.points.push_back(row);
    }
  }
  return table;
}

}  // namespace

Result<ClimateTable, std::vector<FileMistake>> read_climate_csv(std::string_view file,
                                                                std::string_view text,
                                                                const Zone& zone) {
  const auto rows = csv_rows_with_lines(file, text);
  if (!rows) return Unexpected(std::vector{rows.error()});
  std::vector<FileMistake> placed;
  // Reads with the mistakes of one row, and puts them on its line.
  const auto on_line = [&](int line, auto read) {
    std::vector<FieldMistake> mistakes;
    auto value = read(At(mistakes, ""));
    for (FieldMistake& m : mistakes)
      placed.push_back({std::string(file), line, line ? 1 : 0, std::move(m.field),
                        std::move(m.what), std::move(m.mend)});
    return value;
  };
  if (rows->size() < 2)
    return Unexpected(std::vector{
        FileMistake{std::string(file), 0, 0, "",
                    rows->empty() ? "the table is empty" : "the table has no row below its names",
                    "begin with the row time,celsius,humidity_percent; then a row a reading"}});
  Columns columns = on_line(rows->front().line,
                            [&](const At& at) { return read_header(at, rows->front().cells); });
  if (!placed.empty()) return Unexpected(std::move(placed));

  std::vector<AirPoint> points;
  for (std::size_t i = 1; i < rows->size() && placed.size() < kMaxMistakes; ++i)
    points.push_back(on_line((*rows)[i].line, [&](const At& at) {
      return read_row(at, columns, (*rows)[i].cells, zone);
    }));
  if (!placed.empty()) return Unexpected(std::move(placed));
  ClimateTable table = in_order(std::move(points));
  table.left_out = std::move(columns.left_out);
  return table;
}

}  // namespace squeezeout
