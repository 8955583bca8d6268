// When the shop is open, day by day.
#include <fmt/format.h>

#include <array>

#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using look::Type;
using What = draft::Edit::What;

constexpr int kHour = 60, kNoon = 12;

std::string day_name(int day) {
  switch (day) {
    case 0:
      return words::tr("Sunday");
    case 1:
      return words::tr("Monday");
    case 2:
      return words::tr("Tuesday");
    case 3:
      return words::tr("Wednesday");
    case 4:
      return words::tr("Thursday");
    case 5:
      return words::tr("Friday");
    default:
      return words::tr("Saturday");
  }
}

std::string time_of(const Shop& shop, int minute) {
  const int hour = minute / kHour;
  if (shop.display.clock == Display::Clock::hours_24)
    return fmt::format("{}:{:02}", hour, minute % kHour);
  return fmt::format("{}:{:02} {}", (hour + kNoon - 1) % kNoon + 1, minute % kHour,
                     hour % (2 * kNoon) < kNoon ? "am" : "pm");
}

std::string day_words(const Shop& shop, const std::vector<DaySpan>& day) {
  if (day.empty()) return words::tr("closed");
  return time_of(shop, day.front().begin_minute) + " – " + time_of(shop, day.back().end_minute);
}

std::string day_sentence(const Shop& shop, int at) {
  const auto& day = shop.hours.weekday[static_cast<std::size_t>(at)];
  if (day.empty()) return words::say("{}: closed. Nobody starts a glue-up.", day_name(at));
  if (day.size() == 1)
    return words::say("{}: open from {} to {}.", day_name(at),
                      time_of(shop, day.front().begin_minute),
                      time_of(shop, day.front().end_minute));
  return words::say("{}: open from {} to {}, with a break from {} to {}.", day_name(at),
                    time_of(shop, day.front().begin_minute), time_of(shop, day.back().end_minute),
                    time_of(shop, day.front().end_minute), time_of(shop, day[1].begin_minute));
}

void days(Canvas& canvas, const Scene& scene, const Shop& shop, Rect row) {
  std::vector<look::Button> keys;
  for (int i = 1; i <= 7; ++i) {
    const int day = i % 7;
    keys.push_back({.id = fmt::format("day.{}", day),
                    .label = day_name(day),
                    .sub = day_words(shop, shop.hours.weekday[static_cast<std::size_t>(day)]),
                    .key_name = letter_name(letter(i - 1)),
                    .keys = {letter(i - 1)},
                    .intent = ShowSetup{draft::Page::hours, day},
                    .look = scene.view.draft.day == day ? Look::chosen : Look::normal});
  }
  choice(canvas, row, std::move(keys));
}

void from_and_to(Canvas& canvas, const Scene& scene, const Shop& shop, Rect row) {
  const int at = scene.view.draft.day;
  const auto& day = shop.hours.weekday[static_cast<std::size_t>(at)];
  const auto by = [&](What what, int steps) -> std::optional<Intent> {
    if (day.empty()) return std::nullopt;
    return edit(what, at, steps);
  };
  const float half = (row.w - 2 * canvas.gap()) / 2;
  stepper(canvas, row.cut_left(half),
          {"open.from",
           day.empty() ? std::string()
                       : words::say("opens {}", time_of(shop, day.front().begin_minute)),
           "–", "+", by(What::open_from, -1), by(What::open_from, 1), 'H', 'I'});
  stepper(
      canvas, row.cut_right(half),
      {"open.to",
       day.empty() ? std::string() : words::say("closes {}", time_of(shop, day.back().end_minute)),
       "–", "+", by(What::open_to, -1), by(What::open_to, 1), 'J', 'K'});
}

void of_the_day(Canvas& canvas, const Scene& scene, const Shop& shop, Rect row) {
  const int at = scene.view.draft.day;
  const auto& day = shop.hours.weekday[static_cast<std::size_t>(at)];
  const auto key = [&](const char* id, std::string label, int letter, What what, Look look) {
    return look::Button{.id = id,
                        .label = std::move(label),
                        .key_name = letter_name(letter),
                        .keys = {letter},
                        .intent = edit(what, at),
                        .look = look};
  };
  choice(canvas, row,
         {key("day.closed", day.empty() ? words::tr("Open") : words::tr("Closed"), 'L',
              What::open_or_closed, Look::normal),
          key("day.break", words::tr("Midday break"), 'M', What::midday_break,
              day.empty()      ? Look::off
              : day.size() > 1 ? Look::chosen
                               : Look::normal),
          key("day.as-before", words::say("As {}", day_name((at + 6) % 7)), 'O',
              What::as_day_before, Look::normal)});
}

}  // namespace

void hours_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Shop& shop = shown_shop(scene);
  heading(canvas, heading_row(canvas, scene, body),
          {words::tr("When somebody is there to press clamps"),
           day_sentence(shop, scene.view.draft.day)});
  days(canvas, scene, shop, row_of(canvas, body));
  from_and_to(canvas, scene, shop, row_of(canvas, body));
  of_the_day(canvas, scene, shop, row_of(canvas, body));
}

}  // namespace squeezeout::setup
