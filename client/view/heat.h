#pragma once
// Forms that are heated: hot from when the work is in them until they have cooled, whoever holds them by then.

#include <optional>
#include <string>

#include "client/view/scene.h"

namespace squeezeout {

// When its form can be touched, by the recipe's own times; nullopt: no form, or none in it yet.
[[nodiscard]] std::optional<Instant> safe_to_touch(const Floor& floor, const GlueUp& g);
// The last glue-up that heated a piece of that kind which has not cooled yet; null: it is cold.
[[nodiscard]] const GlueUp* heated_by(const Floor& floor, GearKindId kind, Instant now);
// "form up to 160 °C, burns from 48 °C, safe to touch at 43 °C about 11:20"; empty: nothing to be said of heat.
[[nodiscard]] std::string heat_words(const Scene& scene, const GlueUp& g);

}  // namespace squeezeout
