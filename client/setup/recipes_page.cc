// Recipes to copy: one tile each, with its glue and what the shop's gear lacks for it.
#include <fmt/format.h>

#include "client/draft/lacks.h"
#include "client/draft/starter.h"
#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Rect;
using What = draft::Edit::What;

std::string glue_words(const Shop& shop, const Recipe& recipe) {
  if (recipe.glues.empty()) return words::tr("no glue");
  for (const AdhesiveSheet& s : shop.sheets)
    if (s.id == recipe.glues.front()) return words::small(s.name);
  return {};
}

// The need as a whole, or how many of what class.
std::vector<std::string> need_forms(const words::Context& c, const GearNeed& need) {
  return {words::need(c, need),
          words::need(c, {.gear_class = need.gear_class, .count = need.count})};
}

Tile own(const words::Context& c, const Shop& shop, const Recipe& recipe) {
  const auto lacks = draft::need_lacks(shop, recipe);
  Tile t{.title = recipe.name, .lines = {{glue_words(shop, recipe)}}, .state = Tile::State::in};
  if (lacks.empty()) return t;
  t.state = Tile::State::lacking;
  t.lines.emplace_back();
  for (const std::string& need : need_forms(c, lacks.front().need))
    t.lines.back().push_back(words::say("{} of {}", lacks.front().owned, need));
  return t;
}

Tile common(const words::Context& c, const Shop& shop, const Recipe& recipe) {
  const draft::Copied copied = draft::copied(shop, recipe);
  Tile t{.title = recipe.name};
  t.lines.push_back({copied.glue != nullptr
                         ? words::say("brings {}", words::small(copied.glue->name))
                         : glue_words(shop, copied.recipe)});
  const auto lacks = draft::need_lacks(shop, copied.recipe);
  if (lacks.empty()) return t;
  t.lines.emplace_back();
  for (const std::string& need : need_forms(c, lacks.front().need))
    t.lines.back().push_back(words::say("lacks {}", need));
  return t;
}

}  // namespace

void recipes_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Shop& shop = shown_shop(scene);
  std::vector<Tile> tiles;
  for (const auto& [recipe, has] : draft::offered(shop.recipes, draft::starter().recipes)) {
    Tile t = has ? own(scene.context(), shop, *recipe) : common(scene.context(), shop, *recipe);
    t.id = "recipe." + recipe->key;
    t.intent = edit(What::recipe, 0, 0, recipe->key);
    tiles.push_back(std::move(t));
  }
  Rect head = heading_row(canvas, scene, body);
  const Grid grid = grid_in(canvas, body, canvas.px(74), std::max(canvas.touch(), canvas.px(21)));
  const int all = static_cast<int>(tiles.size());
  const panels::Page page = panels::page_of(all, grid.fitting(), scene.view.page);
  panels::page_keys(canvas, head, page, all);
  heading(canvas, head,
          {words::tr("What is glued here"),
           words::tr("A press copies a recipe into the shop, another takes it out.")});
  for (int i = 0; i < page.count && grid.rows > 0; ++i) {
    Tile& t = tiles[static_cast<std::size_t>(page.first + i)];
    t.key = letter(i);
    tile(canvas, grid.cell(i), std::move(t));
  }
}

}  // namespace squeezeout::setup
