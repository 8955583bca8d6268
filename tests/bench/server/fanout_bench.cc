// Workload: 500 clients follow the floor while facts come in (climate readings, the smallest change there is), as fast as all of
// them keep up: with at most 64 changes on their way, and with one at a time (then nothing can be sent together). Held against Beast alone with as many clients, messages of the same size
// and the same bound, in the same run. Then 100 changes a second: how long one takes from press to each client.

#include <cstdio>
#include <fstream>
#include <functional>
#include <thread>

#include "tests/bench/server/bare_fanout.h"
#include "tests/bench/server/load.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::bench {
namespace {

constexpr std::size_t kClients = 500;
constexpr int kTogether = 64, kPaced = 200;
constexpr auto kPace = std::chrono::milliseconds{10};

// Clients that count what they get, and one that the slowest lags behind.
class Audience {
 public:
  void add(test::WsClient client) {
    sockets_.push_back({client.fd(), POLLIN, 0});
    clients_.push_back(std::move(client));
    got_.push_back(0);
  }
  // Reads what came, waiting at most 10 s; calls f(client) for each change that one of them got.
  void read(bool (*counts)(std::string_view), const std::function<void(std::size_t)>& f) {
    for (const std::size_t i : readable(sockets_)) {
      clients_[i].each_waiting([&](std::string_view frame) {
        if (!counts(frame)) return;
        ++got_[i];
        f(i);
      });
    }
  }
  int slowest() const { return *std::min_element(got_.begin(), got_.end()); }
  int of(std::size_t client) const { return got_[client]; }

 private:
  std::vector<test::WsClient> clients_;
  std::vector<pollfd> sockets_;
  std::vector<int> got_;
};

// Deliveries a second of `changes` changes, at most `ahead` of them on their way; `publish` makes one.
double flood(Audience& audience, int changes, int ahead, bool (*counts)(std::string_view),
             const std::function<void()>& publish) {
  const int before = audience.slowest();
  const auto begin = Clock::now();
  int published = 0;
  while (audience.slowest() - before < changes) {
    while (published < changes && published - (audience.slowest() - before) < ahead) {
      publish();
      ++published;
    }
    audience.read(counts, [](std::size_t) {});
  }
  return static_cast<double>(kClients) * changes / seconds(Clock::now() - begin);
}

// Microseconds from publishing to each client, at 100 changes a second.
std::vector<double> paced(Audience& audience, bool (*counts)(std::string_view),
                          const std::function<void()>& publish) {
  std::vector<Clock::time_point> published;
  std::vector<double> times;
  const int before = audience.slowest();
  std::vector<int> at(kClients, 0);
  const auto begin = Clock::now();
  while (audience.slowest() - before < kPaced) {
    if (published.size() < kPaced && Clock::now() - begin >= kPace * published.size()) {
      published.push_back(Clock::now());
      publish();
    }
    if (published.empty() || audience.slowest() - before == static_cast<int>(published.size())) {
      std::this_thread::sleep_until(begin + kPace * published.size());
      continue;
    }
    audience.read(counts, [&](std::size_t client) {
      const auto change = static_cast<std::size_t>(at[client]++);
      times.push_back(microseconds(Clock::now() - published[change]));
    });
  }
  return times;
}

struct Figures {
  double together = 0, one_by_one = 0;  // deliveries a second
};

Figures measure(const char* who, Audience& audience, bool (*counts)(std::string_view),
                const std::function<void()>& publish) {
  const Figures figures{flood(audience, 2'000, kTogether, counts, publish),
                        flood(audience, 300, 1, counts, publish)};
  const std::vector<double> times = paced(audience, counts, publish);
  std::printf(
      "%-11s deliveries/s to %zu clients: %d changes ahead %.0f, one at a time %.0f; at 100 "
      "changes/s p50 %.1f ms, p99 %.1f ms\n",
      who, kClients, kTogether, figures.together, figures.one_by_one, quantile(times, 0.5) / 1000,
      quantile(times, 0.99) / 1000);
  return figures;
}

bool any(std::string_view) { return true; }

void run() {
  Figures ours, bare;
  std::size_t size = 0;
  {
    const test::ScratchFolder scratch;
    const auto shop = scratch.path() / "shop.textproto";
    std::ofstream(shop) << shop_text(1);
    const test::ServerProcess server(scratch.path() / "data",
                                     {"--shop", shop.string(), "--no-rate-limit"});
    Audience audience;
    for (std::size_t i = 0; i < kClients; ++i) {
      test::WsClient client(server.port());
      client.hello(test::test_device(i + 1));
      (void)client.receive_until<Snapshot>();
      audience.add(std::move(client));
    }
    test::WsClient publisher(server.port());  // says hello, and reads only what it must
    publisher.hello(test::test_device(9'999));
    std::uint64_t n = 0;
    const auto publish = [&] {
      ++n;
      publisher.send(
          Asked{test::command_id(n, 7), ClimateReading{{20 + static_cast<double>(n % 7)}, {45}}});
      publisher.each_waiting([&](std::string_view frame) {
        if (is_delta(frame)) size = frame.size();
      });
    };
    ours = measure("squeezeout", audience, is_delta, publish);
  }
  {
    BareFanout fanout;
    Audience audience;
    for (std::size_t i = 0; i < kClients; ++i) audience.add(test::WsClient(fanout.port(), "/"));
    while (fanout.clients() < kClients) std::this_thread::sleep_for(std::chrono::milliseconds{1});
    const auto publish = [&] { fanout.publish(std::string(size, 'x')); };
    bare = measure("Beast alone", audience, any, publish);
  }
  std::printf(
      "of Beast alone: %d ahead %.0f %%, one at a time %.0f %% (goal >= 70 %%); %zu bytes a "
      "change\n",
      kTogether, 100 * ours.together / bare.together, 100 * ours.one_by_one / bare.one_by_one,
      size);
}

}  // namespace
}  // namespace squeezeout::bench

int main() {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  squeezeout::bench::run();
}
