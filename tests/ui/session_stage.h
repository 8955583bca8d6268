#pragma once
// A session whose server is played by the test: what is sent is decided at once, or left unanswered.

#include <gtest/gtest.h>

#include "client/session.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {

inline const Instant kTen = at("2026-11-26T10:00:00Z");
inline const Steady kStart{};

class SessionTest : public ::testing::Test {
 protected:
  SessionTest()
      : server(kTen),
        replica(DeviceId{}),
        desk(plan_ahead::of_the_floor(), [] {}),
        session(replica, desk, ada_at_bench_1(Screen::bench), [this] { return next_id(); }) {
    replica.connected(kStart);
    (void)replica.take_outgoing();
    replica.received(Welcome{.store = {}, .revision = 1, .server_time_ms = ms()}, kStart);
    replica.received(Snapshot{1, server.floor(), {}}, kStart);
  }
  std::int64_t ms() const { return server.now().time_since_epoch().count() * 1000; }
  CommandId next_id() {
    CommandId id;
    id.bytes[0] = ++ids_;
    return id;
  }
  // Somebody else presses; this replica hears of it.
  void elsewhere(Body body) {
    const std::size_t before = server.events().size();
    ASSERT_TRUE(server.press(std::move(body)));
    const auto& all = server.events();
    replica.received(Delta{++revision_,
                           server.now(),
                           {},
                           {all.begin() + static_cast<std::ptrdiff_t>(before), all.end()}},
                     kStart);
    session.take_answers(kStart);
  }
  // So cold from now on that dwells grow: resin wants 60 min at 20 C, 120 at 10.
  SetForecast cold() const {
    return {{{server.now() + std::chrono::hours{1}, {11}, {50}},
             {server.now() + std::chrono::hours{9}, {11}, {50}}}};
  }
  // The server decides what was sent and answers.
  void serve() {
    for (const ClientFrame& frame : replica.take_outgoing()) {
      const auto* command = std::get_if<Asked>(&frame);
      if (command == nullptr) continue;
      const std::size_t before = server.events().size();
      const auto answer = server.press(command->body);
      const auto& all = server.events();
      std::vector<Event> events(all.begin() + static_cast<std::ptrdiff_t>(before), all.end());
      if (!events.empty()) {
        replica.received(Delta{++revision_, server.now(), command->id, events}, kStart);
      }
      Answer out{command->id, revision_, std::nullopt, GlueUpId{}};
      if (answer)
        out.glue_up = GlueUpId{server.floor().last_glue_up};
      else
        out.refusal = answer.error();
      replica.received(out, kStart);
    }
    session.take_answers(kStart);
  }
  Reserve bridge() const {
    return {.recipe = kBridge, .builder = kAda, .bench = kBench1, .after = kTen};
  }

  Bench server;
  Replica replica;
  plan_ahead::Desk desk;
  Session session;

 private:
  std::uint8_t ids_ = 0;
  std::uint64_t revision_ = 1;
};

}  // namespace squeezeout::testing
