// The air of the shop: what was read, what is forecast, and what that did to the plan.

#include <fmt/format.h>

#include "client/words/columns.h"
#include "common/floor/weather.h"
#include "proto/climate_csv.h"
#include "tools/cli/air.h"
#include "tools/cli/files.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

std::string air_words(const words::Context& c, Celsius air, Percent humidity) {
  return fmt::format("{}, {:.0f} %", words::degrees(c, air), humidity.value);
}

Json air_json(const words::Context& c, const AirPoint& p) {
  return {
      {"at", time_json(c, p.at)}, {"celsius", p.air.value}, {"humidity_percent", p.humidity.value}};
}

std::string forecast_text(const words::Context& c) {
  Rows rows;
  for (const AirPoint& p : c.floor.forecast)
    if (p.at >= c.now)
      rows.push_back({words::clock(c, p.at), words::degrees(c, p.air),
                      fmt::format("{:.0f} %", p.humidity.value)});
  if (rows.empty())
    return fmt::format("no forecast: {} is taken\n",
                       c.floor.shop->daily.empty() ? "the last reading" : "the shop's usual day");
  return "\nforecast\n" +
         words::table({{"at"}, {"air", Align::right}, {"humidity", Align::right}}, rows);
}

void say_climate(Tool& tool) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  const ClimateRead& read = c.floor.climate;
  const bool by_shop = read.at == Instant{};  // the shop file's, until something is read
  const Weather weather = weather_of(c.floor, c.now);
  std::string text = fmt::format(
      "{}: {}\n",
      by_shop ? "nothing read yet; the shop file says" : "read " + words::clock(c, read.at),
      air_words(c, read.air, read.humidity));
  if (!by_shop)
    text +=
        fmt::format("now about: {}\n", air_words(c, weather.air(c.now), weather.humidity(c.now)));
  text += forecast_text(c);

  Rows rows;
  Json changed = Json::array(), forecast = Json::array();
  for (const AirPoint& p : c.floor.forecast) forecast.push_back(air_json(c, p));
  for (const auto& [id, g] : c.floor.glue_ups) {
    const std::string did = live(g) ? words::weather(c, g) : "";
    if (did.empty() || !g.weather) continue;
    rows.push_back({fmt::format("{}", id.value), words::title(c, g), words::builder(c, g.builder),
                    words::bench(c, g.bench), did});
    changed.push_back(glue_up_json(c, g));
  }
  if (!rows.empty())
    text +=
        "\nwhat the weather changed\n" +
        words::table(
            {{"no.", Align::right}, {"glue-up"}, {"builder"}, {"bench"}, {"what", Align::left, 80}},
            rows);
  Json last = air_json(c, {read.at, read.air, read.humidity});
  if (by_shop) last["at"] = nullptr;
  tool.print(text, {{"read", last},
                    {"now", air_json(c, {c.now, weather.air(c.now), weather.humidity(c.now)})},
                    {"forecast", forecast},
                    {"changed", changed}});
}

// A table of the air, and on the way what of it was not looked at.
std::vector<AirPoint> read_air(const Tool& tool, const words::Context& c, const std::string& file) {
  auto table = read_climate_csv(file, read_file(file), *c.floor.zone);
  if (!table) stop_for(table.error());
  for (const std::string& column : table->left_out)
    tool.note(fmt::format("Not looked at: the column \"{}\".\n", column));
  if (table->merged > 0)
    tool.note(fmt::format("{} at a time that comes again: the last counts.\n",
                          words::number(table->merged, "row")));
  return std::move(table->points);
}

void import_readings(Tool& tool, const std::string& file) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  const std::vector<AirPoint> all = read_air(tool, c, file);
  ReadClimate command{worth_keeping(all, c.now)};
  if (command.readings.empty())
    wrong_use("Nothing to take.", file + " holds no reading of the last two days.",
              "Older readings change nothing that is still to be glued.");
  if (command.readings.size() < all.size())
    tool.note(fmt::format("Of {}: the last two days, five minutes apart.\n",
                          words::number(static_cast<int>(all.size()), "reading")));
  tool.ask(std::move(command));
}

struct ForecastArgs {
  std::string file;
  std::optional<double> night;
  Night hours;
  bool none = false;  // as CLI11 fills it in
};

void set_forecast(Tool& tool, const ForecastArgs& args) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  if (args.night) {
    Night night = args.hours;
    night.celsius = *args.night;
    return tool.ask(SetForecast{points_of(c, night)});
  }
  if (args.none) return tool.ask(SetForecast{});
  if (args.file.empty())
    wrong_use("No forecast is given.", "Neither a night, nor a file, nor that there is none.",
              "Say --night 13, a FILE.csv, or --none.");
  tool.ask(SetForecast{read_air(tool, c, args.file)});
}

void add_forecast(CLI::App& climate, Tool& tool) {
  const auto args = std::make_shared<ForecastArgs>();
  CLI::App& verb =
      add_verb(climate, tool, "forecast",
               "Say what the air will be: the plan follows, and says what it moved",
               "squeezeout climate forecast --night 13 --to 7:00 --back 9:00\n  "
               "squeezeout climate forecast week.csv\n  squeezeout climate forecast --none",
               [args](Tool& t) { set_forecast(t, *args); });
  auto* file = verb.add_option("file", args->file, "A table: time,celsius,humidity_percent")
                   ->type_name("FILE");
  auto* night = verb.add_option("--night", args->night, "How cold the shop gets overnight")
                    ->type_name("C")
                    ->excludes(file);
  verb.add_option("--humidity", args->hours.humidity, "With it: the night's. Left out: as now")
      ->type_name("RH")
      ->needs(night);
  for (const auto& [name, where, says] :
       {std::tuple{"--from", &args->hours.from, "It begins to fall"},
        std::tuple{"--to", &args->hours.to, "It begins to rise"},
        std::tuple{"--back", &args->hours.back, "It is as now again"}})
    verb.add_option(name, *where, says)->type_name("TIME")->capture_default_str()->needs(night);
  verb.add_flag("--none", args->none, "There is no forecast")->excludes(file)->excludes(night);
}

}  // namespace

void add_climate_verbs(CLI::App& app, Tool& tool) {
  CLI::App& climate = add_verb(app, tool, "climate",
                               "The air of the shop: read, forecast, and what it did to the plan",
                               "squeezeout climate\n  squeezeout climate read 19.5 48\n  "
                               "squeezeout climate forecast --night 13",
                               say_climate);
  climate.require_subcommand(0, 1);
  add_verb(climate, tool, "show", "What was read, what is forecast, what it changed",
           "squeezeout climate show", say_climate);

  const auto now = std::make_shared<ClimateReading>();
  CLI::App& read = add_verb(climate, tool, "read", "Say what the thermometer shows now",
                            "squeezeout climate read 19.5 48", [now](Tool& t) { t.ask(*now); });
  read.add_option("celsius", now->air.value, "The air")->required()->type_name("C");
  read.add_option("humidity", now->humidity.value, "Relative humidity in percent")
      ->required()
      ->type_name("RH");

  const auto file = std::make_shared<std::string>();
  add_verb(climate, tool, "import", "Take a logger's readings of the last two days",
           "squeezeout climate import logger.csv", [file](Tool& t) { import_readings(t, *file); })
      .add_option("file", *file, "A table: time,celsius,humidity_percent")
      ->required()
      ->type_name("FILE");
  add_forecast(climate, tool);
}

}  // namespace squeezeout::cli
