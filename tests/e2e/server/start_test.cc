// How the server starts, and how it says that it cannot: what, why, what next.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <filesystem>
#include <fstream>

#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::test {
namespace {

using testing::AllOf;
using testing::HasSubstr;

class Start : public testing::Test {
 protected:
  std::string data() const { return (scratch_.path() / "data").string(); }
  std::string file(const std::string& name, const std::string& text) const {
    const auto path = scratch_.path() / name;
    std::ofstream(path) << text;
    return path.string();
  }
  ScratchFolder scratch_;
};

TEST_F(Start, tells_help_and_version) {
  EXPECT_THAT(run_server({"--help"}).output,
              AllOf(HasSubstr("--data"), HasSubstr("--demo"), HasSubstr("--verify")));
  const Ended version = run_server({"--version"});
  EXPECT_EQ(version.exit_code, 0);
  EXPECT_THAT(version.output, testing::MatchesRegex("[0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST_F(Start, a_port_in_use) {
  const ServerProcess first(data(), {});
  const Ended second = run_server({"--data", data() + "2", "--port", std::to_string(first.port())});
  EXPECT_EQ(second.exit_code, 1);
  EXPECT_THAT(second.output, AllOf(HasSubstr("is in use"), HasSubstr("why:"), HasSubstr("--port")));
}

TEST_F(Start, a_store_that_another_server_holds) {
  const ServerProcess first(data(), {});
  const Ended second = run_server({"--data", data(), "--port", "0"});
  EXPECT_EQ(second.exit_code, 1);
  EXPECT_THAT(second.output,
              AllOf(HasSubstr("in use"), HasSubstr("why:"), HasSubstr("stop the other server")));
}

TEST_F(Start, a_shop_file_with_mistakes) {
  const std::string shop = file("shop.textproto", "name: \"x\"\nzone: \"Nowhere/Town\"\n");
  const Ended ended = run_server({"--data", data(), "--port", "0", "--shop", shop});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_THAT(ended.output, AllOf(HasSubstr(shop + ":2"), HasSubstr("Mend:")));
  const Ended missing = run_server({"--data", data(), "--port", "0", "--shop", "no/such/file"});
  EXPECT_EQ(missing.exit_code, 2);
  EXPECT_THAT(missing.output, AllOf(HasSubstr("no/such/file"), HasSubstr("next:")));
}

TEST_F(Start, arguments_that_make_no_sense) {
  EXPECT_EQ(run_server({}).exit_code, 2);
  EXPECT_EQ(run_server({"--data", data(), "--clock", "tomorrow"}).exit_code, 2);
  EXPECT_EQ(run_server({"--data", data(), "--speed", "10"}).exit_code, 2);
  EXPECT_EQ(run_server({"--data", data(), "--nonsense"}).exit_code, 2);
  EXPECT_EQ(run_server({"--data", data(), "--verify"}).exit_code, 2)
      << "nothing is there to verify";
  EXPECT_FALSE(std::filesystem::exists(data())) << "and nothing was made";
}

TEST_F(Start, the_demo_runs_and_goes_on_where_it_stopped) {
  std::uint64_t revision = 0;
  {
    ServerProcess server(data(), {"--demo", "--clock", "2026-11-26T14:12:00Z"});
    WsClient client(server.port());
    const Welcome welcome = client.hello(test_device(1));
    revision = welcome.revision;
    EXPECT_GT(revision, 100u);
    EXPECT_NEAR(static_cast<double>(welcome.server_time_ms) / 1000, 1'795'702'320, 5);
    EXPECT_GT(client.receive_until<Snapshot>().floor.glue_ups.size(), 30u);
    EXPECT_EQ(server.stop().exit_code, 0);
  }
  const Ended verified = run_server({"--data", data(), "--verify"});
  EXPECT_EQ(verified.exit_code, 0);
  EXPECT_THAT(verified.output, HasSubstr("the store is sound: revision "));
  ServerProcess server(data(), {"--demo"});
  WsClient client(server.port());
  const Welcome welcome = client.hello(test_device(1));
  EXPECT_GE(welcome.revision, revision);
  EXPECT_NEAR(static_cast<double>(welcome.server_time_ms) / 1000, 1'795'702'320, 15);
}

TEST_F(Start, a_fast_clock_brings_what_is_due) {
  ServerProcess server(data(), {"--demo", "--clock", "2026-11-26T14:12:00Z", "--speed", "600"});
  WsClient client(server.port());
  client.hello(test_device(1));
  const auto delta = client.receive_until<Delta>();  // nobody pressed anything: time alone
  EXPECT_FALSE(delta.command.has_value());
  EXPECT_FALSE(delta.events.empty());
}

TEST_F(Start, a_damaged_store_is_for_reading_only) {
  {
    ServerProcess server(data(), {"--shop", small_shop_file()});
    EXPECT_EQ(server.stop().exit_code, 0);
  }
  sqlite3* db = nullptr;
  ASSERT_EQ(sqlite3_open((data() + "/squeezeout.db").c_str(), &db), SQLITE_OK);
  EXPECT_EQ(sqlite3_exec(db, "UPDATE stock SET count = count + 1", nullptr, nullptr, nullptr),
            SQLITE_OK);
  sqlite3_close(db);

  const Ended verified = run_server({"--data", data(), "--verify"});
  EXPECT_EQ(verified.exit_code, 1);
  EXPECT_THAT(verified.output,
              AllOf(HasSubstr("damaged"), HasSubstr("stock"), HasSubstr("restore")));

  ServerProcess server(data(), {});
  EXPECT_THAT(http_get(server.port(), "/healthz"), HasSubstr(R"("status":"read-only")"));
  WsClient client(server.port());
  client.hello(test_device(1));
  EXPECT_TRUE(client.receive_until<Snapshot>().floor.shop.has_value());
  client.send(Asked{command_id(1), ClimateReading{{20}, {50}}});
  EXPECT_EQ(client.receive_until<Error>().code, ErrorCode::read_only);
  EXPECT_EQ(server.stop().exit_code, 0);
}

}  // namespace
}  // namespace squeezeout::test
