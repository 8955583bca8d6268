// Glues, by chemistry: one tile each, pressed when the shop has it.
#include <fmt/format.h>

#include "client/draft/starter.h"
#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Rect;
using What = draft::Edit::What;

constexpr Celsius kUsualAir{20};

// The dwell that the sheet gives nearest to the usual air; null: it gives none.
const DwellPoint* usual_point(const AdhesiveSheet& sheet) {
  const DwellPoint* best = nullptr;
  const auto off = [](const DwellPoint& p) { return std::abs(p.wood.value - kUsualAir.value); };
  for (const DwellPoint& p : sheet.dwell)
    if (best == nullptr || off(p) < off(*best)) best = &p;
  return best;
}

}  // namespace

void glues_page(Canvas& canvas, const Scene& scene, Rect body) {
  const auto rows = draft::offered(shown_shop(scene).sheets, draft::starter().sheets);
  Rect head = heading_row(canvas, scene, body);
  const Grid grid = grid_in(canvas, body, canvas.px(78), std::max(canvas.touch(), canvas.px(29)));
  const int all = static_cast<int>(rows.size());
  const panels::Page page = panels::page_of(all, grid.fitting(), scene.view.page);
  panels::page_keys(canvas, head, page, all);
  heading(canvas, head,
          {words::tr("Which glues stand on the shelf"),
           words::tr("Times are common practice: the label on the bottle overrides them.")});
  for (int i = 0; i < page.count && grid.rows > 0; ++i) {
    const auto& [sheet, own] = rows[static_cast<std::size_t>(page.first + i)];
    const DwellPoint* point = usual_point(*sheet);
    Tile t{.id = "glue." + sheet->key,
           .title = sheet->name,
           .lines = {{point != nullptr ? words::say("open {}, clamps {}", words::exact(sheet->open),
                                                    words::length(point->dwell))
                                       : words::say("open {}", words::exact(sheet->open))},
                     {words::say("may be worked after {}", words::length(sheet->wait))}},
           .state = own ? Tile::State::in : Tile::State::out,
           .intent = edit(What::glue, 0, 0, sheet->key),
           .key = letter(i)};
    if (!sheet->caution.empty()) t.lines.push_back({sheet->caution, words::tr("has a caution")});
    tile(canvas, grid.cell(i), std::move(t));
  }
}

}  // namespace squeezeout::setup
