// Bytes that were damaged on the way: each is refused, or is a frame that can be written and read again. Never a crash.
#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/make.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

using testing::Make;

constexpr int kMutationsOfEach = 60;

std::string damaged(std::string bytes, const std::string& other, Make& random) {
  const auto place = [&] {
    return static_cast<std::size_t>(random.between(0, static_cast<std::int64_t>(bytes.size())));
  };
  for (std::int64_t n = random.between(1, 4); n > 0; --n) {
    const std::size_t at = place();
    switch (random.between(0, 4)) {
      case 0:
        if (at < bytes.size())
          bytes[at] = static_cast<char>(bytes[at] ^ (1 << random.between(0, 7)));
        break;
      case 1:
        if (at < bytes.size()) bytes[at] = static_cast<char>(random.between(-128, 127));
        break;
      case 2:
        bytes.resize(at);
        break;
      case 3:
        bytes.insert(at, std::string(static_cast<std::size_t>(random.between(1, 9)),
                                     static_cast<char>(random.between(-128, 127))));
        break;
      default:
        bytes.insert(at, other.substr(std::min(at, other.size()),
                                      static_cast<std::size_t>(random.between(1, 40))));
    }
  }
  return bytes;
}

// Damages each of the bytes many times; `read_again` gives the bytes of what was read, or nothing when it was refused.
template <class ReadAgain>
void damage_all(const std::vector<std::string>& corpus, ReadAgain read_again) {
  Make random(20261125);
  int taken = 0, refused = 0;
  for (std::size_t i = 0; i < corpus.size(); ++i)
    for (int n = 0; n < kMutationsOfEach; ++n) {
      const std::string bytes = damaged(corpus[i], corpus[(i + 1) % corpus.size()], random);
      const std::optional<std::string> once = read_again(bytes);
      ++(once ? taken : refused);
      if (once) {
        ASSERT_EQ(read_again(*once), once) << "frame " << i << ", damage " << n;
      }
    }
  EXPECT_GT(taken, 0);
  EXPECT_GT(refused, 0);
  std::printf("%d damaged: %d refused, %d read as something else\n", taken + refused, refused,
              taken);
}

template <class T>
std::optional<std::string> again(const Result<T, Malformed>& read, std::string (*write)(const T&)) {
  if (read) return write(*read);
  EXPECT_FALSE(read.error().what.empty());
  return std::nullopt;
}

TEST(CodecGarbage, ClientFrames) {
  std::vector<std::string> corpus;
  for (std::uint64_t seed = 0; seed < 5; ++seed) {
    corpus.push_back(encode(ClientFrame{Make(seed).hello()}));
    for (std::size_t i = 0; i < std::variant_size_v<Body>; ++i)
      if (i != Body{Tick{}}.index()) corpus.push_back(encode(ClientFrame{Make(seed).asked(i)}));
  }
  damage_all(corpus, [](const std::string& bytes) {
    return again<ClientFrame>(decode_client_frame(bytes), encode);
  });
}

// A floor with glue-ups in several states, gear broken, air read and forecast, a bottle, and something to undo.
Floor busy_floor() {
  testing::Bench bench(testing::at("2026-11-26T08:30:00Z"));
  const GlueUpId first =
      bench.reserve(testing::kBridge, testing::kAda, bench.now(), testing::kBuild14, 0);
  bench.reserve(testing::kBend, testing::kBen);
  bench.reserve(testing::kLining, testing::kCyd);
  bench.wait(Minutes{5});
  EXPECT_TRUE(bench.press(Start{first}));
  EXPECT_TRUE(bench.press(GearBroken{testing::kDeep, 1, "lost"}));
  EXPECT_TRUE(bench.press(ClimateReading{{19}, {40}}));
  EXPECT_TRUE(bench.press(SetForecast{
      {{bench.now() + Minutes{60}, {18}, {45}}, {bench.now() + Minutes{120}, {17}, {50}}}}));
  EXPECT_TRUE(bench.press(PutLot{{.sheet = testing::kResin, .label = "blue cap"}}));
  return bench.floor();
}

TEST(CodecGarbage, ServerFrames) {
  std::vector<std::string> corpus;
  for (std::uint64_t seed = 0; seed < 3; ++seed) {
    Make make(seed);
    corpus.push_back(encode(ServerFrame{make.welcome()}));
    corpus.push_back(encode(ServerFrame{make.delta()}));
    corpus.push_back(encode(ServerFrame{make.beat()}));
    corpus.push_back(encode(ServerFrame{make.error(3)}));
    for (std::size_t i = 0; i < std::variant_size_v<Refusal>; ++i)
      corpus.push_back(encode(ServerFrame{make.answer(i)}));
    corpus.push_back(encode_snapshot(seed, busy_floor(), Instant::min()));
  }
  damage_all(corpus, [](const std::string& bytes) {
    return again<ServerFrame>(decode_server_frame(bytes), encode);
  });
}

TEST(CodecGarbage, Floors) {
  const std::vector<std::string> corpus(20, encode_floor(busy_floor()));
  damage_all(corpus, [](const std::string& bytes) {
    return again<Floor>(decode_floor(bytes), encode_floor);
  });
}

TEST(CodecGarbage, Journals) {
  std::vector<std::string> corpus;
  for (std::uint64_t seed = 0; seed < 10; ++seed)
    for (std::size_t i = 0; i < std::variant_size_v<Event>; ++i)
      corpus.push_back(encode_events({Make(seed).event(i), Make(seed).event(1)}));
  damage_all(corpus, [](const std::string& bytes) {
    return again<std::vector<Event>>(decode_events(bytes), encode_events);
  });
}

}  // namespace
}  // namespace squeezeout
