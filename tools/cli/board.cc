#include "tools/cli/board.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "client/words/columns.h"

namespace squeezeout::cli {
namespace {

void add(std::vector<Segment>& to, Instant begin, Instant end, Fill fill) {
  if (begin < end) to.push_back({{begin, end}, fill});
}

// What is shown of it while it holds gear.
std::vector<Segment> held_segments(const words::Context& c, const GlueUp& g) {
  const PhaseTimes& t = g.times;
  std::vector<Segment> out;
  if (g.progress == Progress::cancelled || g.progress == Progress::displaced) return out;
  if (g.progress == Progress::reserved) {
    add(out, t.stage_begin, t.release_end, Fill::planned);
    return out;
  }
  if (g.progress == Progress::spoiled) {
    add(out, t.stage_begin, g.ended_at.value_or(t.release_end), Fill::spoiled);
    return out;
  }
  add(out, t.stage_begin, t.open_begin, Fill::planned);
  add(out, t.open_begin, t.clamped_begin, Fill::open);
  const Instant off =
      over_time(g, c.now) ? std::min(t.release_begin, t.release_end) : t.release_end;
  add(out, t.clamped_begin, off, Fill::clamped);
  add(out, std::max(off, t.clamped_begin), t.release_end, Fill::over);
  return out;
}

std::vector<Segment> waiting_segments(const GlueUp& g) {
  std::vector<Segment> out;
  const bool waits = g.progress != Progress::cancelled && g.progress != Progress::displaced &&
                     g.progress != Progress::spoiled;
  if (waits) add(out, g.times.release_end, g.times.ready_at, Fill::waiting);
  return out;
}

std::string bar_label(const words::Context& c, const GlueUp& g) {
  const Build* build = c.floor.build(g.build);  // behind the recipe: narrow bars cut it off
  std::string out = words::recipe(c, g.recipe) + (build ? " " + build->name : "");
  if (g.progress == Progress::clamped) out += " off " + words::clock_only(c, g.times.release_begin);
  return out;
}

class Lanes {
 public:
  Lanes(const words::Context& c, Span window) : c_(c), window_(window) {}

  void open(std::uint32_t id, std::string key, std::string name) {
    place_[id] = lanes_.size();
    lanes_.push_back({std::move(key), std::move(name), {}});
  }
  void add_bar(std::uint32_t lane, const GlueUp& g, std::vector<Segment> segments,
               const std::string& before = "") {
    const auto place = place_.find(lane);
    if (place == place_.end() || segments.empty()) return;
    Bar bar{g.id, std::move(segments), before + bar_label(c_, g)};
    if (bar.span().overlaps(window_)) lanes_[place->second].bars.push_back(std::move(bar));
  }
  std::vector<Lane> take() {
    for (Lane& lane : lanes_)
      std::stable_sort(lane.bars.begin(), lane.bars.end(),
                       [](const Bar& a, const Bar& b) { return a.span().begin < b.span().begin; });
    return std::move(lanes_);
  }

 private:
  const words::Context& c_;
  Span window_;
  std::vector<Lane> lanes_;
  std::map<std::uint32_t, std::size_t> place_;
};

std::vector<Lane> by_gear(const words::Context& c, Span window) {
  constexpr std::uint32_t kNoGear = 0;  // no kind has this number
  Lanes lanes(c, window);
  for (const GearKind& k : c.floor.shop->gear) lanes.open(k.id.value, k.key, k.name);
  lanes.open(kNoGear, "", "no gear held");
  for (const auto& [id, g] : c.floor.glue_ups) {
    for (const Held& h : g.held) {
      const GearKind* kind = c.floor.kind(h.kind);
      lanes.add_bar(h.kind.value, g, held_segments(c, g),
                    kind && kind->tag.empty() ? fmt::format("{} ", h.count) : "");
    }
    lanes.add_bar(kNoGear, g, waiting_segments(g));
  }
  return lanes.take();
}

std::vector<Segment> all_segments(const words::Context& c, const GlueUp& g) {
  std::vector<Segment> out = held_segments(c, g);
  for (const Segment& s : waiting_segments(g)) out.push_back(s);
  return out;
}

// ---- drawing ----

constexpr std::size_t kColumns = 100;
constexpr std::size_t kNameColumns = 18;
constexpr std::size_t kAxisColumns = kColumns - kNameColumns - 1;
constexpr std::size_t kTickColumns = 8;  // at least so far apart

class Axis {
 public:
  explicit Axis(Span window) : window_(window) {}
  // The column of an instant; before and after the window: the first and the one behind the last.
  std::size_t column(Instant t) const {
    if (t <= window_.begin) return 0;
    if (t >= window_.end) return kAxisColumns;
    const auto part = static_cast<double>((t - window_.begin).count()) /
                      static_cast<double>(window_.length().count());
    return std::min(static_cast<std::size_t>(part * kAxisColumns), kAxisColumns);
  }
  Instant at(std::size_t column) const {
    const auto part = static_cast<double>(column) / kAxisColumns;
    return window_.begin +
           Seconds{static_cast<std::int64_t>(part * static_cast<double>(window_.length().count()))};
  }
  Seconds column_length() const {
    return window_.length() / static_cast<std::int64_t>(kAxisColumns);
  }
  Span window() const { return window_; }

