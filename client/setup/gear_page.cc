// What the shop owns: its own kinds, then those that are common in the trade, each with its count.
#include <fmt/format.h>

#include "client/draft/trial.h"
#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using What = draft::Edit::What;

void count_key(Canvas& canvas, Rect at, const draft::GearRow& row, const char* id, int by) {
  const bool can = by > 0 ? row.count < draft::kMostOfAKind : row.count > 0;
  canvas.button(at, {.id = fmt::format("{}.{}", id, row.key),
                     .label = fmt::format("{}{}", by > 0 ? "+" : "–", std::abs(by)),
                     .intent = edit(What::gear_count, 0, by, row.key),
                     .look = can ? Look::normal : Look::off,
                     .on = Role::lane});
}

void kind(Canvas& canvas, const Scene& scene, Rect at, const draft::GearRow& row, int key) {
  const int more = row.count == 0 && row.usual > 0 ? row.usual : 1;
  canvas.box(at, Role::lane);
  canvas.edge(at, Role::edge, 0.2F);
  count_key(canvas, at.cut_left(canvas.touch()), row, "less", -1);
  at.cut_left(canvas.gap());
  count_key(canvas, at.cut_right(canvas.touch()), row, "more", more);
  at.cut_right(canvas.gap());
  text_field(canvas, scene, at,
             {.id = "gear." + row.key,
              .label = row.name,
              .text = std::to_string(row.count),
              .most = 4,
              .keys = key != 0 ? std::vector<int>{key} : std::vector<int>{}});
}

}  // namespace

void gear_page(Canvas& canvas, const Scene& scene, Rect body) {
  const std::optional<Shop> counted =
      scene.view.draft.shop ? std::nullopt : draft::as_counted(scene.floor);
  const std::vector<draft::GearRow> rows = draft::gear_rows(counted ? *counted : shown_shop(scene));
  Rect head = heading_row(canvas, scene, body);
  const float width = 2 * (canvas.touch() + canvas.gap()) + canvas.px(46);
  const Grid grid = grid_in(canvas, body, width, canvas.touch());
  const int all = static_cast<int>(rows.size());
  const panels::Page page = panels::page_of(all, grid.fitting(), scene.view.page);
  panels::page_keys(canvas, head, page, all);
  heading(canvas, head,
          {words::tr("How many of each the shop owns"),
           words::tr("Figures are common practice. A table (CSV) can be dropped on this window.")});
  for (int i = 0; i < page.count && grid.rows > 0; ++i)
    kind(canvas, scene, grid.cell(i), rows[static_cast<std::size_t>(page.first + i)], letter(i));
}

}  // namespace squeezeout::setup
