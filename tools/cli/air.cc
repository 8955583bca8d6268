#include "tools/cli/air.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "common/floor/weather.h"
#include "proto/csv_rows.h"
#include "tools/cli/files.h"
#include "tools/cli/stop.h"
#include "tools/cli/times.h"

namespace squeezeout::cli {
namespace {

constexpr Seconds kApart = Minutes{5};
constexpr std::size_t kMistakes = 20;  // then it is another kind of table

// The first such time after `after`.
Instant next_time(const words::Context& c, const std::string& text, Instant after) {
  return read_time({c.floor, after}, text, Tense::coming);
}

// Reads a table row by row; its mistakes come together.
class AirTable {
 public:
  AirTable(const words::Context& c, const std::string& file) : c_(c), file_(file) {}

  std::vector<AirPoint> read() {
    const auto rows = csv_rows_with_lines(file_, read_file(file_));
    if (!rows) stop_for({rows.error()});
    if (rows->empty()) {
      wrong(0, "", "it is empty", "begin with a row that names the columns");
    } else {
      const std::vector<std::string>& head = rows->front().cells;
      const std::size_t at = column(head, "at"), celsius = column(head, "celsius"),
                        humidity = column(head, "humidity_percent");
      const bool told = mistakes_.empty();
      for (std::size_t i = 1; told && i < rows->size() && mistakes_.size() < kMistakes; ++i) {
        const CsvRow& row = (*rows)[i];
        add(row.line, time(row.line, row.cells[at]),
            number(row.line, "celsius", row.cells[celsius]),
            number(row.line, "humidity_percent", row.cells[humidity]));
      }
    }
    if (!mistakes_.empty()) stop_for(mistakes_);
    return std::move(points_);
  }

 private:
  void wrong(int line, std::string field, std::string what, std::string mend) {
    mistakes_.push_back(
        {file_, line, line ? 1 : 0, std::move(field), std::move(what), std::move(mend)});
  }

  std::size_t column(const std::vector<std::string>& head, const char* name) {
    const auto it = std::find(head.begin(), head.end(), name);
    if (it == head.end())
      wrong(1, name, fmt::format("there is no column \"{}\"", name),
            "name the columns at, celsius, humidity_percent in the first row");
    return static_cast<std::size_t>(it - head.begin());
  }

  std::optional<double> number(int line, const char* field, const std::string& cell) {
    double v = 0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), v);
    if (error == std::errc{} && end == cell.data() + cell.size() && std::isfinite(v)) return v;
    wrong(line, field, fmt::format("\"{}\" is no number", cell), "write it as 19.5");
    return std::nullopt;
  }

  std::optional<Instant> time(int line, const std::string& cell) {
    const bool dated = cell.find('-') != std::string::npos;  // a time alone could be of any day
    const auto t = time_of(c_, cell, Tense::past);
    if (dated && t) return *t;
    wrong(line, "at", fmt::format("\"{}\" is no time with its day", cell),
          "write it as \"2026-11-27 9:30\" or 2026-11-27T09:30:00+01:00");
    return std::nullopt;
  }

  void add(int line, std::optional<Instant> at, std::optional<double> celsius,
           std::optional<double> humidity) {
    if (!at || !celsius || !humidity) return;
    if (!points_.empty() && *at <= points_.back().at)
      wrong(line, "at", "it is not later than the row before", "sort the rows by time");
    points_.push_back({*at, {*celsius}, {*humidity}});
  }

  const words::Context& c_;
  std::string file_;
  std::vector<FileMistake> mistakes_;
  std::vector<AirPoint> points_;
};

}  // namespace

std::vector<AirPoint> points_of(const words::Context& c, const Night& night) {
  const Weather weather = weather_of(c.floor, c.now);
  const Celsius air = weather.air(c.now), cold{night.celsius};
  const Percent damp = weather.humidity(c.now), night_damp{night.humidity.value_or(damp.value)};

  Instant from = next_time(c, night.from, c.now);
  const Instant begun = read_time(c, night.from, Tense::past);
  if (begun <= c.now && next_time(c, night.to, begun) > c.now) from = c.now;  // it is that night
  const Instant to = next_time(c, night.to, from), back = next_time(c, night.back, to);
  if (to <= from || back <= to)
    wrong_use("No night can be made of that.",
              fmt::format("It falls from {}, lasts till {} and is over {}.", words::clock(c, from),
                          words::clock(c, to), words::clock(c, back)),
              "Give --from, --to and --back one after the other.");

  std::vector<AirPoint> points{{c.now, air, damp}};
  if (from > c.now) points.push_back({from, air, damp});
  points.push_back({from + (to - from) / 2, cold, night_damp});
  points.push_back({to, cold, night_damp});
  points.push_back({back, air, damp});
  return points;
}

std::vector<AirPoint> read_air_csv(const words::Context& c, const std::string& file) {
  return AirTable{c, file}.read();
}

std::vector<AirPoint> worth_keeping(const std::vector<AirPoint>& readings, Instant now) {
  std::vector<AirPoint> out;
  for (const AirPoint& p : readings) {
    if (p.at < now - kReadingsKept) continue;
    const bool last = &p == &readings.back();
    if (last || out.empty() || p.at - out.back().at >= kApart) out.push_back(p);
  }
  return out;
}

}  // namespace squeezeout::cli
