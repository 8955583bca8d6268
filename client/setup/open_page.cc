// What the draft still lacks, what opening it would change, and the keys that try it, open it, and put it into a file.
#include <fmt/format.h>

#include <algorithm>

#include "client/draft/lacks.h"
#include "client/draft/starter.h"
#include "client/draft/trial.h"
#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using draft::Lack;
using draft::Page;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;
using Do = DoDraft::What;

struct Row {
  std::string what;
  enum class Tone { plain, lack } tone = Tone::plain;
  std::optional<look::Button> key;  // that mends it
};

std::string lack_words(const words::Context& c, const Shop& shop, const Lack& l) {
  const Recipe* recipe = draft::keyed(shop.recipes, l.recipe);
  const std::string name = recipe != nullptr ? recipe->name : std::string();
  switch (l.what) {
    case Lack::What::name:
      return words::tr("The shop has no name. Next: type one.");
    case Lack::What::zone:
      return words::tr("No time zone: nobody knows what its clock shows. Next: choose one.");
    case Lack::What::hours:
      return words::tr("Closed all week: no glue-up finds a place. Next: open a day.");
    case Lack::What::benches:
      return words::tr("A bench without a name, or none at all. Next: name it.");
    case Lack::What::builders:
      return words::tr("A builder without a name, or none at all. Next: name him.");
    case Lack::What::gear:
      return words::tr("No gear: nothing can be clamped. Next: say how many of each.");
    case Lack::What::glues:
      return words::tr("No glue. Next: press those on the shelf.");
    case Lack::What::recipes:
      return words::tr("No recipe: nothing can be reserved. Next: copy one.");
    case Lack::What::recipe_glue:
      return words::say("{}: none of its glues is in the shop. Next: take one in.", name);
    case Lack::What::recipe_gear:
      return words::say("{} wants {}; the shop has {}. Next: add some, or leave it out.", name,
                        words::need(c, l.need), l.owned);
  }
  return {};
}

Row lack_row(const words::Context& c, const Shop& shop, const Lack& l, std::size_t n) {
  Row row{lack_words(c, shop, l), Row::Tone::lack, {}};
  look::Button key{.id = fmt::format("lack.{}", n), .label = page_name(l.page)};
  key.intent = ShowSetup{l.page, 1};
  if (l.what == Lack::What::recipe_gear && draft::that_meets(shop, l.need).thing == nullptr) {
    key.label = page_name(Page::recipes);
    key.intent = ShowSetup{Page::recipes, 1};
  } else if (l.what == Lack::What::recipe_gear) {
    key.label = words::say("Add {}", l.need.count - l.owned);
    key.intent = edit(draft::Edit::What::gear_for_recipe, 0, 0, l.recipe);
  }
  row.key = std::move(key);
  return row;
}

// Names one after the other, as many as a sentence bears.
std::string some(const std::vector<std::string>& names) {
  constexpr std::size_t kTold = 4;
  std::string out;
  for (std::size_t i = 0; i < std::min(names.size(), kTold); ++i)
    out += (i == 0 ? "" : ", ") + names[i];
  if (names.size() > kTold) out += fmt::format(" +{}", names.size() - kTold);
  return out;
}

void add_changes(const Scene& scene, const Shop& shop, std::vector<Row>& rows) {
  const draft::Draft& d = scene.view.draft;
  if (!scene.floor.shop || !d.shop) return;
  const Shop running = *draft::as_counted(scene.floor);
  const draft::Changes c = draft::changes(running, shop);
  if (d.running && *d.running != running)
    rows.push_back({words::tr("The shop was changed elsewhere since this draft was begun. "
                              "Next: put it away and begin again, or look at what it changes."),
                    Row::Tone::lack,
                    {}});
  if (c.none()) rows.push_back({words::tr("The draft is as the shop is."), {}, {}});
  if (!c.added.empty()) rows.push_back({words::say("New: {}.", some(c.added)), {}, {}});
  if (!c.changed.empty()) rows.push_back({words::say("Changed: {}.", some(c.changed)), {}, {}});
  if (!c.removed.empty()) rows.push_back({words::say("Gone: {}.", some(c.removed)), {}, {}});
}

std::vector<Row> rows_of(const Scene& scene, const Shop& shop) {
  const draft::Draft& d = scene.view.draft;
  std::vector<Row> rows;
  for (const std::string& told : d.told) rows.push_back({told, Row::Tone::lack, {}});
  const bool tried = d.tried.of && d.tried.of == d.shop;
  if (tried)
    for (const std::string& m : d.tried.mistakes) rows.push_back({m, Row::Tone::lack, {}});
  for (const Lack& l : draft::lacks(shop))
    rows.push_back(lack_row(scene.context(), shop, l, rows.size()));
  if (tried && d.tried.mistakes.empty())
    for (const std::string& first : d.tried.firsts) rows.push_back({first, {}, {}});
  add_changes(scene, shop, rows);
  return rows;
}

