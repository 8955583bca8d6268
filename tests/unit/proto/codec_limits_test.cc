// What comes from outside is checked at the door: each limit, by the field that it names.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/make.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

constexpr CommandId kId{{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16}};

// A length-delimited field of the wire format, for frames that no program of ours would make.
std::string field(int number, const std::string& value) {
  CHECK(number < 16 && value.size() < 128);
  return std::string{static_cast<char>(number << 3 | 2), static_cast<char>(value.size())} + value;
}
std::string id_bytes() { return {kId.bytes.begin(), kId.bytes.end()}; }

Malformed refused(const std::string& bytes) {
  const auto frame = decode_client_frame(bytes);
  return frame ? Malformed{{}, "taken", {}} : frame.error();
}

struct Limit {
  const char* name;
  Body body;
  const char* what;
};
class CodecLimits : public ::testing::TestWithParam<Limit> {};

TEST_P(CodecLimits, NamesFieldAndLimit) {
  const Malformed no = refused(encode(ClientFrame{Asked{kId, GetParam().body}}));
  EXPECT_EQ(no.what, GetParam().what);
  EXPECT_EQ(no.command, kId) << "so that the sender learns which command it was";
}

Body with_shop(void (*change)(Shop&)) {
  Shop shop = testing::small_shop();
  change(shop);
  return LoadShop{shop};
}

