#include "client/board/board_model.h"

#include <fmt/format.h>

#include "client/board/bar_model.h"
#include "client/board/chain_model.h"
#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kHeaderMm = 58, kRowMm = 8.5F, kLanePadMm = 2.2F, kLeastLaneMm = 13, kAxisMm = 12,
                kFoldMm = 17;
constexpr int kMostRows = 4, kMostWaitingRows = 2;

void controls(Canvas& canvas, const Scene& scene, Rect strip, const panels::Page& page, int lanes) {
  struct Choice {
    Lanes lanes;
    const char* id;
    const char* label;
    int key;
  };
  constexpr Choice choices[] = {{Lanes::gear, "lanes.gear", "By gear", 'G'},
                                {Lanes::bench, "lanes.bench", "By bench", 'B'},
                                {Lanes::builder, "lanes.builder", "By builder", 'W'}};
  const float gap = canvas.gap();
  const float width = canvas.px(strip.w > canvas.px(440) ? 36.0F : 27.0F);
  for (const Choice& c : choices) {
    canvas.button(strip.cut_left(width),
                  {.id = c.id,
                   .label = c.label,
                   .key_name = std::string(1, static_cast<char>(c.key)),
                   .keys = {c.key},
                   .intent = ByLanes{c.lanes},
                   .look = scene.view.lanes == c.lanes ? Look::chosen : Look::normal});
    strip.cut_left(gap);
  }
  const float small = canvas.px(20.5F);
  const auto key = [&](const char* id, std::string label, std::string key_name, int code,
                       Intent intent, Look look) {
    canvas.button(strip.cut_right(small), {.id = id,
                                           .label = std::move(label),
                                           .key_name = std::move(key_name),
                                           .keys = {code},
                                           .intent = std::move(intent),
                                           .look = look});
    strip.cut_right(gap);
  };
  const int zoom = scene.view.zoom;
  key("pan.later", "later", ".", '.', Pan{1}, Look::normal);
  key("pan.earlier", "earlier", ",", ',', Pan{-1}, Look::normal);
  key("zoom.in", "closer", "+", '+', Zoom{1}, zoom == 0 ? Look::off : Look::normal);
  key("zoom.now", "Now", "0", '0', Zoom{0}, scene.view.pan == 0 ? Look::normal : Look::key);
  key("zoom.out", "wider", "-", '-', Zoom{-1}, zoom == kZoomCount - 1 ? Look::off : Look::normal);
  panels::page_keys(canvas, strip, page, lanes);
  key("replan", "Replan", "R", 'R', PlanAhead{plan_ahead::Task::replan}, Look::normal);
  const bool shown = scene.view.chain == Chain::shown;
  key("chain", "Chain", "C", 'C', ShowChain{shown ? Chain::hidden : Chain::shown},
      shown ? Look::chosen : Look::normal);
  canvas.words(strip, kZooms[zoom].label, Type::strong, {Role::muted, Role::background},
               Align::right);
}

// A step between ticks that leaves room for their labels.
Seconds tick_step(const TimeAxis& axis, float least_px) {
  using std::chrono::hours;
  for (const Seconds s :
       {Seconds{Minutes{5}}, Seconds{Minutes{10}}, Seconds{Minutes{15}}, Seconds{Minutes{30}},
        Seconds{hours{1}}, Seconds{hours{2}}, Seconds{hours{4}}, Seconds{hours{6}}})
    if (static_cast<float>(s.count()) * axis.px_per_second() >= least_px) return s;
  return hours{12};
}

// Ticks on round local times within one open piece.
std::vector<Instant> ticks(const TimeAxis::Piece& piece, const Zone& zone, Seconds step) {
  std::vector<Instant> out;
  const auto since_midnight = [&](Instant t) {
    const LocalTime local = zone.local(t);
    return local - std::chrono::floor<std::chrono::days>(local);
  };
  Instant t = piece.span.begin;
  while (t <= piece.span.end) {
    const Seconds past = Seconds{since_midnight(t).count() % step.count()};
    if (past > Seconds{0}) t += step - past;
    if (t > piece.span.end) break;
    out.push_back(t);
    t += step;
  }
  return out;
}

