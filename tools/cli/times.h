#pragma once
// Times as a person gives them: "15:40" or "2026-11-27 9:30" of the shop's clock, or RFC 3339.
//   Shape   a time alone is of today or its neighbour days: the last one that has been (a fact), or the next one to come (a plan)
//   DST     a repeated time is taken as a time alone is; "1:30 (2nd)" or "1:30 2nd" says which. A skipped time does not exist.
//   Stops   Exit::wrong_use: not a time, or a time that the clock skips

#include <string>

#include "client/words/words.h"

namespace squeezeout::cli {

enum class Tense { past, coming };
[[nodiscard]] Instant read_time(const words::Context& c, const std::string& text, Tense tense);
// "2026-11-26"; "today", "yesterday", "tomorrow".
[[nodiscard]] Date read_date(const words::Context& c, const std::string& text);

}  // namespace squeezeout::cli
