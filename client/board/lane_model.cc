#include "client/board/lane_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using State = Segment::State;

// When it left the floor, or "now" while it still waits to be worked.
Instant end_of(const GlueUp& g, Instant now) {
  if (g.ended_at) return std::max(*g.ended_at, g.times.release_end);
  if (g.progress == Progress::waiting) return std::max(g.times.ready_at, now);
  return g.times.ready_at;
}

Span span_in(const GlueUp& g, Instant now, Lane::Shows shows) {
  const Instant held_end =
      g.progress == Progress::clamped ? std::max(g.times.release_end, now) : g.times.release_end;
  switch (shows) {
    case Lane::Shows::held:
      return {g.times.stage_begin, held_end};
    case Lane::Shows::waiting:
      return {held_end, end_of(g, now)};
    case Lane::Shows::lost:
      return g.promised.held();
    case Lane::Shows::all:
      break;
  }
  return {g.times.stage_begin, std::max(held_end, end_of(g, now))};
}

bool placed(const Scene& scene, const GlueUp& g) {
  return g.progress != Progress::cancelled && g.progress != Progress::displaced &&
         (!scene.view.only || g.build == scene.view.only);
}

// Of the lane's gear, now. Not live, they are plans and what was.
std::vector<std::string> gear_facts(const Scene& scene, const GearNow& gear) {
  const words::Context c = scene.context();
  const bool one = gear.stock == 1, stale = scene.stale();
  if (one && gear.broken == 1) return {words::tr("out of use")};
  std::vector<std::string> out;
  if (gear.free > 0) {
    if (one)
      out.push_back(stale ? words::tr("was free") : words::tr("free now"));
    else
      out.push_back(stale ? words::say("was free: {}", gear.free)
                          : words::say("{} free", gear.free));
  } else if (gear.more_at) {
    const std::string then = words::clock(c, *gear.more_at);
    out.push_back(stale ? words::say("planned free {}", then)
                  : one ? words::say("free {}", then)
                        : words::say("0 free till {}", then));
  } else {
    out.push_back(stale ? words::tr("was not free") : words::tr("0 free"));
  }
  if (gear.broken > 0) out.push_back(words::say("{} out of use", gear.broken));
  return out;
}

void alarm(Lane& lane, const Scene& scene, const GlueUp& g) {
  if (!lane.alarms.empty()) return;
  const std::string who = words::initials(scene.context(), g.builder);
  const std::string over = remaining(scene, g).words;
  lane.alarms = {words::say("still on · {} {}", who, over), words::tr("still on")};
}

bool known_over(const Scene& scene, const GlueUp& g) {
  return over_time(g, scene.now) && (!scene.stale() || own(scene, g));
}

LaneSet by_gear(const Scene& scene, Span window) {
  LaneSet out;
  const Floor& floor = scene.floor;
  std::vector<std::size_t> place;  // by id of the kind; 0: none, else one more than its lane
  for (const GearNow& gear : gear_now(floor, scene.now)) {
    const GearKind* kind = floor.kind(gear.kind);
    Lane lane;
    lane.id = kind->key;
    lane.name = gear.stock == 1 ? kind->name : fmt::format("{} ×{}", kind->name, gear.stock);
    lane.facts = gear_facts(scene, gear);
    if (place.size() <= gear.kind.value) place.resize(gear.kind.value + 1);
    out.lanes.push_back(std::move(lane));
    place[gear.kind.value] = out.lanes.size();
  }
  const auto lane_of = [&](GearKindId kind) -> Lane* {
    const std::size_t at = kind.value < place.size() ? place[kind.value] : 0;
    return at == 0 ? nullptr : &out.lanes[at - 1];
  };
  Lane waiting{.id = "waiting",
               .name = words::tr("No gear held"),
               .facts = {words::tr("waiting, ready")},
               .shows = Lane::Shows::waiting};

  for (const auto& [id, g] : floor.glue_ups) {
    if (!placed(scene, g)) continue;
    const Instant now = known_until(scene, g);
    const Span held = span_in(g, now, Lane::Shows::held);
    if (held.overlaps(window))
      for (const Held& h : g.held) {
        Lane* lane = lane_of(h.kind);
        if (lane == nullptr) continue;
        lane->bars.push_back({&g, h.count, held});
        if (known_over(scene, g)) alarm(*lane, scene, g);
      }
    if (!g.off_at || g.progress == Progress::spoiled) continue;  // not waiting, only planned to
    const Span wait = span_in(g, now, Lane::Shows::waiting);
    if (wait.overlaps(window)) waiting.bars.push_back({&g, 0, wait});
  }
  for (const auto& [id, outage] : floor.outages)
    if (Lane* lane = lane_of(outage.kind); lane != nullptr && outage.span.overlaps(window))
      lane->bars.push_back({nullptr, outage.count, outage.span});

  std::vector<Lane> busy;
  for (Lane& lane : out.lanes) {
    if (lane.bars.empty())
      out.idle.push_back(lane.name);
    else
      busy.push_back(std::move(lane));
  }
  if (scene.view.only) out.idle.clear();  // others may hold it
  busy.push_back(std::move(waiting));
  out.waiting = 1;
  out.lanes = std::move(busy);
  return out;
}

