#include "client/wall/wall_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "client/panels/chrome_model.h"

namespace squeezeout::wall {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kTopMm = 72, kRowMm = 55, kFootMm = 62, kFreeLineMm = 44, kMarginMm = 13;
constexpr int kMostFreeLines = 3;

// Who wants gear that this one still holds, soonest first.
const GlueUp* next_taker(const Floor& floor, const GlueUp& g) {
  const GlueUp* soonest = nullptr;
  for (const Held& h : g.held)
    for (const HeldBy& other : floor.gear.holders(h.kind, {g.times.release_begin, kNever})) {
      if (other.holder.what != Holder::What::glue_up) continue;
      const GlueUp* o = floor.glue_up(GlueUpId{other.holder.id});
      if (o == nullptr || o->progress != Progress::reserved) continue;
      if (soonest == nullptr || o->times.stage_begin < soonest->times.stage_begin) soonest = o;
    }
  return soonest;
}

std::string second_line(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const std::string what = words::title(c, g) + " · " + words::glue(c, g);
  if (const auto by = clamps_on_by(g); by && g.progress == Progress::open)
    return "clamps on by " + words::clock(c, *by) + " · " + what;
  if (const GlueUp* taker = next_taker(scene.floor, g);
      taker != nullptr && taker->times.stage_begin < scene.now + std::chrono::hours{4})
    return "wanted by " + words::initials(c, taker->builder) + " " +
           words::clock(c, taker->times.stage_begin) + " · " + what;
  return what;
}

// As many names as fit, then "+N".
std::string fitting_list(const Canvas& canvas, const std::vector<std::string>& names,
                         const char* separator, float width) {
  std::string shown;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string more = (i == 0 ? "" : separator) + names[i];
    const std::string tail =
        i + 1 < names.size() ? fmt::format(" +{}", names.size() - i - 1) : std::string{};
    if (i > 0 && canvas.width(Type::wall_name, shown + more + tail) > width)
      return shown + fmt::format(" +{}", names.size() - i);
    shown += more;
  }
  return shown;
}

// Gear that it holds, a kind a name: single pieces first, for they are asked after by name; then the most.
std::vector<std::string> gear_names(const Scene& scene, const GlueUp& g) {
  std::vector<Held> held = g.held;
  const auto rank = [&](const Held& h) {
    return std::pair{scene.floor.gear.stock(h.kind) == 1 ? 0 : 1, -h.count};
  };
  std::stable_sort(held.begin(), held.end(),
                   [&](const Held& a, const Held& b) { return rank(a) < rank(b); });
  std::vector<std::string> names;
  for (const Held& h : held) names.push_back(words::gear(scene.context(), std::vector<Held>{h}));
  return names;
}

// "Bench 5" is 5 in a box; a bench with no number is its first letters.
std::string bench_sign(const Scene& scene, BenchId id) {
  const std::string name = words::bench(scene.context(), id);
  std::string digits;
  for (const char c : name)
    if (c >= '0' && c <= '9') digits += c;
  return digits.empty() ? name.substr(0, 2) : digits;
}

