#include "client/panels/air_model.h"

#include <fmt/format.h>

#include <cmath>

#include "client/panels/bottles.h"
#include "client/panels/chrome_model.h"
#include "client/panels/room.h"
#include "client/view/night.h"
#include "client/words/say.h"
#include "common/floor/weather.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr Ink kQuiet{Role::muted, Role::background};

// In full and in short.
std::vector<std::string> reading_words(const Scene& scene) {
  const ClimateRead& read = scene.floor.climate;
  const std::string air =
      fmt::format("{}, {:.0f} %", words::degrees(scene.context(), read.air), read.humidity.value);
  if (read.at == Instant{})
    return {words::say("{} by the shop's file, nothing read yet", air), air};
  return {words::say("{}, read {}", air, words::clock(scene.context(), read.at)), air};
}

struct Coldest {
  Instant at{};
  Celsius air;
};
Coldest coldest_ahead(const Weather& weather, Instant now) {
  Coldest out{now, weather.air(now)};
  const Instant hour = std::chrono::floor<std::chrono::hours>(now);
  for (int quarter = 4; quarter <= 4 * 24; ++quarter) {
    const Instant t = hour + Minutes{15} * quarter;
    if (weather.air(t) < out.air) out = {t, weather.air(t)};
  }
  return out;
}

std::string ahead_words(const Scene& scene, const Weather& weather) {
  const Coldest coldest = coldest_ahead(weather, scene.now);
  if (coldest.air.value > weather.air(scene.now).value - 0.5)
    return words::tr("No colder in the next 24 h");
  return words::say("Coldest in the next 24 h: {} at {}",
                    words::degrees(scene.context(), coldest.air),
                    words::clock(scene.context(), coldest.at));
}

// The air of the next day, an hour above its degrees.
void strip(Canvas& canvas, Rect at, const Scene& scene, const Weather& weather) {
  constexpr int cells = 9;
  constexpr Seconds step = std::chrono::hours{3};
  const Instant first = std::chrono::ceil<std::chrono::hours>(scene.now);
  const float width = at.w / cells;
  for (int i = 0; i < cells; ++i) {
    const Instant t = first + step * i;
    Rect cell = at.cut_left(width);
    canvas.box(cell, Role::lane);
    canvas.edge(cell, Role::grid, 0.3F);
    Rect text = cell.middle(cell.w, canvas.line_px(Type::small) + canvas.line_px(Type::strong));
    canvas.words(text.cut_top(canvas.line_px(Type::small)), words::clock_only(scene.context(), t),
                 Type::small, {Role::muted, Role::lane}, Align::centre);
    canvas.words(text, words::degrees_whole(scene.context(), weather.air(t)), Type::strong,
                 {Role::text, Role::lane}, Align::centre);
  }
}

// A number between its two keys. What it would become is in the intent, so a press is one step.
struct Stepper {
  const char* id;
  std::string says;
  int step;
  const char* unit;
  int AirDraft::*field;
  int least, most;
  enum class Ends { stop, round } ends = Ends::stop;
};
void stepper(Canvas& canvas, Rect at, const AirDraft& draft, const Stepper& s) {
  const float key = canvas.touch();
  const auto one = [&](Rect where, int by, const char* suffix) {
    AirDraft next = draft;
    int to = draft.*s.field + by;
    if (s.ends == Stepper::Ends::round) to = (to + s.most + 1) % (s.most + 1);
    next.*s.field = to;
    const bool can = to >= s.least && to <= s.most;
    canvas.button(where, {.id = fmt::format("{}.{}", s.id, suffix),
                          .label = fmt::format("{:+d}{}", by, s.unit),
                          .intent = SetAir{next},
                          .look = can ? Look::normal : Look::off});
  };
  one(at.cut_left(key), -s.step, "less");
  one(at.cut_right(key), s.step, "more");
  canvas.words(at, s.says, Type::title, {}, Align::centre);
}

void heading(Canvas& canvas, Rect& area, const std::string& text) {
  canvas.words(area.cut_top(canvas.line_px(Type::strong) * 1.3F), text, Type::strong, kQuiet);
}

void reading(Canvas& canvas, Rect& area, const Scene& scene, const AirDraft& air) {
  const float gap = canvas.gap();
  heading(canvas, area, words::tr("Read now"));
  Rect row = area.cut_top(canvas.touch());
  const Rect enter = row.cut_right(canvas.px(38));
  row.cut_right(gap);
  const float half = (row.w - gap) / 2;
  stepper(canvas, row.cut_left(half), air,
          {"air.celsius", words::degrees(scene.context(), {double(air.celsius)}), 1, "",
           &AirDraft::celsius, -40, 60});
  row.cut_left(gap);
  stepper(canvas, row, air,
          {"air.humidity", fmt::format("{} %", air.humidity), 5, "", &AirDraft::humidity, 0, 100});
  key(canvas, enter,
      {.id = "air.read",
       .label = words::tr("Enter"),
       .sub = words::tr("as read now"),
       .key_name = "E",
       .keys = {'E'},
       .intent = Ask{ClimateReading{{static_cast<double>(air.celsius)},
                                    {static_cast<double>(air.humidity)}}}});
}