void axis_marks(Canvas& canvas, const Scene& scene, const TimeAxis& axis, Rect head, Rect lanes) {
  const words::Context c = scene.context();
  const float now_x = axis.x(scene.now);  // its head covers what stands there
  const Seconds step = tick_step(axis, canvas.px(19));
  Rect days = head;
  Rect clocks = days.cut_bottom(head.h * 0.5F);
  float free_from = head.x;  // the next clock label may stand from here
  float day_free_from = head.x;
  std::string last_day;
  for (const TimeAxis::Piece& p : axis.pieces()) {
    const float x0 = std::max(p.x0, head.x), x1 = std::min(p.x1, head.right());
    if (p.kind != TimeAxis::Piece::Kind::open) {
      canvas.box({x0, head.y, x1 - x0, lanes.bottom() - head.y}, Role::closed);
      if (p.kind == TimeAxis::Piece::Kind::folded && x1 - x0 >= canvas.px(kFoldMm) - 1) {
        Rect text{x0, head.y, x1 - x0, head.h};
        canvas.words(text.cut_top(text.h * 0.5F), "closed", Type::small,
                     {Role::muted, Role::closed}, Align::centre);
        canvas.words(text, words::length(p.span.length()), Type::small, {Role::muted, Role::closed},
                     Align::centre);
      }
      free_from = std::max(free_from, x1 + canvas.px(1));
      day_free_from = std::max(day_free_from, x1);
      continue;
    }
    const std::string day = words::day(c, p.span.begin);
    if (day != last_day) {
      const float width = canvas.width(Type::small, day);
      const float at = std::max(x0 + canvas.px(1), day_free_from);
      if (at + width <= x1) {
        canvas.words({at, days.y, width + 1, days.h}, day, Type::small,
                     {Role::muted, Role::background});
        last_day = day;
        day_free_from = at + width + canvas.px(3);
      }
    }
    for (const Instant t : ticks(p, *scene.floor.zone, step)) {
      const float x = axis.x(t);
      if (x < head.x || x > head.right()) continue;
      canvas.box({x, lanes.y, 1, lanes.h}, Role::grid);
      const std::string label = words::clock_only(c, t);
      const float width = canvas.width(Type::body, label);
      const float left = std::max(x - width / 2, free_from);
      if (left > x + 1 || left + width > std::min(x1, head.right())) continue;
      if (left < now_x + canvas.px(3.5F) && left + width > now_x - canvas.px(3.5F)) continue;
      canvas.words({left, clocks.y, width + 1, clocks.h}, label, Type::body,
                   {Role::muted, Role::background});
      free_from = left + width + canvas.px(4);
    }
  }
}

float lane_height(Canvas& canvas, std::size_t rows) {
  return std::max(canvas.px(kLeastLaneMm), canvas.px(kRowMm + 1) * static_cast<float>(rows) +
                                               canvas.px(kLanePadMm) * 2 - canvas.px(1));
}

void lane_header(Canvas& canvas, Rect at, const Lane& lane, int dropped, Role ground) {
  Rect inside = at.inset(canvas.px(2), 0);
  if (dropped > 0) {
    const std::string more = fmt::format("+{}", dropped);
    canvas.words(inside.cut_right(canvas.width(Type::strong, more) + 1), more, Type::strong,
                 {Role::text, ground}, Align::right);
    inside.cut_right(canvas.px(2));
  }
  Rect text = inside.middle(inside.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), lane.name, Type::strong,
               {Role::text, ground});
  if (lane.tone == Lane::Tone::plain) {
    canvas.words(text, lane.sub, Type::small, {Role::muted, ground});
    return;
  }
  const std::string sub = canvas.letters().fitted(Type::small, lane.sub, text.w - canvas.px(7));
  const Rect tag{text.x, text.y, canvas.width(Type::small, sub) + canvas.px(7), text.h};
  canvas.box(tag, Role::amber);
  canvas.edge(tag, Role::keyline, 0.3F);
  const float side = canvas.cap(Type::small);
  canvas.icon(look::Glyph::warn,
              Rect{tag.x + canvas.px(1), tag.y, canvas.px(3), tag.h}.middle(side, side),
              Role::on_amber);
  canvas.words({tag.x + canvas.px(5), tag.y, tag.w - canvas.px(5), tag.h}, sub, Type::small,
               {Role::on_amber, Role::amber});
}

