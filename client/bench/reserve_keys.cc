#include "client/bench/reserve_keys.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using look::Type;

// For the next builder of the shop's list.
std::optional<Reserve> for_another(const Scene& scene) {
  const auto& builders = scene.floor.shop->builders;
  if (builders.size() < 2) return std::nullopt;
  Reserve out = scene.view.wanted;
  std::size_t at = 0;
  for (std::size_t i = 0; i < builders.size(); ++i)
    if (builders[i].id == out.builder) at = i + 1;
  const Builder& next = builders[at % builders.size()];
  out.builder = next.id;
  if (next.bench) out.bench = next.bench;
  return out;
}

// The keys beside the big one: another time, somebody else, where the figures come from.
std::vector<look::Button> side_keys(const Scene& scene, const Quotes::Answer& answer) {
  std::vector<look::Button> out;
  const words::Context c = scene.context();
  if (answer) {
    Reserve later = scene.view.wanted;
    later.after = std::max(answer->slot.times.stage_begin, scene.now) + Minutes{30};
    out.push_back({.id = "later",
                   .label = words::tr("Later"),
                   .sub = "+30 min",
                   .key_name = "L",
                   .keys = {'L'},
                   .intent = Pick{later}});
  }
  if (scene.view.wanted.after > scene.now) {
    Reserve earliest = scene.view.wanted;
    earliest.after = {};
    out.push_back({.id = "earliest",
                   .label = words::tr("Earliest"),
                   .key_name = "0",
                   .keys = {'0'},
                   .intent = Pick{earliest}});
  }
  if (const auto other = for_another(scene))
    out.push_back({.id = "for",
                   .label = words::say("For {}", words::builder(c, other->builder)),
                   .key_name = "S",
                   .keys = {'S'},
                   .intent = Pick{*other}});
  out.push_back({.id = "why",
                 .label = words::tr("Why these figures"),
                 .key_name = "W",
                 .keys = {'W'},
                 .intent = ShowFigures{}});
  return out;
}

// In a grid, column by column from the right of `at`.
void grid_of(Canvas& canvas, Rect& at, std::vector<look::Button> keys, std::size_t rows,
             float width) {
  const float gap = canvas.gap();
  const float height = (at.h - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
  for (std::size_t i = 0; i < keys.size(); i += rows) {
    Rect column = at.cut_right(width);
    at.cut_right(gap);
    for (std::size_t j = i; j < std::min(i + rows, keys.size()); ++j) {
      panels::key(canvas, column.cut_top(height), std::move(keys[j]));
      column.cut_top(gap);
    }
  }
}

Reserve from_now(Reserve wanted, Instant now) {
  wanted.after = std::max(wanted.after, now);
  return wanted;
}

}  // namespace

Rect cut_keys(Canvas& canvas, Rect& area, const Scene& scene, const Offer& offer) {
  const bool narrow = panels::narrow(canvas);
  const float two_rows = 2 * canvas.touch() + canvas.gap();
  Rect keys = area.cut_bottom(narrow ? two_rows : std::max(two_rows, canvas.px(45)));
  area.cut_bottom(canvas.gap());
  auto side = side_keys(scene, offer.quote);
  const std::size_t count = side.size();
  if (narrow && offer.wants == Offer::Wants::reason && !scene.stale()) {
    Rect row = area.cut_bottom(canvas.touch());
    area.cut_bottom(canvas.gap());
    grid_of(canvas, row, std::move(side), 1,
            (row.w + canvas.gap()) / static_cast<float>(count) - canvas.gap());
    return keys;
  }
  grid_of(canvas, keys, std::move(side), 2, canvas.px(narrow ? 26 : 36));
  return keys;
}

void no_reserve(Canvas& canvas, Rect keys) {
  canvas.button(
      keys, {.id = "reserve", .label = words::tr("RESERVE"), .look = Look::off, .type = Type::big});
}

void reason_keys(Canvas& canvas, Rect at, const Scene& scene) {
  canvas.words(at.cut_top(canvas.line_px(Type::title)), words::tr("RESERVE ANYWAY, because"),
               Type::title, {});
  at.cut_top(canvas.px(1));
  const float gap = canvas.gap();
  const float width = (at.w - gap * (kReasons.size() - 1)) / kReasons.size();
  for (std::size_t i = 0; i < kReasons.size(); ++i) {
    Reserve wanted = from_now(scene.view.wanted, scene.now);
    wanted.reason = kReasons[i];
    const char letter = static_cast<char>('X' + static_cast<char>(i));
    canvas.button(at.cut_left(width), {.id = fmt::format("reserve.because.{}", i),
                                       .label = reason_words(kReasons[i]),
                                       .key_name = std::string(1, letter),
                                       .keys = {letter},
                                       .intent = Ask{wanted}});
    at.cut_left(gap);
  }
}

void reserve_key(Canvas& canvas, Rect at, const Scene& scene) {
  canvas.button(at, {.id = "reserve",
                     .label = words::tr("RESERVE"),
                     .key_name = "Space",
                     .keys = {' ', look::kEnter},
                     .intent = Ask{from_now(scene.view.wanted, scene.now)},
                     .look = Look::key,
                     .type = Type::big});
}

}  // namespace squeezeout::bench
