// kill -9 of the server under load, again and again on one store: what was acknowledged is kept, what is asked again with
// the same id gets the same answer, and nothing is done twice.

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <chrono>
#include <cstdio>
#include <map>
#include <optional>
#include <random>
#include <thread>
#include <vector>

#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::test {
namespace {

constexpr int kKills = 200;
constexpr std::size_t kBenches = 4;
constexpr std::size_t kAhead = 8;  // commands on their way, a bench
constexpr RecipeId kJoint{2};

struct Sent {
  Asked asked;
  std::optional<std::string> answer;  // as it came
};

// Asks without pause until the server dies; returns all that it sent.
std::vector<Sent> work(std::uint16_t port, std::size_t bench, std::uint64_t round) {
  std::vector<Sent> sent;
  std::map<CommandId, std::size_t> waiting;
  std::vector<GlueUpId> mine;
  std::mt19937_64 random(round * kBenches + bench);
  try {
    WsClient client(port);
    const Welcome welcome = client.hello(test_device(bench + 1));
    const Instant now{
        std::chrono::duration_cast<Seconds>(std::chrono::milliseconds{welcome.server_time_ms})};
    for (;;) {
      while (waiting.size() < kAhead) {
        Body body;
        if (!mine.empty() && random() % 2 == 0) {
          body = Cancel{mine.back()};
          mine.pop_back();
        } else {
          Reserve reserve;
          reserve.recipe = kJoint;
          reserve.start = now + Minutes{10 + static_cast<int>(random() % 40'000)};
          reserve.builder = BuilderId{static_cast<std::uint32_t>(1 + random() % 2)};
          reserve.bench = BenchId{1};
          body = reserve;
        }
        const CommandId id = command_id(sent.size(), round * kBenches + bench);
        sent.push_back({{id, body}, {}});
        waiting.emplace(id, sent.size() - 1);
        client.send(sent.back().asked);
      }
      const auto bytes = client.receive_message();
      if (!bytes) return sent;
      const auto frame = decode_server_frame(*bytes);
      if (!frame) throw std::logic_error("the server sent what cannot be read");
      const auto* answer = std::get_if<Answer>(&*frame);
      if (answer == nullptr) continue;
      const auto it = waiting.find(answer->command);
      if (it == waiting.end()) continue;
      sent[it->second].answer = *bytes;
      waiting.erase(it);
      if (!answer->refusal && answer->glue_up) mine.push_back(answer->glue_up);
    }
  } catch (const std::runtime_error&) {
    return sent;  // the server is gone
  }
}

struct Count {
  int sent = 0, acknowledged = 0, refused = 0, repeated = 0;
};

// Asks all of it again: the acknowledged must get the same answer; the others get theirs now.
void ask_again(std::uint16_t port, std::vector<Sent>& sent, Count& count) {
  WsClient client(port);
  client.hello(test_device(99));
  std::map<CommandId, Sent*> waiting;
  const auto collect_one = [&] {
    const auto bytes = client.receive_message();
    ASSERT_TRUE(bytes.has_value()) << "a repeat got no answer";
    const auto frame = decode_server_frame(*bytes);
    ASSERT_TRUE(frame.has_value());
    if (const auto* error = std::get_if<Error>(&*frame)) FAIL() << error->text;
    const auto* answer = std::get_if<Answer>(&*frame);
    if (answer == nullptr) return;
    const auto it = waiting.find(answer->command);
    ASSERT_NE(it, waiting.end());
    if (it->second->answer) {
      EXPECT_EQ(*it->second->answer, *bytes) << "a repeat got another answer than the first";
      ++count.repeated;
    }
    it->second->answer = *bytes;
    waiting.erase(it);
  };
  for (Sent& s : sent) {
    waiting.emplace(s.asked.id, &s);
    client.send(s.asked);
    while (waiting.size() >= 64) ASSERT_NO_FATAL_FAILURE(collect_one());
  }
  while (!waiting.empty()) ASSERT_NO_FATAL_FAILURE(collect_one());
}

// Revision of each command in the journal, read past the server. Fails when a command is there twice.
std::map<CommandId, std::uint64_t> journal_of(const std::filesystem::path& data) {
  std::map<CommandId, std::uint64_t> journal;
  sqlite3* db = nullptr;
  sqlite3_stmt* select = nullptr;
  EXPECT_EQ(sqlite3_open_v2((data / "squeezeout.db").c_str(), &db, SQLITE_OPEN_READWRITE, nullptr),
            SQLITE_OK);
  const char* sql = "SELECT command, revision FROM journal WHERE command IS NOT NULL";
  EXPECT_EQ(sqlite3_prepare_v2(db, sql, -1, &select, nullptr), SQLITE_OK);
  while (sqlite3_step(select) == SQLITE_ROW) {
    CommandId id;
    EXPECT_EQ(sqlite3_column_bytes(select, 0), 16);
    std::copy_n(static_cast<const std::uint8_t*>(sqlite3_column_blob(select, 0)), 16,
                id.bytes.begin());
    const auto revision = static_cast<std::uint64_t>(sqlite3_column_int64(select, 1));
    EXPECT_TRUE(journal.emplace(id, revision).second) << "a command was done twice";
  }
  sqlite3_finalize(select);
  sqlite3_close(db);
  return journal;
}

TEST(Kill, nothing_acknowledged_is_lost_and_nothing_is_done_twice) {
  const ScratchFolder scratch;
  const auto data = scratch.path() / "data";
  const std::vector<std::string> arguments{"--shop", small_shop_file(), "--no-rate-limit"};
  std::mt19937 random(20'261'126);
  std::vector<Sent> all, last;
  Count count;

  for (int kill = 0; kill <= kKills; ++kill) {
    ServerProcess server(data, arguments);
    ask_again(server.port(), last, count);
    if (HasFatalFailure()) return;
    all.insert(all.end(), std::make_move_iterator(last.begin()),
               std::make_move_iterator(last.end()));
    last.clear();
    if (kill == kKills) {
      EXPECT_EQ(server.stop().exit_code, 0);
      break;
    }
    std::vector<std::vector<Sent>> sent(kBenches);
    std::vector<std::thread> benches;
    for (std::size_t b = 0; b < kBenches; ++b) {
      benches.emplace_back(
          [&, b] { sent[b] = work(server.port(), b, static_cast<std::uint64_t>(kill)); });
    }
    std::this_thread::sleep_for(std::chrono::milliseconds{50 + random() % 100});
    EXPECT_EQ(server.kill().signal, SIGKILL);
    for (std::thread& t : benches) t.join();
    for (auto& s : sent) {
      for (Sent& one : s) {
        ++count.sent;
        count.acknowledged += one.answer.has_value() ? 1 : 0;
        last.push_back(std::move(one));
      }
    }
  }

  const auto journal = journal_of(data);
  std::size_t done = 0;
  for (const Sent& s : all) {
    ASSERT_TRUE(s.answer.has_value());
    const auto frame = decode_server_frame(*s.answer);
    ASSERT_TRUE(frame.has_value());
    const auto& answer = std::get<Answer>(*frame);
    const auto it = journal.find(s.asked.id);
    if (answer.refusal) {
      ++count.refused;
      EXPECT_EQ(it, journal.end()) << "a refused command changed the floor";
    } else {
      ++done;
      ASSERT_NE(it, journal.end()) << "an acknowledged command is lost";
      EXPECT_EQ(it->second, answer.revision);
    }
  }
  EXPECT_EQ(done + 1, journal.size());  // and loading the shop
  EXPECT_EQ(count.repeated, count.acknowledged);
  EXPECT_GT(count.acknowledged, kKills) << "there was no load to speak of";
  EXPECT_GT(count.sent, count.acknowledged) << "no kill hit a command on its way";
  std::printf(
      "kills: %d; commands: %d sent, %d acknowledged before a kill, %d refused, %zu done; lost 0, "
      "twice 0\n",
      kKills, count.sent, count.acknowledged, count.refused, done);
}

}  // namespace
}  // namespace squeezeout::test
