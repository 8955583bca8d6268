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
  // What is asked for, unlike what has happened, is not kept for later while nobody is heard.
  const Reply reply = session.ask(Reserve{.recipe = RecipeId{1},
                                          .build = {},
                                          .step = 0,
                                          .builder = BuilderId{1},
                                          .bench = {},
                                          .sheet = {},
                                          .after = session.now(),
                                          .start = {}});
  EXPECT_EQ(reply.how, Reply::How::done);
  EXPECT_EQ(session.floor().glue_ups.size(), 1U) << "the mirror holds its effect";
}

}  // namespace
}  // namespace squeezeout::test
