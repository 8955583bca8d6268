// Workload: benches press (reserve, cancel) and wait for the acknowledgement, over WebSockets, with every change sent to every
// bench. One bench alone: how long a press takes. 64 benches, each with one press on its way: how many the shop takes. Each is
// held against SQLite alone, in the same run and on the same disk: the same rows, durable, without guard, hash or decision.

#include <cstdio>
#include <fstream>

#include "tests/bench/server/load.h"
#include "tests/bench/server/raw_store.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::bench {
namespace {

constexpr int kAlone = 3'000;  // presses of one bench
constexpr std::uint32_t kBenches = 64;
constexpr auto kCrowdTime = std::chrono::seconds{4};

std::string shop_file(const std::filesystem::path& folder) {
  const auto file = folder / "shop.textproto";
  std::ofstream(file) << shop_text(static_cast<int>(kBenches));
  return file.string();
}

// The times of single commits of the rows that a server kept.
std::vector<double> raw_commits(const std::filesystem::path& folder,
                                const std::filesystem::path& like) {
  const std::vector<Rows> rows = rows_of(like);
  RawStore raw(folder, like);
  std::vector<double> times;
  for (const Rows& r : rows) {
    const auto begin = Clock::now();
    raw.begin();
    raw.write(r);
    raw.commit();
    times.push_back(microseconds(Clock::now() - begin));
  }
  return times;
}

void alone() {
  const test::ScratchFolder scratch;
  const auto data = scratch.path() / "data";
  std::vector<double> acked;
  {
    test::ServerProcess server(data, {"--shop", shop_file(scratch.path()), "--no-rate-limit"});
    Presser presser(server.port(), 1);
    std::vector<pollfd> sockets{{presser.fd(), POLLIN, 0}};
    for (int i = 0; i < kAlone; ++i) {
      const auto begin = Clock::now();
      presser.press();
      while (!presser.answered()) (void)readable(sockets);
      acked.push_back(microseconds(Clock::now() - begin));
    }
    server.stop();
  }
  const auto raw = raw_commits(scratch.path(), data);
  const double p50 = quantile(acked, 0.5), raw_p50 = quantile(raw, 0.5);
  std::printf(
      "one bench      press to ack p50 %6.0f us, p99 %6.0f us | SQLite alone p50 %6.0f us, p99 "
      "%6.0f us | %.2f times (goal <= 2)\n",
      p50, quantile(acked, 0.99), raw_p50, quantile(raw, 0.99), p50 / raw_p50);
}

struct Rate {
  double commands = 0, rows = 0;  // a second
};

// The rows of all commands, `together` in each commit.
Rate raw_rate(const std::filesystem::path& folder, const std::filesystem::path& like,
              std::size_t together) {
  const std::vector<Rows> rows = rows_of(like);
  RawStore raw(folder, like);
  std::size_t count = 0;
  const auto begin = Clock::now();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i % together == 0) raw.begin();
    raw.write(rows[i]);
    count += rows[i].count();
    if (i % together == together - 1 || i + 1 == rows.size()) raw.commit();
  }
  const double time = seconds(Clock::now() - begin);
  return {static_cast<double>(rows.size()) / time, static_cast<double>(count) / time};
}

// "stopped at revision 9 after 3 commits"
std::size_t commits_of(const std::string& said) {
  const auto at = said.rfind(" after ");
  return std::stoul(said.substr(at + 7));
}

void crowd() {
  const test::ScratchFolder scratch;
  const auto data = scratch.path() / "data";
  std::size_t acked = 0, together = 0;
  double time = 0;
  std::vector<double> latencies;
  {
    test::ServerProcess server(data, {"--shop", shop_file(scratch.path()), "--no-rate-limit"});
    std::vector<Presser> benches;
    std::vector<pollfd> sockets;
    std::vector<Clock::time_point> pressed;
    for (std::uint32_t b = 1; b <= kBenches; ++b) {
      benches.emplace_back(server.port(), b);
      sockets.push_back({benches.back().fd(), POLLIN, 0});
    }
    const auto begin = Clock::now();
    for (Presser& b : benches) {
      pressed.push_back(Clock::now());
      b.press();
    }
    while (Clock::now() - begin < kCrowdTime) {
      for (const std::size_t i : readable(sockets)) {
        if (!benches[i].answered()) continue;
        const auto now = Clock::now();
        latencies.push_back(microseconds(now - pressed[i]));
        pressed[i] = now;
        ++acked;
        benches[i].press();
      }
    }
    time = seconds(Clock::now() - begin);
    together = acked / commits_of(server.stop().output);
  }
  const double ours = static_cast<double>(acked) / time;
  std::printf("%u benches     %.0f presses/s, %zu in a commit, p50 %.1f ms, p99 %.1f ms\n",
              kBenches, ours, together, quantile(latencies, 0.5) / 1000,
              quantile(latencies, 0.99) / 1000);
  for (const std::size_t n : {static_cast<std::size_t>(kBenches), together}) {
    const test::ScratchFolder raw;
    const Rate alone = raw_rate(raw.path(), data, n);
    std::printf(
        "  SQLite alone, %zu in a commit: %.0f presses/s = %.0f rows/s; the server reaches %.0f %% "
        "(goal >= 60 %%)\n",
        n, alone.commands, alone.rows, 100 * ours / alone.commands);
  }
}

}  // namespace
}  // namespace squeezeout::bench

int main() {
  squeezeout::bench::alone();
  squeezeout::bench::crowd();
}
