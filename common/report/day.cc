#include "common/report/day.h"

#include <algorithm>
#include <map>

namespace squeezeout {
namespace {

// Facts of the day up to now, now included.
bool within(Span day, Instant now, const std::optional<Instant>& t) {
  return t && day.contains(*t) && *t <= now;
}

DayLine line_of(const GlueUp& g, Span day, Instant now) {
  DayLine line{.glue_up = g.id};
  if (within(day, now, g.clamped_at)) {
    line.open_planned = g.demand.assembly;
    line.open_actual = *g.clamped_at - *g.started_at;
  }
  if (within(day, now, g.off_at)) {
    line.dwell_planned = g.promised.release_begin - g.promised.clamped_begin;
    line.dwell_actual = *g.off_at - g.clamped_at.value_or(*g.off_at);
    line.release_late = *g.off_at - g.promised.release_end;
  }
  return line;
}

KindLine kind_line(const Floor& f, const GearKind& k, Span told, Seconds open_time) {
  KindLine line{.kind = k.id};
  Usage in_use;
  for (const HeldBy& h : f.gear.holders(k.id, told)) {
    const Span part = h.span.intersect(told);
    if (h.holder.what == Holder::What::outage) {
      line.out_of_use += part.length() * h.count;
      continue;
    }
    line.held += part.length() * h.count;
    in_use.add(part, h.count);
  }
  line.peak = in_use.peak(told, {}).level;
  const auto could = static_cast<double>(open_time.count()) * f.gear.stock(k.id);
  line.utilisation = could > 0 ? static_cast<double>(line.held.count()) / could : 0;
  return line;
}

// When somebody next has to do something about it.
std::optional<Instant> next_call(const Floor& f, const GlueUp& g) {
  if (g.progress == Progress::reserved) return g.times.stage_begin;
  if (g.progress == Progress::clamped)
    return std::max(g.times.release_begin, g.times.release_end - g.demand.release);
  const Recipe* r = f.recipe(g.recipe);
  if (g.progress == Progress::waiting && r && !r->finish.empty()) return g.times.ready_at;
  return std::nullopt;
}

}  // namespace

DaySheet day_sheet(const Floor& f, Date date, Instant now) {
  CHECK(f.shop && f.zone);
  DaySheet sheet{.date = date, .span = f.zone->day(date)};
  const Span day = sheet.span;
  const Span told =
      day.intersect({Instant::min(), std::max(now, day.begin)});  // what has happened so far

  const std::vector<Span> open = Hours{*f.zone, f.shop->hours}.open_spans(day);
  for (const Span& s : open) sheet.open_time += s.intersect(told).length();
  const Instant closing = open.empty() ? day.end : open.back().end;

  std::vector<NextCall> tomorrow;
  std::map<GearKindId, Seconds> waited;
  for (const auto& [id, g] : f.glue_ups) {
    sheet.started += within(day, now, g.started_at);
    sheet.finished += g.progress == Progress::done && within(day, now, g.ended_at);
    sheet.spoiled += g.progress == Progress::spoiled && within(day, now, g.ended_at);
    sheet.cancelled += g.progress == Progress::cancelled && within(day, now, g.ended_at);
    const bool promised_today = day.contains(g.promised.stage_begin);
    sheet.displaced += g.progress == Progress::displaced && promised_today;
    if (promised_today && g.progress != Progress::cancelled) {
      sheet.waited_for_gear += g.waited_for_gear;
      for (const Held& h : g.held) waited[h.kind] += g.waited_for_gear;
    }
    if (within(day, now, g.started_at) || within(day, now, g.clamped_at) ||
        within(day, now, g.off_at) || within(day, now, g.ended_at)) {
      sheet.lines.push_back(line_of(g, day, now));
    }
    const bool cures = g.clamped_at && g.progress != Progress::spoiled;
    const Instant until = std::min(g.times.ready_at, g.ended_at.value_or(kNever));
    if (cures && *g.clamped_at <= closing && closing < until) sheet.curing_overnight.push_back(id);
    if (const auto call = next_call(f, g); call && *call >= day.end)
      tomorrow.push_back({*call, id});
  }
  for (const GearKind& k : f.shop->gear) {
    sheet.kinds.push_back(kind_line(f, k, told, sheet.open_time));
    sheet.kinds.back().waited = waited[k.id];
  }

  constexpr std::size_t kMost = 5;
  std::sort(tomorrow.begin(), tomorrow.end());
  tomorrow.resize(std::min(tomorrow.size(), kMost));
  sheet.first_tomorrow = std::move(tomorrow);
  return sheet;
}

}  // namespace squeezeout
