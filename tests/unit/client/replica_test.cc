// The replica against a server that is played here: its frames are given by hand, its floor is the real one.

#include "client/sync/replica.h"

#include <gtest/gtest.h>

#include <map>

#include "tests/unit/client/small_shop.h"

namespace squeezeout {
namespace {

using testing::kMorning;
using namespace std::chrono_literals;

constexpr Steady kZero{};

CommandId id(std::uint8_t n) {
  CommandId made;
  made.bytes[15] = n;
  return made;
}

StoreName store(std::uint8_t n) {
  StoreName made;
  made.bytes[0] = n;
  return made;
}

std::int64_t ms(Instant t) { return t.time_since_epoch().count() * 1000; }

// The server's side: decides, numbers and answers, and remembers answers by command id.
struct Server {
  testing::PlayedFloor bench;
  std::uint64_t revision = 1;
  std::map<CommandId, Answer> answers;
  std::map<std::uint64_t, Delta> deltas;
  int decided = 0;

  Welcome welcome() const { return {kProtocol, store(1), revision, ms(bench.now), 1, "test"}; }
  Snapshot snapshot() const { return {revision, bench.floor, Instant::min()}; }
  Beat beat() const { return {revision, ms(bench.now)}; }

  // Takes a command; the delta, when there is one, is kept in `deltas`.
  Answer take(const Asked& asked) {
    if (const auto known = answers.find(asked.id); known != answers.end()) return known->second;
    ++decided;
    Step done = step(bench.floor, {asked.id, {}, bench.now, asked.body});
    Answer answer{asked.id, revision, {}, {}};
    if (done.answer) {
      answer.revision = ++revision;
      deltas[revision] = {revision, bench.now, asked.id, *done.answer};
      answer.glue_up = GlueUpId{bench.floor.last_glue_up};
    } else {
      answer.refusal = done.answer.error();
    }
    return answers[asked.id] = answer;
  }
};

struct ReplicaTest : ::testing::Test {
  Server server;
  Replica replica{DeviceId{}};
  Steady now = kZero;

