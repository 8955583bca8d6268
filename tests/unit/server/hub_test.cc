// The hub with clients made of nothing: who gets what, in which order, and what a slow one costs.

#include "server/net/hub.h"

#include <gtest/gtest.h>

#include <list>

#include "server/net/origin.h"
#include "server/shop_clock.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout {
namespace {

using test::command_id;
using test::test_device;

struct FakePeer final : Peer {
  Outbox box;
  std::optional<std::uint16_t> closed;
  Outbox& outbox() override { return box; }
  void wake() override {}
  void hang_up(std::uint16_t code) override { closed = code; }

  // What it would have read by now.
  std::vector<ServerFrame> read() {
    std::vector<ServerFrame> out;
    while (!box.empty()) {
      for (const Bytes& bytes : box.take(1 << 20)) {
        const auto& b = *bytes;
        EXPECT_EQ(b[0], '\x82');
        const auto length = static_cast<unsigned char>(b[1]);
        const std::size_t head = length <= 125 ? 2 : length == 126 ? 4 : 10;
        out.push_back(decode_server_frame(std::string_view{b}.substr(head)).value());
      }
    }
    return out;
  }
};

Bytes delta(std::uint64_t revision, std::size_t events) {
  Delta d{revision, {}, std::nullopt, {}};
  for (std::size_t i = 0; i < events; ++i)
    d.events.push_back(ClimateRead{Instant{Seconds{1'000'000}}, {20}, {50}});
  return std::make_shared<const std::string>(encode(ServerFrame{d}));
}

class HubTest : public testing::Test {
 protected:
  HubTest() : hub_(wiring(Hub::RateLimit::off)) {}