void row(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g, Role ground) {
  const words::Context c = scene.context();
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  canvas.box(at, ground);
  Rect line = at.inset(mm(kMarginMm), 0);
  const Phase phase = phase_at(g, scene.now);
  swatch(canvas, line.cut_left(mm(46)).middle(mm(46), mm(46)), phase, g, scene);
  line.cut_left(mm(13));

  // "~" while the time rests on clamps that are not on yet.
  std::string clock = words::clock(c, shown_time(g, scene.now));
  if (phase == Phase::open) clock = "~" + clock;
  Rect time = line.cut_left(canvas.width(Type::wall_time, "~00:00"));
  const bool fits = canvas.width(Type::wall_time, clock) <= time.w &&
                    clock.find_first_not_of("~0123456789:") == std::string::npos;
  canvas.words(time, clock, fits ? Type::wall_time : Type::wall_name, {Role::text, ground});
  line.cut_left(mm(12));

  const Remaining left = remaining(scene, g);
  Rect rest = line.cut_left(canvas.width(Type::wall_name, "00 min over") + mm(16));
  if (left.tone == Remaining::Tone::loud) {
    const Rect tag = rest.middle(rest.w, mm(42));
    canvas.box(tag, Role::amber);
    canvas.edge(tag, Role::keyline, 0.5F);
    canvas.words(tag.inset(mm(6), 0), left.words, Type::wall_name, {Role::on_amber, Role::amber});
  } else {
    const bool quiet = left.tone == Remaining::Tone::quiet;
    canvas.words(rest.inset(mm(6), 0), left.words, Type::wall_name,
                 {quiet ? Role::muted : Role::text, ground});
  }
  line.cut_left(mm(10));

  const std::string sign = bench_sign(scene, g.bench);
  const Rect box = line.cut_right(std::max(mm(42), canvas.width(Type::wall_name, sign) + mm(14)))
                       .inset(0, mm(7));
  canvas.edge(box, Role::text, 0.6F);
  canvas.words(box, sign, Type::wall_name, {Role::text, ground}, Align::centre);
  line.cut_right(mm(8));
  const std::string who = words::initials(c, g.builder);
  canvas.words(line.cut_right(canvas.width(Type::wall_name, who) + 1), who, Type::wall_name,
               {Role::text, ground}, Align::right);
  line.cut_right(mm(10));

  const bool holds = running(g) && !g.held.empty();
  const std::string gear =
      holds ? fitting_list(canvas, gear_names(scene, g), ", ", line.w) : "no gear held";
  Rect text = line.middle(line.w, mm(47));
  canvas.words(text.cut_top(mm(28)), gear, Type::wall_name, {Role::text, ground});
  canvas.words(text, second_line(scene, g), Type::wall_sub, {Role::muted, ground});
}

void top(Canvas& canvas, Rect at, const Scene& scene) {
  const words::Context c = scene.context();
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  Rect line = at.inset(mm(kMarginMm), 0);
  const std::string clock = words::clock_only(c, scene.now);
  canvas.words(line.cut_left(canvas.width(Type::wall_time, clock) + 1), clock, Type::wall_time, {});
  line.cut_left(mm(7));
  // The seconds run, so that a screen that froze is seen to have frozen.
  const LocalTime local = scene.floor.zone ? scene.floor.zone->local(scene.now) : LocalTime{};
  const auto second = (local - std::chrono::floor<Minutes>(local)).count();
  Rect ticking = line.cut_left(canvas.width(Type::wall_sub, "00"));
  ticking = {
      ticking.x,
      ticking.bottom() - (ticking.h - canvas.cap(Type::wall_time)) / 2 - canvas.cap(Type::wall_sub),
      ticking.w + 1, canvas.cap(Type::wall_sub)};
  canvas.words(ticking, fmt::format("{:02}", second), Type::wall_sub,
               {Role::muted, Role::background});
  line.cut_left(mm(26));
  if (scene.link == Link::live || scene.link == Link::late) {
    const std::string words = panels::link_words(scene);
    const float icon = mm(20);
    const float width = canvas.width(Type::wall_name, words) + mm(20) +
                        (scene.link == Link::live ? icon + mm(6) : 0);
    Rect box = line.cut_right(width).middle(width, mm(42));
    canvas.edge(box, Role::edge, 0.5F);
    box = box.inset(mm(10), 0);
    if (scene.link == Link::live) {
      canvas.icon(look::Glyph::tick, box.cut_left(icon).middle(icon, icon), Role::text);
      box.cut_left(mm(6));
    }
    canvas.words(box, words, Type::wall_name, {});
  }
  line.cut_right(mm(10));
  std::string day = words::day(c, scene.now);
  if (!scene.stale()) day += fmt::format("     {:.0f} °C", scene.floor.climate.air.value);
  canvas.words(line, day, Type::wall_name, {});
}

