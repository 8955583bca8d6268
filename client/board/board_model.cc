#include "client/board/board_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/board/axis_marks.h"
#include "client/board/bar_model.h"
#include "client/board/controls_model.h"
#include "client/board/lane_head.h"
#include "client/board/notes_model.h"
#include "client/board/other_time_model.h"
#include "client/board/page_model.h"
#include "client/board/why_model.h"
#include "client/panels/chrome_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kHeaderMm = 58, kNarrowHeaderMm = 50, kAxisMm = 12, kSkipMm = 2, kNoteMm = 9;
constexpr Seconds kLeastStep{10}, kMostStep{30};

float header_px(const Canvas& canvas) {
  return canvas.px(panels::narrow(canvas) ? kNarrowHeaderMm : kHeaderMm);
}

// Time in steps of a pixel, of 10 s at least and 30 s at most: between them the frame is the same, and is not drawn again.
Instant in_steps(const Scene& scene, float pixels) {
  const float open = static_cast<float>(kZooms[scene.view.zoom].open_time.count());
  const Seconds step = std::clamp(Seconds{static_cast<long>(open / pixels)}, kLeastStep, kMostStep);
  return scene.now - scene.now.time_since_epoch() % step;
}

// The window that the view asks for; where the picked bar is, when that is looked for and is not in it.
TimeAxis axis_of(const Canvas& canvas, const Scene& scene, Rect lanes) {
  const Hours hours{*scene.floor.zone, scene.floor.shop->hours};
  const Outlook& outlook = scene.view.outlook;
  TimeAxis::Wish wish{.at = outlook.at.value_or(scene.now),
                      .part = outlook.at ? outlook.part : 0.3F,
                      .open_time = kZooms[scene.view.zoom].open_time,
                      .left = lanes.x,
                      .right = lanes.right(),
                      .fold_px = fold_px(canvas),
                      .skip_px = canvas.px(kSkipMm)};
  TimeAxis axis{hours, wish};
  const GlueUp* picked = scene.floor.glue_up(scene.view.picked);
  if (outlook.find != Outlook::Find::bar || picked == nullptr) return axis;
  const Span span = span_on_board(scene, *picked), seen = axis.visible();
  if (span.overlaps(seen) || seen.contains(span.begin)) return axis;
  wish.at = span.begin, wish.part = 0.3F;
  return TimeAxis{hours, wish};
}

class Board {
 public:
  Board(Canvas& canvas, const Scene& scene) : canvas_(canvas), scene_(scene) {}
  void lay_out(Rect body);

 private:
  void lane(const BarMaker& maker, const Lane& lane, const Packed& packed, std::size_t first_row,
            Rect at, Role ground);
  void field(const TimeAxis& axis, Rect at, const Outlook& here, GlueUpId aims);

  Canvas& canvas_;
  const Scene& scene_;
  std::vector<Label> labels_;
  std::vector<BarPlace> places_;
  enum class NextLane { keyless, keyed } next_lane_ = NextLane::keyless;
};

Role ground_of(std::size_t place) { return place % 2 == 0 ? Role::lane : Role::background; }

void Board::lane(const BarMaker& maker, const Lane& lane, const Packed& packed,
                 std::size_t first_row, Rect at, Role ground) {
  const Rect head = at.cut_left(header_px(canvas_));
  const int key = next_lane_ == NextLane::keyless ? 'X' : 0;
  if (lane_head(canvas_, head, lane, packed.dropped, ground, key)) next_lane_ = NextLane::keyed;
  for (const Rect& s : packed.strips)
    canvas_.box(Rect{s.x, at.bottom() - canvas_.px(2.2F), s.w, canvas_.px(1.6F)}.intersect(at),
                Role::clamped);
  at = at.inset(0, canvas_.px(kLanePadMm));
  const float now_x = maker.axis.x(scene_.now);
  for (std::size_t r = first_row; r < packed.rows.size(); ++r) {
    const Rect row = at.cut_top(canvas_.px(kRowMm));
    if (row.h < canvas_.px(kRowMm) - 1) break;  // on the next page
    at.cut_top(canvas_.px(kRowGapMm));
    for (const Bar& bar : packed.rows[r].bars) {
      bar_fills(canvas_, maker, lane, bar, {row, now_x, ground}, labels_);
      const float x0 = maker.axis.x(bar.span.begin), x1 = maker.axis.x(bar.span.end);
      const Rect drawn = Rect{x0, row.y, x1 - x0, row.h}.intersect(row);
      if (drawn.w <= 0) continue;
      break_marks(canvas_, maker.axis, drawn, ground);
      if (bar.glue_up != nullptr)
        places_.push_back({bar.glue_up->id, lane.id, drawn,
                           bar.glue_up->started_at ? look::Line::solid : look::Line::dashed});
    }
  }
}

void Board::field(const TimeAxis& axis, Rect at, const Outlook& here, GlueUpId aims) {
  look::TimeField field{.at = at, .aims = aims, .aim_step = kStartGrid, .outlook = here};
  for (const TimeAxis::Piece& p : axis.pieces())
    if (p.kind != TimeAxis::Piece::Kind::skipped) field.knots.push_back({p.x0, p.span.begin});
  field.knots.push_back({axis.pieces().back().x1, axis.pieces().back().span.end});
  canvas_.time_field(std::move(field));
}

