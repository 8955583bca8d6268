#include "client/wall/wall_model.h"

#include <algorithm>
#include <tuple>

#include "client/panels/chrome_model.h"
#include "client/wall/wall_row.h"
#include "client/words/say.h"

namespace squeezeout::wall {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kTopMm = 72, kRowMm = 55, kFootMm = 62, kFreeLineMm = 44;
constexpr int kMostFreeLines = 3;

// A line across the screen that fills once a minute, and seconds: a screen that froze is seen to have frozen.
void tick(Canvas& canvas, Rect clock, Rect strip, const Scene& scene) {
  const LocalTime local = scene.floor.zone ? scene.floor.zone->local(scene.now) : LocalTime{};
  const auto second = (local - std::chrono::floor<Minutes>(local)).count();
  const float base = clock.bottom() - (clock.h - canvas.cap(Type::wall_time)) / 2;
  canvas.words({clock.x, base - canvas.cap(Type::wall_name), clock.w, canvas.cap(Type::wall_name)},
               fmt::format("{:02}", second), Type::wall_name, {Role::muted, Role::background});
  strip = strip.cut_bottom(scene.scale.wall_px(3));
  canvas.box(strip, Role::lane);
  canvas.box(strip.cut_left(strip.w * static_cast<float>(second) / 60), Role::muted);
}

void top(Canvas& canvas, Rect at, const Scene& scene) {
  const words::Context c = scene.context();
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  Rect line = at.inset(mm(kMarginMm), 0);
  line.cut_left(wall_clock(canvas, line, words::clock_only(c, scene.now), {}) + mm(7));
  tick(canvas, line.cut_left(canvas.width(Type::wall_name, "00") + 1), at, scene);
  line.cut_left(mm(22));
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
  const std::string day = words::day(c, scene.now);
  if (scene.stale()) {
    canvas.words(line, day, Type::wall_name, {});
  } else {
    const std::string air = words::degrees_whole(scene.context(), scene.floor.climate.air);
    canvas.one_of(line, {day + " · " + air, air}, Type::wall_name, {});
  }
}

// What is asked for most today stands first: whether that is free is what people come to read.
std::vector<std::string> free_names(const Scene& scene) {
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
  return names;
}

void free_now(Canvas& canvas, Rect at, const Scene& scene, int later) {
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  canvas.box(at, Role::lane);
  canvas.box({at.x, at.y, at.w, std::max(1.0F, mm(1.2F))}, Role::edge);
  Rect line = at.inset(mm(kMarginMm), 0);
  const std::string head = words::tr(scene.stale() ? "WAS FREE" : "FREE NOW");
  Rect head_at = line.cut_left(canvas.width(Type::wall_name, head) + 1);
  canvas.words(head_at.cut_top(mm(kFootMm)), head, Type::wall_name, {Role::muted, Role::lane});
  line.cut_left(mm(16));
  if (later > 0) {
    const std::string more = words::say("+{} later", later);
    canvas.words(line.cut_right(canvas.width(Type::wall_name, more) + 1), more, Type::wall_name,
                 {Role::muted, Role::lane}, Align::right);
    line.cut_right(mm(10));
  }
  std::vector<std::string> names = free_names(scene);
  if (names.empty()) names.push_back(words::tr("nothing"));
  // A line more for each row that nobody needs above.
  const int lines = static_cast<int>(line.h / mm(kFreeLineMm));
  Rect block = line.middle(line.w, mm(kFreeLineMm) * static_cast<float>(lines));
  for (int i = 0; i < lines && !names.empty(); ++i) {
    std::size_t taken = names.size();
    if (i + 1 < lines) {
      taken = 1;
      std::string shown = names[0];
      while (taken < names.size() &&
             canvas.width(Type::wall_name, shown + " · " + names[taken] + " ·") <= line.w)
        shown += " · " + names[taken++];
    }
    const auto end = names.begin() + static_cast<std::ptrdiff_t>(taken);
    canvas.words(block.cut_top(mm(kFreeLineMm)),
                 fitting_list(canvas, {names.begin(), end}, " · ", line.w), Type::wall_name,
                 {Role::text, Role::lane});
    names.erase(names.begin(), end);
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
    wall_row(canvas, area.cut_top(height), scene, *order[static_cast<std::size_t>(i)],
             i % 2 == 0 ? Role::lane : Role::background);
  if (order.empty())
    canvas.words(area, words::tr("Nothing curing."), Type::wall_name,
                 {Role::muted, Role::background}, Align::centre);
  free_now(canvas, foot, scene, static_cast<int>(order.size()) - shown);
  return canvas.take();
}

}  // namespace squeezeout::wall