 private:
  Span window_;
};

using Cells = std::vector<std::string>;  // one code point each

void write(Cells& cells, std::size_t from, std::string_view text) {
  for (std::size_t at = 0; at < text.size() && from < cells.size(); ++from) {
    std::size_t end = at + 1;
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
    cells[from] = std::string(text.substr(at, end - at));
    at = end;
  }
}

std::string line(std::string_view name, const Cells& cells) {
  std::string out = words::left(name, kNameColumns) + " ";
  for (const std::string& cell : cells) out += cell;
  out.erase(out.find_last_not_of(' ') + 1);
  return out + "\n";
}

Cells empty_row(const Axis& axis, Instant now) {
  Cells cells(kAxisColumns, " ");
  if (axis.window().contains(now)) cells[axis.column(now)] = "|";
  return cells;
}

Seconds tick_length(const Axis& axis) {
  for (const int minutes : {15, 30, 60, 120, 240, 360, 720})
    if (Minutes{minutes} >= axis.column_length() * static_cast<int>(kTickColumns))
      return Minutes{minutes};
  return std::chrono::hours{24};
}

std::string axis_line(const words::Context& c, const Axis& axis) {
  Cells cells(kAxisColumns, " ");
  const Seconds tick = tick_length(axis);
  const Zone& zone = *c.floor.zone;
  for (LocalTime t = std::chrono::floor<std::chrono::days>(zone.local(axis.window().begin));
       zone.instant(t) < axis.window().end; t += tick) {
    const Instant at = zone.instant(t);
    if (!axis.window().contains(at)) continue;
    const bool midnight = t == std::chrono::floor<std::chrono::days>(t);
    const std::string text = midnight ? words::day(c, at) : words::clock_only(c, at);
    if (axis.column(at) + words::width(text) <= kAxisColumns) write(cells, axis.column(at), text);
  }
  return line("", cells);
}

std::string hours_line(const words::Context& c, const Axis& axis) {
  Cells cells(kAxisColumns, " ");
  for (const Span& open : Hours{*c.floor.zone, c.floor.shop->hours}.open_spans(axis.window()))
    for (std::size_t i = axis.column(open.begin); i < axis.column(open.end); ++i) cells[i] = "=";
  if (axis.window().contains(c.now)) cells[axis.column(c.now)] = "v";
  return line("open", cells);
}

void draw_bar(Cells& cells, const Axis& axis, const Bar& bar) {
  const std::size_t begin = axis.column(bar.span().begin);
  const std::size_t end = std::max(begin + 1, axis.column(bar.span().end));
  for (const Segment& s : bar.segments) {
    const std::size_t last = std::max(axis.column(s.span.begin) + 1, axis.column(s.span.end));
    for (std::size_t i = axis.column(s.span.begin); i < std::min(last, cells.size()); ++i)
      cells[i] = std::string(1, static_cast<char>(s.fill));
  }
  constexpr std::size_t kLeast = 6;  // narrower bars have no room for words
  if (end - begin >= kLeast) write(cells, begin + 1, words::cut(bar.label, end - begin - 2));
}

// The bars of a lane in rows, each in the first row where it is free.
std::vector<std::vector<const Bar*>> rows_of(const Lane& lane, const Axis& axis) {
  std::vector<std::vector<const Bar*>> rows;
  for (const Bar& bar : lane.bars) {
    const auto room = std::find_if(rows.begin(), rows.end(), [&](const auto& row) {
      return axis.column(row.back()->span().end) < axis.column(bar.span().begin) ||
             axis.column(row.back()->span().end) == axis.column(bar.span().begin);
    });
    if (room == rows.end())
      rows.push_back({&bar});
    else
      room->push_back(&bar);
  }
  return rows;
}

}  // namespace

std::vector<Lane> lay_out_board(const words::Context& c, By by, Span window) {
  if (by == By::gear) return by_gear(c, window);
  Lanes lanes(c, window);
  if (by == By::bench)
    for (const Bench& b : c.floor.shop->benches) lanes.open(b.id.value, b.key, b.name);
  else
    for (const Builder& b : c.floor.shop->builders) lanes.open(b.id.value, b.key, b.name);
  for (const auto& [id, g] : c.floor.glue_ups)
    lanes.add_bar(by == By::bench ? g.bench.value : g.builder.value, g, all_segments(c, g));
  return lanes.take();
}

std::string draw_board(const words::Context& c, const std::vector<Lane>& lanes, Span window) {
  const Axis axis(window);
  std::string out = axis_line(c, axis) + hours_line(c, axis);
  std::string empty;
  for (const Lane& lane : lanes) {
    if (lane.bars.empty()) {
      empty += (empty.empty() ? "" : ", ") + words::small(lane.name);
      continue;
    }
    std::string name = lane.name;
    for (const auto& row : rows_of(lane, axis)) {
      Cells cells = empty_row(axis, c.now);
      for (const Bar* bar : row) draw_bar(cells, axis, *bar);
      out += line(name, cells);
      name.clear();
    }
  }
  if (!empty.empty()) out += words::cut("nothing here: " + empty, kColumns) + "\n";
  return out + "-- planned  ~~ glue wet  // clamped  !! over time  .. waiting  xx spoiled  v now\n";
}

}  // namespace squeezeout::cli
