// Two benches race for the last clamps, again and again, over real sockets: exactly one gets them each time, and the other
// learns who has them and when it can have its turn.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <barrier>
#include <cstdio>
#include <thread>

#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::test {
namespace {

constexpr int kRounds = 10'000;
constexpr RecipeId kBridge{1};  // wants 6 of the shop's 10 deep clamps
constexpr GearKindId kDeepClamp{1};

Answer ask(WsClient& client, CommandId id, Body body) {
  client.send(Asked{id, std::move(body)});
  for (;;) {
    const auto answer = client.receive_until<Answer>();
    if (answer.command == id) return answer;
  }
}

// What is wrong with the loser's answer; empty: nothing.
std::string fault_in(const Answer& lost, GlueUpId winner, Instant start) {
  if (!lost.refusal) return "the loser was not refused";
  const auto* no = std::get_if<DoesNotFit>(&*lost.refusal);
  if (no == nullptr) return "the refusal is not DoesNotFit";
  const bool named = std::any_of(no->why.begin(), no->why.end(), [&](const Hindrance& h) {
    const auto* shortage = std::get_if<GearShort>(&h.fact);
    if (shortage == nullptr || shortage->wanted != 6 || shortage->free != 4 ||
        shortage->owned != 10)
      return false;
    return std::any_of(shortage->holders.begin(), shortage->holders.end(), [&](const HeldBy& held) {
      return held.holder == Holder::of(winner) && held.count == 6 && held.span.contains(start);
    });
  });
  if (!named) return "the refusal does not name who holds the clamps";
  if (!no->next) return "the refusal gives no next slot";
  if (no->next->times.stage_begin <= start) return "the next slot is not later";
  if (no->next->held != std::vector<Held>{{kDeepClamp, 6}}) return "the next slot holds other gear";
  return "";
}

TEST(Race, exactly_one_gets_the_last_clamps) {
  const ScratchFolder scratch;
  const ServerProcess server(scratch.path() / "data",
                             {"--shop", small_shop_file(), "--no-rate-limit"});
  std::array<WsClient, 2> clients{WsClient{server.port()}, WsClient{server.port()}};
  Instant now{};
  for (std::size_t i = 0; i < 2; ++i) {
    const Welcome welcome = clients[i].hello(test_device(i + 1));
    now = Instant{
        std::chrono::duration_cast<Seconds>(std::chrono::milliseconds{welcome.server_time_ms})};
  }
  const Instant start = std::chrono::ceil<std::chrono::days>(now) + std::chrono::hours{10};

  std::barrier line(2);
  std::array<Answer, 2> answers;
  std::array<int, 2> won{};
  std::string fault;
  // Both threads run the same rounds; the first one judges while the second waits.
  const auto bench = [&](std::size_t me) {
    for (int round = 0; round < kRounds && fault.empty(); ++round) {
      const auto n = static_cast<std::uint64_t>(round);
      line.arrive_and_wait();
      Reserve reserve;
      reserve.recipe = kBridge;
      reserve.builder = BuilderId{static_cast<std::uint32_t>(me + 1)};
      reserve.bench = BenchId{static_cast<std::uint32_t>(me + 1)};
      reserve.start = start;
      answers[me] = ask(clients[me], command_id(n, me), reserve);
      line.arrive_and_wait();
      const std::size_t winner = answers[0].refusal ? 1 : 0;
      if (me == 0) {
        ++won[winner];
        if (answers[winner].refusal) {
          fault = "nobody got the clamps";
        } else {
          fault = fault_in(answers[1 - winner], answers[winner].glue_up, start);
        }
        if (!fault.empty()) fault = "round " + std::to_string(round) + ": " + fault;
      }
      if (me == winner) {
        const Answer freed = ask(clients[me], command_id(n, 2), Cancel{answers[me].glue_up});
        EXPECT_FALSE(freed.refusal.has_value());
      }
      line.arrive_and_wait();
    }
  };
  std::thread other(bench, 1);
  bench(0);
  other.join();

  EXPECT_EQ(fault, "");
  EXPECT_EQ(won[0] + won[1], kRounds);
  std::printf("races: %d; bench 1 won %d, bench 2 won %d\n", kRounds, won[0], won[1]);
}

}  // namespace
}  // namespace squeezeout::test