  void go_live() {
    replica.connected(now);
    ASSERT_EQ(replica.take_outgoing().size(), 1U);
    replica.received(server.welcome(), now);
    replica.received(server.snapshot(), now);
  }
  // Time passes for both.
  void pass(Seconds s) {
    now += s;
    server.bench.now += s;
  }
  void reconnect() {
    replica.disconnected(now);
    replica.connected(now);
  }
  static Hello hello_in(const std::vector<ClientFrame>& frames) {
    EXPECT_FALSE(frames.empty());
    return std::get<Hello>(frames.at(0));
  }
  // The commands that the replica wants sent now.
  std::vector<Asked> commands() {
    std::vector<Asked> out;
    for (const ClientFrame& f : replica.take_outgoing())
      if (const auto* asked = std::get_if<Asked>(&f)) out.push_back(*asked);
    return out;
  }
  Body reserve() const {
    return Reserve{.recipe = testing::kBridge,
                   .build = {},
                   .step = 0,
                   .builder = testing::kIda,
                   .bench = {},
                   .sheet = {},
                   .after = server.bench.now,
                   .start = {}};
  }
  // A glue-up that is started, known on both sides; its clamps can go on.
  GlueUpId started() {
    replica.ask(id(200), reserve(), now);
    deliver(commands());
    const GlueUpId g{server.bench.floor.last_glue_up};
    replica.ask(id(201), Start{g}, now);
    deliver(commands());
    EXPECT_EQ(replica.take_replies().size(), 2U);
    return g;
  }
  void deliver(const std::vector<Asked>& asked) {
    for (const Asked& a : asked) {
      const auto before = server.revision;
      const Answer answer = server.take(a);
      replica.received(answer, now);
      if (server.revision > before) replica.received(server.deltas.at(server.revision), now);
    }
  }
};

TEST_F(ReplicaTest, FirstHelloHasNothingToResume) {
  replica.connected(now);
  const Hello hello = hello_in(replica.take_outgoing());
  EXPECT_EQ(hello.protocol, kProtocol);
  EXPECT_FALSE(hello.store.has_value());
  EXPECT_EQ(hello.revision, 0U);
  EXPECT_FALSE(replica.has_floor());
  EXPECT_TRUE(replica.take_outgoing().empty()) << "one hello a connection";
}

TEST_F(ReplicaTest, SnapshotIsTheFloor) {
  go_live();
  EXPECT_TRUE(replica.has_floor());
  EXPECT_TRUE(replica.caught_up());
  EXPECT_EQ(replica.revision(), server.revision);
  EXPECT_EQ(floor_hash(replica.floor()), floor_hash(server.bench.floor));
}

TEST_F(ReplicaTest, DeltasFollowTheServer) {
  go_live();
  deliver({{id(1), reserve()}, {id(2), ClimateReading{{19}, {48}}}});
  EXPECT_EQ(replica.revision(), 3U);
  EXPECT_EQ(floor_hash(replica.floor()), floor_hash(server.bench.floor));
}

TEST_F(ReplicaTest, ResumesFromItsRevision) {
  go_live();
  reconnect();
  server.take({id(1), reserve()});  // missed while away
  const Hello hello = hello_in(replica.take_outgoing());
  EXPECT_EQ(hello.store, store(1));
  EXPECT_EQ(hello.revision, 1U);
  replica.received(server.welcome(), now);
  EXPECT_FALSE(replica.caught_up());
  replica.received(server.deltas.at(2), now);
  EXPECT_TRUE(replica.caught_up());
  EXPECT_EQ(floor_hash(replica.floor()), floor_hash(server.bench.floor));
}

TEST_F(ReplicaTest, ADeltaThatIsHeldChangesNothing) {
  go_live();
  deliver({{id(1), reserve()}});
  const auto hash = floor_hash(replica.floor());
  replica.received(server.deltas.at(2), now);
  EXPECT_EQ(replica.revision(), 2U);
  EXPECT_EQ(floor_hash(replica.floor()), hash);
  EXPECT_FALSE(replica.wants_reconnect());
}

TEST_F(ReplicaTest, AGapIsNeverAppliedAndAsksForASnapshot) {
  go_live();
  server.take({id(1), reserve()});
  server.take({id(2), ClimateReading{{19}, {48}}});
  const auto hash = floor_hash(replica.floor());
  replica.received(server.deltas.at(3), now);
  EXPECT_EQ(floor_hash(replica.floor()), hash);
  EXPECT_TRUE(replica.wants_reconnect());
  replica.received(server.deltas.at(2), now);  // too late: the mirror is out of step
  EXPECT_EQ(replica.revision(), 1U);

  reconnect();
  const Hello hello = hello_in(replica.take_outgoing());
  EXPECT_FALSE(hello.store.has_value());
  EXPECT_EQ(hello.revision, 0U);
  replica.received(server.welcome(), now);
  replica.received(server.snapshot(), now);
  EXPECT_FALSE(replica.wants_reconnect());
  EXPECT_EQ(replica.revision(), 3U);
  EXPECT_EQ(floor_hash(replica.floor()), floor_hash(server.bench.floor));
}

TEST_F(ReplicaTest, AStoreThatWentBackIsNotFollowedByDeltas) {
  go_live();
  deliver({{id(1), reserve()}, {id(2), ClimateReading{{19}, {48}}}});
  reconnect();
  (void)replica.take_outgoing();
  Welcome restored = server.welcome();
  restored.revision = 1;
  replica.received(restored, now);
  EXPECT_FALSE(replica.caught_up());
  replica.received(Delta{2, kMorning, {}, {}}, now);  // another revision 2 than the one held
  EXPECT_TRUE(replica.wants_reconnect());
}

TEST_F(ReplicaTest, CommandsWaitForTheWelcome) {
  go_live();
  const GlueUpId g = started();
  reconnect();
  replica.ask(id(9), ClampsOn{g, kAtServer}, now);
  const auto out = replica.take_outgoing();
  ASSERT_EQ(out.size(), 1U);
  EXPECT_TRUE(std::holds_alternative<Hello>(out[0]));
  replica.received(server.welcome(), now);
  EXPECT_EQ(commands().size(), 1U);
}

TEST_F(ReplicaTest, ARequestIsDoneWhenTheFloorHoldsIt) {
  go_live();
  replica.ask(id(1), reserve(), now);
  const auto asked = commands();
  ASSERT_EQ(asked.size(), 1U);
  const Answer answer = server.take(asked[0]);
  replica.received(answer, now);
  EXPECT_TRUE(replica.take_replies().empty()) << "the delta has not come yet";
  replica.received(server.deltas.at(2), now);
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 1U);
  EXPECT_EQ(replies[0].how, Reply::How::done);
  EXPECT_EQ(replies[0].command, id(1));
  EXPECT_NE(replica.floor().glue_up(replies[0].glue_up), nullptr);
  EXPECT_TRUE(replica.take_replies().empty());
}

TEST_F(ReplicaTest, ADeltaMayComeBeforeItsAnswer) {
  go_live();
  replica.ask(id(1), reserve(), now);
  const Answer answer = server.take(commands().at(0));
  replica.received(server.deltas.at(2), now);
  EXPECT_TRUE(replica.take_replies().empty());
  replica.received(answer, now);
  EXPECT_EQ(replica.take_replies().size(), 1U);
}

TEST_F(ReplicaTest, ARefusalBringsItsFacts) {
  go_live();
  replica.ask(id(1), Cancel{GlueUpId{77}}, now);
  deliver(commands());
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 1U);
  EXPECT_EQ(replies[0].how, Reply::How::refused);
  ASSERT_TRUE(replies[0].refusal.has_value());
  EXPECT_EQ(std::get<NoSuch>(*replies[0].refusal).id, 77U);
}

