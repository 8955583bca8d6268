#include "client/view/next.h"

#include <algorithm>
#include <cctype>
#include <tuple>

#include "client/words/say.h"
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
      return NextKey{.glue_up = g.id,
                     .from = g.times.stage_begin,
                     .word = words::tr("START"),
                     .early_word = words::tr("Start now"),
                     .glyph = look::Glyph::drop,
                     .body = Start{g.id},
                     .anyway = Start{g.id, Override::knowingly}};
    case Progress::open:
      return NextKey{.glue_up = g.id,
                     .from = g.times.open_begin,
                     .word = words::tr("CLAMPS ON"),
                     .glyph = look::Glyph::clamp,
                     .body = ClampsOn{g.id, kAtServer},
                     .anyway = ClampsOn{g.id, kAtServer}};
    case Progress::clamped:
      return NextKey{.glue_up = g.id,
                     .from = off_from(g),
                     .word = words::tr("CLAMPS OFF"),
                     .early_word = words::tr("Off anyway"),
                     .glyph = look::Glyph::clamp,
                     .body = ClampsOff{g.id, kAtServer},
                     .anyway = ClampsOff{g.id, kAtServer, Override::knowingly}};
    case Progress::waiting: {
      const Recipe* recipe = floor.recipe(g.recipe);
      if (recipe == nullptr || recipe->finish.empty()) return std::nullopt;
      return NextKey{.glue_up = g.id,
                     .from = g.times.ready_at,
                     .word = words::say("{} DONE", capitals(recipe->finish)),
                     .early_word = words::tr("Done anyway"),
                     .glyph = look::Glyph::tick,
                     .body = Scraped{g.id, kAtServer},
                     .anyway = Scraped{g.id, kAtServer, Override::knowingly}};
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
        return floor.before.contains(glue_up) ? words::tr("Undo") : words::tr("Undo reserve");
      case Progress::open:
        return words::tr("Undo start");
      case Progress::clamped:
        return words::tr("Undo clamps on");
      case Progress::waiting:
        return words::tr("Undo clamps off");
      default:
        return words::tr("Undo");
    }
  }();
  return UndoKey{label, Undo{glue_up}};
}

std::vector<Instant> really_off(const Floor& floor, const GlueUp& g, Instant now) {
  std::vector<Instant> out;
  const auto before = floor.before.find(g.id);
  const bool pressed = g.off_at && before != floor.before.end() &&
                       before->second.progress == Progress::clamped &&
                       now - g.pressed_at <= kCorrectable;
  const bool due = g.progress == Progress::clamped;
  if (!due && !pressed) return out;
  const GlueUp& clamped = due ? g : before->second;
  const Instant from = due ? now : *g.off_at;
  for (const Minutes ago : kReallyOff) {
    const Instant at = from - ago;
    if (at >= off_from(clamped) && (!clamped.clamped_at || at >= *clamped.clamped_at))
      out.push_back(at);
  }
  return out;
}

const PlanRecord* last_plan(const Floor& floor, Instant now) {
  if (floor.plans.empty()) return nullptr;
  const PlanRecord& last = floor.plans.rbegin()->second;
  return last.undone || now - last.at > kUndoWindow ? nullptr : &last;
}

}  // namespace squeezeout
