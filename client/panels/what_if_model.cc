#include "client/panels/what_if_model.h"

#include <algorithm>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/plan.h"
#include "client/words/say.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;
using plan_ahead::Report;
using State = Report::State;

constexpr float kRowMm = 16, kRowGapMm = 2;
constexpr Ink kQuiet{Role::muted, Role::background};

// How much was looked at, and what it is worth; in full and in short.
std::vector<std::string> basis(const Scene& scene, const Report& report) {
  if (report.state == State::running) {
    if (report.steps_most == 0) return {words::tr("Working it out.")};
    return {words::say("Working it out: {} of {} tried.", report.steps, report.steps_most)};
  }
  if (report.what_if.empty()) return {""};
  const words::Context c = scene.context();
  const int glue_ups = report.what_if.front().glue_ups;
  const std::string number = words::number(glue_ups, words::tr("glue-up"));
  const std::string days =
      words::say("{} from {} to {} placed again", number, words::day(c, report.demand.begin),
                 words::day(c, report.demand.end));
  const bool little = glue_ups < kLittleDemand, all = report.state == State::done;
  const auto with = [&](const std::string& said) {
    const std::string out = little ? words::say("{}: few, so this says little.", said)
                                   : words::say("{}, each with one change.", said);
    return all ? out : words::say("{} Not all was tried.", out);
  };
  return {with(days), with(number), all ? number : words::say("{}. Not all was tried.", number)};
}

void row_of(Canvas& canvas, Rect at, const Scene& scene, const WhatIf& w, Seconds most) {
  const words::Context c = scene.context();
  const bool saves = w.saved() >= Minutes{1};
  canvas.box(at, Role::lane);
  // How it compares with the first, as a length under the words.
  if (saves && most > Seconds{0}) {
    const float part =
        std::min(1.0F, static_cast<float>(w.saved().count()) / static_cast<float>(most.count()));
    canvas.box(Rect{at.x, at.bottom() - canvas.px(1.4F), at.w * part, canvas.px(1.4F)},
               Role::clamped);
  }
  Rect row = at.inset(canvas.px(4), canvas.px(1.4F));
  const Role ink = saves ? Role::text : Role::muted;
  if (narrow(canvas)) {  // what it counted below what it saves
    Rect right = row.cut_right(row.w * 0.56F);
    const Rect counted = right.cut_bottom(right.h * 0.5F);
    canvas.words(counted, words::counted(w), Type::body, {Role::muted, Role::lane});
    canvas.words(right, words::saving(w), Type::strong, {ink, Role::lane});
  } else {
    canvas.words(row.cut_right(row.w * 0.36F), words::counted(w), Type::body,
                 {Role::muted, Role::lane}, Align::right);
    row.cut_right(canvas.px(4));
    canvas.words(row.cut_right(row.w * 0.42F), words::saving(w), Type::title, {ink, Role::lane});
  }
  row.cut_right(canvas.px(4));
  canvas.words(row, words::change(c, w.change), Type::title, {ink, Role::lane});
}

std::string empty_words(const Report& report) {
  switch (report.state) {
    case State::idle:
      return words::tr("Press R to work out what more gear or longer hours would save.");
    case State::running:
      return words::tr(
          "Every glue-up on record and ahead is placed again, with one thing changed at a time.");
    case State::stopped:
      return words::tr("Stopped before the first change was tried. Work out again begins anew.");
    case State::out_of_time:
      return words::tr(
          "The time was over before the first change was tried: there is much to place again. "
          "Work out again when this machine has less to do.");
    case State::done:
      break;
  }
  return words::tr(
      "Nothing is on record yet to be placed again. Come back when the shop has glued for a few "
      "days.");
}

}  // namespace

look::Frame lay_out_what_if(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  const Report& report = scene.what_if;
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(narrow(canvas) ? 2 : 4));
  const bool replayed = !report.what_if.empty() && report.what_if.front().glue_ups > 0;
  const int all = replayed ? static_cast<int>(report.what_if.size()) : 0;
  const float gap = canvas.px(kRowGapMm);
  const Page page =
      page_of(all, static_cast<int>((body.h + gap) / (canvas.px(kRowMm) + gap)), scene.view.page);
  if (report.state != State::running) {
    canvas.button(head.cut_right(canvas.px(34)),
                  {.id = "again",
                   .label = report.state == State::idle ? words::tr("Work it out")
                                                        : words::tr("Work out again"),
                   .key_name = "R",
                   .keys = {'R'},
                   .intent = PlanAhead{plan_ahead::Task::what_if}});
    head.cut_right(canvas.gap());
  }
  page_keys(canvas, head, page, all);
  Rect text = head.middle(head.w, std::min(head.h, heading_px(canvas)));
  const Rect foot = text.cut_bottom(std::max(canvas.line_px(Type::body), text.h * 0.45F));
  canvas.words(text, words::tr("What would save waiting"), Type::head, {});
  canvas.one_of(foot, basis(scene, report), Type::body, kQuiet);
  if (all == 0) canvas.paragraph(body, empty_words(report), Type::title, kQuiet, 4);
  for (int i = 0; i < page.count; ++i) {
    row_of(canvas, body.cut_top(canvas.px(kRowMm)), scene,
           report.what_if[static_cast<std::size_t>(page.first + i)],
           report.what_if.front().saved());
    body.cut_top(gap);
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
