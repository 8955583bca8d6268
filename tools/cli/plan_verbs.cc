// Proposals for the whole floor: what should move, from when to when. Nothing moves but with --accept.

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <csignal>
#include <limits>
#include <memory>

#include "client/words/columns.h"
#include "client/words/plan.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using Steady = std::chrono::steady_clock;

struct PlanArgs {
  double seconds = 5;
  std::uint64_t seed = 1;
  bool accept = false;
};

std::atomic<bool> interrupted{false};  // Ctrl-C: what was found so far is told

// What the planner may spend: time, and until Ctrl-C. Tells on the standard error how far it is, when a person looks on.
class Spending {
 public:
  Spending(const PlanArgs& args, const Tool& tool)
      : ends_(Steady::now() + std::chrono::milliseconds{std::llround(args.seconds * 1000)}),
        shown_(!tool.json && isatty(STDERR_FILENO) == 1) {
    interrupted = false;
    std::signal(SIGINT, [](int) { interrupted = true; });
    budget_.seed = args.seed;
    budget_.work = std::numeric_limits<std::int64_t>::max();
    budget_.stop = [this] { return interrupted || Steady::now() >= ends_; };
    if (shown_) budget_.progress = [this](const schedule::Progress& p) { tell(p); };
  }
  ~Spending() {
    std::signal(SIGINT, SIG_DFL);
    if (told_) fmt::print(stderr, "\n");
  }
  Spending(const Spending&) = delete;
  Spending& operator=(const Spending&) = delete;

  const schedule::Budget& budget() const { return budget_; }

 private:
  void tell(const schedule::Progress& p) {
    constexpr auto kApart = std::chrono::milliseconds{200};
    if (!p.best || Steady::now() < next_) return;
    next_ = Steady::now() + kApart;
    told_ = true;
    fmt::print(stderr, "\r\x1b[K{} schedules tried · {} · Ctrl-C ends it", p.tried,
               words::cost(*p.best));
    std::fflush(stderr);
  }

  const Steady::time_point ends_;
  const bool shown_;
  schedule::Budget budget_;
  Steady::time_point next_{};
  bool told_ = false;
};

std::string titled(const words::Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  if (!g) return fmt::format("glue-up {}", id.value);
  return fmt::format("{}, {} ({})", id.value, words::title(c, *g), words::builder(c, g->builder));
}

// Who has no place counts as moved to the horizon: told by itself.
std::string stands(schedule::Cost cost, std::size_t without_place) {
  const auto all = static_cast<std::int64_t>(without_place);
  cost.disturbed -= all * (schedule::kMoved + kHorizon / Minutes{1});
  std::string out = words::cost(cost);
  if (without_place > 0) out += fmt::format(" · {} without a place", without_place);
  return out;
}

Json cost_json(const schedule::Cost& cost) {
  return {{"late_minutes", cost.late},
          {"moved", cost.disturbed / schedule::kMoved},
          {"moved_minutes", cost.disturbed % schedule::kMoved},
          {"makespan_minutes", cost.makespan}};
}

Json proposal_json(const words::Context& c, const Proposal& p) {
  Json moves = Json::array(), no_place = Json::array();
  for (const Shift& s : p.shifts) {
    Json from = nullptr;
    if (s.from) from = time_json(c, *s.from);
    moves.push_back({{"glue_up", s.glue_up.value},
                     {"from", from},
                     {"to", time_json(c, s.to.stage_begin)},
                     {"ready", time_json(c, s.to.ready_at)},
                     {"sheet", s.sheet.value}});
  }
  for (const GlueUpId id : p.no_place) no_place.push_back(id.value);
  return {{"moves", moves},
          {"no_place", no_place},
          {"before", cost_json(p.before)},
          {"after", cost_json(p.after)},
          {"lower_bound", cost_json(p.lower_bound)},
          {"proven", p.optimal},
          {"cancelled", p.cancelled}};
}