void night(Canvas& canvas, Rect& area, const Scene& scene, const AirDraft& air) {
  const words::Context c = scene.context();
  const float gap = canvas.gap();
  const Span span = night_of(scene.floor, air, scene.now);
  heading(canvas, area,
          words::say("A cold night: {} from {} to {}", words::degrees(c, {double(air.low)}),
                     words::clock(c, span.begin), words::clock(c, span.end)));
  Rect row = area.cut_top(canvas.touch());
  const float third = (row.w - 2 * gap) / 3;
  stepper(canvas, row.cut_left(third), air,
          {"night.low", words::degrees(c, {double(air.low)}), 1, "", &AirDraft::low, -40, 60});
  row.cut_left(gap);
  stepper(canvas, row.cut_left(third), air,
          {"night.from", words::clock_only(c, span.begin), 1, " h", &AirDraft::from, 0, 23,
           Stepper::Ends::round});
  row.cut_left(gap);
  stepper(canvas, row, air,
          {"night.to", words::clock_only(c, span.end), 1, " h", &AirDraft::to, 0, 23,
           Stepper::Ends::round});
  area.cut_top(gap);
  Rect keys = area.cut_top(canvas.touch());
  key(canvas, keys.cut_left(canvas.px(60)),
      {.id = "night.set",
       .label = words::tr("Cold night"),
       .sub = words::tr("plans follow it"),
       .key_name = "C",
       .keys = {'C'},
       .intent = Ask{cold_night(scene.floor, air, scene.now)}});
  keys.cut_left(gap);
  if (!scene.floor.forecast.empty())
    key(canvas, keys.cut_left(canvas.px(60)),
        {.id = "night.none",
         .label = words::tr("No forecast"),
         .sub = words::tr("take it away"),
         .key_name = "F",
         .keys = {'F'},
         .intent = Ask{SetForecast{}}});
}

}  // namespace

look::Frame lay_out_air(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  const AirDraft draft = scene.view.air.value_or(air_draft(scene.floor));
  const Weather weather = weather_of(scene.floor, scene.now);
  const bool narrow = panels::narrow(canvas);
  if (narrow && scene.view.page > 0) {  // one below the other: the bottles have the pages behind
    bottles(canvas, body, scene, draft);
    return canvas.take();
  }
  Rect left = narrow ? body : body.cut_left(body.w * 0.56F);
  if (!narrow) body.cut_left(canvas.px(8));
  Rect head = left.cut_top(canvas.line_px(Type::head));
  if (narrow) {
    head = {head.x, head.y, head.w, canvas.touch()};
    left.cut_top(canvas.touch() - canvas.line_px(Type::head));
    canvas.button(head.cut_right(canvas.px(44)), {.id = "page.next",
                                                  .label = words::tr("Bottles"),
                                                  .key_name = "N",
                                                  .keys = {'N'},
                                                  .intent = Turn{1}});
    head.cut_right(canvas.gap());
    const float wide = canvas.width(Type::head, words::tr("Shop air")) + canvas.px(5);
    canvas.words(head.cut_left(wide), words::tr("Shop air"), Type::head, {});
    canvas.one_of(head, reading_words(scene), Type::title, {});
    left.cut_top(canvas.px(1.5F));
  } else {
    canvas.words(head, words::tr("Shop air"), Type::head, {});
    canvas.one_of(left.cut_top(canvas.line_px(Type::title)), reading_words(scene), Type::title, {});
  }
  // The keys before the course of the day, where there is not room for both.
  const float keys = canvas.touch() * 3 + canvas.gap() * 2 + canvas.line_px(Type::body) * 3;
  if (left.h >= canvas.px(14) + keys) {
    strip(canvas, left.cut_top(canvas.px(13)), scene, weather);
    left.cut_top(canvas.px(1));
  }
  canvas.words(left.cut_top(canvas.line_px(Type::body)), ahead_words(scene, weather), Type::body,
               {});
  const float apart = canvas.px(narrow ? 0 : 2);
  left.cut_top(apart);
  reading(canvas, left, scene, draft);
  left.cut_top(apart);
  night(canvas, left, scene, draft);
  if (!narrow) bottles(canvas, body, scene, draft);
  return canvas.take();
}

}  // namespace squeezeout::panels
