// Workload: a server of a busy shop starts again with 100,000 revisions in its journal: after a clean stop (a snapshot is there),
// and at worst (none is). From the start of the program until it listens; everything is verified on the way.

#include <cstdio>

#include "tests/bench/server/big_store.h"
#include "tests/bench/server/load.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::bench {
namespace {

void restart(const char* name, SnapshotOnDisk snapshot) {
  const test::ScratchFolder scratch;
  const auto data = scratch.path() / "data";
  make_big_store(data, snapshot);
  const double megabytes =
      static_cast<double>(std::filesystem::file_size(data / "squeezeout.db")) / 1e6;
  std::vector<double> times;
  for (int i = 0; i < 3; ++i) {
    const auto begin = Clock::now();
    test::ServerProcess server(data, {});
    times.push_back(seconds(Clock::now() - begin));
    server.kill();
  }
  std::printf("%-22s %.2f s to listen (best of 3; worst %.2f s), %.0f MB on disk (goal <= 2 s)\n",
              name, quantile(times, 0), quantile(times, 1), megabytes);
}

}  // namespace
}  // namespace squeezeout::bench

int main() {
  using namespace squeezeout::bench;
  std::printf("100,001 revisions\n");
  restart("with a snapshot", SnapshotOnDisk::at_the_end);
  restart("from the journal alone", SnapshotOnDisk::none);
}
