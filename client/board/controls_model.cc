#include "client/board/controls_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "client/panels/plan_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Button;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Type;

constexpr Seconds kFarthest = std::chrono::hours{24 * 60};  // from now, either way

Button key(const char* id, std::string label, int code, Intent intent, Look look = Look::normal) {
  return {.id = id,
          .label = std::move(label),
          .key_name = std::string(1, static_cast<char>(code)),
          .keys = {code},
          .intent = std::move(intent),
          .look = look};
}

// The build after the one that is shown, of those that stand on the board; the picked one's first.
BuildId next_build(const Scene& scene) {
  const View& view = scene.view;
  const GlueUp* picked = scene.floor.glue_up(view.picked);
  if (!view.only && picked != nullptr && picked->build) return picked->build;
  BuildId first, next;
  for (const auto& [id, g] : scene.floor.glue_ups) {
    if (!g.build || !live(g)) continue;
    if (!first || g.build < first) first = g.build;
    if (g.build > view.only && (!next || g.build < next)) next = g.build;
  }
  return next ? next : first;
}

void lanes_keys(std::vector<Button>& out, const Canvas& canvas, const Scene& scene) {
  const bool narrow = panels::narrow(canvas);
  const auto lanes = [&](const char* id, std::string label, int code, Lanes by) {
    const bool chosen = scene.view.lanes == by && scene.view.lane.empty();
    out.push_back(
        key(id, std::move(label), code, ByLanes{by}, chosen ? Look::chosen : Look::normal));
  };
  lanes("lanes.gear", words::tr(narrow ? "Gear" : "By gear"), 'G', Lanes::gear);
  lanes("lanes.bench", words::tr(narrow ? "Bench" : "By bench"), 'B', Lanes::bench);
  lanes("lanes.builder", words::tr(narrow ? "Builder" : "By builder"), 'W', Lanes::builder);
}

void filter_keys(std::vector<Button>& out, const Canvas& canvas, const Scene& scene) {
  const bool narrow = panels::narrow(canvas);
  const View& view = scene.view;
  const Build* only = scene.floor.build(view.only);
  const BuildId next = next_build(scene);
  out.push_back(key("build", only != nullptr ? only->name : words::tr("Build"), 'F',
                    OnlyBuild{next},
                    only != nullptr ? Look::chosen
                    : next          ? Look::normal
                                    : Look::off));
  if (!view.lane.empty())
    out.push_back(key("all.lanes", words::tr(narrow ? "All" : "All lanes"), 'A', OnlyLane{}));
  else if (view.only)
    out.push_back(key("all.builds", words::tr(narrow ? "All" : "All builds"), 'A', OnlyBuild{}));
}

void plan_keys(std::vector<Button>& out, const Scene& scene) {
  const bool shown = scene.view.chain == Chain::shown;
  out.push_back(key("chain", words::tr("Chain"), 'C',
                    ShowChain{shown ? Chain::hidden : Chain::shown},
                    shown ? Look::chosen : Look::normal));
  // One that was worked out and not put away is looked at again; it is planned again from there.
  const bool known = scene.view.plan == plan_ahead::Task::replan && panels::plan_at_hand(scene);
  out.push_back(known
                    ? key("plan", words::tr("Plan"), 'R', Go{Screen::plan, {}})
                    : key("replan", words::tr("Replan"), 'R', PlanAhead{plan_ahead::Task::replan}));
}

void page_keys(std::vector<Button>& out, const Canvas& canvas, const Scene& scene,
               const Looks& looks, const Pages& pages) {
  const panels::Page& p = pages.page;
  if (p.pages < 2) return;
  const int beyond = pages.all - p.first - p.count;
  Outlook here = looks.here;
  here.find = Outlook::Find::nothing;
  Button back = key("page.back", words::tr("back"), 'P', Turn{-1, here},
                    p.page > 0 ? Look::normal : Look::off);
  const std::string more =
      panels::narrow(canvas) ? fmt::format("+{}", beyond) : words::say("+{} more", beyond);
  Button next = key("page.next", beyond > 0 ? more : words::tr("last"), 'N', Turn{1, here},
                    beyond > 0 ? Look::normal : Look::off);
  if (!scene.view.other_time) {  // else the arrows move that
    back.keys.push_back(look::kUp);
    next.keys.push_back(look::kDown);
  }
  out.push_back(std::move(back));
  out.push_back(std::move(next));
}