void Board::lay_out(Rect body) {
  const Controls controls{canvas_, scene_, body.w - 2 * canvas_.gap()};
  const Rect strip = body.cut_top(controls.height_px()).inset(canvas_.gap(), 0);
  body.cut_top(canvas_.px(1));
  Rect head = body.cut_top(canvas_.px(kAxisMm));
  const Rect corner = head.cut_left(header_px(canvas_));
  const Rect axis_at{head.x, body.y, head.w, body.h};
  const TimeAxis axis = axis_of(canvas_, scene_, axis_at);
  const auto sought = sought_of(scene_);

  const LaneSet set = lanes_of(scene_, axis.visible());
  const Rect below = sought             ? body.cut_bottom(other_time_px(canvas_))
                     : says_why(scene_) ? body.cut_bottom(why_px(canvas_))
                                        : Rect{};
  const bool crowded = panels::narrow(canvas_) && !below.empty();
  if (has_note(scene_, set) && !crowded)
    note(canvas_, body.cut_bottom(canvas_.px(kNoteMm)).inset(canvas_.gap(), 0), scene_, set);
  const Rect ghost = sought ? body.cut_top(ghost_lane_px(canvas_)) : Rect{};
  const Pager pager{canvas_, scene_, set, axis, body.h};
  const Shown shown = pager.page();

  // Grounds first, then time, then bars, then the now line, then labels.
  Rect grounds = body;
  for (std::size_t place = 0; place < shown.lanes.size(); ++place)
    canvas_.box(grounds.cut_top(shown.heights[place]), ground_of(place));
  const Rect lanes{axis_at.x, axis_at.y, axis_at.w, grounds.y - axis_at.y};
  const float now_x = axis.x(scene_.now);
  const Looks looks = [&] {
    Looks out = looks_of(scene_, axis, lanes);
    const auto page = shown.pages.page.page;
    for (Outlook* o : {&out.here, &out.zoomed}) o->page = page;
    for (auto* o : {&out.earlier, &out.later})
      if (*o) (*o)->page = page;
    return out;
  }();
  controls.lay_out(canvas_, strip, looks, shown.pages);
  canvas_.words(corner.inset(canvas_.px(2), 0), words::tr(kZooms[scene_.view.zoom].label),
                Type::strong, {Role::muted, Role::background});
  axis_marks(canvas_, scene_, axis, head, lanes, now_x);

  const Tags tags = tags_of(scene_);
  const BarMaker maker{scene_, axis, tags, looks.here,
                       sought ? BarMaker::Presses::no : BarMaker::Presses::yes};
  Rect rest = body;
  for (std::size_t place = 0; place < shown.lanes.size(); ++place) {
    const std::size_t i = shown.lanes[place];
    lane(maker, set.lanes[i], pager.packed(i), shown.first_row, rest.cut_top(shown.heights[place]),
         ground_of(place));
  }
  if (sought) {
    Rect at = ghost;
    const Rect name = at.cut_left(header_px(canvas_));
    ghost_lane(canvas_, name, at, scene_, *sought, axis, now_x);
  }
  now_line(canvas_, head, lanes, now_x);
  const std::vector<ChainLink>& chain = chain_of(scene_);
  const Places places{std::move(places_)};
  chain_marks(canvas_, chain, places);
  picked_marks(canvas_, scene_.view.picked, places);
  if (sought) in_the_way_marks(canvas_, *sought, places);
  for (Label& label : labels_) {
    const bool linked = label.glue_up != nullptr && on_chain(chain, label.glue_up->id);
    if (linked) label.chained = Label::Chained::yes;
    if (linked || (label.glue_up != nullptr && label.glue_up->id == scene_.view.picked))
      label.ground = Label::Ground::outline;
    bar_label(canvas_, label);
  }
  empty_words(canvas_, Rect{lanes.x, body.y, lanes.w, body.h}, scene_, set, axis.visible());
  field(axis, Rect{head.x, head.y, head.w, head.h + axis_at.h}, looks.here,
        sought ? sought->glue_up->id : GlueUpId{});
  if (sought) {
    if (find_stretches(scene_, *sought, axis.visible()) == look::Frame::Work::more)
      canvas_.more_to_come();
    other_time_strip(canvas_, below, scene_, *sought, looks.here, axis);
  } else if (!below.empty()) {
    why_strip(canvas_, below, scene_, looks.here);
  } else {
    key_to_first(canvas_, scene_, places);
  }
}

}  // namespace

look::Frame lay_out_board(const Scene& live) {
  Canvas canvas{live.scale, live.letters, live.width, live.height};
  const panels::Chrome chrome = panels::chrome(canvas, live);
  Scene scene = live;
  scene.now = in_steps(live, live.width - header_px(canvas));
  if (!chrome.foot.empty()) legend(canvas, chrome.foot, scene);
  if (!scene.floor.shop || !scene.floor.zone) return canvas.take();
  // Lanes run from edge to edge.
  const float margin = chrome.body.x;
  Board board{canvas, scene};
  board.lay_out({0, chrome.body.y, scene.width, chrome.body.h + margin});
  return canvas.take();
}

}  // namespace squeezeout::board