std::string proposal_text(const words::Context& c, const Proposal& p, const char* verb) {
  std::string out;
  if (p.shifts.empty()) {
    out = p.no_place.empty() ? "Nothing has to move.\n" : "No move would help.\n";
  } else {
    std::vector<std::vector<std::string>> rows;
    for (const Shift& shift : p.shifts)
      rows.push_back({titled(c, shift.glue_up), words::shift(c, shift)});
    out = words::table({{.head = "Glue-up"}, {.head = "Moves", .most = 60}}, rows);
    const auto lost = static_cast<std::size_t>(
        std::count_if(p.shifts.begin(), p.shifts.end(), [](const Shift& s) { return !s.from; }));
    out += fmt::format("As it stands: {}.\nThen: {}.\n", stands(p.before, lost + p.no_place.size()),
                       stands(p.after, p.no_place.size()));
  }
  for (const GlueUpId id : p.no_place)
    out += p.optimal ? fmt::format("{} finds no place in the next {} days: squeezeout why {}.\n",
                                   titled(c, id), kHorizon / std::chrono::days{1}, id.value)
                     : fmt::format("{} has no place in this plan: squeezeout why {}.\n",
                                   titled(c, id), id.value);
  if (!p.shifts.empty())
    out += fmt::format("{}\nNothing has moved. Take it with squeezeout {} --accept.\n",
                       p.optimal ? "Proven best." : "Best found so far, not proven.", verb);
  return out;
}

using Question = Proposal (*)(const Floor&, Instant, const schedule::Budget&);

void propose(Tool& tool, const PlanArgs& args, Question question, const char* verb) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  const Proposal p = [&] {
    const Spending spending{args, tool};
    return question(c.floor, c.now, spending.budget());
  }();
  if (!args.accept || p.shifts.empty())
    return tool.print(proposal_text(c, p, verb), proposal_json(c, p));
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  tool.ask(std::move(plan));
}

void add_plan_verb(CLI::App& app, Tool& tool, const char* name, const char* says,
                   const char* example, Question question) {
  const auto args = std::make_shared<PlanArgs>();
  CLI::App& verb = add_verb(app, tool, name, says, example,
                            [args, question, name](Tool& t) { propose(t, *args, question, name); });
  verb.add_flag("--accept", args->accept, "Take the plan: all of it moves, or nothing");
  verb.add_option("--seconds", args->seconds, "How long to look for a better one; Ctrl-C ends it")
      ->check(CLI::Range(0.1, 3600.0))
      ->capture_default_str();
  verb.add_option("--seed", args->seed, "Another seed may find another plan")
      ->capture_default_str();
}

// The plan that was adopted last of those that were not taken back; whether it still can be is the floor's to say.
PlanId last_standing(const Floor& f) {
  for (auto it = f.plans.rbegin(); it != f.plans.rend(); ++it) {
    if (!it->second.undone) return it->first;
  }
  return {};
}

void tell_risks(Tool& tool) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  std::string text;
  Json all = Json::array();
  for (const AtRisk& r : builds_at_risk(c.floor, c.now)) {
    const Build* build = c.floor.build(r.build);
    text += fmt::format("{}: {}\n", build->name, words::at_risk(c, r));
    all.push_back({{"build", build->key},
                   {"due", time_json(c, r.due)},
                   {"ready", time_json(c, r.ready)},
                   {"glue_up", r.last.value}});
  }
  if (text.empty()) text = "Every build will be ready when it is due.\n";
  tool.print(text, {{"at_risk", all}});
}

}  // namespace

void add_plan_verbs(CLI::App& app, Tool& tool) {
  add_plan_verb(app, tool, "repair", "After a fact: what has to move, and as little as can be",
                "squeezeout repair --accept", repair);
  add_plan_verb(app, tool, "replan", "A better plan for all that has not started",
                "squeezeout replan --seconds 20", replan);
  const auto plan = std::make_shared<std::uint32_t>(0);
  add_verb(app, tool, "undo-plan", "Take a plan back: all that it moved is as before",
           "squeezeout undo-plan",
           [plan](Tool& t) {
             const PlanId named{*plan};
             t.ask(UndoPlan{named ? named : last_standing(t.session().floor())});
           })
      .add_option("plan", *plan, "Its number; left out: the last one");
  add_verb(app, tool, "risks", "Builds that will not be ready when they are due",
           "squeezeout risks", tell_risks);
}

}  // namespace squeezeout::cli
