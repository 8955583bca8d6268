// squeezeout-server: wires store, writer, hub and network together, and nothing else.

#include <openssl/rand.h>
#include <sys/stat.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/config.h"
#include "server/demo/week.h"
#include "server/net/net.h"
#include "server/store/sqlite/open.h"
#include "server/writer.h"

namespace squeezeout {
namespace {

constexpr int kExitWell = 0, kExitTrouble = 1, kExitMistake = 2;

struct Exit {
  int code = kExitTrouble;
};

void say(const std::string& line) { std::cout << line << std::endl; }

[[noreturn]] void fail(const Trouble& trouble) {
  std::cerr << to_text(trouble) << std::flush;
  throw Exit{trouble.code == Trouble::Code::bad_input ? kExitMistake : kExitTrouble};
}

template <class T>
T or_fail(Result<T, Trouble> result) {
  if (!result) fail(result.error());
  return std::move(result).value();
}

Shop read_shop(std::string_view name, std::string_view text) {
  auto shop = read_shop_file(name, text);
  if (shop) return std::move(shop).value();
  for (const FileMistake& mistake : shop.error()) std::cerr << to_text(mistake) << "\n";
  std::cerr << "error: the shop was not loaded; mend these and start again" << std::endl;
  throw Exit{kExitMistake};
}

Shop shop_of(const Config& config) {
  if (config.demo) return read_shop("demo shop", demo_shop_text());
  const std::ifstream file(config.shop_file, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  if (!file || !text) {
    fail({Trouble::Code::bad_input, "the shop file " + config.shop_file + " cannot be read",
          "it is not there, or this user may not read it",
          "name a file that can be read with --shop"});
  }
  return read_shop(config.shop_file, text.str());
}

// The demo's week ends on a Thursday at 14:12, when the shop is in full work.
Instant demo_afternoon(const Shop& shop) {
  const auto zone = Zone::find(shop.zone);
  const Zone here = zone ? *zone : Zone::utc();
  const Instant now = std::chrono::floor<Seconds>(std::chrono::system_clock::now());
  for (auto day = std::chrono::sys_days{here.date(now)};; day -= std::chrono::days{1}) {
    const std::chrono::local_days local{day.time_since_epoch()};
    const Instant afternoon = here.instant(local + std::chrono::hours{14} + Minutes{12});
    if (std::chrono::weekday{day} == std::chrono::Thursday && afternoon <= now) return afternoon;
  }
}

CommandId random_id() {
  CommandId id;
  CHECK(RAND_bytes(id.bytes.data(), static_cast<int>(id.bytes.size())) == 1);
  return id;
}

void commit(Committer& committer, const Stamped& command) {
  const Ask ask{0, command.by, {command.id, command.body}};
  const Output output = or_fail(committer.commit({&ask, 1}, command.at));
  if (committer.trouble()) fail(*committer.trouble());
  const auto answer = decode_server_frame(*output.replies.front().frame);
  CHECK(answer.has_value());
  const auto* told = std::get_if<Answer>(&*answer);
  CHECK(told != nullptr);
  if (told->refusal && std::holds_alternative<LoadShop>(command.body)) {
    std::cerr << "error: the floor refuses this shop\n";
    if (const auto* bad = std::get_if<BadShop>(&*told->refusal)) {
      for (const Mistake& m : bad->mistakes)
        std::cerr << m.where << ": " << m.what << ". Mend: " << m.mend << "\n";
    }
    throw Exit{kExitMistake};
  }
}

// Fills an empty store with what was asked for, and says where the shop's clock starts.
ShopClock::Start prepare(Committer& committer, const Config& config) {
  ShopClock::Start start{config.clock, config.speed};
  const bool empty = !committer.floor().shop;
  if (config.demo) {
    // A demo goes on where it stopped.
    const Shop shop = shop_of(config);
    if (!start.at) start.at = empty ? demo_afternoon(shop) : committer.at();
    if (empty) {
      for (const Stamped& command : demo_week(shop, *start.at)) commit(committer, command);
    }
    say("the demo's clock starts at " + rfc3339(*start.at, *committer.floor().zone));
  } else if (!config.shop_file.empty()) {
    if (empty) {
      const Instant now =
          start.at.value_or(std::chrono::floor<Seconds>(std::chrono::system_clock::now()));
      commit(committer, {random_id(), {}, now, LoadShop{shop_of(config)}});
    } else {
      say("the store has a shop already; --shop was left out");
    }
  }
  return start;
}

void write_port_file(const std::string& file, std::uint16_t port) {
  const std::string fresh = file + ".new";
  std::ofstream out(fresh);
  out << port << "\n";
  out.close();
  std::error_code error;
  if (out) std::filesystem::rename(fresh, file, error);
  if (!out || error) {
    fail({Trouble::Code::read_only, "the port file " + file + " cannot be written", error.message(),
          "name a file in a folder that can be written with --port-file"});
  }
}

std::string claims_on_record(const Floor& floor) {
  return std::to_string(floor.gear.size()) + " claims";
}

int verify(const Config& config) {
  if (!std::filesystem::exists(std::filesystem::path(config.data) / "squeezeout.db")) {
    fail({Trouble::Code::bad_input, "there is no store in " + config.data,
          "the file squeezeout.db is missing", "name the folder that the server uses with --data"});
  }
  const auto store = or_fail(open_sqlite_store(config.data));
  const Loaded loaded = or_fail(store->load());
  if (loaded.trouble) fail(*loaded.trouble);
  say("the store is sound: revision " + std::to_string(loaded.revision) + ", " +
      claims_on_record(loaded.floor));
  return kExitWell;
}

int serve(const Config& config) {
  const auto store = or_fail(open_sqlite_store(config.data));
  Loaded loaded = or_fail(store->load());
  if (loaded.trouble) std::cerr << to_text(*loaded.trouble) << std::flush;
  Committer committer(*store, std::move(loaded));
  ShopClock clock(committer.trouble() ? ShopClock::Start{config.clock, config.speed}
                                      : prepare(committer, config));

  const std::uint64_t revision = committer.revision();
  std::unique_ptr<Net> net;
  std::unique_ptr<Hub> hub;
  const auto on_net = [&](auto task) { net->post(std::move(task)); };
  Writer writer(std::move(committer), clock,
                {[&](Output output) {
                   on_net([&hub, output = std::move(output)]() mutable {
                     hub->committed(std::move(output), std::chrono::steady_clock::now());
                   });
                 },
                 [&](FreshSnapshot snapshot) {
                   on_net([&hub, snapshot = std::move(snapshot)]() mutable {
                     hub->snapshot(std::move(snapshot));
                   });
                 }});
  hub = std::make_unique<Hub>(
      Hub::Wiring{[&](Ask ask) { return writer.submit(std::move(ask)); },
                  [&](SessionId session) { writer.want_snapshot(session); },
                  [&] { return clock.now_ms(); }, random_id, store->name(), clock.speed(), revision,
                  config.rate_limit ? Hub::RateLimit::on : Hub::RateLimit::off});
  const auto health = [&] {
    return std::string{R"({"status":")"} + (writer.writable() ? "ok" : "read-only") +
           R"(","revision":)" + std::to_string(hub->revision()) +
           R"(,"version":")" SQUEEZEOUT_VERSION R"("})";
  };
  net = or_fail(Net::listen(config.port, *hub, health));
  writer.start();
  if (!config.port_file.empty()) write_port_file(config.port_file, net->port());
  say("squeezeout-server " SQUEEZEOUT_VERSION " listens on 127.0.0.1:" +
      std::to_string(net->port()) + ", data in " + config.data + ", revision " +
      std::to_string(revision));
  net->run([&] { writer.stop(); });
  store->close();
  say("stopped at revision " + std::to_string(writer.revision()) + " after " +
      std::to_string(writer.commits()) + " commits");
  return kExitWell;
}

}  // namespace
}  // namespace squeezeout

int main(int argc, char** argv) {
  using namespace squeezeout;
  ::umask(0077);
  try {
    const auto arguments = read_arguments(argc, argv);
    if (const auto* leave = std::get_if<Leave>(&arguments)) return leave->exit_code;
    const Config& config = std::get<Config>(arguments);
    return config.verify ? verify(config) : serve(config);
  } catch (const Exit& exit) {
    return exit.code;
  }
}
