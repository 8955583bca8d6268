#pragma once
// Places for glue-ups, one after another, on a floor to try things on.
//   Units   work() counts questions to the slot finder, scaled to very roughly a microsecond of one core, as schedule::Budget does
//   Lives   no longer than the floor

#include <map>
#include <optional>
#include <set>
#include <vector>

#include "common/floor/ask.h"
#include "common/floor/proposal.h"

namespace squeezeout {

class Places {
 public:
  using Ids = std::set<GlueUpId>;

  Places(const Floor& floor, Instant now) : records_(floor), now_(now), trial_(floor, now) {}

  const Floor& floor() const { return trial_.floor(); }
  void aside(GlueUpId id);
  void put(GlueUp g) { trial_.put(std::move(g)); }

  // What it asks for, as it is on record; null: nothing can be asked.
  const SlotQuery* query_of(GlueUpId id);
  Result<Slot, NoSlot> at(const SlotQuery& query, Instant start);
  std::optional<Slot> first(const SlotQuery& query);
  // The record in that place.
  static GlueUp placed(GlueUp g, const SlotQuery& query, Slot slot);

  // The place where it stood, and the one nearest to that: after the step before it, and ready for the one behind it, when that has
  // a place and is not in `moved`.
  std::optional<GlueUp> there(GlueUpId id, const Ids& moved);
  std::optional<GlueUp> nearest(GlueUpId id, const Ids& moved);

  std::int64_t work() const { return work_; }

 private:
  struct Asked {
    SlotQuery query;
    Instant stood{}, least{}, ready_by{};
  };
  std::optional<Asked> asked(const GlueUp& g, const Ids& moved);
  // The last slot in [begin, end) that is ready in time.
  std::optional<Slot> last(SlotQuery query, Instant begin, Instant end, Instant ready_by);

  const Floor& records_;
  const Instant now_;
  Trial trial_;
  std::map<GlueUpId, std::optional<SlotQuery>> queries_;
  std::int64_t work_ = 0;
};

// Whoever lost its place gets one, one after another, and nobody else moves: those that can stand where they stood first, each of
// the others as near to it as it can. Then again in other orders, those that had to move first, while that helps and the budget
// lasts. The first round is done whatever the budget; a stop is heard in it as well once it has taken a fifth of a second.
struct InTurn {
  Adoptable plan;  // who finds no place in this way is not in it
  std::int64_t work = 0;
  int moved = 0;     // away from where they stood
  bool all = false;  // everybody has a place
};
[[nodiscard]] InTurn in_turn(const Floor& floor, const std::vector<GlueUpId>& displaced,
                             Instant now, const schedule::Budget& budget);

}  // namespace squeezeout
