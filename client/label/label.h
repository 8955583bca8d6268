#pragma once
// The tape label of a glue-up, as data: when its clamps come off, whose it is, which glue. Drawn by label_draw.h, or written on
// the tape by hand.

#include <string>
#include <vector>

#include "client/words/words.h"
#include "common/base/result.h"

namespace squeezeout::label {

struct Label {
  std::vector<std::string> beside;  // left of the numerals, from the top: "OFF", "about", "Fri"
  std::string time;                 // "15:40"
  std::string after;                // right of them: "pm", "(2nd)", or nothing
  std::string name;                 // "No. 14 · bridge"
  std::string glue;                 // "hide glue"
  std::string builder;              // "Ida"
  friend bool operator==(const Label&, const Label&) = default;
};

// Before Clamps on the time is a plan: it says "about". Another day than today is named.
//   Refuses  in words: no such glue-up, no time of its own, clamps that are off, one that is over
[[nodiscard]] Result<Label, words::Told> label_of(const Floor& floor, GlueUpId glue_up,
                                                  Instant now);

// What to write where there is no printer: "OFF 15:40 · No. 14 · bridge · hide glue".
[[nodiscard]] std::string to_write(const Label& label);

}  // namespace squeezeout::label
