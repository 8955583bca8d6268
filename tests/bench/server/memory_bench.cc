// Workload: the server of a busy shop, with 100,000 claims on record, while 20 clients connect and each gets its snapshot.

#include <cstdio>

#include "tests/bench/server/big_store.h"
#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

int main() {
  using namespace squeezeout;
  const test::ScratchFolder scratch;
  const auto data = scratch.path() / "data";
  bench::make_big_store(data, bench::SnapshotOnDisk::at_the_end);
  const test::ServerProcess server(data, {"--clock", "2026-11-05T12:00:00Z"});
  const auto started = static_cast<double>(server.resident_bytes()) / 1e6;
  std::vector<test::WsClient> clients;
  for (std::uint64_t i = 0; i < 20; ++i) {
    clients.emplace_back(server.port());
    clients.back().hello(test::test_device(i));
    (void)clients.back().receive_until<Snapshot>();
  }
  const auto serving = static_cast<double>(server.resident_bytes()) / 1e6;
  std::printf(
      "%d claims on record: %.0f MB resident after the start, %.0f MB with %zu clients (goal <= "
      "150 MB)\n",
      4 * bench::kGlueUps, started, serving, clients.size());
}
