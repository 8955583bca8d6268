#pragma once
// What stands in the way of a start, as JSON: the facts of a quote and those of an explanation.

#include "common/floor/why.h"
#include "tools/cli/json.h"

namespace squeezeout::cli {

template <class T>
[[nodiscard]] Json key_json(const T* thing) {
  return thing ? Json(thing->key) : Json(nullptr);
}

[[nodiscard]] Json fact_json(const words::Context& c, const Fact& f);
[[nodiscard]] Json fact_json(const words::Context& c, const Blocker& b);

}  // namespace squeezeout::cli
