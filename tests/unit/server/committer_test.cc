// The committer on a store in memory: one id, one answer; one order; nothing told before it is kept.

#include "server/committer.h"

#include <gtest/gtest.h>

#include "common/floor/apply.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/store/memory/memory_store.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout {
namespace {

using test::command_id;
using test::test_device;

constexpr const char* kShop = R"(
name: "Two clamps" zone: "UTC"
hours { days: "mon-sun" from: "00:00" to: "24:00" }
bench { key: "1" name: "Bench" }
builder { key: "ida" name: "Ida" bench: "1" }
builder { key: "tom" name: "Tom" bench: "1" }
gear { key: "clamp" name: "Clamp" class: GEAR_CLASS_CLAMP count: 2 }
adhesive { key: "fish" name: "Fish glue" chemistry: CHEMISTRY_FISH open_minutes: 10
  dwell { celsius: 5 minutes: 60 } wait_hours: 1 floor_celsius: 5 source: "common practice" }
recipe { key: "joint" name: "Joint" glue: "fish" stage_minutes: 5 assembly_minutes: 5 release_minutes: 5
  need { class: GEAR_CLASS_CLAMP count: 2 } }
)";

class CommitterTest : public testing::Test {
 protected:
  CommitterTest() : committer_(store_, store_.load().value()) {
    const auto shop = read_shop_file("shop", kShop);
    EXPECT_TRUE(shop.has_value());
    (void)commit({ask(1, LoadShop{*shop})});
  }

  static Ask ask(std::uint64_t n, Body body, SessionId session = 1) {
    return {session, test_device(session), {command_id(n), std::move(body)}};
  }
  Reserve joint(std::uint32_t builder) const {
    Reserve r;
    r.recipe = RecipeId{1};
    r.builder = BuilderId{builder};
    r.start = now_ + std::chrono::hours{1};
    return r;
  }
  Output commit(const std::vector<Ask>& asks) {
    auto output = committer_.commit(asks, now_);
    EXPECT_TRUE(output.has_value());
    return std::move(output).value();
  }
  static ServerFrame frame(const Bytes& bytes) { return decode_server_frame(*bytes).value(); }
  static Answer answer(const Output& output, std::size_t i) {
    return std::get<Answer>(frame(output.replies.at(i).frame));
  }

  Instant now_ = *parse_rfc3339("2026-11-26T09:00:00Z");
  MemoryStore store_{StoreName{{7}}};
  Committer committer_;
};

TEST_F(CommitterTest, decides_each_on_what_the_one_before_left_in_one_append) {
  const std::size_t before = store_.appends();
  const Output output = commit({ask(2, joint(1)), ask(3, joint(2))});
  EXPECT_EQ(store_.appends(), before + 1);
  EXPECT_FALSE(answer(output, 0).refusal);
  EXPECT_EQ(answer(output, 0).glue_up, GlueUpId{1});
  ASSERT_TRUE(answer(output, 1).refusal);
  EXPECT_TRUE(std::holds_alternative<DoesNotFit>(*answer(output, 1).refusal));
  ASSERT_EQ(output.published.size(), 1u);
  EXPECT_EQ(output.published[0].revision, 2u);
  EXPECT_EQ(answer(output, 0).revision, 2u);
  EXPECT_EQ(answer(output, 1).revision, 2u) << "a refusal names the floor that it was decided on";
}

TEST_F(CommitterTest, gives_a_repeat_its_first_answer_in_the_same_batch_and_later) {
  const Output first = commit({ask(2, joint(1)), ask(2, joint(1), 9)});
  EXPECT_EQ(*first.replies[0].frame, *first.replies[1].frame);
  EXPECT_EQ(first.replies[1].session, 9u);
  EXPECT_EQ(first.published.size(), 1u);
  now_ += std::chrono::hours{5};
  const Output later = commit({ask(2, joint(2))});  // even when it asks for something else
  EXPECT_EQ(*later.replies[0].frame, *first.replies[0].frame);
}

