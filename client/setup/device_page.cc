// This device: who stands here, how it looks and sounds, and how long a millimetre is on its glass.
#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kTextStep = 0.1F, kFine = 0.005F, kCoarse = 0.05F;
constexpr float kRulerMm = 100;  // a bank card's long side is 85.6 mm (ISO/IEC 7810 ID-1)
constexpr float kCardMm = 85.6F;
constexpr float kLeastMmPerPx = 0.05F, kMostMmPerPx = 2;

Intent set(const Scene& scene, const std::function<void(Prefs&)>& change) {
  Prefs prefs = scene.view.prefs;
  change(prefs);
  return SetPrefs{prefs};
}

// The thing before or after the one with this id; none at the ends, or when there is none.
template <class Thing, class Id>
std::optional<Id> beside(const std::vector<Thing>& things, Id id, int by) {
  const int n = static_cast<int>(things.size());
  int at = by > 0 ? -1 : n;
  for (int i = 0; i < n; ++i)
    if (things[static_cast<std::size_t>(i)].id == id) at = i;
  at += by;
  if (at < 0 || at >= n) return std::nullopt;
  return things[static_cast<std::size_t>(at)].id;
}

template <class Thing, class Id>
std::string name_of(const std::vector<Thing>& things, Id id) {
  for (const Thing& t : things)
    if (t.id == id) return t.name;
  return words::tr("nobody yet");
}

void who(Canvas& canvas, const Scene& scene, Rect& area) {
  const View& view = scene.view;
  static const Shop nobody{};
  const Shop& shop = scene.floor.shop ? *scene.floor.shop : nobody;
  const auto bench_to = [&](int by) -> std::optional<Intent> {
    const auto id = beside(shop.benches, view.bench, by);
    if (!id) return std::nullopt;
    return StandAt{*id, view.builder};
  };
  const auto builder_to = [&](int by) -> std::optional<Intent> {
    const auto id = beside(shop.builders, view.builder, by);
    if (!id) return std::nullopt;
    return StandAt{view.bench, *id};
  };
  stepper(canvas, labelled(canvas, row_of(canvas, area), words::tr("Bench")),
          {"device.bench", name_of(shop.benches, view.bench), "←", "→", bench_to(-1), bench_to(1),
           'B', 'C'});
  stepper(canvas, labelled(canvas, row_of(canvas, area), words::tr("Builder")),
          {"device.builder", name_of(shop.builders, view.builder), "←", "→", builder_to(-1),
           builder_to(1), 'E', 'F'});
}

void theme(Canvas& canvas, const Scene& scene, Rect& area) {
  const auto key = [&](look::Theme theme, const char* id, std::string label, int letter) {
    return look::Button{.id = id,
                        .label = std::move(label),
                        .key_name = letter_name(letter),
                        .keys = {letter},
                        .intent = set(scene, [&](Prefs& p) { p.theme = theme; }),
                        .look = scene.view.prefs.theme == theme ? Look::chosen : Look::normal};
  };
  choice(canvas, labelled(canvas, row_of(canvas, area), words::tr("Screen")),
         {key(look::Theme::dark, "device.dark", words::tr("Dark"), 'D'),
          key(look::Theme::light, "device.light", words::tr("Light"), 'L')});
}

void text_size(Canvas& canvas, const Scene& scene, Rect& area) {
  const float wanted = scene.view.prefs.text;
  const auto to = [&](float text) -> std::optional<Intent> {
    text = std::round(text * 10) / 10;
    if (text < 1 || text > look::kMostText) return std::nullopt;
    return set(scene, [&](Prefs& p) { p.text = text; });
  };
  // A tenth is what a step is: less is nothing to speak of.
  const bool less = scene.scale.text() < wanted - kTextStep / 2;
  const std::string says =
      less ? words::say("×{:.1f}: this screen has room for ×{:.1f}", wanted, scene.scale.text())
           : fmt::format("×{:.1f}", wanted);
  stepper(
      canvas, labelled(canvas, row_of(canvas, area), words::tr("Letters")),
      {"device.text", says, "–", "+", to(wanted - kTextStep), to(wanted + kTextStep), '-', '+'});
}