void free_now(Canvas& canvas, Rect at, const Scene& scene, int later) {
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  canvas.box(at, Role::lane);
  canvas.box({at.x, at.y, at.w, std::max(1.0F, mm(1.2F))}, Role::edge);
  Rect line = at.inset(mm(kMarginMm), 0);
  const std::string head = scene.stale() ? "WAS FREE" : "FREE NOW";
  Rect head_at = line.cut_left(canvas.width(Type::wall_name, head) + 1);
  canvas.words(head_at.cut_top(mm(kFootMm)), head, Type::wall_name, {Role::muted, Role::lane});
  line.cut_left(mm(16));
  if (later > 0) {
    const std::string more = fmt::format("+{} later", later);
    canvas.words(line.cut_right(canvas.width(Type::wall_sub, more) + 1), more, Type::wall_sub,
                 {Role::muted, Role::lane}, Align::right);
    line.cut_right(mm(10));
  }
  // What is asked for most today stands first: whether that is free is what people come to read.
  struct Free {
    std::size_t asked = 0;
    std::string name;
  };
  std::vector<Free> free;
  for (const GearNow& g : gear_now(scene.floor, scene.now)) {
    if (g.free == 0) continue;
    const std::string name = words::small(scene.floor.kind(g.kind)->name);
    free.push_back(
        {scene.floor.gear.holders(g.kind, {scene.now, scene.now + std::chrono::hours{24}}).size(),
         g.stock == 1 ? name : words::number(g.free, name)});
  }
  std::stable_sort(free.begin(), free.end(),
                   [](const Free& a, const Free& b) { return a.asked > b.asked; });
  std::vector<std::string> names;
  for (const Free& f : free) names.push_back(f.name);
  if (names.empty()) names.emplace_back("nothing");
  // A line more for each row that nobody needs above.
  const int lines = static_cast<int>(line.h / mm(kFreeLineMm));
  Rect block = line.middle(line.w, mm(kFreeLineMm) * static_cast<float>(lines));
  for (int i = 0; i < lines && !names.empty(); ++i) {
    const Rect at_line = block.cut_top(mm(kFreeLineMm));
    std::size_t taken = names.size();
    if (i + 1 < lines) {
      taken = 1;
      std::string shown = names[0];
      while (taken < names.size() &&
             canvas.width(Type::wall_name, shown + " · " + names[taken] + " ·") <= line.w)
        shown += " · " + names[taken++];
    }
    const std::vector<std::string> here(names.begin(),
                                        names.begin() + static_cast<std::ptrdiff_t>(taken));
    names.erase(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(taken));
    canvas.words(at_line, fitting_list(canvas, here, " · ", line.w), Type::wall_name,
                 {Role::text, Role::lane});
  }
}

}  // namespace

std::vector<const GlueUp*> wall_order(const Scene& scene) {
  using Rank = std::tuple<int, Instant, GlueUpId>;
  std::vector<std::pair<Rank, const GlueUp*>> rows;
  for (const auto& [id, g] : scene.floor.glue_ups) {
    if (!running(g) && g.progress != Progress::waiting) continue;
    const Phase phase = phase_at(g, scene.now);
    const int group = past_due(g, scene.now) ? 0 : running(g) ? 1 : phase == Phase::ready ? 3 : 2;
    rows.push_back({{group, shown_time(g, scene.now), id}, &g});
  }
  std::sort(rows.begin(), rows.end(),
            [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<const GlueUp*> out;
  for (const auto& [rank, g] : rows) out.push_back(g);
  return out;
}

look::Frame lay_out_wall(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  Rect area = canvas.screen();
  canvas.box(area, Role::background);
  top(canvas, area.cut_top(mm(kTopMm)), scene);
  area = panels::banner(canvas, scene, area, Type::wall_name);
  Rect foot = area.cut_bottom(mm(kFootMm));
  const auto order = wall_order(scene);
  const int fitting = std::min(kRows, static_cast<int>(area.h / mm(kRowMm) + 0.01F));
  const int shown = std::min(fitting, static_cast<int>(order.size()));
  const float height = area.h / static_cast<float>(std::max(1, fitting));
  const int spare = std::min(kMostFreeLines - 1, fitting - shown - (shown == 0 ? 1 : 0));
  if (spare > 0) {
    const float more = mm(kFreeLineMm) * static_cast<float>(spare);
    area.cut_bottom(more);
    foot.y -= more, foot.h += more;
  }
  for (int i = 0; i < shown; ++i)
    row(canvas, area.cut_top(height), scene, *order[static_cast<std::size_t>(i)],
        i % 2 == 0 ? Role::lane : Role::background);
  if (order.empty())
    canvas.words(area, "Nothing curing.", Type::wall_name, {Role::muted, Role::background},
                 Align::centre);
  free_now(canvas, foot, scene, static_cast<int>(order.size()) - shown);
  return canvas.take();
}

}  // namespace squeezeout::wall
