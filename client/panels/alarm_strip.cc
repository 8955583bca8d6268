#include "client/panels/alarm_strip.h"

#include "client/alarm/alarm_words.h"
#include "client/words/say.h"

namespace squeezeout::panels {

using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

bool alarm_takes_the_foot(const Scene& scene) {
  if (scene.alarms.alarms.empty()) return false;
  return alarm::ringing(scene.alarms) || !scene.view.message;
}

namespace {

void words_of(Canvas& canvas, Rect line, const alarm::Line& said, Ink what, Ink next) {
  const bool roomy = canvas.width(Type::title, said.what) <= line.w &&
                     canvas.width(Type::strong, said.next) <= line.w;
  if (const float both = canvas.line_px(Type::title) + canvas.line_px(Type::strong);
      roomy && both <= line.h) {
    Rect text = line.middle(line.w, both);
    canvas.words(text.cut_top(canvas.line_px(Type::title)), said.what, Type::title, what);
    canvas.words(text, said.next, Type::strong, next);
    return;
  }
  const auto tall = [&](const std::string& text, Type type) {
    return static_cast<float>(canvas.letters().wrapped(type, text, line.w, 2).size()) *
           canvas.line_px(type);
  };
  const float wanted = tall(said.what, Type::strong) + tall(said.next, Type::body);
  Rect text = line.middle(line.w, std::min(line.h, wanted));
  text.cut_top(canvas.paragraph(text, said.what, Type::strong, what, 2));
  canvas.paragraph(text, said.next, Type::body, next, 2);
}

}  // namespace

void alarm_strip(Canvas& canvas, const Scene& scene, Rect at) {
  const bool loud = alarm::ringing(scene.alarms);
  const Role ground = loud ? Role::amber : Role::lane;
  const float gap = canvas.gap();
  const bool last = at.right() + gap * 1.1F >= scene.width;  // nothing stands right of it
  const Rect whole{at.x - gap, at.y - gap / 2, at.w + gap * (last ? 2.0F : 1.5F), at.h + gap};
  canvas.box(whole, ground);
  if (loud) canvas.edge(whole, Role::keyline, 0.35F);
  Rect line = at;
  canvas.button(line.cut_right(canvas.px(30)), {.id = "quiet",
                                                .label = words::tr("Quiet"),
                                                .key_name = "9",
                                                .keys = {'9'},
                                                .intent = Quiet{},
                                                .on = Role::lane});
  line.cut_right(canvas.gap());
  const GlueUpId id = scene.alarms.alarms.front().glue_up;
  const bool there = scene.view.screen == Screen::card && scene.view.glue_up == id;
  if (!there && !alarm::too_many(scene.alarms)) {
    canvas.button(line.cut_right(canvas.px(30)), {.id = "alarm.card",
                                                  .label = words::tr("Go to it"),
                                                  .intent = Go{Screen::card, id},
                                                  .on = Role::lane});
    line.cut_right(canvas.gap());
  }
  const float side = canvas.cap(Type::title) * 1.7F;
  const Rect tag = line.cut_left(side).middle(side, side);
  if (loud)
    canvas.icon(look::Glyph::warn, tag, Role::on_amber);
  else
    canvas.warn_tag(tag);
  line.cut_left(canvas.px(3));
  const Role ink = loud ? Role::on_amber : Role::text;
  words_of(canvas, line, alarm::line_of(scene.context(), scene.alarms), {ink, ground},
           {loud ? Role::on_amber : Role::muted, ground});
}

}  // namespace squeezeout::panels
