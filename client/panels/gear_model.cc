#include "client/panels/gear_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/view/heat.h"
#include "client/words/say.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kKindMm = 20.5F, kPanelMm = 34, kKeyMm = 32, kNarrowKeyMm = 27;
constexpr look::Ink kQuiet{Role::muted, Role::panel};

// What matters most first: heat, when there is one to be had, then how many are where.
std::array<std::string, 4> state_words(const Scene& scene, const GearNow& gear) {
  const words::Context c = scene.context();
  const bool one = gear.stock == 1;
  if (scene.stale()) {
    if (!one)
      return {gear.free == 0 ? words::tr("none was free") : words::say("{} were free", gear.free)};
    return {gear.free == 1 ? words::tr("was free") : words::tr("was not free")};
  }
  std::array<std::string, 4> out;
  if (const GlueUp* hot = heated_by(scene.floor, gear.kind, scene.now))
    out[0] = words::say("hot till {}", words::clock(c, *safe_to_touch(scene.floor, *hot)));
  if (gear.free > 0)
    out[1] = one ? words::tr("free") : words::say("{} free", gear.free);
  else if (gear.more_at)
    out[1] = words::say("free {}", words::clock(c, *gear.more_at));
  if (gear.held > 0) out[2] = one ? words::tr("held") : words::say("{} held", gear.held);
  if (gear.broken > 0)
    out[3] = one ? words::tr("out of use") : words::say("{} out of use", gear.broken);
  return out;
}

// Held, out of use, free: as parts of one bar.
void stock_bar(Canvas& canvas, Rect at, const GearNow& gear) {
  canvas.box(at, Role::background);
  if (gear.stock > 0) {
    const float one = at.w / static_cast<float>(gear.stock);
    Rect rest = at;
    canvas.box(rest.cut_left(one * static_cast<float>(gear.held)), Role::clamped);
    const Rect broken = rest.cut_left(one * static_cast<float>(gear.broken));
    canvas.box(broken, Role::grid);
    canvas.box(broken, Role::muted, look::Fill::hatch);
  }
  canvas.edge(at, Role::edge, 0.3F);
}

void kind_button(Canvas& canvas, Rect at, const Scene& scene, const GearNow& gear) {
  const GearKind& kind = *scene.floor.kind(gear.kind);
  const bool chosen = scene.view.kind == gear.kind;
  canvas.box(at, Role::lane);
  canvas.edge(at, chosen ? Role::text : Role::edge, chosen ? 1.0F : 0.35F);
  const std::string name =
      gear.stock == 1 ? kind.name : fmt::format("{} ×{}", kind.name, gear.stock);
  Rect inside = at.inset(canvas.px(3), canvas.px(2.5F));
  stock_bar(canvas, inside.cut_bottom(canvas.px(2.6F)), gear);
  inside.cut_bottom(canvas.px(1));
  Rect text = inside.middle(inside.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), name, Type::strong,
               {Role::text, Role::lane});
  canvas.words(text, pieces_that_fit(canvas, Type::small, text.w, state_words(scene, gear)),
               Type::small, {Role::muted, Role::lane});
  canvas.press({"gear." + kind.key, name, at, {}, ChooseGear{gear.kind}, look::Kind::button});
}

std::string class_words(GearClass of) {
  switch (of) {
    case GearClass::clamp:
      return words::tr("clamp");
    case GearClass::go_bar:
      return words::tr("go-bar");
    case GearClass::caul:
      return words::tr("caul");
    case GearClass::form:
      return words::tr("form");
    case GearClass::deck:
      return words::tr("deck");
    case GearClass::mould:
      return words::tr("mould");
    case GearClass::other:
      return words::tr("other gear");
  }
  CHECK(!"a gear class outside the enumeration");
}

// What is known of a kind: "clamp · opening 120 mm · throat 60 mm · 200 N".
std::vector<std::string> figures(const words::Context& c, const GearKind& k) {
  std::vector<std::string> out{class_words(k.gear_class)};
  if (k.opening.value > 0)
    out.push_back(words::say("opening {}", words::millimetres(c, k.opening)));
  if (k.throat.value > 0) out.push_back(words::say("throat {}", words::millimetres(c, k.throat)));
  if (k.length.value > 0) out.push_back(words::say("length {}", words::millimetres(c, k.length)));
  if (k.force.value > 0) out.push_back(fmt::format("{:.0f} N", k.force.value));
  if (!k.screw.empty()) out.push_back(k.screw);
  if (!k.size.empty()) out.push_back(k.size);
  if (!k.outline.empty()) out.push_back(words::say("outline {}", k.outline));
  if (k.hot) out.push_back(words::tr("hot when used"));
  return out;
}

std::string holder_words(const Scene& scene, const GearNow& gear) {
  const words::Context c = scene.context();
  std::string out;
  for (const HeldBy& h : gear.holders) out += (out.empty() ? "" : "; ") + words::holder(c, h);
  if (out.empty())
    return scene.stale() ? words::tr("Nobody held any.") : words::tr("Nobody holds any.");
  return scene.stale() ? words::say("As planned: {}.", out) : out + ".";
}

// How many are in joints: what is only reserved can break where it lies.
int in_joints(const Floor& floor, const GearNow& gear) {
  int out = 0;
  for (const HeldBy& h : gear.holders) {
    const GlueUp* g =
        h.holder.what == Holder::What::glue_up ? floor.glue_up(GlueUpId{h.holder.id}) : nullptr;
    if (g == nullptr || running(*g)) out += h.count;
  }
  return out;
}