void look_keys(std::vector<Button>& out, const Canvas& canvas, const Scene& scene,
               const Looks& looks) {
  const bool narrow = panels::narrow(canvas);
  const auto short_or = [&](const char* sign, std::string word) {
    return narrow ? std::string(sign) : std::move(word);
  };
  const auto add = [&](const char* id, const char* sign, std::string word, int code, int arrow,
                       Intent intent, Look look) {
    Button b = key(id, short_or(sign, std::move(word)), code, std::move(intent), look);
    if (arrow != 0 && !scene.view.other_time) b.keys.push_back(arrow);
    if (narrow && sign == b.key_name) b.key_name.clear();
    out.push_back(std::move(b));
  };
  const int zoom = scene.view.zoom;
  const auto if_can = [](bool can) { return can ? Look::normal : Look::off; };
  add("zoom.out", "-", words::tr("wider"), '-', 0, Zoom{-1, looks.zoomed},
      if_can(zoom < kZoomCount - 1));
  out.push_back(key("zoom.now", words::tr("Now"), '0', Zoom{0},
                    looks.follows == Looks::Follows::yes ? Look::normal : Look::key));
  add("zoom.in", "+", words::tr("closer"), '+', 0, Zoom{1, looks.zoomed}, if_can(zoom > 0));
  add("pan.earlier", "←", words::tr("earlier"), ',', look::kLeft,
      Pan{-1, looks.earlier.value_or(looks.here)}, if_can(looks.earlier.has_value()));
  add("pan.later", "→", words::tr("later"), '.', look::kRight,
      Pan{1, looks.later.value_or(looks.here)}, if_can(looks.later.has_value()));
}

std::vector<Button> keys_of(const Canvas& canvas, const Scene& scene, const Looks& looks,
                            const Pages& pages) {
  std::vector<Button> out;
  lanes_keys(out, canvas, scene);
  filter_keys(out, canvas, scene);
  plan_keys(out, scene);
  page_keys(out, canvas, scene, looks, pages);
  look_keys(out, canvas, scene, looks);
  return out;
}

float least_px(const Canvas& canvas, const Button& b) { return key_px(canvas, b.label); }

float least_px(const Canvas& canvas, std::span<const Button> keys) {
  return std::accumulate(keys.begin(), keys.end(), -canvas.gap(), [&](float sum, const Button& b) {
    return sum + least_px(canvas, b) + canvas.gap();
  });
}

// From edge to edge, as long as that makes no key wider than it needs to be.
void row_of(Canvas& canvas, Rect at, std::span<Button> keys) {
  const float spare =
      std::max(0.0F, at.w - least_px(canvas, keys)) / static_cast<float>(keys.size());
  for (Button& b : keys) {
    const float width =
        std::min(least_px(canvas, b) + spare, std::max(canvas.px(36), least_px(canvas, b)));
    canvas.button(at.cut_left(width), std::move(b));
    at.cut_left(canvas.gap());
  }
}

}  // namespace

float key_px(const Canvas& canvas, std::string_view label) {
  constexpr float kTwoLinesMm = 18, kEdgesMm = 4.5F;
  float widest = 0;
  for (std::size_t at = 0; at < label.size();) {
    const bool whole = canvas.touch() < canvas.px(kTwoLinesMm);
    const std::size_t end = whole ? label.size() : std::min(label.find(' ', at), label.size());
    widest = std::max(widest, canvas.width(Type::small, label.substr(at, end - at)));
    at = end + 1;
  }
  return std::max(canvas.touch(), widest + canvas.px(kEdgesMm));
}

Looks looks_of(const Scene& scene, const TimeAxis& axis, Rect lanes) {
  Looks out;
  const auto part_of = [&](float x) { return (x - lanes.x) / lanes.w; };
  const float now_x = axis.x(scene.now);
  const bool sees_now = now_x >= lanes.x && now_x <= lanes.right();
  const float from = lanes.x + 0.3F * lanes.w;
  const bool follows = !scene.view.outlook.at && std::abs(now_x - from) < 1;
  out.follows = follows ? Looks::Follows::yes : Looks::Follows::no;
  if (!follows) out.here = {.at = axis.at(from)};
  out.zoomed = out.here;
  if (!follows)
    out.zoomed = sees_now ? Outlook{.at = scene.now, .part = part_of(now_x)}
                          : Outlook{.at = axis.at(lanes.x + lanes.w / 2), .part = 0.5F};
  const Instant before = axis.at(from - lanes.w / 2), after = axis.at(from + lanes.w / 2);
  if (before > scene.now - kFarthest) out.earlier = Outlook{.at = before};
  if (after < scene.now + kFarthest) out.later = Outlook{.at = after};
  return out;
}

Controls::Controls(const Canvas& canvas, const Scene& scene, float width) : scene_(scene) {
  const Pages most{{.first = 0, .count = 1, .pages = 2, .page = 0}, 99};
  const auto keys = keys_of(canvas, scene, {}, most);
  const bool one = least_px(canvas, keys) <= width;
  height_ = one ? canvas.touch() : canvas.touch() * 2 + canvas.gap();
}

void Controls::lay_out(Canvas& canvas, Rect at, const Looks& looks, const Pages& pages) const {
  std::vector<Button> keys = keys_of(canvas, scene_, looks, pages);
  std::span<Button> rest{keys};
  if (height_ > canvas.touch() + 1) {
    std::size_t first = 1;
    while (first < keys.size() && least_px(canvas, rest.first(first + 1)) <= at.w) ++first;
    first = std::min(first, keys.size() - 5);  // zoom and where it looks stay together
    row_of(canvas, at.cut_top(canvas.touch()), rest.first(first));
    at.cut_top(canvas.gap());
    rest = rest.subspan(first);
  }
  row_of(canvas, at.cut_top(canvas.touch()), rest);
}

}  // namespace squeezeout::board
