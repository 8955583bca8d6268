#include "client/panels/what_if_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/words/plan.h"

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

// How much was looked at, and what it is worth.
std::string basis(const Scene& scene, const Report& report) {
  if (report.state == State::running)
    return report.steps_most == 0
               ? std::string("Working it out.")
               : fmt::format("Working it out: {} of {} tried.", report.steps, report.steps_most);
  if (report.what_if.empty()) return "";
  const words::Context c = scene.context();
  std::string out = fmt::format(
      "{} from {} to {} placed again", words::number(report.what_if.front().glue_ups, "glue-up"),
      words::day(c, report.demand.begin), words::day(c, report.demand.end));
  out += report.what_if.front().glue_ups < kLittleDemand ? ": few, so this says little."
                                                         : ", each with one change.";
  if (report.state != State::done) out += " Not all was tried.";
  return out;
}

void row_of(Canvas& canvas, Rect at, const Scene& scene, const WhatIf& w, Seconds most) {
  const words::Context c = scene.context();
  const bool saves = w.saved() >= Minutes{1};
  canvas.box(at, Role::lane);
  // How it compares with the first, as a length under the words.
  if (saves && most > Seconds{0}) {
    const float part = static_cast<float>(w.saved().count()) / static_cast<float>(most.count());
    canvas.box(Rect{at.x, at.bottom() - canvas.px(1.4F), at.w * part, canvas.px(1.4F)},
               Role::clamped);
  }
  Rect row = at.inset(canvas.px(4), canvas.px(1.4F));
  const Role ink = saves ? Role::text : Role::muted;
  canvas.words(row.cut_right(row.w * 0.34F), words::counted(w), Type::body,
               {Role::muted, Role::lane}, Align::right);
  row.cut_right(canvas.px(4));
  canvas.words(row.cut_right(row.w * 0.46F), words::saving(w), Type::title, {ink, Role::lane});
  row.cut_right(canvas.px(4));
  canvas.words(row, words::change(c, w.change), Type::title, {ink, Role::lane});
}

const char* empty_words(const Report& report) {
  switch (report.state) {
    case State::idle:
      return "Press R to work out what more gear or longer hours would save.";
    case State::running:
      return "Every glue-up on record and ahead is placed again, with one thing changed at a time.";
    default:
      return "Nothing is on record yet to be placed again. Come back when the shop has glued for a "
             "few days.";
  }
}

}  // namespace

look::Frame lay_out_what_if(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  const Report& report = scene.what_if;
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(4));
  const bool replayed = !report.what_if.empty() && report.what_if.front().glue_ups > 0;
  const int all = replayed ? static_cast<int>(report.what_if.size()) : 0;
  const float gap = canvas.px(kRowGapMm);
  const Page page =
      page_of(all, static_cast<int>((body.h + gap) / (canvas.px(kRowMm) + gap)), scene.view.page);
  if (report.state != State::running) {
    canvas.button(head.cut_right(canvas.px(34)),
                  {.id = "again",
                   .label = report.state == State::idle ? "Work it out" : "Work out again",
                   .key_name = "R",
                   .keys = {'R'},
                   .intent = PlanAhead{plan_ahead::Task::what_if}});
    head.cut_right(canvas.gap());
  }
  page_keys(canvas, head, page, all);
  Rect text = head.middle(head.w, canvas.line_px(Type::head) + canvas.line_px(Type::body));
  canvas.words(text.cut_top(canvas.line_px(Type::head)), "What would save waiting", Type::head, {});
  canvas.words(text, basis(scene, report), Type::body, kQuiet);
  if (all == 0) canvas.paragraph(body, empty_words(report), Type::title, kQuiet, 2);
  for (int i = 0; i < page.count; ++i) {
    row_of(canvas, body.cut_top(canvas.px(kRowMm)), scene,
           report.what_if[static_cast<std::size_t>(page.first + i)],
           report.what_if.front().saved());
    body.cut_top(gap);
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
