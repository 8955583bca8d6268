#pragma once
// The Next key: a glue-up has one next step, Start -> Clamps on -> Clamps off -> its finish. Offered when it can come; the
// override ("off anyway") is another button and never the Next key.

#include <optional>
#include <string>
#include <vector>

#include "client/look/frame.h"
#include "client/look/intent.h"
#include "common/floor/state.h"

namespace squeezeout {

enum class Step { start, clamps_on, clamps_off, finish };

struct NextKey {
  GlueUpId glue_up;
  Step step = Step::start;
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
// The plan that was accepted last and can still be taken back; null: none.
[[nodiscard]] const PlanRecord* last_plan(const Floor& floor, Instant now);

}  // namespace squeezeout
