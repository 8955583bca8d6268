#include "tests/peer/minizinc.h"

#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <sstream>

#include "common/base/check.h"

namespace squeezeout::schedule::testing {
namespace {

// The cost as one number: late, tasks moved, what else disturbs, makespan, each below what the next higher one weighs.
constexpr int kMostMakespan = 64, kMostRest = 1000, kMostMoved = 8;

class Model {
 public:
  Model(const Problem& problem, Order order) : p_(problem), order_(order) {
    CHECK(p_.horizon > 0 && p_.horizon < 40);
    CHECK(p_.tasks.size() < kMostMoved);
    line("int: H = {};", p_.horizon);
    for (std::size_t i = 0; i < p_.tasks.size(); ++i) task(i);
    for (const Lag& lag : p_.lags)
      line("constraint start{} >= {}{} + {};", lag.to,
           lag.after == Lag::After::start ? "start" : "ready", lag.from, lag.ticks);
    capacity();
    objective();
  }
  std::string take() && { return std::move(text_); }

 private:
  template <class... Words>
  void line(fmt::format_string<Words...> format, Words&&... words) {
    text_ += fmt::format(format, std::forward<Words>(words)...) + "\n";
  }

  // The length that begins at `begin`, as an expression; `name` is for its table.
  template <class L>
  std::string length(const L& of, const std::string& name, const std::string& begin) {
    if (!of.by_begin) return std::to_string(of.length);
    std::string table;
    for (Tick t = 0; t <= p_.horizon; ++t)
      table += fmt::format("{}{}", t ? "," : "", of.by_begin->at(t));
    line("array[0..H] of int: {} = array1d(0..H, [{}]);", name, table);
    return fmt::format("{}[{}]", name, begin);
  }

  void task(std::size_t i) {
    const Task& task = p_.tasks[i];
    line("var 0..H: start{};\nvar 0..{}: ready{};", i, kMostMakespan - 1, i);
    starts_ += fmt::format("start{},", i);
    std::string chosen;
    for (std::size_t m = 0; m < task.modes.size(); ++m) {
      mode(i, m, task.modes[m]);
      chosen += fmt::format(" + bool2int(x{}_{})", i, m);
      if (task.modes[m].penalty > 0)
        rest_ += fmt::format(" + {} * bool2int(x{}_{})", task.modes[m].penalty, i, m);
    }
    line("constraint 0{} = 1;", chosen);
    line("constraint start{} >= {};", i, task.earliest);
    if (task.latest < kFar) line("constraint start{} <= {};", i, task.latest);
    if (task.due < kFar)
      late_ += fmt::format(" + {} * max(0, ready{} - {})", task.weight, i, task.due);
    if (task.announced) {
      moved_ += fmt::format(" + bool2int(start{} != {})", i, *task.announced);
      rest_ += fmt::format(" + abs(start{} - {})", i, *task.announced);
    }
    makespan_ += fmt::format("ready{},", i);
  }

  // x: whether task i is done in mode m. Of a mode that is not, every begin and end is 0 and nothing is held.
  void mode(std::size_t i, std::size_t m, const Mode& mode) {
    const std::string x = fmt::format("x{}_{}", i, m);
    line("var bool: {};", x);
    modes_ += fmt::format("bool2int({}),", x);
    const auto begin = [&](std::size_t k) { return fmt::format("b{}_{}_{}", i, m, k); };
    const auto end = [&](std::size_t k) { return fmt::format("e{}_{}_{}", i, m, k); };
    for (std::size_t k = 0; k < mode.parts.size(); ++k) {
      const Part& part = mode.parts[k];
      line("var 0..H: {};\nvar 0..H: {};", begin(k), end(k));
      others_ += begin(k) + ",";
      line("constraint not {} -> {} = 0 /\\ {} = 0;", x, begin(k), end(k));
      const std::string lasts = length(part, fmt::format("l{}_{}_{}", i, m, k), begin(k));
      line("constraint {} -> {} = {} + {};", x, end(k), begin(k), lasts);
      if (k > 0)
        line("constraint {} -> {} {} {};", x, begin(k),
             part.joins == Part::Joins::elastic ? ">=" : "=", end(k - 1));
      if (part.calendar >= 0) {
        std::string open = "false";
        for (const Window& w : p_.calendars[static_cast<std::size_t>(part.calendar)].open)
          open += fmt::format(" \\/ ({1} >= {0} /\\ {1} < {3} /\\ {2} <= {3})", w.begin, begin(k),
                              end(k), w.end);
        line("constraint {} -> ({});", x, open);
      }
      for (const Use& use : part.uses)
        uses_.push_back({use.resource, std::to_string(use.count), begin(k), end(k)});
    }
    const std::size_t last = mode.parts.size() - 1;
    line("constraint {} -> start{} = {};", x, i, begin(0));
    if (mode.wait) {
      const std::string from = begin(static_cast<std::size_t>(mode.wait->from_part));
      const std::string lasts = length(*mode.wait, fmt::format("w{}_{}", i, m), from);
      line("constraint {} -> ready{} = max({}, {} + {});", x, i, end(last), from, lasts);
    } else {
      line("constraint {} -> ready{} = {};", x, i, end(last));
    }
    if (!mode.starts.empty()) {
      std::string allowed = "false";
      for (const Window& w : mode.starts)
        allowed += fmt::format(" \\/ (start{0} >= {1} /\\ start{0} < {2})", i, w.begin, w.end);
      line("constraint {} -> ({});", x, allowed);
    }
    for (std::size_t n = 0; n < mode.held.size(); ++n) {
      const Need& need = mode.held[n];
      std::string sum;
      for (const int r : need.resources) {
        const std::string pieces = fmt::format("h{}_{}_{}_{}", i, m, n, r);
        line("var 0..{}: {};", need.count, pieces);
        others_ += pieces + ",";
        sum += " + " + pieces;
        uses_.push_back({r, pieces, begin(0), end(last)});
      }
      line("constraint 0{} = {} * bool2int({});", sum, need.count, x);
    }
  }