TEST_F(ReplicaTest, RequestsWithoutALinkAreLostAtOnce) {
  replica.ask(id(1), reserve(), now);  // never connected
  go_live();
  replica.disconnected(now);
  replica.ask(id(2), reserve(), now);  // the connection has gone
  reconnect();
  pass(11s);
  replica.ask(id(3), reserve(), now);  // connected again, and nothing heard for too long
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 3U);
  for (const Reply& r : replies) EXPECT_EQ(r.how, Reply::How::lost);
  (void)replica.take_outgoing();
  replica.received(server.welcome(), now);
  EXPECT_TRUE(commands().empty()) << "what was called lost is never sent";
}

TEST_F(ReplicaTest, ARequestOnItsWayWhenTheLinkDropsGetsItsFirstAnswer) {
  go_live();
  replica.ask(id(1), reserve(), now);
  const auto first = commands();
  ASSERT_EQ(first.size(), 1U);
  server.take(first[0]);  // decided, but the answer is lost with the link
  reconnect();
  replica.take_outgoing();
  replica.received(server.welcome(), now);
  replica.received(server.deltas.at(2), now);
  const auto again = commands();
  ASSERT_EQ(again.size(), 1U);
  EXPECT_EQ(again[0].id, id(1));
  deliver(again);
  EXPECT_EQ(server.decided, 1) << "one id, one decision";
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 1U);
  EXPECT_EQ(replies[0].how, Reply::How::done);
}

