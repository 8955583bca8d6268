#pragma once
// Offer: what the reserve screen can offer for what it asks, and what the joint needs at that hour.

#include <array>

#include "client/view/scene.h"

namespace squeezeout {

// One press each: why a glue is taken that does not suit. It goes on record with the glue-up.
inline constexpr std::array kReasons{"Proved on a test joint", "Dry run went well",
                                     "The customer asks for it"};

// The reason as it is said: one of ours in the language that is spoken, anything else as it stands on record.
[[nodiscard]] std::string reason_words(const std::string& reason);

struct Offer {
  const Quotes::Answer& quote;
  enum class Wants { nothing, reason } wants = Wants::nothing;  // reason: the quote holds with one
  Instant at{};  // when the glue would be spread; now, where there is no time
  const Quotes::Joint& joint;
};
[[nodiscard]] Offer offer_of(const Scene& scene);

// What a glue-up asked for, to ask again what its joint needs.
[[nodiscard]] Reserve asked_of(const GlueUp& g);
// The figure of a kind of gear, or of the joint; null: not worked out.
[[nodiscard]] const Figure* figure_of(const JointAnswer& answer, FigureOf of);

}  // namespace squeezeout
