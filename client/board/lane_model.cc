#include "client/board/lane_model.h"

#include <fmt/format.h>

#include <map>

namespace squeezeout::board {
namespace {

using State = Segment::State;

// When it left the floor, or "now" while it still waits to be worked.
Instant end_of(const GlueUp& g, Instant now) {
  if (g.ended_at) return std::max(*g.ended_at, g.times.release_end);
  if (g.progress == Progress::waiting) return std::max(g.times.ready_at, now);
  return g.times.ready_at;
}

bool shown(const GlueUp& g) {
  return g.progress != Progress::cancelled && g.progress != Progress::displaced;
}

Span span_in(const GlueUp& g, Instant now, Lane::Shows shows) {
  const Instant held_end =
      g.progress == Progress::clamped ? std::max(g.times.release_end, now) : g.times.release_end;
  switch (shows) {
    case Lane::Shows::held:
      return {g.times.stage_begin, held_end};
    case Lane::Shows::waiting:
      return {held_end, end_of(g, now)};
    case Lane::Shows::all:
      break;
  }
  return {g.times.stage_begin, std::max(held_end, end_of(g, now))};
}

std::string gear_words(const Scene& scene, const GearNow& gear) {
  const words::Context c = scene.context();
  std::string out = scene.stale()
                        ? (gear.free > 0 ? fmt::format("was free: {}", gear.free) : "was not free")
                        : fmt::format("{} free", gear.free);
  if (gear.stock == 1) out = scene.stale() ? "was free" : "free now";
  if (gear.free == 0 && gear.more_at)
    out = (gear.stock == 1 ? "free " : "0 free till ") + words::clock(c, *gear.more_at);
  if (gear.stock == 1 && gear.broken == 1) return "out of use";
  if (gear.broken > 0) out += fmt::format(" · {} out of use", gear.broken);
  return out;
}

LaneSet by_gear(const Scene& scene, Span window) {
  LaneSet out;
  const Floor& floor = scene.floor;
  std::map<GearKindId, std::size_t> place;
  std::vector<GearNow> state = gear_now(floor, scene.now);
  for (const GearNow& gear : state) {
    const GearKind* kind = floor.kind(gear.kind);
    Lane lane;
    lane.id = kind->key;
    lane.name = gear.stock == 1 ? kind->name : fmt::format("{} ×{}", kind->name, gear.stock);
    lane.sub = gear_words(scene, gear);
    place[gear.kind] = out.lanes.size();
    out.lanes.push_back(std::move(lane));
  }
  Lane waiting{.id = "waiting", .name = "No gear held", .sub = "waiting, ready"};
  waiting.shows = Lane::Shows::waiting;

  for (const auto& [id, g] : floor.glue_ups) {
    if (!shown(g)) continue;
    const Span held = span_in(g, scene.now, Lane::Shows::held);
    if (held.overlaps(window))
      for (const Held& h : g.held) {
        const auto at = place.find(h.kind);
        if (at == place.end()) continue;
        Lane& lane = out.lanes[at->second];
        lane.bars.push_back({&g, h.count, held});
        if (over_time(g, scene.now) && !scene.stale() && lane.tone == Lane::Tone::plain) {
          lane.tone = Lane::Tone::loud;
          lane.sub = "still on · " + words::initials(scene.context(), g.builder) + " " +
                     remaining(scene, g).words;
        }
      }
    if (!g.off_at || g.progress == Progress::spoiled) continue;  // not waiting, only planned to
    const Span wait = span_in(g, scene.now, Lane::Shows::waiting);
    if (wait.overlaps(window)) waiting.bars.push_back({&g, 0, wait});
  }
  for (const auto& [id, outage] : floor.outages)
    if (const auto at = place.find(outage.kind); at != place.end() && outage.span.overlaps(window))
      out.lanes[at->second].bars.push_back({nullptr, outage.count, outage.span});

  std::vector<Lane> busy;
  for (Lane& lane : out.lanes) {
    if (lane.bars.empty())
      out.idle.push_back(lane.name);
    else
      busy.push_back(std::move(lane));
  }
  busy.push_back(std::move(waiting));
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
    if (at == place.end() || !shown(g)) continue;
    if (running(g)) ++running_now[at->second];
    const Span span = span_in(g, scene.now, Lane::Shows::all);
    if (!span.overlaps(window)) continue;
    Lane& lane = out.lanes[at->second];
    lane.bars.push_back({&g, 0, span});
    if (over_time(g, scene.now) && !scene.stale()) {
      lane.tone = Lane::Tone::loud;
      lane.sub = "clamps still on";
    }
  }
  for (std::size_t i = 0; i < out.lanes.size(); ++i)
    if (out.lanes[i].sub.empty())
      out.lanes[i].sub =
          running_now[i] == 0 ? "nothing running" : fmt::format("{} running", running_now[i]);
  return out;
}

}  // namespace

std::vector<Segment> segments_of(const GlueUp& g, Instant now, Lane::Shows shows) {
  std::vector<Segment> out;
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
  for (Lane& lane : out.lanes)
    std::stable_sort(lane.bars.begin(), lane.bars.end(),
                     [](const Bar& a, const Bar& b) { return a.span.begin < b.span.begin; });
  return out;
}

}  // namespace squeezeout::board
