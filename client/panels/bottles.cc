#include "client/panels/bottles.h"

#include <fmt/format.h>

#include "client/panels/pages.h"
#include "client/words/craft.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

std::string glue_name(const Scene& scene, SheetId id) {
  const AdhesiveSheet* sheet = scene.floor.sheet(id);
  return sheet ? sheet->name : fmt::format("Glue {}", id.value);
}

// Those that are offered, the oldest first: it is the one to look at.
std::vector<const Lot*> bottles_at_hand(const Floor& floor) {
  std::vector<const Lot*> out;
  for (const auto& [id, lot] : floor.lots)
    if (!lot.used_up) out.push_back(&lot);
  const auto ends = [&](const Lot* lot) {
    const AdhesiveSheet* sheet = floor.sheet(lot->sheet);
    return sheet ? stale_from(*lot, *sheet).value_or(kNever) : kNever;
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](const Lot* a, const Lot* b) { return ends(a) < ends(b); });
  return out;
}

std::string age_words(const Scene& scene, const Lot& lot) {
  const words::Context c = scene.context();
  const AdhesiveSheet* sheet = scene.floor.sheet(lot.sheet);
  std::string out = words::lot_age(sheet ? age_of(lot, *sheet, scene.now) : LotAge::unknown);
  if (lot.opened)
    out += ", opened " + words::date(c, *lot.opened);
  else if (lot.made)
    out += ", made " + words::date(c, *lot.made);
  const auto end = sheet ? stale_from(lot, *sheet) : std::nullopt;
  if (end && *end > scene.now) out += ", good till " + words::date(c, *end);
  return out;
}

void bottle_row(Canvas& canvas, Rect row, const Scene& scene, const Lot& lot) {
  const float gap = canvas.gap(), width = canvas.px(30);
  canvas.box(row, Role::lane);
  Lot empty = lot;
  empty.used_up = true;
  canvas.button(row.cut_right(width), {.id = fmt::format("lot.{}.used", lot.id.value),
                                       .label = "Used up",
                                       .intent = Ask{PutLot{empty}},
                                       .on = Role::lane});
  row.cut_right(gap);
  if (!lot.opened) {
    Lot opened = lot;
    opened.opened = std::chrono::floor<Minutes>(scene.now);
    canvas.button(row.cut_right(width), {.id = fmt::format("lot.{}.opened", lot.id.value),
                                         .label = "Opened today",
                                         .intent = Ask{PutLot{opened}},
                                         .on = Role::lane});
    row.cut_right(gap);
  }
  row = row.inset(canvas.px(3), 0);
  Rect text = row.middle(row.w, canvas.line_px(Type::strong) + 2 * canvas.line_px(Type::small));
  const std::string name = glue_name(scene, lot.sheet);
  canvas.words(text.cut_top(canvas.line_px(Type::strong)),
               lot.label.empty() ? name : name + " · " + lot.label, Type::strong,
               {Role::text, Role::lane});
  canvas.paragraph(text, age_words(scene, lot), Type::small, {Role::muted, Role::lane}, 2);
}

void pots(Canvas& canvas, Rect& area, const Scene& scene) {
  const words::Context c = scene.context();
  for (const auto& [id, pot] : scene.floor.pots) {
    if (pot.until <= scene.now || area.h < canvas.px(60)) continue;
    Rect row = area.cut_top(canvas.px(10));
    const std::string left = words::countdown(pot.until - scene.now);
    canvas.words(row.cut_right(canvas.width(Type::strong, "0 m 00 s") + canvas.px(4)), left,
                 Type::strong, {}, Align::right);
    canvas.words(row,
                 fmt::format("Pot of {}, {}, sets {}", words::small(glue_name(scene, pot.sheet)),
                             words::bench(c, pot.bench), words::clock(c, pot.until)),
                 Type::body, {});
  }
}

// Which glue, and that there is a new bottle of it.
void new_bottle(Canvas& canvas, Rect row, const Scene& scene, const AirDraft& draft) {
  const auto& sheets = scene.floor.shop->sheets;
  if (sheets.empty()) return;
  std::size_t at = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i)
    if (sheets[i].id == draft.sheet) at = i;
  AirDraft next = draft;
  next.sheet = sheets[(at + 1) % sheets.size()].id;
  const float gap = canvas.gap();
  Lot lot;
  lot.sheet = sheets[at].id;
  lot.opened = std::chrono::floor<Minutes>(scene.now);
  canvas.button(row.cut_right(canvas.px(40)), {.id = "lot.new",
                                               .label = "New bottle",
                                               .sub = "opened today",
                                               .key_name = "B",
                                               .keys = {'B'},
                                               .intent = Ask{PutLot{lot}}});
  row.cut_right(gap);
  canvas.button(row, {.id = "lot.sheet",
                      .label = sheets[at].name,
                      .sub = fmt::format("{} of {}, press for the next", at + 1, sheets.size()),
                      .key_name = "G",
                      .keys = {'G'},
                      .intent = SetAir{next}});
}

}  // namespace

void bottles(Canvas& canvas, Rect area, const Scene& scene, const AirDraft& draft) {
  const float gap = canvas.gap(), height = canvas.touch();
  const std::vector<const Lot*> lots = bottles_at_hand(scene.floor);
  new_bottle(canvas, area.cut_bottom(height), scene, draft);
  area.cut_bottom(gap);
  Rect head = area.cut_top(height);
  area.cut_top(gap);
  pots(canvas, area, scene);
  const int all = static_cast<int>(lots.size());
  const Page page =
      page_of(all, static_cast<int>((area.h + gap) / (height + gap)), scene.view.page);
  page_keys(canvas, head, page, all);
  canvas.words(head, all == 0 ? "No bottles on record" : "Bottles", Type::head, {});
  for (int i = 0; i < page.count; ++i) {
    bottle_row(canvas, area.cut_top(height), scene,
               *lots[static_cast<std::size_t>(page.first + i)]);
    area.cut_top(gap);
  }
}

}  // namespace squeezeout::panels