INSTANTIATE_TEST_SUITE_P(
    All, CodecLimits,
    ::testing::Values(
        Limit{"StepTooSmall",
              Reserve{.recipe = {1},
                      .build = {1},
                      .step = -3,
                      .builder = {},
                      .bench = {},
                      .sheet = {},
                      .after = {},
                      .start = {},
                      .hours = {}},
              "command.reserve.step: is -3; use 0 to 255"},
        Limit{"StepTooLarge",
              Reserve{.recipe = {1},
                      .build = {1},
                      .step = 256,
                      .builder = {},
                      .bench = {},
                      .sheet = {},
                      .after = {},
                      .start = {},
                      .hours = {}},
              "command.reserve.step: is 256; use 0 to 255"},
        Limit{"AfterTheYear9999",
              Reserve{.recipe = {1},
                      .build = {},
                      .step = 0,
                      .builder = {},
                      .bench = {},
                      .sheet = {},
                      .after = kNever,
                      .start = {},
                      .hours = {}},
              "command.reserve.after: is 9223372036854775807; use seconds since 1970, up to the "
              "year 9999"},
        Limit{"StartLongAgo", Move{{1}, Instant{Seconds{-253'402'300'800}}, {}},
              "command.move.start: is -253402300800; use seconds since 1970, up to the year 9999"},
        Limit{"FactBeyondTime", ClampsOn{{1}, Instant::max()},
              "command.clamps_on.at: is 9223372036854775807; use seconds since 1970, up to the "
              "year 9999"},
        Limit{"LateByLessThanNothing", Late{{1}, Seconds{-1}},
              "command.late.by_seconds: is -1 s; use 0 to 31622400 s (366 days)"},
        Limit{"LateByMoreThanAYear", Late{{1}, kMaxClaim + Seconds{1}},
              "command.late.by_seconds: is 31622401 s; use 0 to 31622400 s (366 days)"},
        Limit{"NoteTooLong", Spoiled{{1}, kAtServer, std::string(201, 'x')},
              "command.spoiled.note: has 201 characters; use 200 at most"},
        Limit{"NoteWithALineBreak", Spoiled{{1}, kAtServer, "a\nb"},
              "command.spoiled.note: holds U+000A; leave out control and direction marks"},
        Limit{"ReasonReadsBackwards", GearBroken{{1}, 1, "a\u2066b"},
              "command.gear_broken.reason: holds U+2066; leave out control and direction marks"},
        Limit{"NothingBroke", GearBroken{{1}, 0, ""},
              "command.gear_broken.count: is 0; use 1 to 10000"},
        Limit{"TooManyMended", GearMended{{1}, 10'001},
              "command.gear_mended.count: is 10001; use 1 to 10000"},
        Limit{"NegativeStock", SetStock{{1}, -1}, "command.set_stock.count: is -1; use 0 to 10000"},
        Limit{"HumidityOver100", ClimateReading{{20}, {100.5}},
              "command.climate.humidity_percent: is 100.5; use 0 to 100"},
        Limit{"NoTemperature", ClimateReading{{std::nan("")}, {50}},
              "command.climate.celsius: is nan; use -40 to 100"},
        Limit{"ForecastThatStandsStill",
              SetForecast{{{Instant{}, {20}, {50}}, {Instant{}, {9}, {50}}}},
              "command.set_forecast.point[1].at: is not later than the point before; let instants "
              "rise"},
        Limit{"ReadingsThatFall",
              ReadClimate{{{Instant{Minutes{1}}, {20}, {50}}, {Instant{}, {9}, {50}}}},
              "command.read_climate.point[1].at: is not later than the point before; let instants "
              "rise"},
        Limit{"ForecastOfNothing", SetForecast{{{Instant{}, {std::nan("")}, {50}}}},
              "command.set_forecast.point[0].celsius: is nan; use -40 to 100"},
        Limit{"TooManyReadings", ReadClimate{std::vector<AirPoint>(kMaxAirPoints + 1)},
              "command.read_climate.point: comes 2001 times; use 2000 at most"},
        Limit{"LabelTooLong", PutLot{{.label = std::string(201, 'x')}},
              "command.put_lot.label: has 201 characters; use 200 at most"},
        Limit{"BottleFromBeyondTime", PutLot{{.made = kNever}},
              "command.put_lot.made: is 9223372036854775807; use seconds since 1970, up to the "
              "year 9999"},
        Limit{"StoredNowhere", PutLot{{.stored = static_cast<Stored>(2)}},
              "command.put_lot.stored: is 3; use 1 to 2"},
        Limit{"ReasonForAGlueTooLong", Reserve{.recipe = {1}, .reason = std::string(201, 'x')},
              "command.reserve.reason: has 201 characters; use 200 at most"},
        Limit{"TraitThatIsNone",
              with_shop([](Shop& s) { s.recipes[0].joint.traits = {static_cast<Trait>(kTraits)}; }),
              "command.load_shop.recipe[0].joint.trait[0]: is 7; use 1 to 6"},
        Limit{"TooManyWoods", with_shop([](Shop& s) {
                for (int i = 0; i < 257; ++i) s.builds[0].woods[std::to_string(i)] = "koa";
              }),
              "command.load_shop.build[0].wood: comes 257 times; use 256 at most"},
        Limit{"DayThatRunsBackwards", with_shop([](Shop& s) {
                s.daily = {{60, {20}, {50}}, {0, {20}, {50}}};
              }),
              "command.load_shop.daily[1].at: is \"00:00\", not after \"01:00\" before it; put the "
              "times of the day in order, each once"},
        Limit{"ShopWithoutZone", with_shop([](Shop& s) { s.zone = "Atlantis"; }),
              "command.load_shop.zone: \"Atlantis\" is no time zone; use an IANA name: "
              "\"Europe/Dublin\", \"UTC\""},
        Limit{"GlueThatIsNone", with_shop([](Shop& s) { s.recipes[0].glues = {{9}}; }),
              "command.load_shop.recipe[0].glue[0]: no adhesive has the key \"\"; use one of: "
              "cement, resin"},
        Limit{"DoubledKey", with_shop([](Shop& s) { s.benches[1].key = s.benches[0].key; }),
              "command.load_shop.bench[1].key: \"1\" is already another bench's; give each a key "
              "of its own"},
        Limit{"TooManyBenches", with_shop([](Shop& s) { s.benches.resize(257, s.benches[0]); }),
              "command.load_shop.bench: comes 257 times; use 256 at most"},
        Limit{"TooManySteps",
              with_shop([](Shop& s) { s.builds[0].steps.resize(257, s.builds[0].steps[0]); }),
              "command.load_shop.build[0].step: comes 257 times; use 256 at most"},
        Limit{"ClassThatIsNone", with_shop([](Shop& s) {
                s.gear[0].gear_class = static_cast<GearClass>(kGearClasses);
              }),
              "command.load_shop.gear[0].class: is 8; use 1 to 7"}),
    [](const auto& param) { return param.param.name; });

TEST(CodecLimits, TwoHundredCharactersAreCodePointsNotBytes) {
  std::string note;
  for (int i = 0; i < 200; ++i) note += "ß";
  EXPECT_EQ(refused(encode(ClientFrame{Asked{kId, Spoiled{{1}, kAtServer, note}}})).what, "taken");
  EXPECT_THAT(refused(encode(ClientFrame{Asked{kId, Spoiled{{1}, kAtServer, note + "ß"}}})).what,
              HasSubstr("has 201 characters"));
}

TEST(CodecLimits, UnknownEnumValuesAreUnknown) {
  const Body body =
      with_shop([](Shop& s) { s.gear[0].gear_class = static_cast<GearClass>(kGearClasses); });
  EXPECT_EQ(refused(encode(ClientFrame{Asked{kId, body}})).code, ErrorCode::unknown);
}

TEST(CodecLimits, AFrameOfUnknownKind) {
  const Malformed no = refused(field(9, ""));
  EXPECT_EQ(no.code, ErrorCode::unknown);
  EXPECT_THAT(no.what, HasSubstr("one that this server does not know"));
  EXPECT_FALSE(no.command);
}

TEST(CodecLimits, ACommandOfUnknownKindIsNamed) {
  const Malformed no = refused(
      field(2, field(1, id_bytes()) + "\xfa\x07\x01x"));  // field 127 is no body that we know
  EXPECT_EQ(no.code, ErrorCode::unknown);
  EXPECT_THAT(no.what, StartsWith("command: has a body that this server does not know"));
  EXPECT_EQ(no.command, kId);
}

TEST(CodecLimits, IdsHave16Bytes) {
  const Malformed no = refused(field(2, field(1, "short") + field(5, "")));
  EXPECT_EQ(no.what, "command.id: has 5 bytes; use 16");
  EXPECT_FALSE(no.command);
  EXPECT_EQ(refused(field(1, field(2, std::string(17, 'x')))).what,
            "hello.device: has 17 bytes; use 16");
  EXPECT_EQ(refused(field(1, field(2, id_bytes()) + field(3, "x"))).what,
            "hello.store: has 1 bytes; use 16");
}

TEST(CodecLimits, TooLarge) {
  EXPECT_EQ(refused(std::string(kMaxClientFrame + 1, '\0')).code, ErrorCode::too_large);
  EXPECT_EQ(refused(std::string(kMaxClientFrame, '\0')).code, ErrorCode::malformed);
}

TEST(CodecLimits, AsManyPointsOfAirAsAreTakenFitAFrame) {
  SetForecast most;
  for (std::size_t i = 0; i < kMaxAirPoints; ++i)
    most.points.push_back({Instant{Seconds{1'795'688'941 + static_cast<int>(i)}}, {20.1}, {50.1}});
  const std::string bytes = encode(ClientFrame{Asked{kId, most}});
  EXPECT_LT(bytes.size(), kMaxClientFrame);
  EXPECT_TRUE(decode_client_frame(bytes));
}

TEST(CodecLimits, TextThatIsNoUtf8IsNoFrame) {
  const Malformed no = refused(field(2, field(1, id_bytes()) + field(11, field(3, "\xff"))));
  EXPECT_EQ(no.code, ErrorCode::malformed);
  EXPECT_EQ(no.what, "the bytes are no message ClientFrame");
}

TEST(CodecLimits, NestingIsBounded) {
  // Groups within groups, which the schema does not have; the parser follows them, but not for ever.
  const auto nested = [](int deep) {
    return std::string(static_cast<std::size_t>(deep), '\x5b') +
           std::string(static_cast<std::size_t>(deep), '\x5c');
  };
  EXPECT_EQ(refused(nested(10)).code, ErrorCode::unknown)
      << "no frame that is known, but well formed";
  EXPECT_EQ(refused(nested(1000)).code, ErrorCode::malformed);
}

TEST(CodecLimits, AHelloOfANewerProtocolIsReadSoThatItCanBeAnswered) {
  const auto frame = decode_client_frame(encode(ClientFrame{Hello{kProtocol + 1, {}, {}, 0}}));
  ASSERT_TRUE(frame);
  EXPECT_EQ(std::get<Hello>(*frame).protocol, kProtocol + 1);
}

TEST(CodecLimits, AServerOfANewerKindIsUnknownToTheClient) {
  const auto frame = decode_server_frame(field(9, ""));
  ASSERT_FALSE(frame);
  EXPECT_EQ(frame.error().code, ErrorCode::unknown);
}

TEST(CodecLimits, IdsOfAFloorsShopRise) {
  Shop shop = testing::small_shop();
  std::swap(shop.benches[0].id, shop.benches[1].id);
  shop.builders.clear();
  shop.builds.clear();
  const auto events = decode_events(encode_events({ShopLoaded{shop}}));
  ASSERT_FALSE(events);
  EXPECT_EQ(events.error().what,
            "event[0].shop_loaded.shop.bench[1].id: is 1; let ids rise, from 1 on");
}

// A plan that moved nothing could not be taken back: nobody is named to whom to say so.
TEST(CodecLimits, APlanMovesSomething) {
  const auto plan_of = [](std::vector<GlueUpId> moved) {
    return encode(ServerFrame{Delta{1, {}, {}, {PlanChanged{{PlanId{1}, {}, moved, false}}}}});
  };
  EXPECT_TRUE(decode_server_frame(plan_of({GlueUpId{1}})));
  const auto none = decode_server_frame(plan_of({}));
  ASSERT_FALSE(none);
  EXPECT_THAT(none.error().what, HasSubstr("glue_up"));
  EXPECT_THAT(none.error().what, HasSubstr("is empty"));
}

}  // namespace
}  // namespace squeezeout
