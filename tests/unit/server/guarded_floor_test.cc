// The floor's rules and the tables' guard, together: what decide() grants, the SQL guard takes, and what is read back is the
// same floor. Random commands of a small shop through the committer into real SQLite.

#include <gtest/gtest.h>

#include <cstdio>
#include <random>

#include "common/floor/apply.h"
#include "server/committer.h"
#include "server/store/sqlite/open.h"
#include "tests/support/floor/random_commands.h"
#include "tests/support/server/server_process.h"

namespace squeezeout {
namespace {

using test::ScratchFolder;
using testing::at;
using testing::kAda;
using testing::kBen;
using testing::kBridge;
using testing::kCaul;
using testing::RandomCommands;
using testing::small_shop;

// One shop on disk, driven by commands.
class KeptShop {
 public:
  KeptShop() : store_(open()), committer_(*store_, store_->load().value()) {
    EXPECT_FALSE(refused(LoadShop{small_shop()}));
  }

  bool refused(Body body) {
    CommandId id;
    ++commands_;
    for (std::size_t i = 0; i < 8; ++i)
      id.bytes[i] = static_cast<std::uint8_t>(commands_ >> (8 * i));
    const std::vector<Ask> asks{{1, {}, {id, std::move(body)}}};
    const auto output = committer_.commit(asks, now_);
    EXPECT_TRUE(output.has_value()) << (output ? "" : to_text(output.error()));
    if (!output) return true;
    const auto frame = decode_server_frame(*output->replies.at(0).frame);
    return std::get<Answer>(*frame).refusal.has_value();
  }
  void wait(Seconds s) { now_ += s; }
  Instant now() const { return now_; }
  const Floor& floor() const { return committer_.floor(); }

  // Closes the file and reads it again, which holds tables, journal and ledger against each other.
  std::uint64_t hash_read_back() {
    store_->close();
    store_.reset();
    store_ = open();
    const auto loaded = store_->load();
    EXPECT_TRUE(loaded.has_value());
    EXPECT_FALSE(loaded->trouble) << to_text(*loaded->trouble);
    return floor_hash(loaded->floor);
  }

 private:
  std::unique_ptr<Store> open() { return std::move(open_sqlite_store(folder_.path())).value(); }

  ScratchFolder folder_;
  std::unique_ptr<Store> store_;
  Committer committer_;
  Instant now_ = at("2026-11-26T09:00:00Z");
  std::uint64_t commands_ = 0;
};

TEST(GuardedFloor, AStockRaisedAtTheBenchOutlivesAReloadOfTheSameFile) {
  KeptShop shop;
  ASSERT_FALSE(shop.refused(SetStock{kCaul, 2}));
  ASSERT_FALSE(shop.refused(Reserve{.recipe = kBridge, .builder = kAda}));
  ASSERT_FALSE(shop.refused(Reserve{.recipe = kBridge, .builder = kBen, .start = shop.now()}));
  ASSERT_FALSE(shop.refused(LoadShop{small_shop()}));  // the file says 1, two are promised
  EXPECT_EQ(shop.floor().gear.stock(kCaul), 2);
  const std::uint64_t live = floor_hash(shop.floor());
  EXPECT_EQ(shop.hash_read_back(), live);
}

TEST(GuardedFloor, RandomCommandsAreKeptAsTheyWereDecided) {
  constexpr unsigned kSequences = 200;
  long commands = 0, granted = 0;
  for (unsigned seed = 1; seed <= kSequences; ++seed) {
    std::mt19937 dice(seed);
    std::vector<std::uint16_t> tape(280);
    for (std::uint16_t& t : tape) t = static_cast<std::uint16_t>(dice());
    RandomCommands random{tape};
    KeptShop shop;
    for (int i = 0; i < 40; ++i, ++commands) {
      shop.wait(random.pause());
      granted += !shop.refused(random.next(shop.floor(), shop.now()));
    }
    const std::uint64_t live = floor_hash(shop.floor());
    ASSERT_EQ(shop.hash_read_back(), live) << "seed " << seed;
  }
  std::printf("%u sequences, %ld commands, %ld granted, all kept as decided\n", kSequences,
              commands, granted);
  EXPECT_GT(granted, commands / 5);
}

}  // namespace
}  // namespace squeezeout
