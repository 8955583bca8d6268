// The disk dies at the first, second, third ... write, sync or truncation, cleanly or in the middle of a write. After a restart:
// what was acknowledged is there, what was not is there whole or not at all, and asking again with the same ids does each once.

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <map>

#include "common/floor/apply.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/committer.h"
#include "server/demo/week.h"
#include "server/store/sqlite/open.h"
#include "tests/fault/failing_vfs.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kBefore = 40, kCommands = 24, kBatch = 3;

using Answers = std::map<CommandId, std::string>;

std::vector<Stamped> commands() {
  auto week = demo_week(read_shop_file("demo shop", demo_shop_text()).value(),
                        *parse_rfc3339("2026-11-26T14:12:00Z"));
  week.resize(kBefore + kCommands);
  return week;
}

// Commits until the disk fails; what was acknowledged until then.
Answers commit(Committer& committer, std::span<const Stamped> all, std::size_t size) {
  Answers answers;
  for (; !all.empty(); all = all.subspan(std::min(size, all.size()))) {
    std::vector<Ask> asks;
    for (const Stamped& c : all.first(std::min(size, all.size())))
      asks.push_back({1, c.by, {c.id, c.body}});
    const auto output = committer.commit(asks, all.front().at);
    if (!output) {
      EXPECT_EQ(output.error().code, Trouble::Code::broken) << to_text(output.error());
      return answers;  // here the server ends
    }
    for (std::size_t i = 0; i < asks.size(); ++i)
      answers[asks[i].asked.id] = *output->replies[i].frame;
    if (answers.size() == kCommands / 2) (void)committer.keep_snapshot();
  }
  return answers;
}

std::unique_ptr<Store> open(const fs::path& folder) {
  auto store = open_sqlite_store(folder.string());
  return store ? std::move(store).value() : nullptr;
}

class Io : public testing::TestWithParam<FailingVfs::How> {};

TEST_P(Io, a_disk_that_dies_takes_nothing_that_was_acknowledged) {
  const std::vector<Stamped> all = commands();
  const std::span<const Stamped> tail = std::span{all}.subspan(kBefore);
  FailingVfs disk;
  const ScratchFolder scratch;
  const fs::path start = scratch.path() / "start", data = scratch.path() / "data";
  {
    const auto store = open(start);
    Committer committer(*store, store->load().value());
    (void)commit(committer, std::span{all}.first(kBefore), 1);
  }
  // What comes of it on a disk that works.
  std::uint64_t hash = 0;
  Answers wanted;
  {
    fs::copy(start, data, fs::copy_options::recursive);
    const auto store = open(data);
    Committer committer(*store, store->load().value());
    wanted = commit(committer, tail, kBatch);
    hash = floor_hash(committer.floor());
    ASSERT_EQ(wanted.size(), kCommands);
  }

  int died = 0, kept_unsaid = 0;
  for (int operation = 1;; ++operation) {
    fs::remove_all(data);
    fs::copy(start, data, fs::copy_options::recursive);
    Answers told;
    {
      const auto store = open(data);
      Committer committer(*store, store->load().value());
      disk.fail_at(operation, GetParam());
      told = commit(committer, tail, kBatch);
      if (!disk.failed()) break;
      ++died;
    }
    disk.heal();

    const auto store = open(data);
    ASSERT_NE(store, nullptr) << "operation " << operation;
    Loaded loaded = store->load().value();
    ASSERT_FALSE(loaded.trouble) << "operation " << operation << ": " << to_text(*loaded.trouble);
    for (const auto& [command, answer] : told) {
      ASSERT_EQ(store->answer(command).value(), answer)
          << "an acknowledged command is lost, operation " << operation;
    }
    for (const Stamped& c : tail)
      kept_unsaid += !told.contains(c.id) && store->answer(c.id).value().has_value();
    Committer committer(*store, std::move(loaded));
    ASSERT_EQ(commit(committer, tail, kBatch), wanted) << "operation " << operation;
    ASSERT_EQ(floor_hash(committer.floor()), hash) << "operation " << operation;
  }
  std::printf("disks that died: %d; commands kept though not acknowledged: %d; lost 0, twice 0\n",
              died, kept_unsaid);
  EXPECT_GT(died, 50);
}

INSTANTIATE_TEST_SUITE_P(Fault, Io, testing::Values(FailingVfs::How::clean, FailingVfs::How::torn),
                         [](const auto& p) {
                           return p.param == FailingVfs::How::clean ? "clean" : "torn";
                         });

}  // namespace
}  // namespace squeezeout::test
