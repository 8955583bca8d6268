#pragma once
// A small shop for tests: few pieces, so that everything is scarce. Invented; figures are round on purpose.

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "common/floor/apply.h"
#include "common/floor/decide.h"

namespace squeezeout::testing {

inline constexpr RecipeId kBridge{1}, kBinding{2}, kLining{3}, kBend{4};
inline constexpr GearKindId kDeep{1}, kShort{2}, kCaul{3}, kDeckA{4}, kDeckB{5};
inline constexpr SheetId kResin{1}, kCement{2};
inline constexpr BuilderId kAda{1}, kBen{2}, kCyd{3};
inline constexpr BenchId kBench1{1}, kBench2{2};
inline constexpr BuildId kBuild14{1};

Instant at(std::string_view rfc3339_text);  // CHECKs that it is one

// Open Monday to Friday 08:00-17:00, Europe/Dublin.
//   gear     6 deep clamps (throat 120), 10 short ones (throat 50), 1 caul, decks A and B
//   bridge   3 clamps of throat 100 and the caul; stage 5, assembly 4, release 5 min; resin: dwell 60 min, wait 3 h; "string up"
//   binding  4 clamps of any throat; cement: dwell 2 h, wait 24 h; "scrape"
//   lining   8 clamps of any throat; resin; nothing left to do on it
//   bend     a deck, no glue, dwell 90 min
//   build 14: bridge, binding, lining; builder Ada
Shop small_shop(std::string zone = "Europe/Dublin");

// A floor and a clock, driven by commands as the writer drives it. Ids are counted, so runs repeat.
class Bench {
 public:
  explicit Bench(Instant now, Shop shop = small_shop());

  Result<std::vector<Event>, Refusal> press(Body body);
  void wait(Seconds s) { now_ += s; }
  void set(Instant t) {
    CHECK(t >= now_);
    now_ = t;
  }
  void tick() { (void)press(Tick{}); }

  // Reserves at the earliest moment (or exactly at `start`) and gives its id; CHECKs that it was granted.
  GlueUpId reserve(RecipeId recipe, BuilderId builder, std::optional<Instant> start = {},
                   BuildId build = {}, int step = 0);
  const GlueUp& glue_up(GlueUpId id) const { return floor_.glue_ups.at(id); }
  Floor& floor() { return floor_; }
  const Floor& floor() const { return floor_; }
  Instant now() const { return now_; }
  const std::vector<Event>& events() const { return events_; }  // all since the beginning

 private:
  Floor floor_;
  Instant now_;
  std::vector<Event> events_;
  std::uint64_t commands_ = 0;
};

// The refusal of that kind that a press got; null: it was granted, or refused for another reason.
template <class T>
const T* refused(const Result<std::vector<Event>, Refusal>& answer) {
  return answer ? nullptr : std::get_if<T>(&answer.error());
}

// The brute-force oracle: sums claims second by second of interest from the records alone; shares no code with the ledger.
// Empty: no kind is over its stock at any instant since its stock was last set. Otherwise says which, when and by whom.
std::string over_stock(const Floor& floor);

}  // namespace squeezeout::testing
