#include "client/help/help_model.h"

#include <algorithm>

#include "client/help/help_words.h"
#include "client/look/key_name.h"
#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::help {
namespace {

using look::Canvas;
using look::Fill;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr Ink kPlain{Role::text, Role::background}, kQuiet{Role::muted, Role::background};
constexpr float kSwatchMm = 7;

// One thing that is told: a heading, a sentence, a key with what it does, or a mark with what it means.
struct Item {
  enum class Kind { heading, sentence, key, mark, over } kind = Kind::sentence;
  std::string text, key = {};
  PhaseLook look = {};
};

void keys_of(std::vector<Item>& out, const look::Frame& beneath) {
  out.push_back({Item::Kind::heading, words::tr("Keys and buttons")});
  std::string back = words::tr("back to the bench"), back_keys = look::key_name(look::kEscape);
  std::size_t by_arrows = 0;
  for (const look::Press& p : beneath.presses) {
    if (p.id.starts_with("tab.") || p.id == "help") continue;
    if (p.keys.empty()) {
      ++by_arrows;
      continue;
    }
    std::string names;
    for (const int key : p.keys) names += (names.empty() ? "" : " ") + look::key_name(key);
    if (std::find(p.keys.begin(), p.keys.end(), look::kEscape) != p.keys.end()) {
      back = p.label, back_keys = names;
      continue;
    }
    out.push_back({Item::Kind::key, p.label, names});
  }
  if (by_arrows > 0)
    out.push_back(
        {Item::Kind::key,
         words::say_n(by_arrows, "the tile or row that has no letter", "one of {} tiles and rows"),
         words::tr("arrows Enter")});
  out.push_back({Item::Kind::key, words::tr("the screens in the bar above"), "1 - 8"});
  out.push_back({Item::Kind::key, back, back_keys});
}

void legend(std::vector<Item>& out, Screen screen) {
  const std::vector<std::string> more = marks(screen);
  const bool phases = draws(screen) == Draws::phases;
  if (!phases && more.empty()) return;
  out.push_back({Item::Kind::heading, words::tr("Marks")});
  if (phases) {
    const auto mark = [&](Phase phase, std::string text) {
      out.push_back({Item::Kind::mark, std::move(text), "", look_of(phase)});
    };
    mark(Phase::planned, words::tr("planned: it starts at the time shown"));
    mark(Phase::open, words::tr("glue wet: the clamps go on before its open time is over"));
    mark(Phase::clamped, words::tr("clamped: off at the time shown, it holds its gear till then"));
    mark(Phase::waiting, words::tr("waiting: no gear held, not to be worked yet"));
    mark(Phase::ready, words::tr("ready: to be scraped, or whatever comes next"));
    out.push_back({Item::Kind::over, words::tr("amber: past its time, somebody is needed")});
  }
  for (const std::string& text : more) out.push_back({Item::Kind::sentence, text});
}

void live(std::vector<Item>& out) {
  out.push_back({Item::Kind::heading, words::tr("Live or not")});
  out.push_back({Item::Kind::sentence,
                 words::tr("NOT LIVE: the server is not heard. Times of others are plans, your own "
                           "card goes on counting.")});
  out.push_back({Item::Kind::sentence,
                 words::tr("What happened, as Clamps off, is kept with its time and sent later. "
                           "What asks, as RESERVE, is to be pressed again.")});
}

std::vector<Item> items(const Scene& scene, const look::Frame& beneath) {
  std::vector<Item> out;
  for (const std::string& sentence : purpose(scene.view.screen))
    out.push_back({Item::Kind::sentence, sentence});
  keys_of(out, beneath);
  legend(out, scene.view.screen);
  live(out);
  return out;
}

float key_px(const Canvas& canvas) {
  return std::max(canvas.width(Type::strong, "Space Enter"),
                  canvas.width(Type::strong, words::tr("arrows Enter"))) +
         canvas.px(4);
}

float text_px(const Canvas& canvas, float width, const Item& item) {
  const int most = 6;
  const auto tall = [&](Type type, float w) {
    const auto lines = canvas.letters().wrapped(type, item.text, w, most).size();
    return canvas.line_px(type) * static_cast<float>(lines);
  };
  switch (item.kind) {
    case Item::Kind::heading:
      return canvas.line_px(Type::title) + canvas.px(2);
    case Item::Kind::sentence:
      return tall(Type::body, width) + canvas.px(1.5F);
    case Item::Kind::key:
      return std::max(tall(Type::body, width - key_px(canvas)), canvas.line_px(Type::strong));
    case Item::Kind::mark:
    case Item::Kind::over:
      return std::max(tall(Type::body, width - canvas.px(kSwatchMm + 4)), canvas.px(kSwatchMm + 2));
  }
  CHECK(!"an item outside the enumeration");
}

void mark_of(Canvas& canvas, Rect at, const Item& item) {
  if (item.kind == Item::Kind::over) {
    canvas.box(at, Role::amber);
    canvas.edge(at, Role::keyline, 0.35F);
    return;
  }
  const PhaseLook& look = item.look;
  const bool icon = look.icon == PhaseLook::Icon::yes;
  canvas.box(at, look.ground);
  if (look.pattern != Fill::none) canvas.box(at, look.pattern_ink, look.pattern);
  canvas.edge(at, Role::edge, 0.35F, icon ? look::Line::solid : look::Line::dashed);
  if (!icon) return;
  const float side = at.h * 0.56F;
  const Rect plate = at.middle(side, side);
  if (look.pattern != Fill::none) canvas.box(plate.inset(-side * 0.14F), look.ground);
  canvas.icon(look.glyph, plate, look.on);
}

void item_of(Canvas& canvas, Rect at, const Item& item) {
  switch (item.kind) {
    case Item::Kind::heading:
      at.cut_top(canvas.px(2));
      canvas.words(at, item.text, Type::title, kPlain);
      return;
    case Item::Kind::sentence:
      canvas.paragraph(at, item.text, Type::body, kPlain, 6);
      return;
    case Item::Kind::key: {
      Rect key = at.cut_left(key_px(canvas));
      canvas.words(key.cut_top(canvas.line_px(Type::strong)), item.key, Type::strong, kPlain);
      canvas.paragraph(at, item.text, Type::body, kQuiet, 6);
      return;
    }
    case Item::Kind::mark:
    case Item::Kind::over: {
      const float side = canvas.px(kSwatchMm);
      mark_of(canvas, at.cut_left(side).middle(side, side), item);
      at.cut_left(canvas.px(4));
      const auto lines = canvas.letters().wrapped(Type::body, item.text, at.w, 6).size();
      canvas.paragraph(at.middle(at.w, canvas.line_px(Type::body) * static_cast<float>(lines)),
                       item.text, Type::body, kPlain, 6);
      return;
    }
  }
}

}  // namespace

