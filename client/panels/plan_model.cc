#include "client/panels/plan_model.h"

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/panels/shift_row.h"
#include "client/words/plan.h"
#include "client/words/say.h"

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

constexpr float kShiftMm = 20, kShiftGapMm = 3, kKeysMm = 32, kNarrowKeysMm = 22, kNextMm = 70,
                kAwayMm = 62, kSideMm = 40;
constexpr Ink kQuiet{Role::muted, Role::background};

bool repairing(const Scene& scene) { return scene.view.plan == Task::repair; }

// The report, when it is of what this screen shows.
const Report& report_of(const Scene& scene) {
  return scene.plan.task == scene.view.plan ? scene.plan : plan_ahead::kNothing;
}

// The first of `subs` that has room.
void head(Canvas& canvas, Rect at, const Scene& scene, const std::vector<std::string>& subs) {
  Rect text = at.middle(at.w, std::min(at.h, heading_px(canvas)));
  const Rect foot = text.cut_bottom(std::max(canvas.line_px(Type::body), text.h * 0.45F));
  const std::vector<std::string> titles =
      repairing(scene)
          ? std::vector{words::tr("Repair: what lost its place, and as little else as can be"),
                        words::tr("Repair")}
          : std::vector{words::tr("Replan: all that has not started"), words::tr("Replan")};
  canvas.one_of(text, titles, Type::head, {});
  canvas.one_of(foot, subs, Type::body, kQuiet);
}

// The keys at the foot, at the same places whatever they say: what takes the plan, what puts it away, the rest.
struct Keys {
  Rect take, away, rest;
};
Keys cut_keys(Canvas& canvas, Rect& area) {
  const float gap = canvas.gap();
  Rect at = area.cut_bottom(next_px(canvas, narrow(canvas) ? kNarrowKeysMm : kKeysMm));
  area.cut_bottom(gap);
  Keys out;
  out.take = at.cut_left(canvas.px(kNextMm));
  at.cut_left(gap);
  out.away = at.cut_left(canvas.px(kAwayMm));
  at.cut_left(gap);
  out.rest = at;
  return out;
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
  const Keys keys = cut_keys(canvas, area);
  head(canvas, area.cut_top(canvas.touch()), scene,
       {words::tr("Nothing moves while this is worked out, nor before you accept it.")});
  const float apart = canvas.px(narrow(canvas) ? 3 : 6);
  area.cut_top(apart);
  const auto& progress = report.progress;
  const std::string tried = in_thousands(progress.tried);
  Rect count = area.cut_top(canvas.cap(Type::giant));
  canvas.figures(count.cut_left(canvas.figures_width(tried, Type::giant)), tried, Type::giant, {});
  count.cut_left(canvas.px(5));
  canvas.words(count.cut_bottom(canvas.cap(Type::title)), words::tr("schedules tried"), Type::title,
               kQuiet);
  area.cut_top(apart);
  bar(canvas, area.cut_top(canvas.px(6)), report);
  area.cut_top(apart);
  const float word_w = std::max(
      canvas.px(48), canvas.width(Type::body, words::tr("no plan can beat")) + canvas.px(4));
  const auto line = [&](const std::string& word, const std::string& said) {
    Rect row = area.cut_top(canvas.line_px(Type::title) * 1.2F);
    canvas.words(row.cut_left(word_w), word, Type::body, kQuiet);
    canvas.words(row, said, Type::title, {});
  };
  if (progress.best) {
    const bool proven = *progress.best == progress.lower_bound;
    line(words::tr("best so far"), words::cost(*progress.best));
    line(words::tr("no plan can beat"),
         proven ? words::tr("this one: proven best") : words::cost(progress.lower_bound));
  } else {
    line(words::tr("best so far"), words::tr("none yet"));
  }
  key(canvas, keys.take,
      {.id = "accept",
       .label = words::tr("ACCEPT"),
       .sub = words::tr("when it is worked out"),
       .look = Look::off,
       .type = Type::big});
  key(canvas, keys.away,
      {.id = "stop",
       .label = words::tr("CANCEL"),
       .sub = words::tr("keeps the best so far"),
       .key_name = "Esc",
       .keys = {look::kEscape, 'X'},
       .intent = StopPlanning{},
       .type = Type::title});
}

// --- what was found ---

std::string how_it_ended(const Report& report) {
  const std::string tried = in_thousands(report.progress.tried);
  const bool counted = report.progress.tried > 0;
  if (report.state == State::stopped)
    return counted ? words::say("Stopped: the best of {} schedules tried.", tried)
                   : words::tr("Stopped: the best until then.");
  if (report.proposal->optimal) return words::proposal(*report.proposal);
  return counted ? words::say("The best of {} schedules tried.", tried)
                 : words::proposal(*report.proposal);
}

AdoptPlan adopt(const Proposal& proposal) {
  AdoptPlan out;
  for (const Shift& s : proposal.shifts)
    out.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return out;
}

