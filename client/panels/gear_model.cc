#include "client/panels/gear_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kKindMm = 20.5F;

std::string state_words(const Scene& scene, const GearNow& gear) {
  const words::Context c = scene.context();
  if (scene.stale()) return fmt::format("not live: {} were free", gear.free);
  std::string out = gear.stock == 1 ? (gear.free == 1   ? "free"
                                       : gear.held == 1 ? "held"
                                                        : "")
                                    : fmt::format("{} free", gear.free);
  if (gear.held > 0 && gear.stock > 1) out += fmt::format(" · {} held", gear.held);
  if (gear.broken > 0)
    out +=
        (out.empty() ? "" : " · ") +
        (gear.stock == 1 ? std::string("out of use") : fmt::format("{} out of use", gear.broken));
  if (gear.free == 0 && gear.more_at) out += " till " + words::clock(c, *gear.more_at);
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
  Rect inside = at.inset(canvas.px(3.5F), canvas.px(2.5F));
  stock_bar(canvas, inside.cut_bottom(canvas.px(2.6F)), gear);
  inside.cut_bottom(canvas.px(1));
  Rect text = inside.middle(inside.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), name, Type::strong,
               {Role::text, Role::lane});
  canvas.words(text, state_words(scene, gear), Type::small, {Role::muted, Role::lane});
  canvas.press({"gear." + kind.key, name, at, {}, ChooseGear{gear.kind}, look::Kind::button});
}

// What is known of a kind: "opening 120 mm, throat 60 mm, 200 N".
std::string figures(const GearKind& k) {
  std::string out{to_string(k.gear_class)};
  const auto add = [&](const char* name, double value, const char* unit) {
    if (value > 0) out += fmt::format(" · {}{:.0f} {}", name, value, unit);
  };
  add("opening ", k.opening.value, "mm");
  add("throat ", k.throat.value, "mm");
  add("length ", k.length.value, "mm");
  add("", k.force.value, "N");
  if (!k.screw.empty()) out += " · " + k.screw;
  if (!k.size.empty()) out += " · " + k.size;
  if (!k.outline.empty()) out += " · outline " + k.outline;
  if (k.hot) out += " · hot when used";
  return out;
}

void chosen_kind(Canvas& canvas, Rect at, const Scene& scene, const GearNow& gear) {
  const GearKind& kind = *scene.floor.kind(gear.kind);
  const words::Context c = scene.context();
  canvas.box(at, Role::panel);
  Rect inside = at.inset(canvas.px(5), canvas.px(4));
  const float gap = canvas.gap();
  const Rect mended = inside.cut_right(canvas.px(42));
  inside.cut_right(gap);
  const Rect broken = inside.cut_right(canvas.px(42));
  inside.cut_right(gap);
  canvas.button(broken, {.id = "broken",
                         .label = "1 broken",
                         .sub = "out of use",
                         .key_name = "X",
                         .keys = {'X'},
                         .intent = Ask{GearBroken{gear.kind, 1, "broken"}},
                         .look = gear.broken + gear.held < gear.stock ? Look::normal : Look::off,
                         .on = Role::panel});
  canvas.button(mended, {.id = "mended",
                         .label = "1 mended",
                         .sub = fmt::format("{} out of use", gear.broken),
                         .key_name = "M",
                         .keys = {'M'},
                         .intent = Ask{GearMended{gear.kind, 1}},
                         .look = gear.broken > 0 ? Look::normal : Look::off,
                         .on = Role::panel});
  canvas.words(inside.cut_top(canvas.line_px(Type::title)), kind.name, Type::title,
               {Role::text, Role::panel});
  canvas.words(inside.cut_top(canvas.line_px(Type::body)), figures(kind), Type::body,
               {Role::muted, Role::panel});
  std::string holders;
  for (const HeldBy& h : gear.holders)
    holders += (holders.empty() ? "" : "; ") + words::holder(c, h);
  canvas.paragraph(inside, holders.empty() ? "Nobody holds any." : holders + ".", Type::body,
                   {Role::text, Role::panel}, 2);
}

}  // namespace

look::Frame lay_out_gear(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  const std::vector<GearNow> gear = gear_now(scene.floor, scene.now);
  const auto chosen = std::find_if(gear.begin(), gear.end(),
                                   [&](const GearNow& g) { return g.kind == scene.view.kind; });
  Rect foot = body.cut_bottom(canvas.px(34));
  body.cut_bottom(canvas.gap());
  const int columns = body.w > canvas.px(440) ? 4 : 3;
  const float gap = canvas.gap();
  const float width =
      (body.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const float pitch = canvas.px(kKindMm) + gap;
  const int all = static_cast<int>(gear.size());
  const Page page =
      page_of(all, columns * static_cast<int>((body.h + gap) / pitch), scene.view.page);
  page_keys(canvas, foot, page, all);
  const Rect panel = foot;
  if (chosen != gear.end()) {
    chosen_kind(canvas, panel, scene, *chosen);
  } else {
    canvas.box(panel, Role::panel);
    canvas.words(panel.inset(canvas.px(5), 0),
                 "Press a kind of gear: who holds it, broken, mended.", Type::title,
                 {Role::muted, Role::panel}, Align::centre);
  }
  for (int i = 0; i < page.count; ++i) {
    const float column = static_cast<float>(i % columns), line = static_cast<float>(i / columns);
    kind_button(canvas,
                {body.x + column * (width + gap), body.y + line * pitch, width, canvas.px(kKindMm)},
                scene, gear[static_cast<std::size_t>(page.first + i)]);
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
