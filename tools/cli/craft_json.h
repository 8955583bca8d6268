#pragma once
// The craft as JSON, for scripts: figures with unit, band and where they come from; glues with reasons.

#include <vector>

#include "common/craft/answer.h"
#include "tools/cli/json.h"

namespace squeezeout::cli {

// {"figure": "open_time", "unit": "s", "low": .., "value": .., "high": .., "words": .., "formula": ..}
[[nodiscard]] Json figure_json(const words::Context& c, const Figure& f);
// Name, source, mark ("published", "from memory", ...), uncertainty.
[[nodiscard]] Json formula_json(FormulaId id);
[[nodiscard]] Json fitness_json(const words::Context& c, const Fitness& f);
[[nodiscard]] Json reasons_json(const std::vector<Reason>& reasons);
[[nodiscard]] Json caution_json(const words::Context& c, Caution caution);
[[nodiscard]] Json out_of_range_json(const OutOfRange& why);

}  // namespace squeezeout::cli
