#include "client/bench/joint_column.h"

#include <fmt/format.h>

#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/craft.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kGlueMm = 23;
constexpr int kGlueColumns = 2;
constexpr Ink kPlain{Role::text, Role::background};

SheetId sheet_or_first(const Recipe& recipe, SheetId sheet) {
  if (sheet) return sheet;
  return recipe.glues.empty() ? SheetId{} : recipe.glues.front();
}
SheetId chosen_sheet(const Scene& scene, const Recipe& recipe) {
  return sheet_or_first(recipe, scene.view.wanted.sheet);
}

std::string fitness_words(const Fitness& f) {
  const std::string why = words::worst_reason(f), verdict = words::verdict(f.verdict);
  return why.empty() ? verdict : words::say("{}, {}", verdict, why);
}

// A glue that does not suit is edged with dashes, beside its words.
void glue_tile(Canvas& canvas, Rect at, const Scene& scene, const Fitness& f, SheetId chosen,
               char letter) {
  const AdhesiveSheet* sheet = scene.floor.sheet(f.sheet);
  if (sheet == nullptr) return;
  const bool is_chosen = f.sheet == chosen, suits = f.verdict <= Verdict::warn;
  const Role ground = is_chosen ? Role::panel : Role::background;
  canvas.box(at, ground);
  canvas.edge(at, is_chosen ? Role::text : Role::edge, is_chosen ? 1.0F : 0.35F,
              suits ? look::Line::solid : look::Line::dashed);
  Rect inside = at.inset(canvas.px(3), canvas.px(2));
  Rect name = inside.cut_top(canvas.line_px(Type::strong));
  canvas.words(name.cut_right(canvas.width(Type::small, "W") + 1), std::string(1, letter),
               Type::small, {Role::muted, ground}, Align::right);
  name.cut_right(canvas.px(2));
  canvas.words(name, sheet->name, Type::strong, {suits ? Role::text : Role::muted, ground});
  // A reason that has no room stands among the figures; the verdict stands here anyhow.
  const std::string said = fitness_words(f);
  const auto lines = canvas.letters().wrapped(Type::small, said, inside.w, 2);
  canvas.paragraph(inside, said.ends_with(lines.back()) ? said : words::verdict(f.verdict),
                   Type::small, {Role::muted, ground}, 2);
  Reserve wanted = scene.view.wanted;
  wanted.sheet = f.sheet;
  canvas.press({"glue." + sheet->key, sheet->name, at, {letter}, Pick{wanted}, look::Kind::button});
}

panels::Page page_of_glues(const Canvas& canvas, Rect area, const Scene& scene,
                           const Offer& offer) {
  const bool roomy = area.h > canvas.px(180);
  const int all = offer.joint ? static_cast<int>(offer.joint->glues.size()) : 0;
  return panels::page_of(all, kGlueColumns * (roomy ? 3 : 2), scene.view.page);
}

void glues(Canvas& canvas, Rect& area, const Scene& scene, const Recipe& recipe,
           const Offer& offer) {
  const float gap = canvas.gap(), height = canvas.px(kGlueMm);
  const panels::Page page = page_of_glues(canvas, area, scene, offer);
  const float width = (area.w - gap) / kGlueColumns;
  for (int i = 0; i < page.count; i += kGlueColumns) {
    Rect row = area.cut_top(height);
    area.cut_top(gap);
    for (int j = i; j < std::min(i + kGlueColumns, page.count); ++j) {
      glue_tile(canvas, row.cut_left(width), scene,
                offer.joint->glues[static_cast<std::size_t>(page.first + j)],
                chosen_sheet(scene, recipe), static_cast<char>('A' + j));
      row.cut_left(gap);
    }
  }
}

// "open 4 min · you take 4 min · clamped 1 h · work after 12 h"
std::string times_words(const JointAnswer& answer) {
  std::string out;
  const auto length = [&](FigureOf of) -> std::optional<std::string> {
    const Figure* f = figure_of(answer, of);
    if (f == nullptr) return std::nullopt;
    return words::exact(Seconds{static_cast<std::int64_t>(f->band.value)});
  };
  const auto add = [&](const std::string& said) { out += (out.empty() ? "" : " · ") + said; };
  if (const auto s = length(FigureOf::open_time)) add(words::say("open {}", *s));
  if (const auto s = length(FigureOf::assembly)) add(words::say("you take {}", *s));
  if (const auto s = length(FigureOf::dwell)) add(words::say("clamped {}", *s));
  if (const auto s = length(FigureOf::wait)) add(words::say("work after {}", *s));
  return out;
}

// What the craft computes, and what the recipe asks for where there is nothing to compute.
std::vector<std::string> gear_lines(const Scene& scene, const Recipe& recipe,
                                    const JointAnswer* answer) {
  std::vector<std::string> out;
  if (answer != nullptr)
    for (const Figure& f : answer->figures)
      if (f.of == FigureOf::clamps) out.push_back(words::figure(scene.context(), f));
  const bool computed = !out.empty();
  for (const GearNeed& need : recipe.needs) {
    const bool pressed =
        need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
    if (!computed || !pressed) out.push_back(words::need(scene.context(), need));
  }
  return out;
}

