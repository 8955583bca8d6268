#pragma once
// A stage: a floor, a view and a screen size, from which a frame is laid out as the client does it, with real letters.

#include <string>
#include <vector>

#include "client/lay_out.h"
#include "client/platform/fonts.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {

struct Stage {
  Stage(float width_px = 1920, float height_px = 1080, float mm_per_px = look::kUsualMmPerPx,
        float text = 1);

  // Lays out what `view` shows of the floor.
  look::Frame frame(const Floor& floor, Instant now);

  platform::FontFiles fonts;
  look::Scale scale;
  look::Letters letters;
  Quotes quotes;
  std::uint64_t revision = 0;
  plan_ahead::Report plan, what_if;  // as the planner's workers would tell
  View view;
  Link link = Link::live;
  Seconds silent{};
  std::size_t facts_waiting = 0;
  alarm::Told alarms;
  float width, height;
};

// Ada stands at bench 1.
[[nodiscard]] View ada_at_bench_1(Screen screen);

// What a frame holds.
[[nodiscard]] const look::Press* find(const look::Frame& frame, const std::string& id);
[[nodiscard]] bool says(const look::Frame& frame, const std::string& part);  // in one of its texts
[[nodiscard]] std::vector<look::Words> texts(const look::Frame& frame);
[[nodiscard]] std::string all_texts(const look::Frame& frame);  // for messages of tests

}  // namespace squeezeout::testing
