#include "client/bench/card_facts.h"

#include <algorithm>

#include "client/view/heat.h"
#include "client/view/offer.h"
#include "client/words/craft.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

constexpr Seconds kSoon = std::chrono::hours{1};  // nobody mixes glue earlier

std::string joined(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& part : parts)
    if (!part.empty()) out += (out.empty() ? "" : " · ") + part;
  return out;
}

std::string off_words(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  if (phase_at(g, scene.now) == Phase::clamped && off_from(g) < g.times.release_begin &&
      !over_time(g, scene.now))
    return words::say("can come off from {}", words::clock(c, off_from(g)));
  if (g.progress == Progress::open)
    return words::say("clamps can come off about {}", words::clock(c, g.times.release_begin));
  return "";
}

bool over_and_done(const GlueUp& g) {
  return g.progress == Progress::done || g.progress == Progress::spoiled;
}

std::string pot_words(const Scene& scene, const GlueUp& g) {
  const Pot* pot = g.progress == Progress::open ? scene.floor.pot(g.pot) : nullptr;
  if (pot == nullptr) return "";
  const words::Context c = scene.context();
  const std::string at = words::clock(c, pot->until);
  return pot->until > scene.now ? words::say("pot sets {}", at) : words::say("pot set {}", at);
}

// Only what has been learned from enough of the builder's own.
std::string learned_words(const Scene& scene, const GlueUp& g) {
  const Recipe* recipe = scene.floor.recipe(g.recipe);
  if (recipe == nullptr || !(g.progress == Progress::reserved || g.progress == Progress::open))
    return "";
  const std::vector<Seconds> times = assembly_times(scene.floor, g.recipe, g.builder);
  const AssemblyPlan plan = plan_assembly(recipe->assembly, times);
  if (!plan.learned) return "";
  return words::learned(plan, overrun_chance(g.demand.open_limit, times));
}

}  // namespace

std::vector<std::string> card_facts(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const bool holds = running(g) || g.progress == Progress::reserved;
  const std::string gear = holds ? words::gear(c, g.held) : words::tr("no gear held");
  const std::string ready =
      over_and_done(g) ? "" : words::say("ready {}", words::clock(c, g.times.ready_at));
  std::vector<std::string> lines{joined({gear, off_words(scene, g), ready})};
  const auto add = [&](std::string line) {
    if (!line.empty()) lines.push_back(std::move(line));
  };
  // A displaced one tells its snag on the big panel.
  if (g.progress != Progress::displaced) add(words::weather(c, g));
  add(joined({pot_words(scene, g), learned_words(scene, g)}));
  add(heat_words(scene, g));
  if (!g.reason.empty())
    add(words::say("glue taken although it does not suit: {}",
                   words::small(reason_words(g.reason))));
  return lines;
}

std::optional<PotKey> pot_key(const Scene& scene, const GlueUp& g) {
  const AdhesiveSheet* sheet = scene.floor.sheet(g.sheet);
  if (sheet == nullptr || g.progress != Progress::reserved || !mixed(sheet->chemistry))
    return std::nullopt;
  if (g.times.stage_begin > scene.now + kSoon) return std::nullopt;
  const words::Context c = scene.context();
  const Instant on = scene.now + g.demand.assembly;
  if (const Pot* pot = live_pot(scene.floor, g.sheet, on))
    return PotKey{"pot.start", words::tr("Start from the pot"),
                  words::say("sets {}", words::clock(c, pot->until)),
                  Start{g.id, Override::no, pot->id}};
  return PotKey{"pot.mix", words::tr("Mix a pot"), words::tr("its time runs from now"),
                MixPot{g.sheet, g.lot, g.bench}};
}

}  // namespace squeezeout::bench