// A bar that runs through closed hours is cut where time is folded.
void break_marks(Canvas& canvas, const TimeAxis& axis, Rect row, Role ground) {
  for (const TimeAxis::Piece& p : axis.pieces())
    if (p.kind == TimeAxis::Piece::Kind::folded && p.x0 > row.x && p.x1 < row.right()) {
      const float x = (p.x0 + p.x1) / 2;
      canvas.box({x - 3, row.y, 2, row.h}, ground);
      canvas.box({x + 1, row.y, 2, row.h}, ground);
    }
}

void legend(Canvas& canvas, Rect at, const Scene& scene) {
  struct Entry {
    Phase phase;
    const char* word;
  };
  constexpr Entry entries[] = {{Phase::open, "wet"},
                               {Phase::clamped, "clamped"},
                               {Phase::waiting, "waiting"},
                               {Phase::ready, "ready"},
                               {Phase::planned, "planned"}};
  const float side = canvas.px(9);
  for (const Entry& e : entries) {
    const float width = canvas.width(Type::body, e.word);
    if (at.w < side + width + canvas.px(6)) return;
    swatch(canvas, at.cut_left(side).middle(side, side), e.phase, GlueUp{}, scene);
    at.cut_left(canvas.px(2));
    canvas.words(at.cut_left(width + 1), e.word, Type::body, {Role::text, Role::lane});
    at.cut_left(canvas.px(8));
  }
  const float width = canvas.width(Type::body, "still on past its time");
  if (at.w < side + width + canvas.px(6)) return;
  const Rect box = at.cut_left(side).middle(side, side);
  canvas.box(box, Role::clamped);
  canvas.box(box, Role::hatch, look::Fill::hatch);
  canvas.edge(box, Role::amber, 0.9F);
  at.cut_left(canvas.px(2));
  canvas.words(at, "still on past its time", Type::body, {Role::text, Role::lane});
}

}  // namespace

