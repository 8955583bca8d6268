// What protocol 1 wrote is read for ever: a store's snapshot, its journal, and what a client had in its queue.
#include <gtest/gtest.h>

#include <fstream>
#include <map>

#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

// Names and the bytes below them.
std::map<std::string, std::string> written() {
  std::ifstream file("tests/unit/proto/protocol_1.hex");
  EXPECT_TRUE(file) << "run from the top of the checkout";
  std::map<std::string, std::string> all;
  std::string name;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    if (line.find_first_not_of("0123456789abcdef") != std::string::npos) {
      name = line;
      continue;
    }
    for (std::size_t i = 0; i + 1 < line.size(); i += 2)
      all[name] += static_cast<char>(std::stoi(line.substr(i, 2), nullptr, 16));
  }
  return all;
}

TEST(Protocol1, ItsFloorLoads) {
  const auto read = decode_floor(written().at("floor"));
  ASSERT_TRUE(read) << read.error().what;
  const Floor& floor = *read;
  ASSERT_EQ(floor.glue_ups.size(), 2u);
  const GlueUp& clamped = floor.glue_ups.at({1});
  EXPECT_EQ(clamped.progress, Progress::clamped);
  EXPECT_FALSE(clamped.lot);
  EXPECT_FALSE(clamped.weather);
  EXPECT_EQ(clamped.demand.fumes, Seconds{0});
  EXPECT_EQ(floor.outages.size(), 1u);
  EXPECT_EQ(floor.climate, (ClimateRead{testing::at("2026-11-26T08:38:00Z"), {18.5}, {41}}));
  EXPECT_TRUE(floor.readings.empty() && floor.forecast.empty() && floor.lots.empty());
  // The times that it did not keep are told by its glue-ups.
  EXPECT_EQ(floor.assembly.at({testing::kBridge, testing::kAda}).at({1}), Minutes{3});
  EXPECT_EQ(floor.shop->service, ServiceAir{});
  EXPECT_EQ(floor.shop->recipes[0].joint, Joint{});
  EXPECT_EQ(decode_floor(encode_floor(floor)).value().glue_ups, floor.glue_ups);
}

TEST(Protocol1, ItsJournalReplays) {
  const auto events = decode_events(written().at("events"));
  ASSERT_TRUE(events) << events.error().what;
  ASSERT_EQ(events->size(), 5u);
  const Shop& shop = std::get<ShopLoaded>((*events)[0]).shop;
  EXPECT_EQ(shop.name, "Test bench");
  EXPECT_EQ(shop.gear.size(), 5u);
  EXPECT_EQ(std::get<GlueUpChanged>((*events)[1]).what, Change::clamps_on);
  EXPECT_EQ(std::get<OutageChanged>((*events)[2]).after.reason, "jaw split");
  EXPECT_EQ(std::get<StockSet>((*events)[3]).count, 3);
  EXPECT_EQ(std::get<ClimateRead>((*events)[4]).air, Celsius{18.5});
}

TEST(Protocol1, ItsCommandIsRead) {
  const auto frame = decode_client_frame(written().at("reserve"));
  ASSERT_TRUE(frame) << frame.error().what;
  const Instant now = testing::at("2026-11-26T08:38:00Z");
  const Body wanted = Reserve{.recipe = testing::kBridge,
                              .build = testing::kBuild14,
                              .step = 0,
                              .builder = testing::kAda,
                              .bench = testing::kBench1,
                              .sheet = {},
                              .after = now,
                              .start = now,
                              .hours = Override::knowingly,
                              .lot = {},
                              .reason = "",
                              .pot = {}};
  EXPECT_EQ(std::get<Asked>(*frame).body, wanted);
}

}  // namespace
}  // namespace squeezeout
