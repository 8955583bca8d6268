// The real server and what clients may send it, right and wrong.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <thread>

#include "common/floor/apply.h"
#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::test {
namespace {

using testing::HasSubstr;
using namespace std::chrono_literals;

// A client's mirror of the floor, as PROTOCOL.md tells to keep it.
struct Mirror {
  Floor floor;
  std::uint64_t revision = 0;
  Instant since{};
  int snapshots = 0, deltas = 0;

  void take(const ServerFrame& frame) {
    if (const auto* snapshot = std::get_if<Snapshot>(&frame)) {
      floor = snapshot->floor;
      revision = snapshot->revision;
      since = snapshot->since;
      ++snapshots;
    } else if (const auto* delta = std::get_if<Delta>(&frame)) {
      EXPECT_EQ(delta->revision, revision + 1);
      for (const Event& event : delta->events) apply(floor, event);
      revision = delta->revision;
      ++deltas;
    }
  }
  void follow(WsClient& client, std::uint64_t until) {
    while (revision < until) take(client.receive());
  }
};

class Server : public testing::Test {
 protected:
  explicit Server(std::vector<std::string> more = {"--no-rate-limit"})
      : server_(scratch_.path() / "data", arguments(std::move(more))) {}

  static std::vector<std::string> arguments(std::vector<std::string> more) {
    more.insert(more.end(), {"--shop", small_shop_file()});
    return more;
  }
  WsClient connect() const { return WsClient(server_.port()); }
  static Reserve joint(Instant start) {
    Reserve reserve;
    reserve.recipe = RecipeId{2};
    reserve.builder = BuilderId{1};
    reserve.start = start;
    return reserve;
  }
  static Instant time_of(const Welcome& w) {
    return std::chrono::ceil<std::chrono::days>(
        Instant{std::chrono::duration_cast<Seconds>(std::chrono::milliseconds{w.server_time_ms})});
  }
  static Answer ask(WsClient& client, CommandId id, Body body) {
    client.send(Asked{id, std::move(body)});
    return client.receive_until<Answer>();
  }

  ScratchFolder scratch_;
  ServerProcess server_;
};

TEST_F(Server, names_what_is_malformed_and_goes_on) {
  WsClient other = connect();
  other.hello(test_device(2));
  WsClient client = connect();
  client.send_message("\xff\xff\xff this is no frame");
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::malformed);
  client.send_message("");
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::unknown);
  client.send_message("text", 1);
  EXPECT_THAT(client.receive_until<Error>().text, HasSubstr("binary"));

  const Welcome welcome = client.hello(test_device(1));
  Reserve bad = joint(time_of(welcome));
  bad.step = -3;
  client.send(Asked{command_id(1), bad});
  const auto error = client.receive_until<Error>();
  EXPECT_EQ(error.code, ErrorCode::malformed);
  EXPECT_THAT(error.text, HasSubstr("step"));
  EXPECT_EQ(error.command, command_id(1));

  EXPECT_FALSE(ask(client, command_id(2), joint(time_of(welcome))).refusal);
  EXPECT_EQ(other.receive_until<Delta>().command, command_id(2)) << "others are not touched";
}

TEST_F(Server, tells_of_a_frame_that_it_does_not_know) {
  WsClient client = connect();
  client.hello(test_device(1));
  client.send_message(std::string{"\x7a\x02\x08\x01", 4});  // field 15, a message
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::unknown);
  EXPECT_TRUE(client.receive_message(3s).has_value()) << "beats go on";
}

TEST_F(Server, tells_a_newer_client_and_lets_it_try_again) {
  WsClient client = connect();
  client.send(Hello{kProtocol + 1, test_device(1), {}, 0});
  const auto error = client.receive_until<Error>();
  EXPECT_EQ(error.code, ErrorCode::too_new);
  EXPECT_THAT(error.text, HasSubstr("update"));
  EXPECT_EQ(client.hello(test_device(1)).protocol, kProtocol);
}

TEST_F(Server, tells_an_older_client_to_be_updated) {
  WsClient client = connect();
  client.send(Hello{kProtocol - 1, test_device(1), {}, 0});
  const auto error = client.receive_until<Error>();
  EXPECT_EQ(error.code, ErrorCode::too_old);
  EXPECT_THAT(error.text, HasSubstr("update the client"));
}