// Lines that find no room above `floor_px` are left out: they stand among the figures.
void gear(Canvas& canvas, Rect& area, float floor_px, const Scene& scene, const Recipe& recipe,
          const Offer& offer) {
  const auto lines = gear_lines(scene, recipe, offer.joint ? &*offer.joint : nullptr);
  const auto say = [&](const std::string& line, Ink ink) {
    const auto wrapped = canvas.letters().wrapped(Type::body, line, area.w, 2);
    const bool whole = line.ends_with(wrapped.back());
    const float tall = canvas.line_px(whole ? Type::body : Type::small) *
                       static_cast<float>(whole ? wrapped.size() : 3);
    if (area.h - tall < floor_px) return;
    Rect at = area;
    at.h = tall;
    area.cut_top(canvas.paragraph(at, line, Type::body, ink, 3));
  };
  for (const std::string& line : lines) say(line, kPlain);
  if (lines.empty()) say(words::tr("no gear"), kPlain);
  if (offer.quote && !offer.quote->slot.held.empty())
    say(words::say("met by {}", words::gear(scene.context(), offer.quote->slot.held)),
        {Role::muted, Role::background});
}

// A sentence to mind, set smaller where that saves a line.
struct Minded {
  Type type = Type::body;
  float tall = 0;
};
Minded minded(const Canvas& canvas, float width, const std::string& text) {
  const float side = canvas.cap(Type::body) * 1.6F + canvas.px(2);
  const auto lines = [&](Type type) {
    return canvas.letters().wrapped(type, text, width - side, 5).size();
  };
  const Type type = lines(Type::small) < lines(Type::body) ? Type::small : Type::body;
  return {type, canvas.line_px(type) * static_cast<float>(lines(type))};
}

void all_cautions(Canvas& canvas, Rect& area, const std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const bool last = i + 1 == lines.size();
    const float left = last ? 0 : canvas.line_px(Type::body);  // for "+N more"
    Rect room = area;
    room.cut_bottom(left);
    if (caution_line(canvas, room, lines[i]) == Room::none) {
      canvas.words(area.cut_top(canvas.line_px(Type::body)),
                   words::say("+{} more: see Why these figures", lines.size() - i), Type::body,
                   kPlain);
      return;
    }
    area = {room.x, room.y, room.w, room.h + left};
  }
}

}  // namespace

std::vector<std::string> cautions(const words::Context& c, const Recipe& recipe, SheetId sheet,
                                  const JointAnswer* answer) {
  std::vector<std::string> out;
  if (!recipe.caution.empty()) out.push_back(recipe.caution);
  const AdhesiveSheet* of = c.floor.sheet(sheet_or_first(recipe, sheet));
  if (of != nullptr && !of->caution.empty()) out.push_back(of->caution);
  if (answer != nullptr)
    for (const Caution caution : answer->cautions) out.push_back(words::caution(c, caution));
  return out;
}

Room caution_line(Canvas& canvas, Rect& area, const std::string& text) {
  const Minded said = minded(canvas, area.w, text);
  if (area.h < said.tall) return Room::none;
  const float side = canvas.cap(Type::body) * 1.6F;
  Rect row = area.cut_top(said.tall);
  area.cut_top(canvas.px(1));
  const Rect tag{row.x, row.y, side, canvas.line_px(said.type)};
  canvas.icon(look::Glyph::warn, tag.middle(side, side), Role::red);
  row.cut_left(side + canvas.px(2));
  canvas.paragraph(row, text, said.type, kPlain, 5);
  return Room::enough;
}

void glue_pages(Canvas& canvas, Rect& head, Rect below, const Scene& scene, const Offer& offer) {
  const int all = offer.joint ? static_cast<int>(offer.joint->glues.size()) : 0;
  panels::page_keys(canvas, head, page_of_glues(canvas, below, scene, offer), all);
}

void joint_column(Canvas& canvas, Rect at, const Scene& scene, const Recipe& recipe,
                  const Offer& offer) {
  const JointAnswer* answer = offer.joint ? &*offer.joint : nullptr;
  if (recipe.glues.empty())
    canvas.words(at.cut_top(canvas.px(10)), words::tr("Without glue"), Type::title, {});
  else if (answer != nullptr)
    glues(canvas, at, scene, recipe, offer);
  if (answer != nullptr)
    at.cut_top(canvas.paragraph(at, times_words(*answer), Type::body, kPlain, 2));
  // What to mind has its place before how the gear was computed.
  const std::vector<std::string> mind =
      cautions(scene.context(), recipe, scene.view.wanted.sheet, answer);
  float needed = canvas.px(2);
  for (const std::string& caution : mind)
    needed += minded(canvas, at.w, caution).tall + canvas.px(1);
  gear(canvas, at, std::min(needed, at.h * 0.75F), scene, recipe, offer);
  at.cut_top(canvas.px(2));
  all_cautions(canvas, at, mind);
}

}  // namespace squeezeout::bench
