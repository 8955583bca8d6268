// The connection and the replica against the real server, over a relay that fails.

#include "client/sync/connection.h"

#include <gtest/gtest.h>

#include <condition_variable>
#include <mutex>

#include "common/floor/apply.h"
#include "tests/e2e/cli/relay.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

using namespace std::chrono_literals;

// A client without a window.
class Client {
 public:
  explicit Client(std::uint16_t port)
      : replica(DeviceId{new_command_id().bytes}),
        connection({"127.0.0.1", std::to_string(port)}, [this] {
          const std::lock_guard lock(mutex_);
          awake_ = true;
          woken_.notify_one();
        }) {}

  bool wait_for(const std::function<bool()>& done, std::chrono::milliseconds patience = 10s) {
    const auto deadline = std::chrono::steady_clock::now() + patience;
    while (std::chrono::steady_clock::now() < deadline) {
      connection.exchange(replica);
      if (done()) return true;
      std::unique_lock lock(mutex_);
      woken_.wait_for(lock, 50ms, [this] { return awake_; });
      awake_ = false;
    }
    return false;
  }
  bool catch_up() {
    return wait_for([this] { return replica.caught_up(); });
  }
  CommandId ask(Body body) {
    const CommandId id =
        replica.ask(new_command_id(), std::move(body), std::chrono::steady_clock::now());
    connection.exchange(replica);
    return id;
  }
  // The reply to the next command that is answered.
  Reply reply() {
    std::vector<Reply> replies;
    if (!wait_for([&] {
          replies = replica.take_replies();
          return !replies.empty();
        }))
      throw std::runtime_error("no reply: " + connection.trouble());
    EXPECT_EQ(replies.size(), 1U);
    return replies.front();
  }
  GlueUpId reserve_and_start() {
    Reserve wanted;
    wanted.recipe = RecipeId{1};
    wanted.builder = BuilderId{1};
    wanted.after = now();
    ask(wanted);
    const GlueUpId id = reply().glue_up;
    ask(Start{id, Override::knowingly});
    EXPECT_EQ(reply().how, Reply::How::done);
    return id;
  }
  Instant now() const { return replica.now(std::chrono::steady_clock::now()); }
  Link link() const { return replica.link(std::chrono::steady_clock::now()); }

 private:
  std::mutex mutex_;
  std::condition_variable woken_;
  bool awake_ = false;

 public:
  Replica replica;
  Connection connection;
};

struct ConnectionTest : ::testing::Test {
  ScratchFolder scratch;
  std::string data = (scratch.path() / "data").string();
  std::vector<std::string> shop{"--shop", small_shop_file()};
};

TEST_F(ConnectionTest, TwoClientsMirrorOneFloor) {
  ServerProcess server(data, shop);
  Client a(server.port()), b(server.port());
  ASSERT_TRUE(a.catch_up() && b.catch_up());
  const GlueUpId id = a.reserve_and_start();
  ASSERT_TRUE(b.wait_for([&] { return b.replica.revision() == a.replica.revision(); }));
  EXPECT_EQ(floor_hash(a.replica.floor()), floor_hash(b.replica.floor()));
  EXPECT_EQ(b.replica.floor().glue_up(id)->progress, Progress::open);
}

TEST_F(ConnectionTest, SaysWhyThereIsNone) {
  std::uint16_t free_port = 0;
  {
    ServerProcess server(data, shop);
    free_port = server.port();
  }
  Client c(free_port);
  ASSERT_TRUE(c.wait_for([&] { return !c.connection.trouble().empty(); }));
  EXPECT_EQ(c.connection.trouble(),
            "No connection to 127.0.0.1:" + std::to_string(free_port) + ": Connection refused.");
  EXPECT_EQ(c.link(), Link::connecting);
}