TEST_F(Server, wants_hello_first_and_once) {
  WsClient client = connect();
  client.send(Asked{command_id(1), Cancel{GlueUpId{1}}});
  const auto error = client.receive_until<Error>();
  EXPECT_EQ(error.code, ErrorCode::no_hello);
  EXPECT_EQ(error.command, command_id(1));
  client.hello(test_device(1));
  client.send(Hello{kProtocol, test_device(1), {}, 0});
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::malformed);
}

TEST_F(Server, closes_on_a_frame_that_is_too_large_and_others_go_on) {
  WsClient other = connect();
  const Welcome welcome = other.hello(test_device(2));
  WsClient client = connect();
  client.hello(test_device(1));
  client.send_message(std::string(kMaxClientFrame + 1, 'x'));
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::too_large);
  while (client.receive_message()) {
  }
  EXPECT_TRUE(client.closed());
  EXPECT_EQ(client.close_code(), 1009);
  EXPECT_FALSE(ask(other, command_id(1), joint(time_of(welcome))).refusal);
}

TEST_F(Server, lets_nobody_suffer_from_one_who_breaks_off) {
  WsClient other = connect();
  const Welcome welcome = other.hello(test_device(2));
  for (int i = 0; i < 20; ++i) {
    WsClient client = connect();
    client.send_bytes(
        std::string("\x82\xfe\x10\x00\x01\x02", static_cast<std::size_t>(i) % 6));  // and gone
  }
  EXPECT_FALSE(ask(other, command_id(1), joint(time_of(welcome))).refusal);
}

TEST_F(Server, resumes_by_deltas_alone) {
  Mirror mirror;
  Welcome welcome;
  {
    WsClient client = connect();
    welcome = client.hello(test_device(1));
    mirror.follow(client, welcome.revision);
  }
  EXPECT_EQ(mirror.snapshots, 1);
  WsClient other = connect();
  other.hello(test_device(2));
  for (std::uint64_t i = 0; i < 30; ++i) {
    EXPECT_FALSE(
        ask(other, command_id(i), joint(time_of(welcome) + std::chrono::minutes{i * 40})).refusal);
  }
  EXPECT_FALSE(ask(other, command_id(99), GearBroken{GearKindId{1}, 2, "bent"}).refusal);

  WsClient again = connect();
  const Welcome back = again.hello(test_device(1), welcome.store, mirror.revision);
  EXPECT_EQ(back.revision, welcome.revision + 31);
  mirror.follow(again, back.revision);
  EXPECT_EQ(mirror.snapshots, 1);
  EXPECT_EQ(mirror.deltas, 31);

  Mirror fresh;
  WsClient third = connect();
  fresh.follow(third, third.hello(test_device(3)).revision);
  EXPECT_EQ(fresh.snapshots, 1);
  EXPECT_EQ(fresh.revision, mirror.revision);
  EXPECT_EQ(floor_hash(fresh.floor, fresh.since), floor_hash(mirror.floor, fresh.since));
}

TEST_F(Server, sends_a_snapshot_when_it_cannot_resume) {
  WsClient client = connect();
  const Welcome welcome = client.hello(test_device(1));
  WsClient ahead = connect();
  ahead.hello(test_device(2), welcome.store, welcome.revision + 5);
  EXPECT_EQ(ahead.receive_until<Snapshot>().revision, welcome.revision);
  WsClient stranger = connect();
  stranger.hello(test_device(3), StoreName{{1, 2, 3}}, welcome.revision);
  EXPECT_EQ(stranger.receive_until<Snapshot>().revision, welcome.revision);
}

TEST_F(Server, gives_one_answer_to_one_id_on_every_socket) {
  WsClient a = connect(), b = connect();
  const Welcome welcome = a.hello(test_device(1));
  b.hello(test_device(2));
  const Reserve wanted = joint(time_of(welcome));
  a.send(Asked{command_id(1), wanted});
  b.send(Asked{command_id(1), wanted});
  const Answer first = a.receive_until<Answer>(), second = b.receive_until<Answer>();
  EXPECT_EQ(encode(ServerFrame{first}), encode(ServerFrame{second}));
  EXPECT_FALSE(first.refusal);
  // A refusal keeps, too, when its reason is gone.
  const Answer no = ask(a, command_id(2), wanted);
  ASSERT_TRUE(no.refusal);
  EXPECT_FALSE(ask(a, command_id(3), Cancel{first.glue_up}).refusal);
  EXPECT_EQ(encode(ServerFrame{ask(b, command_id(2), wanted)}), encode(ServerFrame{no}));
  EXPECT_FALSE(ask(b, command_id(4), wanted).refusal);
}