TEST_F(ReplicaTest, AFactKeepsTheTimeOfItsPressOverReconnects) {
  go_live();
  const GlueUpId g = started();
  pass(2min);
  const Instant pressed = server.bench.now;
  replica.disconnected(now);
  replica.ask(id(7), ClampsOn{g, kAtServer}, now);
  EXPECT_EQ(replica.facts_waiting(), 1U);
  EXPECT_TRUE(replica.take_replies().empty());

  pass(30min);
  replica.connected(now);
  (void)replica.take_outgoing();
  replica.received(server.welcome(), now);
  const auto sent = commands();
  ASSERT_EQ(sent.size(), 1U);
  EXPECT_EQ(std::get<ClampsOn>(sent[0].body).at, pressed);
  EXPECT_TRUE(commands().empty()) << "once a connection";

  reconnect();  // and lost once more, before the answer
  (void)replica.take_outgoing();
  replica.received(server.welcome(), now);
  const auto again = commands();
  ASSERT_EQ(again.size(), 1U);
  EXPECT_EQ(again[0].id, id(7));
  EXPECT_EQ(std::get<ClampsOn>(again[0].body).at, pressed);
  deliver(again);
  EXPECT_EQ(replica.facts_waiting(), 0U);
  EXPECT_EQ(replica.floor().glue_up(g)->clamped_at, pressed);
}

TEST_F(ReplicaTest, AFactBeforeTheFirstWelcomeIsStampedBackwards) {
  replica.ask(id(7), ClampsOff{GlueUpId{5}, kAtServer}, now);
  pass(90s);
  replica.connected(now);
  replica.take_outgoing();
  replica.received(server.welcome(), now);
  const auto sent = commands();
  ASSERT_EQ(sent.size(), 1U);
  EXPECT_EQ(std::get<ClampsOff>(sent[0].body).at, kMorning);
}

TEST_F(ReplicaTest, ATimeThatTheBuilderGaveStays) {
  go_live();
  replica.ask(id(7), ClampsOff{GlueUpId{5}, kMorning - 15min}, now);
  EXPECT_EQ(std::get<ClampsOff>(commands().at(0).body).at, kMorning - 15min);
}

TEST_F(ReplicaTest, PressesGoOutInTheirOrder) {
  go_live();
  const GlueUpId g = started();
  replica.disconnected(now);
  pass(1min);
  replica.ask(id(1), ClampsOn{g, kAtServer}, now);
  pass(41min);
  replica.ask(id(2), ClampsOff{g, kAtServer}, now);
  replica.connected(now);
  replica.take_outgoing();
  replica.received(server.welcome(), now);
  deliver(commands());
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 2U);
  EXPECT_EQ(replies[0].how, Reply::How::done);
  EXPECT_EQ(replies[1].how, Reply::How::done);
  EXPECT_EQ(replica.floor().glue_up(g)->progress, Progress::waiting);
}

TEST_F(ReplicaTest, AnotherStoreGetsNoOldPresses) {
  go_live();
  const GlueUpId g = started();
  replica.disconnected(now);
  replica.ask(id(1), ClampsOn{g, kAtServer}, now);
  replica.connected(now);
  replica.take_outgoing();
  Welcome other = server.welcome();
  other.store = store(2);
  replica.received(other, now);
  EXPECT_TRUE(commands().empty());
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 1U);
  EXPECT_EQ(replies[0].how, Reply::How::lost);
  EXPECT_FALSE(replica.caught_up()) << "the old floor is no base for the other store";
}

TEST_F(ReplicaTest, ABusyServerIsAskedAgainWithTheNextBeat) {
  go_live();
  replica.ask(id(1), ClimateReading{{20}, {50}}, now);
  EXPECT_EQ(commands().size(), 1U);
  replica.received(Error{ErrorCode::busy, "busy", id(1)}, now);
  EXPECT_TRUE(replica.take_replies().empty());
  EXPECT_TRUE(commands().empty()) << "not at once";
  replica.received(server.beat(), now);
  EXPECT_EQ(commands().size(), 1U);

  replica.ask(id(2), reserve(), now);  // a request is told instead
  commands();
  replica.received(Error{ErrorCode::busy, "busy", id(2)}, now);
  const auto replies = replica.take_replies();
  ASSERT_EQ(replies.size(), 1U);
  EXPECT_EQ(replies[0].how, Reply::How::error);
  EXPECT_EQ(replies[0].error, "busy");
}