void row(Canvas& canvas, Rect at, Row r) {
  if (r.key) {
    canvas.button(at.cut_right(canvas.px(32)), std::move(*r.key));
    at.cut_right(canvas.gap());
  }
  if (r.tone == Row::Tone::lack) {
    const float side = canvas.px(5);
    canvas.warn_tag(at.cut_left(side).middle(side, side));
    at.cut_left(canvas.px(3));
  }
  const auto lines = canvas.letters().wrapped(Type::body, r.what, at.w, 3).size();
  canvas.paragraph(
      at.middle(at.w, std::min(at.h, canvas.line_px(Type::body) * static_cast<float>(lines))),
      r.what, Type::body, {}, 3);
}

void files(Canvas& canvas, const Scene& scene, Rect at) {
  const std::string& path = scene.view.draft.path;
  const Look can = path.empty() ? Look::off : Look::normal;
  const float key = canvas.px(30);
  canvas.button(at.cut_right(key), {.id = "file.write",
                                    .label = words::tr("Write"),
                                    .key_name = "W",
                                    .keys = {'W'},
                                    .intent = WriteShop{path},
                                    .look = can});
  at.cut_right(canvas.gap());
  canvas.button(at.cut_right(key), {.id = "file.read",
                                    .label = words::tr("Read"),
                                    .key_name = "R",
                                    .keys = {'R', look::kEnter},
                                    .intent = ReadFile{path},
                                    .look = can});
  at.cut_right(canvas.gap());
  constexpr std::size_t kMostOfAPath = 400;
  text_field(canvas, scene, at,
             {.id = "file.path",
              .label = words::tr("A shop file, or a table of gear (.csv)"),
              .text = path,
              .most = kMostOfAPath,
              .keys = {'F'}});
}

void keys(Canvas& canvas, const Scene& scene, Rect column) {
  const draft::Draft& d = scene.view.draft;
  const bool opening = d.opening == draft::Draft::Opening::asked;
  const bool can = !scene.stale() && !opening && (d.shop || !scene.floor.shop);
  const float tall = std::max(canvas.touch(), std::max(canvas.px(20), 30 / scene.scale.mm(1)));
  canvas.button(column.cut_top(tall),
                {.id = "open.shop",
                 .label = opening ? words::tr("Opening") : words::tr("OPEN THE SHOP"),
                 .key_name = words::tr("Space"),
                 .keys = {' '},
                 .intent = DoDraft{Do::open},
                 .look = can ? Look::key : Look::off,
                 .type = Type::title});
  column.cut_top(canvas.gap());
  choice(canvas, row_of(canvas, column),
         {{.id = "open.try",
           .label = words::tr("Try it"),
           .key_name = "A",
           .keys = {'A'},
           .intent = DoDraft{Do::try_it},
           .look = d.shop || !scene.floor.shop ? Look::normal : Look::off}});
  std::vector<look::Button> more;
  if (d.shop)
    more.push_back({.id = "open.put-away",
                    .label = words::tr("Put away"),
                    .key_name = "X",
                    .keys = {'X'},
                    .intent = DoDraft{Do::put_away}});
  if (d.opened_over && !d.shop)
    more.push_back({.id = "open.back",
                    .label = words::tr("As before"),
                    .key_name = "B",
                    .keys = {'B'},
                    .intent = DoDraft{Do::back},
                    .look = scene.stale() || opening ? Look::off : Look::normal});
  if (!more.empty()) choice(canvas, row_of(canvas, column), std::move(more));
}

std::string sentence(const Scene& scene, const std::vector<Row>& rows) {
  const draft::Draft& d = scene.view.draft;
  if (d.opening == draft::Draft::Opening::asked) return words::tr("The server reads it: a moment.");
  const auto lacks = std::count_if(rows.begin(), rows.end(),
                                   [](const Row& r) { return r.tone == Row::Tone::lack; });
  if (lacks > 0) return words::say_n(lacks, "{} thing is missing.", "{} things are missing.");
  if (!d.shop && scene.floor.shop) return words::tr("Nothing has been changed.");
  return words::tr("Nothing is missing. Try it, or open it.");
}

}  // namespace

void open_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Shop& shop = shown_shop(scene);
  std::vector<Row> rows = rows_of(scene, shop);
  Rect head = heading_row(canvas, scene, body);
  Rect foot = body.cut_bottom(canvas.touch());
  body.cut_bottom(canvas.gap());
  files(canvas, scene, foot);
  const float wide = std::max(canvas.px(62), 60 / scene.scale.mm(1));
  keys(canvas, scene, body.cut_right(wide));
  body.cut_right(2 * canvas.gap());
  const Grid grid = grid_in(canvas, body, body.w, canvas.touch());
  const int all = static_cast<int>(rows.size());
  const panels::Page page = panels::page_of(all, grid.fitting(), scene.view.page);
  panels::page_keys(canvas, head, page, all);
  heading(canvas, head, {shop.name, sentence(scene, rows)});
  for (int i = 0; i < page.count && grid.rows > 0; ++i)
    row(canvas, grid.cell(i), std::move(rows[static_cast<std::size_t>(page.first + i)]));
}

}  // namespace squeezeout::setup
