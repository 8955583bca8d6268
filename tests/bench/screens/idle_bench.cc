// What a screen costs while nobody touches it. Stands for a bench client that stays open for a day: the real client in a window
// under Xvfb, drawn in software, on the demo shop in the middle of its week, the clock running at its own speed.
//   Prints  per screen: CPU time of the client's process over a minute, as a part of one core; frames drawn in that minute
//   bench_idle [SECONDS]   (60)

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <thread>
#include <vector>

#include "tests/e2e/screens/display.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

using namespace std::chrono_literals;

int run_bench(int seconds) {
  const ScratchFolder scratch;
  const ServerProcess server(scratch.path() / "data",
                             {"--demo", "--clock", "2026-11-26T14:12:00Z"});
  struct Case {
    std::string name;
    std::vector<std::string> options;
    std::unique_ptr<BenchScreen> screen;
    double cpu = 0;
    std::int64_t drawn = 0;
    int frames = 0;
  };
  std::vector<Case> cases;
  cases.push_back({"board", {"--bench", "3", "--screen", "board"}});
  cases.push_back({"board, 30 min", {"--bench", "3", "--screen", "board", "--zoom", "30min"}});
  cases.push_back({"bench", {"--bench", "1"}});
  cases.push_back({"wall", {"--wall"}});
  for (Case& c : cases)
    c.screen =
        std::make_unique<BenchScreen>(scratch.path(), "idle" + std::to_string(&c - cases.data()),
                                      server.port(), BenchScreen::Size{1920, 1080}, c.options);
  for (Case& c : cases)
    if (!c.screen->wait_for_text("LIVE", 30s)) {
      std::fprintf(stderr, "%s is not live\n", c.name.c_str());
      return 1;
    }
  std::this_thread::sleep_for(5s);
  for (Case& c : cases) c.cpu = c.screen->cpu_seconds();
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds{seconds};
  while (std::chrono::steady_clock::now() < until) {
    for (Case& c : cases) {
      const auto drawn = c.screen->dump().value("drawn_ms", std::int64_t{0});
      c.frames += drawn != c.drawn ? 1 : 0;
      c.drawn = drawn;
    }
    std::this_thread::sleep_for(200ms);
  }
  std::printf("%-16s %10s %8s   (%d s, software drawing, 1920x1080)\n", "screen", "CPU", "frames",
              seconds);
  for (Case& c : cases)
    std::printf("%-16s %8.2f %% %8d\n", c.name.c_str(),
                (c.screen->cpu_seconds() - c.cpu) / seconds * 100, c.frames);
  return 0;
}

}  // namespace
}  // namespace squeezeout::test

int main(int argc, char** argv) {
  return squeezeout::test::run_bench(argc > 1 ? std::atoi(argv[1]) : 60);
}
