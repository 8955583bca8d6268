#include "client/view/next.h"

#include <algorithm>
#include <cctype>
#include <tuple>

#include "proto/codec.h"

namespace squeezeout {
namespace {

std::string capitals(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

// A joint that is wet waits for nobody; then clamps that are due, then what can start, then the finish.
int urgency(Progress p) {
  switch (p) {
    case Progress::open:
      return 0;
    case Progress::clamped:
      return 1;
    case Progress::reserved:
      return 2;
    default:
      return 3;
  }
}

}  // namespace

std::optional<NextKey> next_key(const Floor& floor, const GlueUp& g) {
  switch (g.progress) {
    case Progress::reserved:
      return NextKey{
          g.id,        Step::start,       g.times.stage_begin, "START",
          "Start now", look::Glyph::drop, Start{g.id},         Start{g.id, Override::knowingly}};
    case Progress::open:
      return NextKey{
          g.id, Step::clamps_on,    g.times.open_begin,        "CLAMPS ON",
          "",   look::Glyph::clamp, ClampsOn{g.id, kAtServer}, ClampsOn{g.id, kAtServer}};
    case Progress::clamped:
      return NextKey{g.id,
                     Step::clamps_off,
                     off_from(g),
                     "CLAMPS OFF",
                     "Off anyway",
                     look::Glyph::clamp,
                     ClampsOff{g.id, kAtServer},
                     ClampsOff{g.id, kAtServer, Override::knowingly}};
    case Progress::waiting: {
      const Recipe* recipe = floor.recipe(g.recipe);
      if (recipe == nullptr || recipe->finish.empty()) return std::nullopt;
      return NextKey{g.id,
                     Step::finish,
                     g.times.ready_at,
                     capitals(recipe->finish) + " DONE",
                     "Done anyway",
                     look::Glyph::tick,
                     Scraped{g.id, kAtServer},
                     Scraped{g.id, kAtServer, Override::knowingly}};
    }
    default:
      return std::nullopt;
  }
}

std::vector<const GlueUp*> own_glue_ups(const Floor& floor, BuilderId builder, BenchId bench,
                                        Instant now) {
  struct Entry {
    std::tuple<int, int, Instant, GlueUpId> rank;
    const GlueUp* g;
  };
  std::vector<Entry> entries;
  for (const auto& [id, g] : floor.glue_ups) {
    if (!live(g) || g.progress == Progress::displaced) continue;
    if (!(builder && g.builder == builder) && !(bench && g.bench == bench)) continue;
    const auto key = next_key(floor, g);
    const Instant from = key ? key->from : g.times.ready_at;
    const int now_or_later = key && from <= now ? 0 : 1;
    entries.push_back({{now_or_later, now_or_later == 0 ? urgency(g.progress) : 0, from, id}, &g});
  }
  std::sort(entries.begin(), entries.end(),
            [](const Entry& a, const Entry& b) { return a.rank < b.rank; });
  std::vector<const GlueUp*> out;
  for (const Entry& e : entries) out.push_back(e.g);
  return out;
}

std::optional<UndoKey> undo_key(const Floor& floor, GlueUpId glue_up) {
  const GlueUp* g = floor.glue_up(glue_up);
  if (g == nullptr) return std::nullopt;
  if (g->progress != Progress::reserved && !floor.before.contains(glue_up)) return std::nullopt;
  const auto label = [&]() -> std::string {
    switch (g->progress) {
      case Progress::reserved:
        return floor.before.contains(glue_up) ? "Undo" : "Undo reserve";
      case Progress::open:
        return "Undo start";
      case Progress::clamped:
        return "Undo clamps on";
      case Progress::waiting:
        return "Undo clamps off";
      default:
        return "Undo";
    }
  }();
  return UndoKey{label, Undo{glue_up}};
}

const PlanRecord* last_plan(const Floor& floor, Instant now) {
  if (floor.plans.empty()) return nullptr;
  const PlanRecord& last = floor.plans.rbegin()->second;
  return last.undone || now - last.at > kUndoWindow ? nullptr : &last;
}

}  // namespace squeezeout