TEST_F(ConnectionTest, ResumesAfterACut) {
  ServerProcess server(data, shop);
  Relay relay(server.port());
  Client away(relay.port()), other(server.port());
  ASSERT_TRUE(away.catch_up() && other.catch_up());
  relay.cut();
  ASSERT_TRUE(away.wait_for([&] { return !away.connection.trouble().empty(); }));
  const GlueUpId id = other.reserve_and_start();
  EXPECT_EQ(away.replica.floor().glue_up(id), nullptr);
  relay.mend();
  ASSERT_TRUE(away.wait_for([&] { return away.replica.revision() == other.replica.revision(); }));
  EXPECT_EQ(floor_hash(away.replica.floor()), floor_hash(other.replica.floor()));
  EXPECT_TRUE(away.connection.trouble().empty());
}

TEST_F(ConnectionTest, AFactOfflineIsSentOnceWithItsTime) {
  ServerProcess server(data, shop);
  Relay relay(server.port());
  Client c(relay.port());
  ASSERT_TRUE(c.catch_up());
  const GlueUpId id = c.reserve_and_start();
  relay.cut();
  ASSERT_TRUE(c.wait_for([&] { return !c.connection.trouble().empty(); }));
  std::this_thread::sleep_for(1100ms);  // so that the press has a second of its own
  const Instant pressed = c.now();
  c.ask(ClampsOn{id, kAtServer});
  EXPECT_EQ(c.replica.facts_waiting(), 1U);
  std::this_thread::sleep_for(1100ms);
  relay.mend();
  const Reply reply = c.reply();
  EXPECT_EQ(reply.how, Reply::How::done);
  EXPECT_EQ(c.replica.facts_waiting(), 0U);
  EXPECT_EQ(c.replica.floor().glue_up(id)->clamped_at, pressed);
  EXPECT_LT(pressed, c.now());
}

TEST_F(ConnectionTest, ARequestOfflineIsLostAtOnce) {
  ServerProcess server(data, shop);
  Relay relay(server.port());
  Client c(relay.port());
  ASSERT_TRUE(c.catch_up());
  const auto revision = c.replica.revision();
  relay.cut();
  ASSERT_TRUE(c.wait_for([&] { return !c.connection.trouble().empty(); }));
  c.ask(Reserve{});
  EXPECT_EQ(c.reply().how, Reply::How::lost);
  relay.mend();
  ASSERT_TRUE(c.catch_up());
  EXPECT_EQ(c.replica.revision(), revision);
}

TEST_F(ConnectionTest, AServerThatWasKilledComesBackWithEverything) {
  auto server = std::make_unique<ServerProcess>(data, shop);
  Relay relay(server->port());
  Client c(relay.port());
  ASSERT_TRUE(c.catch_up());
  const GlueUpId id = c.reserve_and_start();
  const auto hash = floor_hash(c.replica.floor());
  server->kill();
  ASSERT_TRUE(c.wait_for([&] { return !c.connection.trouble().empty(); }));
  c.ask(ClampsOn{id, kAtServer});
  server = std::make_unique<ServerProcess>(data, std::vector<std::string>{});
  relay.point_at(server->port());
  EXPECT_EQ(c.reply().how, Reply::How::done);
  EXPECT_NE(floor_hash(c.replica.floor()), hash);
  EXPECT_EQ(c.replica.floor().glue_up(id)->progress, Progress::clamped);
}

TEST_F(ConnectionTest, ALinkThatFallsSilentIsSeenAndMadeAnew) {
  ServerProcess server(data, shop);
  Relay relay(server.port());
  Client c(relay.port());
  ASSERT_TRUE(c.catch_up());
  EXPECT_EQ(c.link(), Link::live);
  relay.hold();
  const auto held = std::chrono::steady_clock::now();
  const auto seen_after = [&](Link link) {
    EXPECT_TRUE(c.wait_for([&] { return c.link() == link; }, 13s));
    return std::chrono::steady_clock::now() - held;
  };
  EXPECT_LT(seen_after(Link::late), 4s);
  EXPECT_LT(seen_after(Link::not_live), 11s);
  relay.let_go();
  EXPECT_TRUE(c.wait_for([&] { return c.link() == Link::live && c.replica.caught_up(); }));
}

}  // namespace
}  // namespace squeezeout::test
