#include "common/schedule/exact_order.h"

#include <algorithm>
#include <map>
#include <set>

namespace squeezeout::schedule::exact {
namespace {

constexpr Tick kNoPath = -kFar;
constexpr std::size_t kMostForPaths = 300;  // their cube is paid once

// The longest paths over edges between the variables: how long after one another surely is.
class Paths {
 public:
  Paths(const Engine& engine, const std::set<Var>& vars) {
    if (vars.size() > kMostForPaths) return;
    for (const Var var : vars) index_.emplace(var, index_.size());
    const std::size_t n = index_.size();
    after_.assign(n * n, kNoPath);
    for (const Engine::Edge& edge : engine.edges()) {
      if (edge.from % 2 == 1 || edge.when.side != kNone) continue;
      const auto from = index_.find(edge.from / 2), to = index_.find(edge.to / 2);
      if (from == index_.end() || to == index_.end()) continue;
      Tick& after = after_[from->second * n + to->second];
      after = std::max(after, edge.ticks);
    }
    for (std::size_t k = 0; k < n; ++k)
      for (std::size_t i = 0; i < n; ++i) {
        const Tick first = after_[i * n + k];
        if (first == kNoPath) continue;
        for (std::size_t j = 0; j < n; ++j)
          if (const Tick second = after_[k * n + j]; second != kNoPath)
            after_[i * n + j] = std::max(after_[i * n + j], first + second);
      }
  }
  Tick after(View one, View two) const {  // two.start - one.start is at least this
    if (after_.empty()) return kNoPath;
    const Tick ticks = after_[index_.at(one.var) * index_.size() + index_.at(two.var)];
    return ticks == kNoPath ? kNoPath : ticks + two.off - one.off;
  }

 private:
  std::map<Var, std::size_t> index_;
  std::vector<Tick> after_;
};

// Pairs of one resource's holdings that are too much together.
std::set<std::pair<Rigid, Rigid>> pairs_of(const Engine& engine, const std::vector<int>& capacity,
                                           const std::vector<std::vector<Holding>>& holdings) {
  std::set<std::pair<Rigid, Rigid>> pairs;
  for (std::size_t r = 0; r < holdings.size(); ++r) {
    std::vector<std::pair<Rigid, int>> rigid;
    for (const Holding& holding : holdings[r])
      if (!holding.when && holding.begin.var == holding.end.var &&
          !engine.fixed(holding.begin.var) && engine.fixed(holding.count.var))
        rigid.push_back(
            {{holding.begin, holding.end.off - holding.begin.off}, engine.least(holding.count)});
    for (std::size_t i = 0; i < rigid.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const auto& [one, ones] = rigid[i];
        const auto& [two, twos] = rigid[j];
        if (one.start.var == two.start.var || ones + twos <= capacity[r]) continue;
        pairs.insert(one < two ? std::pair{one, two} : std::pair{two, one});
        if (pairs.size() > kMostPairs) return {};
      }
  }
  return pairs;
}

// `that` says that one goes first: two begins when it has ended, or later ...
bool pushes(Engine& engine, const Rigid& one, const Rigid& two, Pred that) {
  const Tick end = engine.least(one.start) + one.length;
  return end <= engine.least(two.start) ||
         engine.imply(at_least(two.start, end),
                      std::array{that, at_least(one.start, end - one.length)});
}

// ... and it begins so that it has ended when two must begin.
bool pulls(Engine& engine, const Rigid& one, const Rigid& two, Pred that) {
  const Tick start = engine.most(two.start);
  return start - one.length >= engine.most(one.start) ||
         engine.imply(at_most(one.start, start - one.length),
                      std::array{that, at_most(two.start, start)});
}

// `that` says that one goes first: not so, when it ends after two must have begun.
bool can_go_first(Engine& engine, const Rigid& one, const Rigid& two, Pred that) {
  const Tick end = engine.least(one.start) + one.length;
  return end <= engine.most(two.start) ||
         engine.imply(
             !that, std::array{at_least(one.start, end - one.length), at_most(two.start, end - 1)});
}

}  // namespace

std::vector<Ordered> add_orders(Engine& engine, const std::vector<int>& capacity,
                                const std::vector<std::vector<Holding>>& holdings) {
  const auto pairs = pairs_of(engine, capacity, holdings);
  std::set<Var> vars;
  for (const auto& [one, two] : pairs) vars.insert({one.start.var, two.start.var});
  const Paths paths(engine, vars);
  std::vector<Ordered> ordered;
  std::map<std::pair<Rigid, Order::Moved>, std::unique_ptr<Order>> of;
  for (const auto& [one, two] : pairs) {
    const auto cannot_precede = [&](const Rigid& a, const Rigid& b) {
      return paths.after(b.start, a.start) > -a.length ||
             engine.least(a.start) + a.length > engine.most(b.start);
    };
    const bool not_one = cannot_precede(one, two), not_two = cannot_precede(two, one);
    if (not_one) engine.add_edge(two.start, one.start, two.length);
    if (not_two) engine.add_edge(one.start, two.start, one.length);
    if (not_one || not_two) continue;
    const Pred one_first = at_least(View{engine.add_variable(0, 1)}, 1);
    ordered.push_back({one, two, one_first});
    for (const auto& [self, other, first] :
         {std::tuple{one, two, one_first}, std::tuple{two, one, !one_first}}) {
      for (const auto moved : {Order::Moved::later, Order::Moved::sooner}) {
        auto& order = of[{self, moved}];
        if (!order) order = std::make_unique<Order>(self, moved);
        order->add(other, first);
      }
    }
    engine.add_edge(one.start, two.start, one.length, one_first);
    engine.add_edge(two.start, one.start, two.length, !one_first);
    auto precedence = std::make_unique<Precedence>(ordered.back());
    const std::vector<Pred> wakes = precedence->wakes();
    engine.add_propagator(std::move(precedence), wakes, Engine::Urgency::soon);
  }
  for (auto& [self, order] : of) {
    const std::vector<Pred> wakes = order->wakes();
    engine.add_propagator(std::move(order), wakes, Engine::Urgency::soon);
  }
  return ordered;
}

std::vector<Pred> Order::wakes() const {
  return {{2 * self_.start.var + (moved_ == Moved::later ? 0U : 1U), 0}};
}

bool Order::propagate(Engine& engine) {
  engine.tire(static_cast<std::int64_t>(pairs_.size()));
  for (const Ordered& pair : pairs_) {
    const Pred first = pair.one_first;
    if (engine.holds(first) || engine.broken(first)) continue;
    if (moved_ == Moved::later ? !can_go_first(engine, self_, pair.two, first)
                               : !can_go_first(engine, pair.two, self_, !first))
      return false;
  }
  return true;
}

bool Precedence::propagate(Engine& engine) {
  const auto& [one, two, first] = pair_;
  if (engine.holds(first)) return pushes(engine, one, two, first) && pulls(engine, one, two, first);
  if (!engine.broken(first)) return true;
  return pushes(engine, two, one, !first) && pulls(engine, two, one, !first);
}

}  // namespace squeezeout::schedule::exact
