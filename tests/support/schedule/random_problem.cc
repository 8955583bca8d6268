#include "tests/support/schedule/random_problem.h"

#include <algorithm>
#include <random>

namespace squeezeout::schedule::testing {
namespace {

// Lengths from a table whose ends never fall.
class Table final : public Length {
 public:
  explicit Table(std::vector<Tick> lengths) : lengths_(std::move(lengths)) {}
  Tick at(Tick begin) const override {
    const Tick last = static_cast<Tick>(lengths_.size()) - 1;
    return lengths_[static_cast<std::size_t>(std::clamp(begin, 0, last))];
  }

 private:
  std::vector<Tick> lengths_;
};

class Maker {
 public:
  Maker(std::uint64_t seed, const Sizes& sizes) : dice_(seed), sizes_(sizes) {
    // Each problem leaves some features out, so that mistakes are not hidden behind one another.
    for (bool* feature : {&calendars_, &substitution_, &modes_, &elastic_, &by_hour_, &waits_,
                          &starts_, &taken_, &due_, &announced_, &most_lags_})
      *feature = odds(1, 2);
  }

  Problem make() {
    p_.horizon = sizes_.horizon - number(0, sizes_.horizon / 4);
    for (int r = 0; r < sizes_.resources; ++r) p_.capacity.push_back(number(odds(1, 4) ? 1 : 2, 3));
    if (calendars_)
      for (int c = 0; c < 2; ++c) p_.calendars.push_back(calendar());
    for (int i = 0; i < sizes_.tasks; ++i) p_.tasks.push_back(task());
    lags();
    if (taken_)
      for (int k = number(1, 2); k > 0; --k)
        p_.taken.push_back({resource(), number(1, 2), window(6)});
    return std::move(p_);
  }

 private:
  int number(int least, int most) {  // not std::uniform_int_distribution: it differs by library
    return least + static_cast<int>(dice_() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool odds(int of, int in) { return number(1, in) <= of; }
  int resource() { return number(0, sizes_.resources - 1); }
  Tick moment() { return number(0, p_.horizon - 1); }
  Window window(Tick longest) {
    const Tick begin = moment();
    return {begin, begin + number(1, longest)};
  }

  Calendar calendar() {
    Calendar calendar;
    for (Tick at = number(0, 3); at < p_.horizon;) {
      const Tick end = at + number(4, 10);
      calendar.open.push_back({at, end});
      at = end + number(1, 3);
    }
    return calendar;
  }

  std::shared_ptr<const Length> by_hour(Tick usual) {
    if (!by_hour_ || odds(1, 2)) return nullptr;
    std::vector<Tick> lengths;
    for (Tick t = 0; t <= p_.horizon; ++t) {
      const Tick length = std::max(usual - number(0, 1), 0) + (t % 8 < 4 ? 1 : 0);
      lengths.push_back(lengths.empty() ? length : std::max(length, lengths.back() - 1));
    }
    return std::make_shared<Table>(std::move(lengths));
  }

  Part part(bool first) {
    Part part;
    part.length = number(odds(1, 8) ? 0 : 1, odds(1, 2) ? 2 : 4);
    part.by_begin = by_hour(part.length);
    if (calendars_ && odds(1, 2)) part.calendar = number(0, 1);
    if (elastic_ && !first && odds(1, 2)) part.joins = Part::Joins::elastic;
    if (odds(1, 3)) part.uses.push_back({resource(), 1});
    return part;
  }

  Need need() {
    Need need;
    need.count = odds(2, 3) ? 1 : 2;
    for (int r = 0; r < sizes_.resources; ++r)
      if (odds(1, 2)) need.resources.push_back(r);
    if (need.resources.empty()) need.resources.push_back(resource());
    if (odds(1, 3)) std::reverse(need.resources.begin(), need.resources.end());
    if (!substitution_) need.resources.resize(1);
    return need;
  }

  Mode mode(bool usual) {
    Mode mode;
    for (int k = number(1, sizes_.parts); k > 0; --k)
      mode.parts.push_back(part(mode.parts.empty()));
    for (int k = number(usual ? 1 : 0, sizes_.needs); k > 0; --k) mode.held.push_back(need());
    if (waits_ && odds(1, 2)) {
      const Tick length = number(1, 8);
      mode.wait = Wait{.from_part = number(0, static_cast<int>(mode.parts.size()) - 1),
                       .length = length,
                       .by_begin = by_hour(length)};
    }
    if (starts_ && odds(1, 2))
      for (Tick at = number(0, 4); at < p_.horizon; at += number(1, 4)) {
        mode.starts.push_back({at, at + number(2, 6)});
        at = mode.starts.back().end;
      }
    if (!usual) mode.penalty = number(0, 3);
    return mode;
  }

  Task task() {
    Task task;
    for (int m = modes_ ? number(1, sizes_.modes) : 1; m > 0; --m)
      task.modes.push_back(mode(task.modes.empty()));
    if (odds(1, 4)) task.earliest = number(0, 6);
    if (odds(1, 6)) task.latest = task.earliest + number(2, p_.horizon);
    if (due_ && odds(2, 3)) {
      task.due = moment();
      task.weight = number(0, 3);
    }
    if (announced_ && odds(1, 2)) task.announced = moment();
    return task;
  }

  void lags() {
    const auto after = [&] { return odds(1, 2) ? Lag::After::start : Lag::After::ready; };
    for (int to = 1; to < sizes_.tasks; ++to) {
      if (!odds(1, 2)) continue;
      const int from = number(0, to - 1);
      p_.lags.push_back({from, to, number(0, 3), after()});
      // Most lags stand against a least one, tightly now and then.
      if (most_lags_ && odds(1, 2))
        p_.lags.push_back({to, from, -number(2, 14), Lag::After::start});
      else if (most_lags_ && odds(1, 6))
        p_.lags.push_back({to, from, -number(6, 20), Lag::After::ready});
    }
  }

  std::mt19937_64 dice_;
  Sizes sizes_;
  bool calendars_ = false, substitution_ = false, modes_ = false, elastic_ = false,
       by_hour_ = false, waits_ = false, starts_ = false, taken_ = false, due_ = false,
       announced_ = false, most_lags_ = false;
  Problem p_;
};

}  // namespace

Problem random_problem(std::uint64_t seed, const Sizes& sizes) { return Maker{seed, sizes}.make(); }

}  // namespace squeezeout::schedule::testing