TEST_F(CommitterTest, stamps_a_fact_that_came_without_a_time) {
  (void)commit({ask(2, joint(1))});
  now_ += std::chrono::hours{1} + Minutes{5};
  (void)commit({ask(3, Start{GlueUpId{1}})});
  now_ += Minutes{4};
  const Output output = commit({ask(4, ClampsOn{GlueUpId{1}, kAtServer})});
  EXPECT_FALSE(answer(output, 0).refusal);
  EXPECT_EQ(committer_.floor().glue_up(GlueUpId{1})->clamped_at, now_);
}

TEST_F(CommitterTest, never_goes_back_in_time) {
  const Instant then = now_;
  now_ -= std::chrono::hours{3};
  (void)commit({ask(2, ClimateReading{{20}, {50}})});
  EXPECT_EQ(store_.journal().back().at, then);
}

TEST_F(CommitterTest, lets_time_do_what_is_due_as_a_revision_of_its_own) {
  (void)commit({ask(2, joint(1))});
  now_ += std::chrono::hours{2};
  const Output timer = commit({});
  ASSERT_EQ(timer.published.size(), 1u);
  EXPECT_FALSE(std::get<Delta>(frame(timer.published[0].frame)).command.has_value());
  EXPECT_EQ(committer_.floor().glue_up(GlueUpId{1})->progress, Progress::displaced);
  EXPECT_TRUE(commit({}).published.empty());

  // The same, when a command comes first.
  Reserve again = joint(2);
  (void)commit({ask(3, again)});
  now_ += std::chrono::hours{2};
  const Output both = commit({ask(4, ClimateReading{{20}, {50}})});
  ASSERT_EQ(both.published.size(), 2u);
  EXPECT_FALSE(std::get<Delta>(frame(both.published[0].frame)).command.has_value());
  EXPECT_EQ(std::get<Delta>(frame(both.published[1].frame)).command, command_id(4));
  EXPECT_EQ(answer(both, 0).revision, both.published[1].revision);
}

TEST_F(CommitterTest, keeps_nothing_and_tells_an_error_when_the_disk_is_full) {
  const std::uint64_t hash = floor_hash(committer_.floor());
  store_.fail_next({Trouble::Code::full, "keeping: the disk is full", "no room", "make room"});
  const Output output = commit({ask(2, joint(1)), ask(3, ClimateReading{{20}, {50}})});
  EXPECT_TRUE(output.published.empty());
  ASSERT_EQ(output.replies.size(), 2u);
  for (const Reply& reply : output.replies)
    EXPECT_EQ(std::get<Error>(frame(reply.frame)).code, ErrorCode::read_only);
  EXPECT_TRUE(committer_.trouble().has_value());
  EXPECT_EQ(floor_hash(committer_.floor()), hash);

  const Output again = commit({ask(2, joint(1))});
  EXPECT_FALSE(answer(again, 0).refusal) << "the same id was never answered, so it is decided now";
  EXPECT_FALSE(committer_.trouble().has_value());
}

TEST_F(CommitterTest, gives_up_when_it_is_unknown_what_is_kept) {
  store_.fail_next({Trouble::Code::broken, "keeping: the disk failed", "EIO", "restart"});
  const std::vector<Ask> asks{ask(2, joint(1))};
  const auto output = committer_.commit(asks, now_);
  ASSERT_FALSE(output.has_value());
  EXPECT_EQ(output.error().code, Trouble::Code::broken);
}

TEST_F(CommitterTest, comes_to_the_same_floor_from_its_journal) {
  (void)commit({ask(2, joint(1)), ask(3, joint(2)), ask(4, GearBroken{GearKindId{1}, 1, "bent"})});
  now_ += std::chrono::hours{3};
  (void)commit({});
  const Loaded loaded = store_.load().value();
  EXPECT_EQ(loaded.revision, committer_.revision());
  EXPECT_EQ(floor_hash(loaded.floor), floor_hash(committer_.floor()));
}

}  // namespace
}  // namespace squeezeout