  Hub::Wiring wiring(Hub::RateLimit limit) {
    return {[this](Ask ask) {
              asks_.push_back(std::move(ask));
              return !full_;
            },
            [this](SessionId session) { wanted_.push_back(session); },
            [] { return std::int64_t{5'000}; },
            [this] { return command_id(++made_, 7); },
            kStore,
            1.0,
            10,
            limit};
  }
  SessionId join(FakePeer& peer) { return hub_->join(peer); }
  void say(SessionId session, const ClientFrame& frame) {
    hub_->frame(session, encode(frame), now_);
  }
  void snapshots() {
    hub_->snapshot({hub_->revision(),
                    std::make_shared<const std::string>(encode_snapshot(hub_->revision(), {}, {})),
                    std::exchange(wanted_, {})});
  }
  void publish(std::size_t events = 1) {
    hub_->committed({{{hub_->revision() + 1, delta(hub_->revision() + 1, events)}}, {}}, now_);
  }
  SessionId follower(FakePeer& peer) {
    const SessionId session = join(peer);
    say(session, Hello{kProtocol, test_device(session), kStore, 10});
    peer.read();
    return session;
  }

  static constexpr StoreName kStore{{1, 2}};
  Hub::Time now_{};
  std::vector<Ask> asks_;
  std::vector<SessionId> wanted_;
  bool full_ = false;
  std::uint64_t made_ = 0;
  std::optional<Hub> hub_;
};

TEST_F(HubTest, welcomes_with_the_snapshot_of_one_revision) {
  FakePeer peer;
  say(join(peer), Hello{kProtocol, test_device(1), {}, 0});
  publish();  // 11, before the snapshot is made: it is in it
  snapshots();
  publish();  // 12
  const auto frames = peer.read();
  ASSERT_EQ(frames.size(), 3u);
  EXPECT_EQ(std::get<Welcome>(frames[0]).revision, 11u);
  EXPECT_EQ(std::get<Snapshot>(frames[1]).revision, 11u);
  EXPECT_EQ(std::get<Delta>(frames[2]).revision, 12u);
}

TEST_F(HubTest, refuses_another_protocol_and_lets_it_try_again) {
  FakePeer peer;
  const SessionId session = join(peer);
  for (const std::uint32_t protocol : {0u, kProtocol - 1, kProtocol + 1})
    say(session, Hello{protocol, test_device(1), {}, 0});
  const auto frames = peer.read();
  ASSERT_EQ(frames.size(), 3u);
  EXPECT_EQ(std::get<Error>(frames[0]).code, ErrorCode::too_old);
  EXPECT_EQ(std::get<Error>(frames[1]).code, ErrorCode::too_old);
  EXPECT_EQ(std::get<Error>(frames[2]).code, ErrorCode::too_new);
  EXPECT_TRUE(wanted_.empty()) << "no floor for those who would misread it";
  say(session, Hello{kProtocol, test_device(1), {}, 0});
  EXPECT_EQ(wanted_, std::vector<SessionId>{session});
}

TEST_F(HubTest, resumes_from_what_it_still_has) {
  FakePeer first;
  follower(first);
  for (int i = 0; i < 5; ++i) publish();
  FakePeer peer;
  say(join(peer), Hello{kProtocol, test_device(2), kStore, 12});
  const auto frames = peer.read();
  ASSERT_EQ(frames.size(), 4u);
  EXPECT_EQ(std::get<Welcome>(frames[0]).revision, 15u);
  for (std::size_t i = 1; i < 4; ++i) EXPECT_EQ(std::get<Delta>(frames[i]).revision, 12 + i);
  EXPECT_TRUE(wanted_.empty());
}

TEST_F(HubTest, does_not_resume_from_what_it_never_had) {
  for (int i = 0; i < 5; ++i) publish();
  for (const std::uint64_t revision : {9ULL, 16ULL, 0ULL}) {
    FakePeer peer;
    const SessionId session = join(peer);
    say(session, Hello{kProtocol, test_device(2), kStore, revision});
    EXPECT_EQ(wanted_, std::vector<SessionId>{session}) << revision;
    wanted_.clear();
    hub_->leave(session);
  }
}

TEST_F(HubTest, forgets_the_oldest_deltas) {
  for (std::size_t i = 0; i < Hub::kRingEntries + 1; ++i) publish();
  FakePeer peer;
  say(join(peer), Hello{kProtocol, test_device(2), kStore, 10});
  EXPECT_EQ(wanted_.size(), 1u);
}

TEST_F(HubTest, gives_a_slow_client_one_fresh_snapshot_and_others_all_they_want) {
  FakePeer slow, quick;
  follower(slow);
  follower(quick);
  int delivered = 0;
  while (wanted_.empty()) {
    publish(500);
    delivered += static_cast<int>(quick.read().size());
  }
  EXPECT_EQ(delivered, static_cast<int>(hub_->revision() - 10));
  EXPECT_FALSE(slow.closed);
  publish(500);
  snapshots();
  publish();
  const auto frames = slow.read();
  ASSERT_EQ(frames.size(), 2u) << "what waited is dropped";
  EXPECT_EQ(std::get<Snapshot>(frames[0]).revision, hub_->revision() - 1);
  EXPECT_EQ(std::get<Delta>(frames[1]).revision, hub_->revision());
}

TEST_F(HubTest, hangs_up_on_a_client_that_is_slow_twice) {
  FakePeer slow;
  follower(slow);
  while (wanted_.empty()) publish(500);
  snapshots();
  while (!slow.closed) {
    ASSERT_LE(slow.box.waiting(), Hub::kMaxQueue);
    publish(500);
  }
  EXPECT_EQ(*slow.closed, close_code::kPolicy);
}

TEST_F(HubTest, forgives_a_client_that_was_slow_long_ago) {
  FakePeer slow;
  follower(slow);
  while (wanted_.empty()) publish(500);
  snapshots();
  now_ += Hub::kTwice;
  while (wanted_.empty()) publish(500);
  EXPECT_FALSE(slow.closed);
}

TEST_F(HubTest, never_drops_an_answer) {
  FakePeer slow;
  const SessionId session = follower(slow);
  const auto reply =
      std::make_shared<const std::string>(encode(ServerFrame{Answer{command_id(1), 11, {}, {}}}));
  hub_->committed({{{11, delta(11, 1)}}, {{session, reply}}}, now_);
  while (wanted_.empty()) publish(500);
  const auto frames = slow.read();
  ASSERT_EQ(frames.size(), 1u);
  EXPECT_EQ(std::get<Answer>(frames[0]).command, command_id(1));
}

TEST_F(HubTest, says_busy_when_too_much_waits) {
  FakePeer peer;
  const SessionId session = follower(peer);
  full_ = true;
  say(session, Asked{command_id(3), Cancel{GlueUpId{1}}});
  const auto frames = peer.read();
  ASSERT_EQ(frames.size(), 1u);
  EXPECT_EQ(std::get<Error>(frames[0]).code, ErrorCode::busy);
  EXPECT_EQ(std::get<Error>(frames[0]).command, command_id(3));
}

TEST_F(HubTest, limits_a_device_over_all_its_sessions_and_lets_it_recover) {
  hub_.emplace(wiring(Hub::RateLimit::on));
  FakePeer a, b, other;
  const SessionId first = join(a), second = join(b), third = join(other);
  for (const SessionId s : {first, second}) say(s, Hello{kProtocol, test_device(1), kStore, 10});
  say(third, Hello{kProtocol, test_device(2), kStore, 10});
  for (std::uint64_t i = 0; i < 60; ++i)
    say(i % 2 == 0 ? first : second, Asked{command_id(i), Cancel{GlueUpId{1}}});
  EXPECT_EQ(asks_.size(), 50u);
  say(third, Asked{command_id(99), Cancel{GlueUpId{1}}});
  EXPECT_EQ(asks_.size(), 51u);
  now_ += std::chrono::milliseconds{500};
  for (std::uint64_t i = 100; i < 120; ++i) say(first, Asked{command_id(i), Cancel{GlueUpId{1}}});
  EXPECT_EQ(asks_.size(), 61u);
}

TEST_F(HubTest, takes_no_command_while_it_goes_down) {
  FakePeer peer;
  const SessionId session = follower(peer);
  hub_->going_down();
  EXPECT_EQ(std::get<Error>(peer.read().at(0)).code, ErrorCode::going_down);
  EXPECT_EQ(peer.closed, close_code::kGoingAway);
  say(session, Asked{command_id(3), Cancel{GlueUpId{1}}});
  EXPECT_TRUE(asks_.empty());
}

Bytes answer_frame(CommandId command) {
  return std::make_shared<const std::string>(encode(ServerFrame{Answer{command, 11, {}, {}}}));
}

TEST_F(HubTest, hands_on_what_is_asked_without_a_session_and_answers_once) {
  std::vector<ServerFrame> told;
  const SessionId asked = hub_->ask(test_device(9), ReadClimate{}, now_,
                                    [&](const ServerFrame& frame) { told.push_back(frame); });
  ASSERT_EQ(asks_.size(), 1u);
  EXPECT_EQ(asks_[0].session, asked);
  EXPECT_EQ(asks_[0].device, test_device(9));
  EXPECT_EQ(asks_[0].asked.id, command_id(1, 7)) << "the hub makes the id";
  EXPECT_EQ(hub_->sessions(), 1u) << "a stop waits for it";
  EXPECT_TRUE(told.empty());
  hub_->committed({{}, {{asked, answer_frame(command_id(1, 7))}}}, now_);
  hub_->committed({{}, {{asked, answer_frame(command_id(1, 7))}}}, now_);
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(std::get<Answer>(told[0]).command, command_id(1, 7));
  EXPECT_EQ(hub_->sessions(), 0u);
}

TEST_F(HubTest, says_at_once_that_a_command_without_a_session_is_not_taken) {
  std::vector<ErrorCode> told;
  const auto ask = [&] {
    hub_->ask(test_device(9), ReadClimate{}, now_,
              [&](const ServerFrame& frame) { told.push_back(std::get<Error>(frame).code); });
  };
  full_ = true;
  ask();
  hub_->going_down();
  ask();
  EXPECT_EQ(told, (std::vector{ErrorCode::busy, ErrorCode::going_down}));
  EXPECT_EQ(hub_->sessions(), 0u);
}

TEST_F(HubTest, tells_nobody_who_was_forgotten) {
  bool told = false;
  const SessionId asked =
      hub_->ask(test_device(9), ReadClimate{}, now_, [&](const ServerFrame&) { told = true; });
  hub_->forget(asked);
  hub_->committed({{}, {{asked, answer_frame(command_id(1, 7))}}}, now_);
  EXPECT_FALSE(told);
}

TEST(WebsocketFrame, has_the_length_that_rfc_6455_says) {
  EXPECT_EQ(websocket_frame("Hi")->substr(0, 2), "\x82\x02");
  EXPECT_EQ(websocket_frame(std::string(125, 'x'))->substr(0, 2), "\x82\x7d");
  EXPECT_EQ(websocket_frame(std::string(256, 'x'))->substr(0, 4),
            std::string("\x82\x7e\x01\x00", 4));  // 5.7's example
  EXPECT_EQ(websocket_frame(std::string(65'536, 'x'))->substr(0, 10),
            std::string("\x82\x7f\x00\x00\x00\x00\x00\x01\x00\x00", 10));  // and this one
}

TEST(Outbox, gathers_what_waits_up_to_a_size) {
  Outbox box;
  for (int i = 0; i < 5; ++i)
    box.push(Outbox::Kind::reply, std::make_shared<const std::string>(40, 'x'));
  EXPECT_EQ(box.waiting(), 200u);
  EXPECT_EQ(box.take(100).size(), 2u);
  EXPECT_EQ(box.take(10).size(), 1u) << "at least one";
  EXPECT_EQ(box.waiting(), 80u);
  box.seal();
  box.push(Outbox::Kind::reply, std::make_shared<const std::string>("late"));
  EXPECT_EQ(box.take(1'000).size(), 2u) << "nothing follows a close frame";
  EXPECT_TRUE(box.empty());
}

TEST(MayConnect, lets_this_computer_in_and_foreign_pages_not) {
  EXPECT_TRUE(may_connect("127.0.0.1:7733", ""));
  EXPECT_TRUE(may_connect("localhost", ""));
  EXPECT_TRUE(may_connect("[::1]:7733", ""));
  EXPECT_TRUE(may_connect("[::1]", ""));
  EXPECT_TRUE(may_connect("localhost:7733", "http://localhost:7733"));
  EXPECT_FALSE(may_connect("localhost:7733", "http://localhost:8000"));
  EXPECT_FALSE(may_connect("localhost:7733", "https://evil.example"));
  EXPECT_FALSE(may_connect("localhost:7733", "null"));
  EXPECT_FALSE(may_connect("evil.example:7733", ""));
  EXPECT_FALSE(may_connect("127.0.0.1.evil.example", ""));
  EXPECT_FALSE(may_connect("", ""));
}

TEST(ShopClockTest, starts_where_it_is_told_and_runs_as_fast_as_told) {
  const Instant start{Seconds{1'800'000'000}};
  ShopClock clock({start, 1'000});
  const auto first = clock.now_ms();
  EXPECT_GE(first, 1'800'000'000'000);
  EXPECT_GT(clock.until(start + Seconds{100'000}), std::chrono::seconds{50});
  EXPECT_EQ(clock.until(start), std::chrono::steady_clock::duration{});
  while (clock.now_ms() < first + 20'000) {
  }
  EXPECT_GE(clock.now(), start + Seconds{20});
}

}  // namespace
}  // namespace squeezeout
