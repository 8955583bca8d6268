// What goes in comes out: every frame, command, event and refusal, with every field set.
#include <gtest/gtest.h>

#include "tests/unit/proto/make.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

using testing::Make;

constexpr std::uint64_t kSeeds = 100;
// All bodies but Tick, which no client sends.
std::vector<std::size_t> bodies() {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < std::variant_size_v<Body>; ++i)
    if (i != Body{Tick{}}.index()) all.push_back(i);
  return all;
}

void there_and_back(const ClientFrame& frame) {
  const std::string bytes = encode(frame);
  const auto back = decode_client_frame(bytes);
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(*back, frame);
  EXPECT_EQ(encode(*back), bytes);
}

void there_and_back(const ServerFrame& frame) {
  const std::string bytes = encode(frame);
  const auto back = decode_server_frame(bytes);
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(*back, frame);
  EXPECT_EQ(encode(*back), bytes);
}

TEST(Codec, Hello) {
  for (std::uint64_t seed = 0; seed < kSeeds; ++seed)
    there_and_back(ClientFrame{Make(seed).hello()});
}

class CodecBodies : public ::testing::TestWithParam<std::size_t> {};
TEST_P(CodecBodies, ThereAndBack) {
  for (std::uint64_t seed = 0; seed < kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const Asked asked = Make(seed).asked(GetParam());
    ASSERT_EQ(asked.body.index(), GetParam());
    there_and_back(ClientFrame{asked});
  }
}
INSTANTIATE_TEST_SUITE_P(All, CodecBodies, ::testing::ValuesIn(bodies()));

class CodecEvents : public ::testing::TestWithParam<std::size_t> {};
TEST_P(CodecEvents, ThereAndBack) {
  for (std::uint64_t seed = 0; seed < kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const std::vector<Event> events = {Make(seed).event(GetParam()),
                                       Make(seed + 1).event(GetParam())};
    ASSERT_EQ(events[0].index(), GetParam());
    const std::string bytes = encode_events(events);
    const auto back = decode_events(bytes);
    ASSERT_TRUE(back) << back.error().what;
    EXPECT_EQ(*back, events);
    EXPECT_EQ(encode_events(*back), bytes);
  }
}
INSTANTIATE_TEST_SUITE_P(All, CodecEvents,
                         ::testing::Range(std::size_t{0}, std::variant_size_v<Event>));

class CodecRefusals : public ::testing::TestWithParam<std::size_t> {};
TEST_P(CodecRefusals, ThereAndBackInAnAnswer) {
  for (std::uint64_t seed = 0; seed < kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const Answer answer = Make(seed).answer(GetParam());
    ASSERT_EQ(answer.refusal->index(), GetParam());
    there_and_back(ServerFrame{answer});
  }
}
INSTANTIATE_TEST_SUITE_P(All, CodecRefusals,
                         ::testing::Range(std::size_t{0}, std::variant_size_v<Refusal>));

TEST(Codec, ServerFrames) {
  for (std::uint64_t seed = 0; seed < kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    Make make(seed);
    there_and_back(ServerFrame{make.welcome()});
    there_and_back(ServerFrame{make.delta()});
    there_and_back(ServerFrame{make.beat()});
    there_and_back(ServerFrame{Answer{}});
    for (int code = 1; code <= static_cast<int>(ErrorCode::going_down); ++code)
      there_and_back(ServerFrame{make.error(code)});
  }
}

TEST(Codec, EveryValueOfEveryEnumTravels) {
  GlueUp g = Make(1).glue_up();
  for (int progress = 0; progress < kProgresses; ++progress)
    for (int snag = 0; snag < kSnags; ++snag)
      for (int change = 0; change < kChanges; ++change) {
        g.progress = static_cast<Progress>(progress);
        g.snag = static_cast<Snag>(snag);
        const std::vector<Event> events = {GlueUpChanged{static_cast<Change>(change), g}};
        ASSERT_EQ(decode_events(encode_events(events)).value(), events);
      }
  for (int thing = 0; thing < kThings; ++thing)
    there_and_back(ServerFrame{Answer{{}, 1, NoSuch{static_cast<Thing>(thing), 7}, {}}});
  for (int rule = 0; rule < kRules; ++rule)
    for (const Verdict verdict : {Verdict::fits, Verdict::warn, Verdict::unfit, Verdict::blocked}) {
      const Unsuited no{{3}, {{static_cast<Rule>(rule), verdict}}};
      there_and_back(ServerFrame{Answer{{}, 1, NotPossible{no}, {}}});
    }
  for (const auto what : {BadAir::What::celsius, BadAir::What::humidity, BadAir::What::instant})
    there_and_back(ServerFrame{Answer{{}, 1, BadAir{.what = what}, {}}});
  for (const Stored stored : {Stored::cool, Stored::warm})
    there_and_back(ClientFrame{Asked{{}, PutLot{{.stored = stored}}}});
  Shop shop = Make(1).shop();
  GearKind& any = shop.gear[0];  // only a go-bar has a rod
  any.rod_width = any.rod_thickness = {};
  any.rod_stiffness = {};
  any.rod_strength = {};
  for (int gear = 0; gear < kGearClasses; ++gear)
    for (int chemistry = 0; chemistry < kChemistries; ++chemistry) {
      any.gear_class = static_cast<GearClass>(gear);
      shop.sheets[0].chemistry = static_cast<Chemistry>(chemistry);
      there_and_back(ClientFrame{Asked{{}, LoadShop{shop}}});
    }
  for (const LimitSet limits : {LimitSet::osha, LimitSet::niosh}) {
    shop.room = {60, 6, limits};
    there_and_back(ClientFrame{Asked{{}, LoadShop{shop}}});
  }
  for (int trait = 0; trait < kTraits; ++trait) {
    shop.recipes[0].joint.traits = {static_cast<Trait>(trait)};
    there_and_back(ClientFrame{Asked{{}, LoadShop{shop}}});
  }
}

TEST(Codec, AFactWithoutATimeHappensAtTheServer) {
  const auto back = decode_client_frame(encode(ClientFrame{Asked{{}, ClampsOn{{3}, kAtServer}}}));
  EXPECT_EQ(std::get<ClampsOn>(std::get<Asked>(back.value()).body).at, kAtServer);
  const auto at_1970 =
      decode_client_frame(encode(ClientFrame{Asked{{}, ClampsOn{{3}, Instant{}}}}));
  EXPECT_EQ(std::get<ClampsOn>(std::get<Asked>(at_1970.value()).body).at, Instant{});
}

TEST(Codec, IdsOfALoadedShopAreGivenByOrder) {
  Shop shop = Make(7).shop();
  const Shop wanted = shop;
  // The same shop as a floor knows it, its ids with gaps.
  for (auto& bench : shop.benches) bench.id.value *= 10;
  for (auto& builder : shop.builders) builder.bench.value *= 10;
  const auto back = decode_client_frame(encode(ClientFrame{Asked{{}, LoadShop{shop}}}));
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(std::get<LoadShop>(std::get<Asked>(*back).body).shop, wanted);
}

TEST(Codec, HexOfAnId) {
  std::array<std::uint8_t, 16> bytes{};
  bytes[0] = 0x0f;
  bytes[15] = 0xa0;
  EXPECT_EQ(hex(bytes), "0f0000000000000000000000000000a0");
}

}  // namespace
}  // namespace squeezeout
