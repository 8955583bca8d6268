#pragma once
// What the card says of a glue-up beside its times: gear, weather, pot, the builder's own times, a hot form. And the keys of
// mixed glue.

#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::bench {

// Lines, what matters most first.
[[nodiscard]] std::vector<std::string> card_facts(const Scene& scene, const GlueUp& g);

// "Start from the pot", or "Mix a pot": of a reserved glue-up whose glue is mixed.
struct PotKey {
  std::string id, label, sub;
  Body body;
};
[[nodiscard]] std::optional<PotKey> pot_key(const Scene& scene, const GlueUp& g);

}  // namespace squeezeout::bench