void sound(Canvas& canvas, const Scene& scene, Rect& area) {
  const bool on = scene.view.prefs.sound == Prefs::Sound::on;
  const auto key = [&](Prefs::Sound sound, const char* id, std::string label, int letter) {
    return look::Button{.id = id,
                        .label = std::move(label),
                        .key_name = letter_name(letter),
                        .keys = {letter},
                        .intent = set(scene, [&](Prefs& p) { p.sound = sound; }),
                        .look = (sound == Prefs::Sound::on) == on ? Look::chosen : Look::normal};
  };
  choice(canvas, labelled(canvas, row_of(canvas, area), words::tr("Sound")),
         {key(Prefs::Sound::on, "device.sound.on", words::tr("On"), 'O'),
          key(Prefs::Sound::off, "device.sound.off", words::tr("Off"), 'M'),
          {.id = "device.sound.try",
           .label = words::tr("Try it"),
           .sub = scene.loudspeaker == Loudspeaker::none ? words::tr("no sound device here") : "",
           .key_name = "Y",
           .keys = {'Y'},
           .intent = TrySound{},
           .look = on ? Look::normal : Look::off}});
}

// A line that is made as long as what is held against it.
void line(Canvas& canvas, Rect at, float mm, float mm_per_px) {
  const float length = std::min(at.w, mm / mm_per_px), end = canvas.px(0.6F);
  const Rect line = at.middle(length, canvas.px(1.2F));
  canvas.box(line, Role::text);
  canvas.box(Rect{line.x, at.y, end, at.h}, Role::text);
  canvas.box(Rect{line.right() - end, at.y, end, at.h}, Role::text);
}

void calibration(Canvas& canvas, const Scene& scene, Rect& area) {
  const float mm = scene.scale.mm(1);
  // What is held against the line: a ruler where the column is long enough for it.
  const bool ruler = area.w >= kRulerMm / mm;
  const float held = ruler ? kRulerMm : kCardMm;
  const std::string says =
      ruler ? words::tr("Hold a ruler to the screen: make the line 100 mm long.")
            : words::tr("Hold a bank card to the screen: make the line as long as it is.");
  const auto lines = canvas.letters().wrapped(Type::body, says, area.w, 2).size();
  canvas.paragraph(area.cut_top(canvas.line_px(Type::body) * static_cast<float>(lines)), says,
                   Type::body, {Role::muted, Role::background}, 2);
  line(canvas, area.cut_top(canvas.px(8)), held, mm);
  area.cut_top(canvas.gap());
  const auto key = [&](const char* id, std::string label, float by, int letter) {
    const float next = mm * by;
    const bool can = next >= kLeastMmPerPx && next <= kMostMmPerPx;
    return look::Button{.id = id,
                        .label = std::move(label),
                        .key_name = letter_name(letter),
                        .keys = {letter},
                        .intent = set(scene, [&](Prefs& p) { p.mm_per_px = next; }),
                        .look = can ? Look::normal : Look::off};
  };
  choice(canvas, row_of(canvas, area),
         {key("device.mm.much-shorter", "– 5 %", 1 + kCoarse, 'G'),
          key("device.mm.shorter", "– ½ %", 1 + kFine, 'H'),
          key("device.mm.longer", "+ ½ %", 1 - kFine, 'I'),
          key("device.mm.much-longer", "+ 5 %", 1 - kCoarse, 'J')});
}

void command(Canvas& canvas, const Scene& scene, Rect at, const char* id, std::string label,
             const std::string& text, int key) {
  constexpr std::size_t kMost = 300;
  text_field(canvas, scene, at,
             {.id = id, .label = std::move(label), .text = text, .most = kMost, .keys = {key}});
}

}  // namespace

void device_page(Canvas& canvas, const Scene& scene, Rect body) {
  Rect left = body.cut_left((body.w - 2 * canvas.gap()) / 2);
  body.cut_left(2 * canvas.gap());
  who(canvas, scene, left);
  theme(canvas, scene, left);
  text_size(canvas, scene, left);
  const bool room = left.h >= canvas.touch();
  if (room) sound(canvas, scene, left);
  calibration(canvas, scene, body);
  command(canvas, scene, row_of(canvas, body), "device.lamp",
          words::tr("Lamp: a command for joints at risk"), scene.view.prefs.lamp, 'K');
  command(canvas, scene, row_of(canvas, body), "device.printer",
          words::tr("Printer: a command for labels"), scene.view.prefs.printer, 'Q');
  if (!room) sound(canvas, scene, body);
}

}  // namespace squeezeout::setup
