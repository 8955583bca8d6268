// The shop's name, and the zone of its clock.
#include <algorithm>

#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Rect;
using look::Type;
using What = draft::Edit::What;

std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text)
    out += c == '_' ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

// The zones that hold what was typed; all, when nothing was, the shop's own first.
std::vector<std::string> zones(const draft::Draft& draft, const std::string& own) {
  std::vector<std::string> out;
  if (draft.filter.empty()) out.push_back(own);
  const std::string wanted = plain(draft.filter);
  if (draft.zones)
    for (const std::string& zone : *draft.zones)
      if (plain(zone).find(wanted) != std::string::npos && (zone != own || !draft.filter.empty()))
        out.push_back(zone);
  return out;
}

}  // namespace

void shop_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Shop& shop = shown_shop(scene);
  const draft::Draft& draft = scene.view.draft;
  Rect head = heading_row(canvas, scene, body);
  Rect row = row_of(canvas, body);
  const float half = (row.w - canvas.gap()) / 2;
  text_field(canvas, scene, row.cut_left(half),
             {.id = "shop.name",
              .label = words::tr("Name of the shop"),
              .text = shop.name,
              .most = draft::kMostLetters,
              .keys = {letter(0)}});
  row.cut_left(canvas.gap());
  text_field(canvas, scene, row,
             {.id = "zone.filter",
              .label = words::tr("Find a time zone: a town, a part of the world"),
              .text = draft.filter,
              .most = draft::kMostLetters,
              .keys = {letter(1)}});
  const std::vector<std::string> all = zones(draft, shop.zone);
  const Grid grid = grid_in(canvas, body, canvas.px(58), canvas.touch());
  const panels::Page page =
      panels::page_of(static_cast<int>(all.size()), grid.fitting(), scene.view.page);
  panels::page_keys(canvas, head, page, static_cast<int>(all.size()));
  const bool none = all.empty() && !draft.filter.empty();
  heading(
      canvas, head,
      {scene.floor.shop ? words::tr("The shop") : words::tr("There is no shop yet: set it up here"),
       none ? words::say("No zone is called \"{}\". Next: type less of it.", draft.filter)
            : words::say("Its clock is that of {}.", shop.zone)});
  for (int i = 0; i < page.count && grid.rows > 0; ++i) {
    const std::string& zone = all[static_cast<std::size_t>(page.first + i)];
    tile(canvas, grid.cell(i),
         {.id = "zone." + zone,
          .title = zone,
          .short_title = zone.substr(zone.rfind('/') + 1),
          .lines = {},
          .state = zone == shop.zone ? Tile::State::in : Tile::State::out,
          .intent = edit(What::zone, 0, 0, zone),
          .key = letter(i + 2)});
  }
}

}  // namespace squeezeout::setup