look::Frame lay_out_help(const Scene& scene, const look::Frame& beneath) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(2));
  canvas.button(head.cut_right(std::max(canvas.touch(), canvas.px(30))),
                {.id = "help.close",
                 .label = words::tr("Close"),
                 .key_name = "Esc",
                 .keys = {look::kEscape},
                 .intent = ShowHelp{Help::closed}});
  head.cut_right(canvas.gap());

  const int columns = body.w > canvas.px(440) ? 3 : panels::narrow(canvas) ? 1 : 2;
  const float apart = canvas.px(10);
  const float width =
      (body.w - apart * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const std::vector<Item> all = items(scene, beneath);
  std::vector<float> heights;
  for (const Item& item : all) heights.push_back(text_px(canvas, width, item));
  const int filled = panels::page_of(heights, body.h, 0).pages;
  const panels::Page page = panels::page_of(filled, columns, scene.view.help_page);
  int told = 0;
  for (int i = 0; i < page.count; ++i) {
    const panels::Page column = panels::page_of(heights, body.h, page.first + i);
    Rect at = body.cut_left(width);
    body.cut_left(apart);
    for (int n = column.first; n < column.first + column.count; ++n)
      item_of(canvas, at.cut_top(heights[static_cast<std::size_t>(n)]),
              all[static_cast<std::size_t>(n)]);
    told = column.first + column.count;
  }
  panels::Page keys = page;
  keys.first = told, keys.count = 0;
  panels::page_keys(canvas, head, keys, static_cast<int>(all.size()));
  canvas.words(head, name_of(scene.view.screen), Type::head, {});
  return canvas.take();
}

}  // namespace squeezeout::help
