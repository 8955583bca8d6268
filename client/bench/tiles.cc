#include "client/bench/tiles.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr int kColumns = 2;
constexpr float kTileMm = 25, kNarrowTileMm = 20, kTallestTileMm = 38;
constexpr look::Ink kQuiet{Role::muted, Role::lane};

std::string unfit_words(const Unfit& why) {
  if (std::holds_alternative<BelowFloor>(why)) return words::tr("too cold for its glue");
  if (std::holds_alternative<OpenTooShort>(why)) return words::tr("its glue would skin first");
  if (std::holds_alternative<StaleLot>(why)) return words::tr("its bottle is stale");
  return words::tr("its glue does not suit");
}

// What it could have, in full and in short.
std::vector<std::string> quote_words(const Scene& scene, const Quotes::Answer& answer) {
  if (scene.stale()) return {words::tr("not known: not live"), words::tr("not known")};
  const words::Context c = scene.context();
  if (answer) {
    const PhaseTimes& t = answer->slot.times;
    const std::string off = words::clock(c, t.release_begin);
    if (t.stage_begin <= scene.now + Minutes{1})
      return {words::say("now · off about {}", off), words::tr("now")};
    const std::string start = words::clock(c, t.stage_begin);
    return {words::say("{} · off about {}", start, off), words::say("from {}", start), start};
  }
  if (const auto* no = std::get_if<NotPossible>(&answer.error())) return {unfit_words(no->why)};
  if (std::holds_alternative<StepMissing>(answer.error()))
    return {words::tr("an earlier step is missing"), words::tr("a step is missing")};
  return {words::tr("no time found: see why"), words::tr("no time found")};
}

void tile_button(Canvas& canvas, Rect at, const Scene& scene, const Tile& tile, int number) {
  const auto& answer = scene.quotes.earliest_for_wanted(scene.floor, tile.wanted, scene.now);
  canvas.box(at, Role::lane);
  canvas.edge(at, Role::edge, 0.35F);
  const bool roomy = at.h > canvas.px(30);
  Rect text = at.inset(canvas.px(3), canvas.px(2));
  canvas.one_of(text.cut_bottom(canvas.line_px(Type::small)), quote_words(scene, answer),
                Type::small, kQuiet);
  // Two lines before smaller letters.
  Type type = Type::small;
  std::size_t lines = 2;
  for (const Type larger : {Type::strong, Type::title}) {
    if (larger == Type::title && !roomy) continue;
    const auto wrapped = canvas.letters().wrapped(larger, tile.title, text.w, 2);
    const bool fits = canvas.line_px(larger) * static_cast<float>(wrapped.size()) <= text.h;
    if (fits && tile.title.ends_with(wrapped.back())) type = larger, lines = wrapped.size();
  }
  const float tall = std::min(text.h, canvas.line_px(type) * static_cast<float>(lines));
  canvas.paragraph(text.middle(text.w, tall), tile.title, type, {Role::text, Role::lane}, 2);
  canvas.press(
      {fmt::format("tile.{}", number), tile.title, at, {}, Pick{tile.wanted}, look::Kind::button});
}

}  // namespace

std::vector<Tile> tiles(const Scene& scene) {
  std::vector<Tile> out;
  if (!scene.floor.shop) return out;
  const words::Context c = scene.context();
  const auto wanted = [&](RecipeId recipe, BuildId build, int step) {
    Reserve r;
    r.recipe = recipe, r.build = build, r.step = step;
    r.builder = scene.view.builder, r.bench = scene.view.bench;
    return r;
  };
  for (const Build& b : scene.floor.shop->builds) {
    if (b.builder != scene.view.builder) continue;
    if (const auto next = next_step(scene.floor, b.id))
      out.push_back({wanted(next->recipe, b.id, next->step),
                     b.name + " · " + words::recipe(c, next->recipe)});
  }
  for (const Recipe& r : scene.floor.shop->recipes)
    if (r.usual || scene.view.tiles == Tiles::all) out.push_back({wanted(r.id, {}, 0), r.name});
  return out;
}

void tile_grid(Canvas& canvas, Rect area, const Scene& scene, const std::vector<Tile>& all) {
  const bool narrow = panels::narrow(canvas);
  const float gap = canvas.gap();
  Rect foot = area.cut_bottom(canvas.touch());
  area.cut_bottom(gap);
  canvas.words(area.cut_top(canvas.line_px(Type::head)), words::tr("Reserve next"), Type::head, {});
  const float width = (area.w - gap) / kColumns;
  const int count = static_cast<int>(all.size());
  const float least = std::max(canvas.touch(), canvas.px(narrow ? kNarrowTileMm : kTileMm));
  const int lines_fitting = static_cast<int>((area.h + gap) / (least + gap));
  const panels::Page page = panels::page_of(count, kColumns * lines_fitting, scene.view.page);
  // Tiles grow into the room that few of them leave.
  const int lines = std::max(1, std::min(lines_fitting, (count + kColumns - 1) / kColumns));
  const float height =
      std::min(canvas.px(kTallestTileMm),
               (area.h - gap * static_cast<float>(lines - 1)) / static_cast<float>(lines));
  for (int i = 0; i < page.count; ++i) {
    const float column = static_cast<float>(i % kColumns), line = static_cast<float>(i / kColumns);
    tile_button(canvas,
                {area.x + column * (width + gap), area.y + line * (height + gap), width, height},
                scene, all[static_cast<std::size_t>(page.first + i)], page.first + i);
  }
  if (count == 0)
    canvas.paragraph(area, words::tr("This shop has no recipe to show here yet."), Type::body,
                     {Role::muted, Role::background}, 3);
  const bool showing_all = scene.view.tiles == Tiles::all;
  panels::page_keys(canvas, foot, page, count);
  canvas.button(foot.cut_left(std::min(foot.w, canvas.px(44))),
                {.id = "tiles",
                 .label = showing_all ? words::tr("Usual only") : words::tr("All recipes"),
                 .key_name = "R",
                 .keys = {'R'},
                 .intent = ShowTiles{showing_all ? Tiles::usual : Tiles::all}});
}

}  // namespace squeezeout::bench
