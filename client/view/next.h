#pragma once
// The Next key: a glue-up has one next step, Start -> Clamps on -> Clamps off -> its finish. Offered when it can come; the
// override ("off anyway") is another button and never the Next key.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "client/look/frame.h"
#include "client/look/intent.h"
#include "common/floor/state.h"

namespace squeezeout {

struct NextKey {
  GlueUpId glue_up;
  Instant from{};          // it can come from here on
  std::string word;        // "CLAMPS ON"; the recipe's own for the finish: "SCRAPE"
  std::string early_word;  // "Off anyway"
  look::Glyph glyph = look::Glyph::drop;
  Body body;    // the press
  Body anyway;  // the same, knowingly before its time
};
// nullopt: nothing is left to press (over, displaced, or waiting with no finish).
[[nodiscard]] std::optional<NextKey> next_key(const Floor& floor, const GlueUp& g);

// Live glue-ups of this builder, or at this bench, most urgent first: what can be pressed now, by the time it was due;
// then the others by when their next step comes.
[[nodiscard]] std::vector<const GlueUp*> own_glue_ups(const Floor& floor, BuilderId builder,
                                                      BenchId bench, Instant now);

// What Undo would take back of this glue-up; nullopt: nothing.
struct UndoKey {
  std::string label;  // "Undo start"
  Body body;
};
[[nodiscard]] std::optional<UndoKey> undo_key(const Floor& floor, GlueUpId glue_up);
// When the clamps could really have come off, 5 and 15 min before now while they are still said to be on, or before the press
// that said they were off, for a while after it. Only what the floor would take.
inline constexpr std::array kReallyOff{Minutes{5}, Minutes{15}};
inline constexpr Seconds kCorrectable = Minutes{30};
[[nodiscard]] std::vector<Instant> really_off(const Floor& floor, const GlueUp& g, Instant now);
// The plan that was accepted last and can still be taken back; null: none.
[[nodiscard]] const PlanRecord* last_plan(const Floor& floor, Instant now);

}  // namespace squeezeout
