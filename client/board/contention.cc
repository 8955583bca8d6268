#include "client/board/contention.h"

#include <algorithm>

#include "client/alarm/wants.h"
#include "client/words/say.h"
#include "client/words/why.h"

namespace squeezeout::board {
namespace {

constexpr Seconds kSoon = std::chrono::hours{4};

// Those that start soon, the first of them first.
std::vector<const GlueUp*> soon(const Scene& scene) {
  std::vector<const GlueUp*> out;
  for (const auto& [id, g] : scene.floor.glue_ups)
    if (g.progress == Progress::reserved && g.times.stage_begin <= scene.now + kSoon)
      out.push_back(&g);
  std::stable_sort(out.begin(), out.end(), [](const GlueUp* a, const GlueUp* b) {
    return a->times.stage_begin < b->times.stage_begin;
  });
  return out;
}

std::vector<std::string> over(const Scene& scene, const GlueUp& g,
                              const std::vector<const GlueUp*>& soon) {
  const words::Context c = scene.context();
  const std::string late = remaining(scene, g).words;
  if (g.progress != Progress::clamped || scene.stale()) return {late, ""};
  const auto kept = std::find_if(soon.begin(), soon.end(), [&](const GlueUp* other) {
    return kept_from(scene.floor, g, *other);
  });
  if (kept == soon.end()) return {late, ""};
  const GlueUp* next = *kept;
  const std::string who = words::builder(c, next->builder);
  const std::string when = words::clock(c, next->times.stage_begin);
  return {words::say("{} · {} wants it {}", late, who, when),
          words::say("{} wants it {}", who, when), late, ""};
}

}  // namespace

Tags tags_of(const Scene& scene) {
  Tags out;
  const words::Context c = scene.context();
  const auto tell = [&](GlueUpId id, std::vector<std::string> forms) {
    const GlueUp* g = scene.floor.glue_up(id);
    if (g == nullptr || (scene.stale() && !own(scene, *g))) return;
    out.emplace(id, std::move(forms));
  };
  const std::vector<const GlueUp*> next = soon(scene);
  for (const auto& [id, g] : scene.floor.glue_ups)
    if (running(g) && past_due(g, scene.now) && (!scene.stale() || own(scene, g)))
      tell(id, over(scene, g, next));
  for (const GlueUpId id : scene.floor.displaced) {
    const GlueUp* g = scene.floor.glue_up(id);
    if (g == nullptr) continue;
    tell(id, {words::tr("no place"), ""});
    if (g->snag_by && !scene.stale())
      tell(g->snag_by, {words::say("{} lost its place", words::whose(c, id)),
                        words::say("in the way of {}", words::builder(c, g->builder)), ""});
  }
  if (scene.stale()) return out;
  for (const AtRisk& risk : scene.quotes.at_risk(scene.floor, scene.now))
    tell(risk.last,
         {words::say("ready {}, due {}", words::clock(c, risk.ready), words::clock(c, risk.due)),
          words::say("due {}", words::clock(c, risk.due)), ""});
  return out;
}

}  // namespace squeezeout::board
