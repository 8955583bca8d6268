#include "client/panels/shift_row.h"

#include <array>

#include "client/panels/room.h"
#include "client/words/plan.h"
#include "client/words/say.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

std::string by_how_much(const words::Context& c, const Shift& s, const GlueUp* g) {
  if (!s.from) {
    if (g == nullptr || g->times.stage_begin == s.to.stage_begin)
      return words::tr("at its old time again");
    return words::say("it had {}", words::clock(c, g->times.stage_begin));
  }
  const Seconds by = s.to.stage_begin - *s.from;
  if (by == Seconds{0}) return words::tr("at its time");
  return by > Seconds{0} ? words::say("{} later", words::length(by))
                         : words::say("{} sooner", words::length(-by));
}

}  // namespace

void shift_row(Canvas& canvas, Rect at, const Scene& scene, const Shift& s) {
  const words::Context c = scene.context();
  const GlueUp* g = scene.floor.glue_up(s.glue_up);
  canvas.box(at, Role::lane);
  Rect row = at.inset(canvas.px(4), canvas.px(2));
  const std::string times = words::from_to(c, s);
  const float wide = canvas.width(Type::head, times);
  canvas.words(row.cut_right(std::min(wide + 1, row.w * 0.5F)), times, Type::head,
               {Role::text, Role::lane}, Align::right);
  row.cut_right(canvas.px(4));
  Rect text = row.middle(row.w, canvas.line_px(Type::title) + canvas.line_px(Type::body));
  const std::string title = g == nullptr ? words::tr("A glue-up") : words::title(c, *g);
  std::vector<std::string> titles{title};
  if (g != nullptr) {
    titles.insert(titles.begin(), title + " · " + words::builder(c, g->builder));
    titles.push_back(words::recipe(c, g->recipe));
  }
  canvas.one_of(text.cut_top(canvas.line_px(Type::title)), titles, Type::title,
                {Role::text, Role::lane});
  const AdhesiveSheet* sheet = scene.floor.sheet(s.sheet);
  const bool other_glue = g != nullptr && sheet != nullptr && g->sheet != s.sheet;
  const std::array pieces{
      other_glue ? words::say("with {}", words::small(sheet->name)) : std::string(),
      by_how_much(c, s, g), words::say("off about {}", words::clock(c, s.to.release_begin))};
  canvas.words(text, pieces_that_fit(canvas, Type::small, text.w, pieces), Type::body,
               {Role::muted, Role::lane});
}

}  // namespace squeezeout::panels
