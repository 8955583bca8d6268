#include "client/wall/wall_row.h"

#include <algorithm>

#include "client/alarm/wants.h"
#include "client/words/say.h"

namespace squeezeout::wall {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr int kByName = 2;
constexpr Seconds kSoon = std::chrono::hours{4};

// The longest form first.
std::vector<std::string> second_line(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const std::string title = words::title(c, g), what = title + " · " + words::glue(c, g);
  if (const auto by = clamps_on_by(g); by && g.progress == Progress::open) {
    const std::string at = words::clock(c, *by);
    return {words::say("clamps on by {} · {}", at, what), words::say("clamps on by {}", at)};
  }
  if (const GlueUp* taker =
          running(g) && !scene.stale() ? wanted_by(scene.floor, g, scene.now + kSoon) : nullptr) {
    const std::string who = words::initials(c, taker->builder);
    const std::string at = words::clock(c, taker->times.stage_begin);
    return {words::say("wanted by {} {} · {}", who, at, what),
            words::say("wanted by {} {} · {}", who, at, title),
            words::say("wanted by {} {}", who, at)};
  }
  return {what, title, words::recipe(c, g.recipe)};
}

// Gear that it holds, a kind a name: first that of which there are one or two, for it is asked after by name; then the most.
std::vector<std::string> gear_names(const Scene& scene, const GlueUp& g) {
  std::vector<Held> held = g.held;
  const auto rank = [&](const Held& h) {
    return std::pair{scene.floor.gear.stock(h.kind) <= kByName ? 0 : 1, -h.count};
  };
  std::stable_sort(held.begin(), held.end(),
                   [&](const Held& a, const Held& b) { return rank(a) < rank(b); });
  std::vector<std::string> names;
  for (const Held& h : held) names.push_back(words::gear(scene.context(), std::vector<Held>{h}));
  return names;
}

// Of UTF-8: what continues a letter goes with it.
std::string first_letters(const std::string& text, std::size_t letters) {
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
  std::size_t end = 0;
  for (; end < text.size(); ++end)
    if (begins(text[end]) && letters-- == 0) break;
  return text.substr(0, end);
}

// "Bench 5" is 5 in a box; a bench with no number is its first letters.
std::string bench_sign(const Scene& scene, BenchId id) {
  const std::string name = words::bench(scene.context(), id);
  std::string digits;
  for (const char c : name)
    if (c >= '0' && c <= '9') digits += c;
  return digits.empty() ? first_letters(name, 2) : digits;
}

bool only_figures(std::string_view text) {
  return text.find_first_not_of("~0123456789:") == std::string_view::npos;
}

// What the times of all rows have room in: with "pm" beside them where the shop reads its clocks so.
float time_width(const Canvas& canvas, const Scene& scene) {
  const std::string now = words::clock_only(scene.context(), scene.now);
  const std::size_t space = now.find(' ');
  return canvas.width(Type::wall_time, "~00:00") +
         (space == std::string::npos ? 0 : canvas.width(Type::wall_name, now.substr(space)));
}

}  // namespace

std::string fitting_list(const Canvas& canvas, const std::vector<std::string>& names,
                         const std::string& separator, float width) {
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

float wall_clock(Canvas& canvas, Rect at, const std::string& clock, look::Ink ink) {
  struct Part {
    std::string text;
    Type type;
  };
  std::vector<Part> parts;
  float width = 0;
  for (std::size_t from = 0; from < clock.size();) {
    const std::size_t end = std::min(clock.find(' ', from), clock.size());
    const std::string word = clock.substr(from, end - from);
    parts.push_back({word, only_figures(word) ? Type::wall_time : Type::wall_name});
    width += canvas.width(parts.back().type, word);
    from = end + 1;
  }
  const float space = canvas.width(Type::wall_name, " ");
  width += space * static_cast<float>(parts.size() - 1);
  if (width > at.w) {
    canvas.words(at, clock, Type::wall_name, ink);
    return canvas.width(Type::wall_name, clock);
  }
  const float base = at.y + (at.h + canvas.cap(Type::wall_time)) / 2;
  for (const Part& part : parts) {
    const float wide = canvas.width(part.type, part.text);
    canvas.words({at.x, base - canvas.cap(part.type), wide + 1, canvas.cap(part.type)}, part.text,
                 part.type, ink);
    at.cut_left(wide + space);
  }
  return width;
}

void wall_row(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g, Role ground) {
  const words::Context c = scene.context();
  const auto mm = [&](float v) { return scene.scale.wall_px(v); };
  canvas.box(at, ground);
  Rect line = at.inset(mm(kMarginMm), 0);
  const Phase phase = phase_at(g, scene.now);
  swatch(canvas, line.cut_left(mm(46)).middle(mm(46), mm(46)), phase, g, scene);
  line.cut_left(mm(11));

  // "~" while the time rests on clamps that are not on yet.
  std::string clock = words::clock(c, shown_time(g, scene.now));
  if (phase == Phase::open) clock = "~" + clock;
  wall_clock(canvas, line.cut_left(time_width(canvas, scene)), clock, {Role::text, ground});
  line.cut_left(mm(10));

  const Remaining left = remaining(scene, g);
  const std::string usual = words::say("{} over", words::length(Minutes{59}));
  Rect rest = line.cut_left(
      std::max(canvas.width(Type::wall_name, usual), canvas.width(Type::wall_name, left.words)) +
      mm(14));
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
  line.cut_left(mm(8));

  const std::string sign = bench_sign(scene, g.bench);
  const Rect box = line.cut_right(std::max(mm(42), canvas.width(Type::wall_name, sign) + mm(14)))
                       .inset(0, mm(7));
  canvas.edge(box, Role::text, 0.6F);
  canvas.words(box, sign, Type::wall_name, {Role::text, ground}, Align::centre);
  line.cut_right(mm(8));
  const std::string who = words::initials(c, g.builder);
  canvas.words(line.cut_right(canvas.width(Type::wall_name, who) + 1), who, Type::wall_name,
               {Role::text, ground}, Align::right);
  line.cut_right(mm(8));

  Rect text = line.middle(line.w, mm(52));
  const Rect heading = text.cut_top(mm(28));
  if (running(g) && !g.held.empty()) {
    const std::vector<std::string> names = gear_names(scene, g);
    canvas.one_of(heading,
                  {fitting_list(canvas, names, ", ", line.w),
                   words::say_n(names.size(), "{} kind of gear", "{} kinds of gear")},
                  Type::wall_name, {Role::text, ground});
  } else {
    canvas.one_of(heading, {words::tr("no gear held"), words::tr("no gear")}, Type::wall_name,
                  {Role::text, ground});
  }
  canvas.one_of(text, second_line(scene, g), Type::wall_sub, {Role::muted, ground});
}

}  // namespace squeezeout::wall
