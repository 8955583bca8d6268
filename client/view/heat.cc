#include "client/view/heat.h"

#include <algorithm>

#include "client/words/say.h"
#include "common/trade/bend.h"

namespace squeezeout {

std::optional<Instant> safe_to_touch(const Floor& floor, const GlueUp& g) {
  const Recipe* recipe = floor.recipe(g.recipe);
  if (recipe == nullptr || !recipe->heat || !g.clamped_at) return std::nullopt;
  return *g.clamped_at + recipe->heat->hold + recipe->heat->cool;
}

const GlueUp* heated_by(const Floor& floor, GearKindId kind, Instant now) {
  const GearKind* gear = floor.kind(kind);
  if (gear == nullptr || !gear->hot) return nullptr;
  const GlueUp* last = nullptr;
  for (const auto& [id, g] : floor.glue_ups) {
    const bool holds =
        std::any_of(g.held.begin(), g.held.end(), [&](const Held& h) { return h.kind == kind; });
    const auto safe = safe_to_touch(floor, g);
    if (holds && safe && *safe > now && (last == nullptr || *safe > *safe_to_touch(floor, *last)))
      last = &g;
  }
  return last;
}

std::string heat_words(const Scene& scene, const GlueUp& g) {
  const Recipe* recipe = scene.floor.recipe(g.recipe);
  if (recipe == nullptr || !recipe->heat) return "";
  const words::Context c = scene.context();
  const std::string form = words::degrees_whole(c, recipe->heat->form);
  const Instant safe =
      g.clamped_at.value_or(g.times.clamped_begin) + recipe->heat->hold + recipe->heat->cool;
  if (g.progress == Progress::reserved)
    return words::say("form gets {} hot, safe to touch about {}", form, words::clock(c, safe));
  if ((running(g) || g.clamped_at) && scene.now < safe)
    return words::say("form up to {}, burns from {}, safe to touch at {} about {}", form,
                      words::degrees_whole(c, kHotToTouch), words::degrees_whole(c, kSafeToTouch),
                      words::clock(c, safe));
  if (running(g))
    return words::say("form should be safe to touch, {}: check before you grip it",
                      words::degrees_whole(c, kSafeToTouch));
  return "";
}

}  // namespace squeezeout
