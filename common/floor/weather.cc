#include "common/floor/weather.h"

#include <algorithm>

#include "common/floor/apply.h"
#include "common/floor/ask.h"
#include "common/floor/mend.h"

namespace squeezeout {
namespace {

// Beyond what is known the weather is only "as last": nothing that starts later follows it.
constexpr Seconds kReadingHolds = std::chrono::hours{12};
constexpr Seconds kWorthMoving = Minutes{1};

Seconds up_to_minute(Seconds s) { return std::chrono::ceil<Minutes>(s); }

void add_daily(const Floor& f, Instant now, std::vector<AirPoint>& points) {
  const Instant from = std::max(points.back().at, now), end = now + kDailyAhead;
  for (Date day = f.zone->date(from); f.zone->day(day).begin < end;
       day = f.zone->date(f.zone->day(day).end)) {
    const auto midnight = std::chrono::local_days{day};
    for (const DailyAir& d : f.shop->daily) {
      const Instant at = f.zone->instant(midnight + Minutes{d.minute});
      if (at > points.back().at && at > from && at < end) points.push_back({at, d.air, d.humidity});
    }
  }
}

Instant known_until(const Floor& f, Instant at) {
  Instant out = f.readings.empty() ? at : f.readings.back().at + kReadingHolds;
  if (!f.forecast.empty()) out = std::max(out, f.forecast.back().at);
  if (f.shop && !f.shop->daily.empty()) out = std::max(out, at + kDailyAhead);
  return out;
}

// One pass: what the weather makes of each glue-up, and who gives way to whom.
class Follower {
 public:
  Follower(Floor& floor, Instant at)
      : floor_(floor), at_(at), weather_(weather_of(floor, at)), until_(known_until(floor, at)) {}

  std::vector<Event> run() {
    for (const GlueUpId id : by_start()) follow(id);
    std::sort(lost_.begin(), lost_.end());
    for (const auto& [start, id] : lost_) move(id, start);
    return std::move(events_);
  }

 private:
  std::vector<GlueUpId> by_start() const {
    std::vector<std::pair<Instant, GlueUpId>> starts;
    for (const auto& [when, id] : floor_.due) {
      const GlueUp& g = floor_.glue_ups.at(id);
      const bool concerned = g.progress == Progress::reserved || running(g);
      if (concerned && g.sheet && g.times.open_begin < until_)
        starts.emplace_back(g.times.stage_begin, id);
    }
    std::sort(starts.begin(), starts.end());
    std::vector<GlueUpId> out;
    for (const auto& [start, id] : starts) out.push_back(id);
    return out;
  }

  void follow(GlueUpId id) {
    GlueUp g = floor_.glue_ups.at(id);
    const Recipe* recipe = floor_.recipe(g.recipe);
    const AdhesiveSheet* sheet = floor_.sheet(g.sheet);
    if (!recipe || !sheet || g.progress == Progress::displaced) return;
    const Curing curing{*recipe, *sheet, weather_};
    if (running(g))
      return grow(std::move(g), curing.running(g.times.open_begin, g.times.clamped_begin));
    const auto lengths = curing.at(g.times.open_begin, g.times.clamped_begin);
    if (!lengths) return give_up(std::move(g), Snag::too_cold, lengths.error().wood);
    if (lengths->open_limit < g.demand.assembly && g.reason.empty())
      return give_up(std::move(g), Snag::weather, lengths->coldest);
    g.demand.open_limit = lengths->open_limit;
    grow(std::move(g), *lengths);
  }

  void grow(GlueUp g, const Curing::Lengths& now) {
    const Seconds dwell = up_to_minute(now.dwell), wait = up_to_minute(now.wait);
    const bool longer = now.dwell > g.demand.dwell + (running(g) ? Seconds{0} : kWorthMoving) ||
                        now.wait > g.demand.wait + kWorthMoving;
    if (!longer) return;
    g.weather = WeatherNote{g.demand.dwell,
                            std::max(dwell, g.demand.dwell),
                            now.coldest,
                            g.weather ? g.weather->moved_from : std::nullopt,
                            {}};
    g.demand.dwell = std::max(dwell, g.demand.dwell);
    g.demand.wait = std::max(wait, g.demand.wait);
    const Instant end = g.times.release_end;
    plan_release(floor_, g);
    // Clamps that are on past their time stay claimed.
    if (running(g) && g.times.release_end < end) {
      g.times.release_end = end;
      g.times.ready_at = std::max(end, g.times.ready_at);
    }
    if (auto events = change(floor_, Change::weather, g, Snag::weather)) take(std::move(*events));
  }

