#pragma once
// Lanes: what stands in which lane, before any pixel. Lanes by gear show only time that gear is held; waiting stands in a
// lane of its own, for cure drawn in a gear lane would make free gear look busy. By bench and builder show all phases. What
// lost its place holds nothing: it has a lane of its own, above the others, where it stood last.

#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::board {

struct Segment {
  Span span;
  Phase phase = Phase::planned;
  enum class State { happened, planned, over } state = State::planned;
};

struct Bar {
  const GlueUp* glue_up = nullptr;  // null: gear out of use
  int count = 0;  // pieces held, in lanes of counted gear; of an outage, pieces out of use
  Span span;
};

struct Lane {
  std::string id, name;
  std::vector<std::string> facts;   // below the name, the most important first
  std::vector<std::string> alarms;  // instead of them, loud: the whole, then shorter
  enum class Shows { held, waiting, all, lost } shows = Shows::held;
  std::vector<Bar> bars;  // those that touch the window, by begin
};

// The clock of a glue-up: of somebody else's nothing is known since the server was last heard.
[[nodiscard]] Instant known_until(const Scene& scene, const GlueUp& g);
// The phases of a glue-up, in order, as far as the lane shows them.
[[nodiscard]] std::vector<Segment> segments_of(const GlueUp& g, Instant now, Lane::Shows shows);
// Whether the board has a place for it; and from when to when it stands there.
[[nodiscard]] bool on_board(const Scene& scene, const GlueUp& g);
[[nodiscard]] Span span_on_board(const Scene& scene, const GlueUp& g);

struct LaneSet {
  std::vector<Lane> lanes;
  std::vector<std::string> idle;  // lanes by gear in which nothing happens in the window
  std::size_t lost = 0;           // of the first lanes: they stand above every page
  std::size_t waiting = 0;        // of the last ones: they stand below every page
};
// As the view filters: one build's, or one lane alone.
[[nodiscard]] LaneSet lanes_of(const Scene& scene, Span window);

}  // namespace squeezeout::board