// Broken is a fact; the others ask the server.
std::vector<look::Button> kind_keys(const Scene& scene, const GearNow& gear) {
  const auto look = [](bool can) { return can ? Look::normal : Look::off; };
  const bool live = !scene.stale();
  return {{.id = "broken",
           .label = words::tr("1 broken"),
           .sub = words::tr("out of use"),
           .key_name = "X",
           .keys = {'X'},
           .intent = Ask{GearBroken{gear.kind, 1, "broken"}},
           .look = look(gear.broken + in_joints(scene.floor, gear) < gear.stock)},
          {.id = "mended",
           .label = words::tr("1 mended"),
           .sub = words::say("{} out of use", gear.broken),
           .key_name = "M",
           .keys = {'M'},
           .intent = Ask{GearMended{gear.kind, 1}},
           .look = look(live && gear.broken > 0)},
          {.id = "stock.more",
           .label = words::tr("1 more"),
           .sub = words::say("of {}", gear.stock),
           .key_name = "+",
           .keys = {'+'},
           .intent = Ask{SetStock{gear.kind, gear.stock + 1}},
           .look = look(live)},
          {.id = "stock.fewer",
           .label = words::tr("1 fewer"),
           .sub = words::say("of {}", gear.stock),
           .key_name = "-",
           .keys = {'-'},
           .intent = Ask{SetStock{gear.kind, gear.stock - 1}},
           .look = look(live && gear.stock > 0)}};
}

void chosen_kind(Canvas& canvas, Rect at, const Scene& scene, const GearNow& gear) {
  const GearKind& kind = *scene.floor.kind(gear.kind);
  const words::Context c = scene.context();
  canvas.box(at, Role::panel);
  const float gap = canvas.gap();
  const std::size_t rows = narrow(canvas) ? 2 : 1;
  std::vector<look::Button> keys = kind_keys(scene, gear);
  const float width = std::max(canvas.touch(), canvas.px(rows == 2 ? kNarrowKeyMm : kKeyMm));
  Rect inside = at.inset(canvas.px(3), canvas.px(1.5F));
  const float height = (inside.h - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
  for (std::size_t i = keys.size(); i > 0; i -= rows) {
    Rect column = inside.cut_right(width);
    inside.cut_right(gap);
    for (std::size_t j = i - rows; j < i; ++j) {
      keys[j].on = Role::panel;
      key(canvas, column.cut_top(height), std::move(keys[j]));
      column.cut_top(gap);
    }
  }
  const std::string name =
      gear.stock == 1 ? kind.name : fmt::format("{} ×{}", kind.name, gear.stock);
  canvas.words(inside.cut_top(canvas.line_px(Type::title)), name, Type::title,
               {Role::text, Role::panel});
  const GlueUp* hot = heated_by(scene.floor, gear.kind, scene.now);
  const std::string known = pieces_that_fit(canvas, Type::small, inside.w, figures(c, kind));
  canvas.words(inside.cut_top(canvas.line_px(Type::body)), known, Type::body, kQuiet);
  const std::string heat = hot == nullptr ? "" : heat_words(scene, *hot);
  canvas.paragraph(inside, heat.empty() ? holder_words(scene, gear) : heat, Type::body,
                   {Role::text, Role::panel}, 4);
}

}  // namespace

look::Frame lay_out_gear(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  const std::vector<GearNow> gear = gear_now(scene.floor, scene.now);
  if (gear.empty()) {
    canvas.words(body.cut_top(canvas.px(14)), words::tr("No gear yet"), Type::head, {});
    canvas.paragraph(body,
                     words::tr("Clamps, cauls, forms and decks are put in on the Set-up screen."),
                     Type::title, {Role::muted, Role::background}, 2);
    return canvas.take();
  }
  const auto chosen = std::find_if(gear.begin(), gear.end(),
                                   [&](const GearNow& g) { return g.kind == scene.view.kind; });
  const float gap = canvas.gap();
  const float two_rows = 2 * canvas.touch() + gap + canvas.px(3);
  Rect foot = body.cut_bottom(narrow(canvas) ? two_rows : canvas.px(kPanelMm));
  body.cut_bottom(gap);
  const int columns = body.w > canvas.px(440) ? 4 : 3;
  const float width =
      (body.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const float tall = std::max(canvas.touch(), canvas.px(kKindMm)), pitch = tall + gap;
  const int all = static_cast<int>(gear.size());
  const Page page =
      page_of(all, columns * static_cast<int>((body.h + gap) / pitch), scene.view.page);
  page_keys(canvas, foot, page, all);
  if (chosen != gear.end()) {
    chosen_kind(canvas, foot, scene, *chosen);
  } else {
    canvas.box(foot, Role::panel);
    canvas.words(foot.inset(canvas.px(5), 0),
                 words::tr("Press a kind of gear: who holds it, broken, mended."), Type::title,
                 kQuiet, Align::centre);
  }
  for (int i = 0; i < page.count; ++i) {
    const float column = static_cast<float>(i % columns), line = static_cast<float>(i / columns);
    kind_button(canvas, {body.x + column * (width + gap), body.y + line * pitch, width, tall},
                scene, gear[static_cast<std::size_t>(page.first + i)]);
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