template <class Thing, class IdOf>
LaneSet by_owner(const Scene& scene, Span window, const std::vector<Thing>& things, IdOf id_of) {
  LaneSet out;
  std::map<decltype(things.front().id), std::size_t> place;
  for (const Thing& thing : things) {
    place[thing.id] = out.lanes.size();
    out.lanes.push_back({.id = thing.key, .name = thing.name, .shows = Lane::Shows::all});
  }
  std::vector<int> running_now(out.lanes.size(), 0);
  for (const auto& [id, g] : scene.floor.glue_ups) {
    const auto at = place.find(id_of(g));
    if (at == place.end()) continue;
    if (running(g)) ++running_now[at->second];  // whatever the view filters
    if (!placed(scene, g)) continue;
    const Span span = span_in(g, known_until(scene, g), Lane::Shows::all);
    if (!span.overlaps(window)) continue;
    Lane& lane = out.lanes[at->second];
    lane.bars.push_back({&g, 0, span});
    if (known_over(scene, g)) alarm(lane, scene, g);
  }
  for (std::size_t i = 0; i < out.lanes.size(); ++i) {
    const int n = running_now[i];
    std::string fact = scene.stale() ? words::say("{} were running", n)
                       : n == 0      ? words::tr("nothing running")
                                     : words::say("{} running", n);
    out.lanes[i].facts.push_back(std::move(fact));
  }
  return out;
}

// Those that lost their places, whatever the lanes are.
void add_lost(LaneSet& set, const Scene& scene, Span window) {
  Lane lane{.id = "lost", .name = words::tr("Lost places"), .shows = Lane::Shows::lost};
  int n = 0;
  for (const GlueUpId id : scene.floor.displaced) {
    const GlueUp* g = scene.floor.glue_up(id);
    if (g == nullptr || !on_board(scene, *g)) continue;
    ++n;
    if (const Span span = g->promised.held(); span.overlaps(window))
      lane.bars.push_back({g, 0, span});
  }
  if (n == 0) return;
  if (scene.stale())
    lane.facts = {words::say("{} had none", n)};
  else
    lane.alarms = {words::say_n(n, "{} wants a new time", "{} want new times"),
                   words::say("{} lost", n)};
  set.lanes.insert(set.lanes.begin(), std::move(lane));
  set.lost = 1;
}

}  // namespace

Instant known_until(const Scene& scene, const GlueUp& g) {
  return scene.stale() && !own(scene, g) ? std::min(scene.now, scene.last_heard()) : scene.now;
}

bool on_board(const Scene& scene, const GlueUp& g) {
  return g.progress != Progress::cancelled && (!scene.view.only || g.build == scene.view.only);
}

Span span_on_board(const Scene& scene, const GlueUp& g) {
  if (g.progress == Progress::displaced) return g.promised.held();
  const bool gear = scene.view.lanes == Lanes::gear;
  // Off its clamps, it waits in a lane of its own.
  const auto shows = !gear ? Lane::Shows::all : g.off_at ? Lane::Shows::waiting : Lane::Shows::held;
  return span_in(g, known_until(scene, g), shows);
}

std::vector<Segment> segments_of(const GlueUp& g, Instant now, Lane::Shows shows) {
  std::vector<Segment> out;
  if (shows == Lane::Shows::lost) return {{g.promised.held(), Phase::displaced, State::planned}};
  const auto add = [&](Instant begin, Instant end, Phase phase, State state) {
    if (end > begin) out.push_back({{begin, end}, phase, state});
  };
  const PhaseTimes& t = g.times;
  if (shows != Lane::Shows::waiting) {
    if (!g.started_at) {
      add(t.stage_begin, t.release_end, phase_at(g, now), State::planned);
    } else if (!g.clamped_at) {
      // Wet until the clamps are on: the block grows with the clock, the plan behind it gives way.
      const bool open = g.progress == Progress::open;
      const Instant wet_end = open ? std::max(t.clamped_begin, now) : t.release_end;
      add(t.stage_begin, t.open_begin, Phase::stage, State::happened);
      add(t.open_begin, wet_end, Phase::open, State::happened);
      if (open) add(wet_end, t.release_end, Phase::clamped, State::planned);
    } else {
      const bool on = g.progress == Progress::clamped;
      const bool over = over_time(g, now);
      const Instant end = on ? std::max(t.release_end, now) : t.release_end;
      add(t.stage_begin, t.open_begin, Phase::stage, State::happened);
      add(t.open_begin, t.clamped_begin, Phase::open, State::happened);
      add(t.clamped_begin, over ? t.release_begin : end, Phase::clamped, State::happened);
      if (over) add(t.release_begin, end, Phase::release, State::over);
    }
  }
  if (shows != Lane::Shows::held && g.progress != Progress::spoiled) {
    const bool off = g.off_at.has_value();
    const Instant begin =
        g.progress == Progress::clamped ? std::max(t.release_end, now) : t.release_end;
    add(begin, t.ready_at, Phase::waiting, off ? State::happened : State::planned);
    if (off) add(std::max(begin, t.ready_at), end_of(g, now), Phase::ready, State::happened);
  }
  return out;
}

LaneSet lanes_of(const Scene& scene, Span window) {
  LaneSet out;
  if (!scene.floor.shop) return out;
  switch (scene.view.lanes) {
    case Lanes::gear:
      out = by_gear(scene, window);
      break;
    case Lanes::bench:
      out = by_owner(scene, window, scene.floor.shop->benches,
                     [](const GlueUp& g) { return g.bench; });
      break;
    case Lanes::builder:
      out = by_owner(scene, window, scene.floor.shop->builders,
                     [](const GlueUp& g) { return g.builder; });
      break;
  }
  add_lost(out, scene, window);
  const auto alone = [&](const Lane& lane) { return lane.id == scene.view.lane; };
  if (std::any_of(out.lanes.begin(), out.lanes.end(), alone)) {
    std::erase_if(out.lanes, [&](const Lane& lane) { return !alone(lane); });
    out.idle.clear();
    out.lost = out.waiting = 0;
  }
  for (Lane& lane : out.lanes)
    std::stable_sort(lane.bars.begin(), lane.bars.end(),
                     [](const Bar& a, const Bar& b) { return a.span.begin < b.span.begin; });
  return out;
}

}  // namespace squeezeout::board
