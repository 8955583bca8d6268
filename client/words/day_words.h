#pragma once
// The day sheet as text for people and as a table for a spreadsheet. Used by the screen and by the command line.
//   Shape    text: lines of at most kDayColumns code points. Cells: a row of names, then a row a line of the sheet; the
//            caller writes them as CSV. Lengths are whole seconds, times RFC 3339 with the shop's offset, empty: not known.

#include <string>
#include <vector>

#include "client/words/words.h"
#include "common/report/day.h"

namespace squeezeout::words {

inline constexpr std::size_t kDayColumns = 100;

using Cells = std::vector<std::vector<std::string>>;

[[nodiscard]] std::string day_text(const Context& c, const DaySheet& sheet);
[[nodiscard]] Cells day_cells(const Context& c, const DaySheet& sheet);       // a row a glue-up
[[nodiscard]] Cells day_gear_cells(const Context& c, const DaySheet& sheet);  // a row a gear kind

}  // namespace squeezeout::words