  void give_up(GlueUp g, Snag snag, Celsius coldest) {
    g.weather = WeatherNote{g.demand.dwell, g.demand.dwell, coldest, std::nullopt, {}};
    g.progress = Progress::displaced;
    g.held.clear();
    g.snag = snag;
    g.snag_by = {};
    auto events = change(floor_, Change::displaced, std::move(g), Snag::weather);
    CHECK(events);  // it gives up what it holds
    take(std::move(*events));
  }

  void take(std::vector<Event> events) {
    for (Event& e : events) {
      if (const auto* c = std::get_if<GlueUpChanged>(&e)) {
        const GlueUp& g = c->after;
        if (g.progress == Progress::displaced) lost_.emplace_back(g.times.stage_begin, g.id);
      }
      squeezeout::apply(floor_, e);
      events_.push_back(std::move(e));
    }
  }

  // Its old start, when who pushed it out was pushed out as well; else the earliest moment after it.
  std::optional<Quote> another_place(const GlueUp& g, Instant start) const {
    if (start >= at_) {
      const auto query = query_again(floor_, g, at_, at_);
      if (!query) return std::nullopt;
      if (auto same = quote_at(floor_, *query, g.sheet, start, at_)) return std::move(*same);
    }
    auto later = earliest_for(floor_, g.id, std::max(start, at_), at_);
    if (!later) return std::nullopt;
    return std::move(*later);
  }

  // What finds no other place stays a snag.
  void move(GlueUpId id, Instant start) {
    GlueUp g = floor_.glue_ups.at(id);
    auto quote = another_place(g, start);
    if (!quote) return;
    WeatherNote note{g.demand.dwell, quote->demand.dwell, {}, start, g.snag_by};
    if (quote->slot.times.stage_begin == start) note.moved_from.reset();  // its place is free again
    const GlueUp* cause = floor_.glue_up(g.snag_by);
    if (cause && cause->weather)
      note.coldest = cause->weather->coldest;
    else if (g.weather)
      note.coldest = g.weather->coldest;
    g.weather = note;
    if (!note.moved_from && note.dwell == note.dwell_before) g.weather.reset();
    g.progress = Progress::reserved;
    g.demand = std::move(quote->demand);
    g.held = std::move(quote->slot.held);
    g.times = quote->slot.times;
    g.snag = Snag::none;
    g.snag_by = {};
    auto events = change(floor_, Change::weather, std::move(g), Snag::weather);
    CHECK(events);  // a quote's gear is free
    for (Event& e : *events) {
      squeezeout::apply(floor_, e);
      events_.push_back(std::move(e));
    }
  }

  Floor& floor_;
  const Instant at_;
  const Weather weather_;
  const Instant until_;
  std::vector<Event> events_;
  std::vector<std::pair<Instant, GlueUpId>> lost_;
};

}  // namespace

Weather weather_of(const Floor& f, Instant now) {
  std::vector<AirPoint> points;
  for (const AirPoint& p : f.readings) {
    if (p.at >= now - kReadingsKept) points.push_back(p);
  }
  if (points.empty()) {
    const Instant at = f.climate.at == Instant{} ? now - kReadingsKept : f.climate.at;
    points.push_back({at, f.climate.air, f.climate.humidity});
  }
  for (const AirPoint& p : f.forecast) {
    if (p.at > points.back().at) points.push_back(p);
  }
  if (f.shop && f.zone && !f.shop->daily.empty()) add_daily(f, now, points);
  return Weather{std::move(points)};
}

std::vector<Event> follow_weather(Floor& floor, Instant at) {
  if (!floor.shop) return {};
  return Follower{floor, at}.run();
}

}  // namespace squeezeout
