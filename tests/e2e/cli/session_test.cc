// A talk that rests while something is worked out, and is taken up again.

#include "tools/cli/session.h"

#include <gtest/gtest.h>

#include <thread>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using namespace std::chrono_literals;

TEST(CliSession, AsksAfterASilenceThatIsNoLongerCalledLive) {
  CliShop shop{{"--shop", "tests/support/server/small_shop.textproto"}};
  cli::Session session{{"127.0.0.1", std::to_string(shop.server().port())}, 5s};
  std::this_thread::sleep_for(kNotLive + 500ms);
  const Reply reply = session.ask(ClimateReading{{19}, {47}});
  EXPECT_EQ(reply.how, Reply::How::done);
  EXPECT_EQ(session.floor().climate.air, Celsius{19}) << "the mirror holds its effect";
}

}  // namespace
}  // namespace squeezeout::test
