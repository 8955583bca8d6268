#include "client/panels/plan_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/words/plan.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;
using plan_ahead::Report;
using plan_ahead::Task;
using State = Report::State;

constexpr float kShiftMm = 20, kShiftGapMm = 3, kKeysMm = 32, kNextMm = 70, kSideMm = 40;
constexpr Ink kQuiet{Role::muted, Role::background};

bool repairing(const Scene& scene) { return scene.view.plan == Task::repair; }

// The report, when it is of what this screen shows.
const Report& report_of(const Scene& scene) {
  return scene.plan.task == scene.view.plan ? scene.plan : plan_ahead::kNothing;
}

void head(Canvas& canvas, Rect at, const Scene& scene, const std::string& sub) {
  Rect text = at.middle(at.w, canvas.line_px(Type::head) + canvas.line_px(Type::body));
  canvas.words(text.cut_top(canvas.line_px(Type::head)),
               repairing(scene) ? "Repair: what lost its place, and as little else as can be"
                                : "Replan: all that has not started",
               Type::head, {});
  canvas.words(text, sub, Type::body, kQuiet);
}

// --- while it is worked out ---

void bar(Canvas& canvas, Rect at, const Report& report) {
  canvas.edge(at, Role::edge, 0.35F);
  if (report.work_most <= 0) return;
  const float part = std::min(
      1.0F, static_cast<float>(report.progress.work) / static_cast<float>(report.work_most));
  canvas.box(at.inset(canvas.px(1)).cut_left((at.w - canvas.px(2)) * part), Role::clamped);
}

void running(Canvas& canvas, Rect area, const Scene& scene, const Report& report) {
  Rect keys = area.cut_bottom(canvas.px(kKeysMm));
  head(canvas, area.cut_top(canvas.touch()), scene,
       "Nothing moves while this is worked out, nor before you accept it.");
  area.cut_top(canvas.px(6));
  const auto& progress = report.progress;
  const std::string tried = in_thousands(progress.tried);
  Rect count = area.cut_top(canvas.cap(Type::giant));
  canvas.figures(count.cut_left(canvas.figures_width(tried, Type::giant)), tried, Type::giant, {});
  count.cut_left(canvas.px(5));
  canvas.words(count.cut_bottom(canvas.cap(Type::title)), "schedules tried", Type::title, kQuiet);
  area.cut_top(canvas.px(6));
  bar(canvas, area.cut_top(canvas.px(8)), report);
  area.cut_top(canvas.px(6));
  const auto line = [&](const char* word, const std::string& said) {
    Rect row = area.cut_top(canvas.line_px(Type::title) * 1.3F);
    canvas.words(row.cut_left(canvas.px(48)), word, Type::body, kQuiet);
    canvas.words(row, said, Type::title, {});
  };
  if (progress.best) {
    const bool proven = *progress.best == progress.lower_bound;
    line("best so far", words::cost(*progress.best));
    line("no plan can beat", proven ? "this one: proven best" : words::cost(progress.lower_bound));
  } else {
    line("best so far", "none yet");
  }
  canvas.button(keys.cut_left(canvas.px(kNextMm)), {.id = "stop",
                                                    .label = "CANCEL",
                                                    .sub = "keeps the best so far",
                                                    .key_name = "Esc",
                                                    .keys = {look::kEscape},
                                                    .intent = StopPlanning{},
                                                    .type = Type::title});
}

// --- what was found ---

std::string how_it_ended(const Report& report) {
  const std::string tried = in_thousands(report.progress.tried) + " schedules";
  const bool counted = report.progress.tried > 0;
  if (report.state == State::stopped)
    return counted ? "Stopped: the best of " + tried + "." : "Stopped: the best until then.";
  if (report.proposal->optimal) return words::proposal(*report.proposal);
  return counted ? "The best of " + tried + "." : words::proposal(*report.proposal);
}

std::string by_how_much(const words::Context& c, const Shift& s, const GlueUp* g) {
  if (!s.from) {
    if (g == nullptr || g->times.stage_begin == s.to.stage_begin) return "at its old time again";
    return "it had " + words::clock(c, g->times.stage_begin);
  }
  const Seconds by = s.to.stage_begin - *s.from;
  if (by == Seconds{0}) return "at its time";
  return by > Seconds{0} ? words::length(by) + " later" : words::length(-by) + " sooner";
}

void shift_row(Canvas& canvas, Rect at, const Scene& scene, const Shift& s) {
  const words::Context c = scene.context();
  const GlueUp* g = scene.floor.glue_up(s.glue_up);
  canvas.box(at, Role::lane);
  Rect row = at.inset(canvas.px(4), canvas.px(2));
  const std::string times = words::from_to(c, s);
  const float wide = canvas.width(Type::head, times);
  canvas.words(row.cut_right(std::min(wide + 1, row.w * 0.55F)), times, Type::head,
               {Role::text, Role::lane}, Align::right);
  row.cut_right(canvas.px(4));
  Rect text = row.middle(row.w, canvas.line_px(Type::title) + canvas.line_px(Type::body));
  const std::string title =
      g == nullptr ? "A glue-up" : words::title(c, *g) + " · " + words::builder(c, g->builder);
  canvas.words(text.cut_top(canvas.line_px(Type::title)), title, Type::title,
               {Role::text, Role::lane});
  std::string sub = by_how_much(c, s, g) + " · off about " + words::clock(c, s.to.release_begin);
  const AdhesiveSheet* sheet = scene.floor.sheet(s.sheet);
  if (g != nullptr && sheet != nullptr && g->sheet != s.sheet)
    sub = "with " + words::small(sheet->name) + " · " + sub;
  canvas.words(text, sub, Type::body, {Role::muted, Role::lane});
}