look::Frame lay_out_board(const Scene& live) {
  Canvas canvas{live.scale, live.letters, live.width, live.height};
  const panels::Chrome chrome = panels::chrome(canvas, live);
  // Below the clock, time goes on in steps of a pixel: between them the frame is the same, and is not drawn again.
  Scene scene = live;
  const float pixels = live.width - canvas.px(kHeaderMm);
  const Seconds step{std::max<long>(
      1, static_cast<long>(static_cast<float>(kZooms[live.view.zoom].open_time.count()) / pixels))};
  scene.now -= Seconds{live.now.time_since_epoch().count() % step.count()};
  if (!chrome.foot.empty()) legend(canvas, chrome.foot, scene);
  if (!scene.floor.shop || !scene.floor.zone) return canvas.take();
  Rect body = chrome.body;
  body = {0, body.y, scene.width, body.h + canvas.px(5)};  // lanes run from edge to edge
  const Rect strip = body.cut_top(canvas.px(20)).inset(canvas.px(5), 0);
  body.cut_top(canvas.px(2));

  const float left = canvas.px(kHeaderMm);
  const TimeAxis axis{Hours{*scene.floor.zone, scene.floor.shop->hours},
                      {.now = scene.now,
                       .open_time = kZooms[scene.view.zoom].open_time,
                       .pan_px = static_cast<float>(scene.view.pan) * (scene.width - left) / 2,
                       .left = left,
                       .right = scene.width,
                       .fold_px = canvas.px(kFoldMm)}};
  Rect head = body.cut_top(canvas.px(kAxisMm));
  head.cut_left(left);
  LaneSet set = lanes_of(scene, axis.visible());
  const Rect why = says_why(scene) ? body.cut_bottom(canvas.px(kWhyMm)) : Rect{};
  Rect idle = set.idle.empty() ? Rect{} : body.cut_bottom(canvas.px(9));

  // Which lanes are on this page. The one for waiting is on every page.
  std::vector<Packed> packed;
  for (const Lane& lane : set.lanes)
    packed.push_back(
        pack(lane, axis, lane.shows == Lane::Shows::waiting ? kMostWaitingRows : kMostRows));
  const bool pinned = scene.view.lanes == Lanes::gear;
  const std::size_t paged = packed.size() - (pinned ? 1 : 0);
  const float room = body.h - (pinned ? lane_height(canvas, packed.back().rows.size()) : 0.0F);
  std::vector<std::size_t> page_begin{0};
  float used = 0;
  for (std::size_t i = 0; i < paged; ++i) {
    const float height = lane_height(canvas, packed[i].rows.size());
    if (used + height > room && used > 0) page_begin.push_back(i), used = 0;
    used += height;
  }
  const std::size_t page =
      std::min(static_cast<std::size_t>(scene.view.page), page_begin.size() - 1);
  const std::size_t first = page_begin[page];
  const std::size_t end = page + 1 < page_begin.size() ? page_begin[page + 1] : paged;
  controls(canvas, scene, strip,
           {static_cast<int>(first), static_cast<int>(end - first),
            static_cast<int>(page_begin.size()), static_cast<int>(page)},
           static_cast<int>(paged));
  std::vector<std::size_t> on_page;
  for (std::size_t i = first; i < end; ++i) on_page.push_back(i);
  if (pinned) on_page.push_back(paged);

  // Grounds first, then time, then bars, then the now line, then labels.
  const auto ground_of = [](std::size_t place) {
    return place % 2 == 0 ? Role::lane : Role::background;
  };
  Rect grounds = body;
  for (std::size_t place = 0; place < on_page.size(); ++place)
    canvas.box(grounds.cut_top(lane_height(canvas, packed[on_page[place]].rows.size())),
               ground_of(place));
  const Rect lanes_area{left, body.y, scene.width - left, grounds.y - body.y};
  axis_marks(canvas, scene, axis, head, lanes_area);
  const float now_x = axis.x(scene.now);
  std::vector<Label> labels;
  std::vector<BarPlace> places;
  Rect rest = body;
  for (std::size_t place = 0; place < on_page.size(); ++place) {
    const std::size_t i = on_page[place];
    const Role ground = ground_of(place);
    Rect at = rest.cut_top(lane_height(canvas, packed[i].rows.size()));
    lane_header(canvas, at.cut_left(left), set.lanes[i], packed[i].dropped, ground);
    const Rect clip = at;
    for (const Rect& s : packed[i].strips)
      canvas.box(Rect{s.x, at.bottom() - canvas.px(2.2F), s.w, canvas.px(1.6F)}.intersect(clip),
                 Role::clamped);
    at = at.inset(0, canvas.px(kLanePadMm));
    for (const BarRow& row : packed[i].rows) {
      const Rect row_at = at.cut_top(canvas.px(kRowMm));
      at.cut_top(canvas.px(1));
      for (const Bar& bar : row.bars) {
        bar_fills(canvas, scene, set.lanes[i], bar, axis, {row_at, now_x, ground}, labels);
        const float x0 = axis.x(bar.span.begin), x1 = axis.x(bar.span.end);
        const Rect drawn = Rect{x0, row_at.y, x1 - x0, row_at.h}.intersect(row_at);
        break_marks(canvas, axis, drawn, ground);
        if (bar.glue_up != nullptr && drawn.w > 0)
          places.push_back({bar.glue_up->id, set.lanes[i].id, drawn,
                            bar.glue_up->started_at ? look::Line::solid : look::Line::dashed});
      }
    }
  }
  if (now_x > left && now_x < scene.width) {
    canvas.box({now_x - 1.5F, head.bottom(), 3, lanes_area.h}, Role::text);
    const float side = canvas.px(5);
    canvas.icon(look::Glyph::head, {now_x - side / 2, head.bottom() - side, side, side},
                Role::text);
  }
  const std::vector<ChainLink>& chain = chain_of(scene);
  chain_marks(canvas, chain, places);
  picked_marks(canvas, scene.view.picked, places);
  for (Label& label : labels) {
    if (label.glue_up != nullptr && on_chain(chain, label.glue_up->id))
      label.chained = Label::Chained::yes;
    bar_label(canvas, label);
  }
  const std::vector<GlueUpId> steps = steps_of(scene, places);
  if (!why.empty()) why_strip(canvas, why, scene, steps);
  if (why.empty()) key_to_first(canvas, scene, steps, places);
  if (!idle.empty()) {
    std::string words = scene.stale() ? "Was free all this time: " : "Free all this time: ";
    for (std::size_t i = 0; i < set.idle.size(); ++i) {
      const std::string more = (i == 0 ? "" : ", ") + set.idle[i];
      const std::string tail = fmt::format(" +{}", set.idle.size() - i);
      if (canvas.width(Type::body, words + more + tail) > idle.w - canvas.px(10)) {
        words += tail;
        break;
      }
      words += more;
    }
    canvas.words(idle.inset(canvas.px(5), 0), words, Type::body, {Role::muted, Role::background});
  }
  return canvas.take();
}

}  // namespace squeezeout::board