TEST_F(ReplicaTest, AnErrorThatNoTryMendsEndsAFact) {
  go_live();
  replica.ask(id(1), ClimateReading{{20}, {50}}, now);
  commands();
  replica.received(Error{ErrorCode::stale_command, "too old", id(1)}, now);
  EXPECT_EQ(replica.facts_waiting(), 0U);
  ASSERT_EQ(replica.take_replies().size(), 1U);
}

TEST_F(ReplicaTest, AnErrorWithoutACommandIsKeptForTheScreen) {
  replica.connected(now);
  replica.received(Error{ErrorCode::too_new, "update the server", {}}, now);
  ASSERT_TRUE(replica.complaint().has_value());
  EXPECT_EQ(replica.complaint()->code, ErrorCode::too_new);
  replica.received(server.welcome(), now);
  EXPECT_FALSE(replica.complaint().has_value());
}

TEST_F(ReplicaTest, LinkIsToldByTheSteadyClock) {
  EXPECT_EQ(replica.link(now), Link::connecting);
  go_live();
  EXPECT_EQ(replica.link(now + 3s), Link::live);
  EXPECT_EQ(replica.link(now + 3s + 1ms), Link::late);
  EXPECT_EQ(replica.link(now + 10s), Link::late);
  EXPECT_EQ(replica.link(now + 10s + 1ms), Link::not_live);
  EXPECT_EQ(replica.silent_for(now + 12s + 900ms), 12s);
  replica.received(server.beat(), now + 12s);
  EXPECT_EQ(replica.link(now + 12s), Link::live);
}

TEST_F(ReplicaTest, ShopTimeIsCarriedAtTheShopsSpeed) {
  replica.connected(now);
  Welcome fast = server.welcome();
  fast.clock_speed = 600;
  replica.received(fast, now);
  EXPECT_EQ(replica.now(now), kMorning);
  EXPECT_EQ(replica.now(now + 1s), kMorning + 10min);
  EXPECT_EQ(replica.now_ms(now + 250ms), ms(kMorning) + 150'000);
  replica.received(Beat{1, ms(kMorning) + 700'000}, now + 1s);
  EXPECT_EQ(replica.now_ms(now + 1s), ms(kMorning) + 700'000);
}

TEST_F(ReplicaTest, ShopTimeIsNeverBehindADelta) {
  go_live();
  replica.received(Delta{2, kMorning + 5min, {}, {}}, now);
  EXPECT_EQ(replica.now(now), kMorning + 5min);
  replica.received(Delta{3, kMorning + 1min, {}, {}}, now);  // and not drawn back by one
  EXPECT_EQ(replica.now(now), kMorning + 5min);
}

TEST_F(ReplicaTest, GenerationGrowsWithWhatIsShown) {
  go_live();
  auto last = replica.generation();
  const auto grew = [&] {
    return std::exchange(last, replica.generation()) < replica.generation();
  };
  replica.received(server.beat(), now);
  EXPECT_FALSE(grew()) << "a beat alone redraws nothing";
  replica.received(Delta{2, kMorning, {}, {}}, now);
  EXPECT_TRUE(grew());
  replica.ask(id(1), ClimateReading{{20}, {50}}, now);
  EXPECT_TRUE(grew());
  replica.disconnected(now);
  EXPECT_TRUE(grew());
}

TEST(IsFact, KnowsWhatHappenedFromWhatIsAsked) {
  for (const Body& b : {Body{ClampsOn{}}, Body{ClampsOff{}}, Body{Scraped{}}, Body{Late{}},
                        Body{Spoiled{}}, Body{GearBroken{}}, Body{ClimateReading{}}})
    EXPECT_TRUE(is_fact(b)) << b.index();
  for (const Body& b :
       {Body{LoadShop{}}, Body{Reserve{}}, Body{Move{}}, Body{Cancel{}}, Body{Start{}},
        Body{Undo{}}, Body{GearMended{}}, Body{SetStock{}}, Body{Tick{}}})
    EXPECT_FALSE(is_fact(b)) << b.index();
}

}  // namespace
}  // namespace squeezeout
