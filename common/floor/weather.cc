#include "common/floor/weather.h"

#include <algorithm>

#include "common/floor/apply.h"
#include "common/floor/ask.h"
#include "common/floor/mend.h"

namespace squeezeout {
namespace {

// Beyond what is known the weather is only "as last": nothing that starts later follows it.
constexpr Seconds kReadingHolds = std::chrono::hours{2};
constexpr Seconds kStillWanted = std::chrono::hours{12};  // put out longer ago: a person decides
constexpr Seconds kWorthShortening = Minutes{10};         // of clamps that are on

// The daily course from the last point on, until `end`.
void add_daily(const Floor& f, Instant end, std::vector<AirPoint>& points) {
  if (!f.shop || !f.zone || f.shop->daily.empty()) return;
  for (Date day = f.zone->date(points.back().at); f.zone->day(day).begin < end;
       day = f.zone->date(f.zone->day(day).end)) {
    const auto midnight = std::chrono::local_days{day};
    for (const DailyAir& d : f.shop->daily) {
      const Instant at = f.zone->instant(midnight + Minutes{d.minute});
      if (at > points.back().at && at < end) points.push_back({at, d.air, d.humidity});
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
  Follower(Floor& floor, Instant at, Reach reach)
      : floor_(floor),
        at_(at),
        reach_(reach),
        climate_(std::make_shared<Climate>(weather_of(floor, at))),
        usual_(std::make_shared<Climate>(
            Weather::steady(floor.shop->climate_celsius, floor.shop->climate_humidity))),
        until_(known_until(floor, at)) {}

  std::vector<Event> run() {
    // Whom the weather put out before may find a place again, and with an earlier step of a build the later ones.
    for (const GlueUpId id : floor_.displaced) {
      const GlueUp& g = floor_.glue_ups.at(id);
      const bool with_earlier = g.snag == Snag::earlier_step && put_out(floor_.glue_up(g.snag_by));
      if (put_out(&g) || with_earlier) lost_.emplace_back(g.times.stage_begin, id);
    }
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
      if (concerned && g.sheet && (reach_ == Reach::all || known(g)))
        starts.emplace_back(g.times.stage_begin, id);
    }
    std::sort(starts.begin(), starts.end());
    std::vector<GlueUpId> out;
    for (const auto& [start, id] : starts) out.push_back(id);
    return out;
  }

  bool put_out(const GlueUp* g) const {
    return g && g->progress == Progress::displaced && g->times.stage_begin >= at_ - kStillWanted &&
           (g->snag == Snag::too_cold || g->snag == Snag::weather);
  }

  bool known(const GlueUp& g) const { return running(g) || g.times.open_begin < until_; }

  void follow(GlueUpId id) {
    GlueUp g = floor_.glue_ups.at(id);
    const Recipe* recipe = floor_.recipe(g.recipe);
    const AdhesiveSheet* sheet = floor_.sheet(g.sheet);
    if (!recipe || !sheet || g.progress == Progress::displaced) return;
    const Curing curing{*recipe, *sheet, known(g) ? climate_ : usual_};
    if (running(g))
      return grow(std::move(g), curing.running(g.times.open_begin, g.times.clamped_begin));
    const auto lengths = curing.at(g.times.open_begin, g.times.clamped_begin);
    if (!lengths && !known(g)) return;
    if (!lengths) return give_up(std::move(g), Snag::too_cold, lengths.error().wood);
    if (lengths->open_limit < g.demand.assembly && !skins_knowingly(g))
      return give_up(std::move(g), Snag::weather, lengths->coldest);
    grow(std::move(g), *lengths);
  }

  void grow(GlueUp g, const Curing::Lengths& now) {
    const bool longer = now.dwell > g.demand.dwell || now.wait > g.demand.wait;
    const bool shorter = running(g) && now.dwell + kWorthShortening < g.demand.dwell;
    if (!longer && !shorter) return;
    WeatherNote note{.dwell_before = g.demand.dwell, .coldest = now.coldest};
    if (g.weather) note = *g.weather, note.coldest = std::min(note.coldest, now.coldest);
    g.demand.dwell = shorter ? now.dwell : std::max(now.dwell, g.demand.dwell);
    g.demand.wait = std::max(now.wait, g.demand.wait);
    if (!running(g)) g.demand.open_limit = now.open_limit;
    note.dwell = g.demand.dwell;
    g.weather = note;
    // Clamps that are on stay claimed beyond now.
    plan_release(floor_, g, running(g) ? at_ : Instant::min());
    auto events = change(floor_, Change::weather, g, Snag::weather);
    // What cannot give way (it runs, or is broken) holds its gear from now on without a gap: it leaves as much at the end of the
    // claim as at its beginning.
    CHECK(events);
    take(std::move(*events));
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
      auto query = query_again(floor_, g, at_, at_);
      if (!query) return std::nullopt;
      if (g.outside_hours) query->attended = SlotQuery::Hours::ignore;
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
    if (quote->slot.times.stage_begin == start) {
      note.moved_from.reset();  // its place is free again
    } else {
      g.outside_hours = false;  // the new one is within hours
      g.pot = {};               // and maybe behind the end of its mix
    }
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
  const Reach reach_;
  const std::shared_ptr<Climate> climate_, usual_;
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
  if (points.empty()) points.push_back({now - kReadingsKept, f.climate.air, f.climate.humidity});
  const auto first = std::find_if(f.forecast.begin(), f.forecast.end(),
                                  [&](const AirPoint& p) { return p.at > points.back().at; });
  if (first != f.forecast.end()) {
    add_daily(f, first->at, points);
    // Until now it has been as it was last known: the forecast's slope begins here.
    if (points.back().at < now && now < first->at)
      points.push_back({now, points.back().air, points.back().humidity});
    points.insert(points.end(), first, f.forecast.end());
  }
  add_daily(f, now + kDailyAhead, points);
  return Weather{std::move(points)};
}

std::vector<Event> follow_weather(Floor& floor, Instant at, Reach reach) {
  if (!floor.shop) return {};
  return Follower{floor, at, reach}.run();
}

}  // namespace squeezeout
