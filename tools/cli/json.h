#pragma once
// Records of the floor as JSON, for scripts.
//   Units   unit last in each name (`dwell_seconds`); times are RFC 3339 with the shop's offset; null: not known
//   Names   things carry their key where the shop file gives one; a glue-up is its number, "glue_up"

#include <nlohmann/json.hpp>

#include "client/words/words.h"
#include "common/floor/ask.h"

namespace squeezeout::cli {

using Json = nlohmann::ordered_json;

[[nodiscard]] Json time_json(const words::Context& c, Instant t);
[[nodiscard]] Json time_json(const words::Context& c, const std::optional<Instant>& t);
[[nodiscard]] Json glue_up_json(const words::Context& c, const GlueUp& g);
[[nodiscard]] Json times_json(const words::Context& c, const PhaseTimes& t);
[[nodiscard]] Json held_json(const words::Context& c, const std::vector<Held>& held);
[[nodiscard]] Json quote_json(const words::Context& c, const Quote& q);
[[nodiscard]] Json why_json(const words::Context& c, const std::vector<Hindrance>& why);
[[nodiscard]] Json holder_json(const words::Context& c, const HeldBy& h);
[[nodiscard]] Json gear_json(const words::Context& c, const GearNow& g);
[[nodiscard]] Json told_json(const words::Told& told);
// The kind of the refusal, and its facts.
[[nodiscard]] Json refusal_json(const words::Context& c, const Refusal& r);

}  // namespace squeezeout::cli
