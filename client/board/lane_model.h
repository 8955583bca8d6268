#pragma once
// Lanes: what stands in which lane, before any pixel. Lanes by gear show only time that gear is held; waiting stands in a
// lane of its own, for cure drawn in a gear lane would make free gear look busy. By bench and builder show all phases.

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
  std::string id, name, sub;
  enum class Tone { plain, loud } tone = Tone::plain;
  enum class Shows { held, waiting, all } shows = Shows::held;
  std::vector<Bar> bars;  // those that touch the window, by begin
};

// The phases of a glue-up, in order, as far as the lane shows them.
[[nodiscard]] std::vector<Segment> segments_of(const GlueUp& g, Instant now, Lane::Shows shows);

struct LaneSet {
  std::vector<Lane> lanes;
  std::vector<std::string> idle;  // lanes by gear in which nothing happens in the window
};
[[nodiscard]] LaneSet lanes_of(const Scene& scene, Span window);

}  // namespace squeezeout::board