AdoptPlan adopt(const Proposal& proposal) {
  AdoptPlan out;
  for (const Shift& s : proposal.shifts)
    out.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return out;
}

void keys(Canvas& canvas, Rect at, const Scene& scene, const Report& report) {
  const float gap = canvas.gap();
  const bool moves = report.proposal && !report.proposal->shifts.empty();
  if (moves && !scene.stale())
    canvas.button(at.cut_left(canvas.px(kNextMm)),
                  {.id = "accept",
                   .label = "ACCEPT",
                   .sub = fmt::format("moves {}", report.proposal->shifts.size()),
                   .key_name = "Space",
                   .keys = {' ', look::kEnter},
                   .intent = Ask{adopt(*report.proposal)},
                   .look = Look::key,
                   .type = Type::big});
  if (moves && !scene.stale()) at.cut_left(gap);
  canvas.button(at.cut_left(canvas.px(kSideMm)), {.id = "refuse",
                                                  .label = moves ? "REFUSE" : "Back",
                                                  .sub = moves ? "nothing moves" : "",
                                                  .key_name = "Esc",
                                                  .keys = {look::kEscape, 'X'},
                                                  .intent = RefusePlan{}});
  at.cut_left(gap);
  canvas.button(at.cut_left(canvas.px(kSideMm)), {.id = "again",
                                                  .label = "Plan again",
                                                  .key_name = "R",
                                                  .keys = {'R'},
                                                  .intent = PlanAhead{scene.view.plan}});
}

std::string summary(const Report& report) {
  const Proposal& p = *report.proposal;
  if (p.shifts.empty() && !p.no_place.empty()) return "No time was found for what lost its place.";
  std::string out = how_it_ended(report);
  if (p.before.late != p.after.late)
    out += fmt::format(" Late in all: {} → {}.", words::length(Minutes{p.before.late}),
                       words::length(Minutes{p.after.late}));
  return out;
}

void nothing_moves(Canvas& canvas, Rect area, const Scene& scene, const Report& report) {
  const bool none = report.proposal && report.proposal->no_place.empty();
  const std::string text = !report.proposal   ? "Nothing is being worked out."
                           : !none            ? ""
                           : repairing(scene) ? "Nothing is to be repaired: all has its place."
                           : report.proposal->optimal
                               ? "The plan stands: none is better, and that is proven."
                               : "The plan stands: nothing better was found.";
  canvas.paragraph(area, text, Type::title, kQuiet, 2);
}

// Those for which there is no place at all.
void without_a_place(Canvas& canvas, Rect& area, const Scene& scene, const Proposal& proposal) {
  if (proposal.no_place.empty()) return;
  const words::Context c = scene.context();
  std::string names;
  for (const GlueUpId id : proposal.no_place)
    if (const GlueUp* g = scene.floor.glue_up(id))
      names += (names.empty() ? "" : ", ") + words::title(c, *g);
  const float side = canvas.cap(Type::title) * 1.7F;
  const float tall = canvas.line_px(Type::title) * 1.2F;
  Rect row = proposal.shifts.empty() ? area.cut_top(tall) : area.cut_bottom(tall);
  canvas.warn_tag(row.cut_left(side).middle(side, side));
  row.cut_left(canvas.px(3));
  canvas.words(row, "No place within 60 days: " + names, Type::title, {});
}

void found(Canvas& canvas, Rect area, const Scene& scene, const Report& report) {
  keys(canvas, area.cut_bottom(canvas.px(kKeysMm)), scene, report);
  area.cut_bottom(canvas.gap());
  const bool changed = report.proposal && report.revision != scene.revision;
  Rect top = area.cut_top(canvas.touch());
  area.cut_top(canvas.px(4));
  if (report.proposal) without_a_place(canvas, area, scene, *report.proposal);
  const int all = report.proposal ? static_cast<int>(report.proposal->shifts.size()) : 0;
  const float gap = canvas.px(kShiftGapMm);
  const Page page =
      page_of(all, static_cast<int>((area.h + gap) / (canvas.px(kShiftMm) + gap)), scene.view.page);
  page_keys(canvas, top, page, all);
  std::string sub = report.proposal ? summary(report) : std::string();
  if (changed)
    sub += " The floor has changed since " + words::clock(scene.context(), report.asked_at) + ".";
  head(canvas, top, scene, sub);
  if (all == 0) nothing_moves(canvas, area, scene, report);
  for (int i = 0; i < page.count; ++i) {
    shift_row(canvas, area.cut_top(canvas.px(kShiftMm)), scene,
              report.proposal->shifts[static_cast<std::size_t>(page.first + i)]);
    area.cut_top(gap);
  }
}

}  // namespace

std::string in_thousands(std::int64_t n) {
  std::string out = std::to_string(n);
  for (std::size_t at = out.size(); at > 3; at -= 3) out.insert(at - 3, " ");
  return out;
}

look::Frame lay_out_plan(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  const Rect body = chrome_with_hint(canvas, scene);
  const Report& report = report_of(scene);
  report.state == State::running ? running(canvas, body, scene, report)
                                 : found(canvas, body, scene, report);
  return canvas.take();
}

}  // namespace squeezeout::panels
