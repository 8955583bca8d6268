#include "client/panels/bottles.h"

#include <fmt/format.h>

#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/craft.h"
#include "client/words/say.h"

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
  return sheet ? sheet->name : words::say("Glue {}", id.value);
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

// The age, then what it is reckoned from, then how long it is good.
std::vector<std::string> age_words(const Scene& scene, const Lot& lot) {
  const words::Context c = scene.context();
  const AdhesiveSheet* sheet = scene.floor.sheet(lot.sheet);
  std::vector<std::string> out{
      words::lot_age(sheet ? age_of(lot, *sheet, scene.now) : LotAge::unknown)};
  if (lot.opened)
    out.push_back(words::say("opened {}", words::date(c, *lot.opened)));
  else if (lot.made)
    out.push_back(words::say("made {}", words::date(c, *lot.made)));
  const auto end = sheet ? stale_from(lot, *sheet) : std::nullopt;
  if (end && *end > scene.now) out.push_back(words::say("good till {}", words::date(c, *end)));
  return out;
}

void bottle_row(Canvas& canvas, Rect row, const Scene& scene, const Lot& lot) {
  const float gap = canvas.gap(), width = std::max(canvas.touch(), canvas.px(28));
  canvas.box(row, Role::lane);
  Lot empty = lot;
  empty.used_up = true;
  canvas.button(row.cut_right(width), {.id = fmt::format("lot.{}.used", lot.id.value),
                                       .label = words::tr("Used up"),
                                       .intent = Ask{PutLot{empty}},
                                       .on = Role::lane});
  row.cut_right(gap);
  if (!lot.opened) {
    Lot opened = lot;
    opened.opened = std::chrono::floor<Minutes>(scene.now);
    canvas.button(row.cut_right(width), {.id = fmt::format("lot.{}.opened", lot.id.value),
                                         .label = words::tr("Opened today"),
                                         .intent = Ask{PutLot{opened}},
                                         .on = Role::lane});
    row.cut_right(gap);
  }
  row = row.inset(canvas.px(3), 0);
  Rect text = row.middle(
      row.w, std::min(row.h, canvas.line_px(Type::strong) + 2 * canvas.line_px(Type::small)));
  const std::string name = glue_name(scene, lot.sheet);
  const Rect head = text.cut_top(canvas.line_px(Type::strong));
  canvas.one_of(head, {lot.label.empty() ? name : name + " · " + lot.label, name}, Type::strong,
                {Role::text, Role::lane});
  std::vector<std::string> parts = age_words(scene, lot), said;
  for (; !parts.empty(); parts.pop_back()) {
    std::string all;
    for (const std::string& part : parts) all += (all.empty() ? "" : ", ") + part;
    said.push_back(std::move(all));
  }
  canvas.one_of(text, said, Type::small, {Role::muted, Role::lane});
}

void pots(Canvas& canvas, Rect& area, const Scene& scene) {
  const words::Context c = scene.context();
  for (const auto& [id, pot] : scene.floor.pots) {
    if (pot.until <= scene.now || area.h < canvas.px(40)) continue;
    Rect row = area.cut_top(canvas.px(10));
    const std::string left = words::countdown(pot.until - scene.now);
    canvas.words(row.cut_right(canvas.width(Type::strong, "0 m 00 s") + canvas.px(4)), left,
                 Type::strong, {}, Align::right);
    const std::string glue = words::small(glue_name(scene, pot.sheet));
    const std::string sets = words::clock(c, pot.until), bench = words::bench(c, pot.bench);
    canvas.one_of(row,
                  {words::say("Pot of {}, {}, sets {}", glue, bench, sets),
                   words::say("{}, sets {}", glue, sets), words::say("sets {}", sets)},
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
  key(canvas, row.cut_right(canvas.px(38)),
      {.id = "lot.new",
       .label = words::tr("New bottle"),
       .sub = narrow(canvas) ? "" : words::tr("opened today"),
       .key_name = "B",
       .keys = {'B'},
       .intent = Ask{PutLot{lot}}});
  row.cut_right(gap);
  key(canvas, row,
      {.id = "lot.sheet",
       .label = sheets[at].name,
       .sub = words::say("{} of {}, press for the next", at + 1, sheets.size()),
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
  const int fitting = static_cast<int>((area.h + gap) / (height + gap));
  const int before = narrow(canvas) ? 1 : 0;  // the air's own page
  Page page = page_of(all, fitting, scene.view.page - before);
  page.page += before, page.pages += before;
  page_keys(canvas, head, page, all);
  canvas.words(head, all == 0 ? words::tr("No bottles on record") : words::tr("Bottles"),
               Type::head, {});
  if (all == 0)
    canvas.paragraph(area,
                     words::tr("Put the first here: choose the glue below, then New bottle. Its "
                               "age is counted from then on."),
                     Type::body, {Role::muted, Role::background}, 4);
  for (int i = 0; i < page.count; ++i) {
    bottle_row(canvas, area.cut_top(height), scene,
               *lots[static_cast<std::size_t>(page.first + i)]);
    area.cut_top(gap);
  }
}

}  // namespace squeezeout::panels