  void capacity() {
    for (std::size_t r = 0; r < p_.capacity.size(); ++r) {
      for (Tick t = 0; t < p_.horizon; ++t) {
        int room = p_.capacity[r];
        for (const Taken& taken : p_.taken)
          if (taken.resource == static_cast<int>(r) && taken.span.begin <= t && t < taken.span.end)
            room -= taken.count;
        std::string sum;
        for (const InUse& use : uses_)
          if (use.resource == static_cast<int>(r))
            sum += fmt::format(" + {0} * bool2int({1} <= {3} /\\ {2} > {3})", use.count, use.begin,
                               use.end, t);
        if (!sum.empty()) line("constraint 0{} <= {};", sum, std::max(room, 0));
      }
    }
  }

  void objective() {
    line("var 0..2000: late = 0{};", late_);
    line("var 0..{}: moved = 0{};", kMostMoved - 1, moved_);
    line("var 0..{}: rest = 0{};", kMostRest - 1, rest_);
    line("var 0..{}: makespan = max([{}]);", kMostMakespan - 1, makespan_);
    const auto search = [](const std::string& all, const char* how) {
      return fmt::format("int_search([{}], {})", all, how);
    };
    if (order_ == Order::by_task)
      line("solve :: seq_search([{}, {}, {}])", search(modes_, "input_order, indomain_max"),
           search(starts_, "dom_w_deg, indomain_split"),
           search(others_, "first_fail, indomain_min"));
    else
      line("solve :: {} :: restart_luby(200)",
           search(modes_ + starts_ + others_, "dom_w_deg, indomain_min"));
    line("  minimize ((late * {} + moved) * {} + rest) * {} + makespan;", kMostMoved, kMostRest,
         kMostMakespan);
    line("output [\"cost \\(late) \\(moved) \\(rest) \\(makespan)\\n\"];");
  }

  struct InUse {
    int resource;
    std::string count, begin, end;
  };
  const Problem& p_;
  Order order_;
  std::string text_, late_, moved_, rest_, makespan_;
  std::string modes_, starts_, others_;  // all that is chosen
  std::vector<InUse> uses_;
};

std::optional<std::string> output_of(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return std::nullopt;
  std::string out;
  char buffer[4096];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, pipe)) out.append(buffer, n);
  return pclose(pipe) == 0 ? std::optional{out} : std::nullopt;
}

}  // namespace

std::string minizinc_of(const Problem& problem, Order order) {
  return Model{problem, order}.take();
}

std::optional<std::string> peer_version() {
  const auto solvers = output_of("minizinc --solvers 2>/dev/null");
  if (!solvers) return std::nullopt;
  const auto at = solvers->find("Gecode ");
  if (at == std::string::npos) return std::nullopt;
  return solvers->substr(at, solvers->find(' ', at + 7) - at);
}

std::optional<PeerAnswer> ask_peer(const Problem& problem, const std::filesystem::path& scratch) {
  for (const int seconds : {5, 20, 80, 320}) {
    for (const Order order : {Order::by_task, Order::by_trouble}) {
      const auto file = scratch / "floor.mzn";
      std::ofstream(file) << minizinc_of(problem, order);
      const auto out =
          output_of(fmt::format("minizinc --solver gecode --time-limit {} '{}' 2>/dev/null",
                                seconds * 1000, file.string()));
      if (!out) return std::nullopt;
      if (out->find("=====UNSATISFIABLE=====") != std::string::npos) return PeerAnswer{};
      if (out->find("==========") == std::string::npos) continue;  // not proven in time
      std::istringstream last(out->substr(out->rfind("cost ") + 5));
      std::int64_t late = 0, moved = 0, rest = 0, makespan = 0;
      CHECK(last >> late >> moved >> rest >> makespan);
      return PeerAnswer{Cost{late, moved * 1'000'000'000 + rest, makespan}};
    }
  }
  return std::nullopt;
}

}  // namespace squeezeout::schedule::testing