// Esc goes back and keeps the plan: it is looked at again from the snags and the board.
void found_keys(Canvas& canvas, const Keys& keys, const Scene& scene, const Report& report) {
  const bool moves = report.proposal && !report.proposal->shifts.empty();
  if (moves)
    key(canvas, keys.take,
        {.id = "accept",
         .label = words::tr("ACCEPT"),
         .sub = scene.stale() ? words::tr("not live")
                              : words::say("moves {}", report.proposal->shifts.size()),
         .key_name = "Space",
         .keys = {' ', look::kEnter},
         .intent = Ask{adopt(*report.proposal)},
         .look = scene.stale() ? Look::off : Look::key,
         .type = Type::big});
  if (report.proposal)
    key(canvas, keys.away,
        {.id = "refuse",
         .label = moves ? words::tr("REFUSE") : words::tr("PUT AWAY"),
         .sub = moves ? words::tr("nothing moves") : "",
         .key_name = "X",
         .keys = {'X'},
         .intent = RefusePlan{},
         .type = Type::title});
  Rect rest = keys.rest;
  const float gap = canvas.gap();
  const float width = std::min(canvas.px(kSideMm), (rest.w - gap) / 2);
  canvas.button(rest.cut_left(width), {.id = "again",
                                       .label = words::tr("Plan again"),
                                       .key_name = "R",
                                       .keys = {'R'},
                                       .intent = PlanAhead{scene.view.plan}});
  rest.cut_left(gap);
  key(canvas, rest.cut_left(width),
      {.id = "back",
       .label = words::tr("Back"),
       .sub = report.proposal ? words::tr("keeps the plan") : "",
       .key_name = "Esc",
       .keys = {look::kEscape},
       .intent = Back{}});
}

// What the plan is worth, and how many it leaves for the next; what must be said has the last word where there is little room.
std::vector<std::string> summary(const Report& report) {
  const Proposal& p = *report.proposal;
  if (p.shifts.empty() && !p.no_place.empty())
    return {words::tr("No time was found for what lost its place.")};
  std::string how = how_it_ended(report);
  if (p.before.late != p.after.late)
    how = words::say("{} Late in all: {} → {}.", how, words::length(Minutes{p.before.late}),
                     words::length(Minutes{p.after.late}));
  if (p.put_off.empty()) return {how};
  const std::string left =
      words::say_n(p.put_off.size(), "{} more is left as it is: one plan moves {} at most.",
                   "{} more are left as they are: one plan moves {} at most.", kMaxMoves);
  return {left + " " + how, left};
}

void nothing_moves(Canvas& canvas, Rect area, const Scene& scene, const Report& report) {
  std::string text;
  if (!report.proposal)
    text = words::tr("Nothing is being worked out. Plan again begins.");
  else if (!report.proposal->no_place.empty())
    return;
  else if (repairing(scene))
    text = words::tr("Nothing is to be repaired: all has its place.");
  else
    text = report.proposal->optimal
               ? words::tr("The plan stands: none is better, and that is proven.")
               : words::tr("The plan stands: nothing better was found.");
  canvas.paragraph(area, text, Type::title, kQuiet, 2);
}

// Those for which there is no place, as many by name as stand there. That there is none is said only where it is proven.
void without_a_place(Canvas& canvas, Rect& area, const Scene& scene, const Proposal& proposal) {
  if (proposal.no_place.empty()) return;
  const words::Context c = scene.context();
  const float side = canvas.cap(Type::title) * 1.7F;
  const float tall = 2.2F * canvas.line_px(Type::small);
  const std::vector<GlueUpId>& all = proposal.no_place;
  Rect row = proposal.shifts.empty() ? area.cut_top(tall) : area.cut_bottom(tall);
  canvas.warn_tag(row.cut_left(side).middle(side, side));
  row.cut_left(canvas.px(3));
  const auto said = [&](const std::string& names) {
    return proposal.optimal ? words::say("No place within 60 days: {}", names)
                            : words::say("No place was found: {}", names);
  };
  std::string names, best = said(words::say("{} glue-ups", all.size()));
  for (std::size_t n = 1; n <= all.size(); ++n) {
    if (const GlueUp* g = scene.floor.glue_up(all[n - 1]))
      names += (names.empty() ? "" : ", ") + words::title(c, *g);
    if (canvas.width(Type::title, said(names)) > row.w) break;
    const std::size_t more = all.size() - n;
    const std::string text = said(more == 0 ? names : words::say("{} and {} more", names, more));
    if (canvas.width(Type::title, text) <= row.w) best = text;
  }
  canvas.words(row, best, Type::title, {});
}

void found(Canvas& canvas, Rect area, const Scene& scene, const Report& report) {
  found_keys(canvas, cut_keys(canvas, area), scene, report);
  const bool changed = report.proposal && report.revision != scene.revision;
  Rect top = area.cut_top(canvas.touch());
  area.cut_top(canvas.px(narrow(canvas) ? 2 : 4));
  if (report.proposal) without_a_place(canvas, area, scene, *report.proposal);
  const int all = report.proposal ? static_cast<int>(report.proposal->shifts.size()) : 0;
  const float gap = canvas.px(kShiftGapMm);
  const Page page =
      page_of(all, static_cast<int>((area.h + gap) / (canvas.px(kShiftMm) + gap)), scene.view.page);
  page_keys(canvas, top, page, all);
  std::vector<std::string> subs = report.proposal ? summary(report) : std::vector{std::string()};
  if (changed)
    for (std::string& sub : subs)
      sub = words::say("{} The floor has changed since {}.", sub,
                       words::clock(scene.context(), report.asked_at));
  head(canvas, top, scene, subs);
  if (all == 0) nothing_moves(canvas, area, scene, report);
  for (int i = 0; i < page.count; ++i) {
    shift_row(canvas, area.cut_top(canvas.px(kShiftMm)), scene,
              report.proposal->shifts[static_cast<std::size_t>(page.first + i)]);
    area.cut_top(gap);
  }
}

}  // namespace

bool plan_at_hand(const Scene& scene) { return report_of(scene).state != State::idle; }

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