TEST_F(Server, beats_every_second) {
  WsClient client = connect();
  const Welcome welcome = client.hello(test_device(1));
  const auto first = client.receive_until<Beat>(), second = client.receive_until<Beat>();
  EXPECT_EQ(first.revision, welcome.revision);
  EXPECT_NEAR(static_cast<double>(second.server_time_ms - first.server_time_ms), 1000, 500);
}

TEST_F(Server, answers_http_and_keeps_foreign_pages_out) {
  EXPECT_THAT(http_get(server_.port(), "/healthz"),
              HasSubstr(R"({"status":"ok","revision":1,"version":")"));
  const std::string none = http_get(server_.port(), "/../../etc/passwd");
  EXPECT_THAT(none, HasSubstr("HTTP/1.1 404"));
  EXPECT_THAT(none, HasSubstr("X-Content-Type-Options: nosniff"));
  EXPECT_THAT(http_get(server_.port(), "/v1"), HasSubstr("HTTP/1.1 404"))
      << "not without an upgrade";
  EXPECT_THAT(http(server_.port(), "DELETE /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n"),
              HasSubstr("HTTP/1.1 405"));
  EXPECT_THAT(http(server_.port(), "GET /healthz HTTP/1.1\r\nHost: evil.example\r\n\r\n"),
              HasSubstr("HTTP/1.1 403"));
  EXPECT_THAT(http_get(server_.port(), "/healthz", "Origin: http://evil.example\r\n"),
              HasSubstr("HTTP/1.1 403"));
  EXPECT_EQ(http(server_.port(), "nonsense\r\n\r\n"), "");

  const std::string own = "Origin: http://127.0.0.1:" + std::to_string(server_.port()) + "\r\n";
  EXPECT_NO_THROW(WsClient(server_.port(), "/v1", own).hello(test_device(1)));
  EXPECT_THROW(WsClient(server_.port(), "/v1", "Origin: https://evil.example\r\n"),
               std::runtime_error);
  EXPECT_THROW(WsClient(server_.port(), "/v1", "Origin: null\r\n"), std::runtime_error);
  EXPECT_THROW(WsClient(server_.port(), "/v2"), std::runtime_error);
}

TEST_F(Server, ends_well_when_told_to) {
  WsClient client = connect();
  client.hello(test_device(1));
  const Ended ended = server_.stop();
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_THAT(ended.output, HasSubstr("stopped at revision 1"));
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::going_down);
  while (client.receive_message()) {
  }
  EXPECT_EQ(client.close_code(), 1001);
}

class Limited : public Server {
 protected:
  Limited() : Server({}) {}
};

TEST_F(Limited, says_busy_to_a_device_that_asks_too_fast_and_serves_it_again_later) {
  WsClient client = connect(), other = connect();
  const Welcome welcome = client.hello(test_device(1));
  other.hello(test_device(2));
  constexpr int kAsked = 90;
  for (std::uint64_t i = 0; i < kAsked; ++i) client.send(Asked{command_id(i), Cancel{GlueUpId{7}}});
  int answered = 0;
  std::set<CommandId> busy;
  while (answered + static_cast<int>(busy.size()) < kAsked) {
    const ServerFrame frame = client.receive();
    answered += std::holds_alternative<Answer>(frame) ? 1 : 0;
    if (const auto* error = std::get_if<Error>(&frame)) {
      EXPECT_EQ(error->code, ErrorCode::busy);
      busy.insert(error->command.value());
    }
  }
  EXPECT_GE(answered, 50);
  EXPECT_LE(answered, 60);
  EXPECT_FALSE(ask(other, command_id(500), joint(time_of(welcome))).refusal)
      << "another device is not limited";
  std::this_thread::sleep_for(200ms);
  EXPECT_TRUE(ask(client, *busy.begin(), Cancel{GlueUpId{7}}).refusal)
      << "the same id, sent again, is decided now";
}

}  // namespace
}  // namespace squeezeout::test
