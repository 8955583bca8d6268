// The store on disk: what is appended is there again, and what should not be opened is not.

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "common/floor/apply.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/committer.h"
#include "server/demo/week.h"
#include "server/store/sqlite/open.h"
#include "tests/support/server/server_process.h"

namespace squeezeout {
namespace {

namespace fs = std::filesystem;
using test::ScratchFolder;

const std::vector<Stamped>& week() {
  static const auto kWeek = demo_week(read_shop_file("demo shop", demo_shop_text()).value(),
                                      *parse_rfc3339("2026-11-26T14:12:00Z"));
  return kWeek;
}

std::unique_ptr<Store> open(const fs::path& folder) {
  auto store = open_sqlite_store(folder.string());
  EXPECT_TRUE(store.has_value()) << (store ? "" : to_text(store.error()));
  return store ? std::move(store).value() : nullptr;
}

// Commits the commands in batches of `size`; the answers by command.
std::map<CommandId, std::string> play(Committer& committer, std::span<const Stamped> commands,
                                      std::size_t size) {
  std::map<CommandId, std::string> answers;
  while (!commands.empty()) {
    const auto batch = commands.first(std::min(size, commands.size()));
    commands = commands.subspan(batch.size());
    std::vector<Ask> asks;
    for (const Stamped& c : batch) asks.push_back({1, c.by, {c.id, c.body}});
    auto output = committer.commit(asks, batch.back().at);
    EXPECT_TRUE(output.has_value());
    EXPECT_EQ(output->replies.size(), asks.size());
    for (std::size_t i = 0; i < asks.size(); ++i)
      answers[asks[i].asked.id] = *output->replies[i].frame;
  }
  return answers;
}

struct Kept {
  std::uint64_t revision = 0, hash = 0;
  std::map<CommandId, std::string> answers;
};

// A store with the whole week in it. It is made once; each test gets a copy.
const Kept& fill(const fs::path& folder) {
  static const ScratchFolder made;
  static const Kept kKept = [] {
    const auto store = open(made.path());
    Committer committer(*store, store->load().value());
    Kept kept;
    kept.answers = play(committer, week(), 1);
    kept.revision = committer.revision();
    kept.hash = floor_hash(committer.floor());
    store->close();
    return kept;
  }();
  fs::copy(made.path(), folder, fs::copy_options::recursive);
  return kKept;
}

std::optional<Trouble> trouble_on_open(const fs::path& folder) {
  const auto store = open_sqlite_store(folder.string());
  if (store) return std::nullopt;
  return store.error();
}

void sql(const fs::path& folder, const std::string& text) {
  sqlite3* db = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "squeezeout.db").c_str(), &db), SQLITE_OK);
  char* error = nullptr;
  EXPECT_EQ(sqlite3_exec(db, text.c_str(), nullptr, nullptr, &error), SQLITE_OK)
      << (error == nullptr ? "" : error);
  sqlite3_free(error);
  sqlite3_close(db);
}

TEST(Store, gives_back_floor_and_answers) {
  const ScratchFolder scratch;
  const Kept& kept = fill(scratch.path());
  const auto store = open(scratch.path());
  const Loaded loaded = store->load().value();
  EXPECT_FALSE(loaded.trouble) << to_text(*loaded.trouble);
  EXPECT_EQ(loaded.revision, kept.revision);
  EXPECT_EQ(floor_hash(loaded.floor), kept.hash);
  EXPECT_EQ(loaded.snapshot, 0u);
  for (const auto& [command, bytes] : kept.answers)
    EXPECT_EQ(store->answer(command).value(), bytes);
  EXPECT_EQ(store->answer(CommandId{}).value(), std::nullopt);
}

TEST(Store, starts_from_a_snapshot_and_comes_to_the_same_floor) {
  const ScratchFolder scratch;
  const std::span<const Stamped> all = week();
  const auto half = all.size() / 2;
  {
    const auto store = open(scratch.path());
    Committer committer(*store, store->load().value());
    (void)play(committer, all.first(half), 1);
    EXPECT_TRUE(committer.keep_snapshot().has_value());
    (void)play(committer, all.subspan(half), 1);
  }
  const ScratchFolder other;
  const Kept& plain = fill(other.path());
  const auto store = open(scratch.path());
  const Loaded loaded = store->load().value();
  EXPECT_FALSE(loaded.trouble);
  EXPECT_GT(loaded.snapshot, 0u);
  EXPECT_LT(loaded.snapshot, loaded.revision);
  EXPECT_EQ(floor_hash(loaded.floor), plain.hash);
}

TEST(Store, keeps_its_name) {
  const ScratchFolder scratch;
  const StoreName name = open(scratch.path())->name();
  EXPECT_NE(name, StoreName{});
  EXPECT_EQ(open(scratch.path())->name(), name);
  const ScratchFolder other;
  EXPECT_NE(open(other.path())->name(), name);
}

TEST(Store, forgets_old_answers_but_knows_that_they_were_given) {
  const ScratchFolder scratch;
  const Kept& kept = fill(scratch.path());
  const auto store = open(scratch.path());
  const Loaded loaded = store->load().value();
  ASSERT_TRUE(
      store->keep_snapshot(loaded.floor, loaded.at + kKeepAnswers - Seconds{1}).has_value());
  EXPECT_EQ(store->answer(week().back().id).value(), kept.answers.at(week().back().id));
  EXPECT_EQ(store->answer(week().front().id).value(), "");
  ASSERT_TRUE(
      store->keep_snapshot(loaded.floor, loaded.at + kKeepAnswers + Seconds{1}).has_value());
  EXPECT_EQ(store->answer(week().back().id).value(), "");
  const Loaded again = store->load().value();  // and the claims that were archived are not missed
  EXPECT_FALSE(again.trouble) << to_text(*again.trouble);

  Committer committer(*store, store->load().value());
  const Stamped& old = week().front();
  const Ask ask{1, old.by, {old.id, old.body}};
  const Output output = committer.commit({&ask, 1}, loaded.at).value();
  const ServerFrame frame = decode_server_frame(*output.replies.front().frame).value();
  ASSERT_TRUE(std::holds_alternative<Error>(frame));
  EXPECT_EQ(std::get<Error>(frame).code, ErrorCode::stale_command);
  EXPECT_TRUE(output.published.empty());
}

TEST(Store, archives_claims_that_are_long_over) {
  const ScratchFolder scratch;
  (void)fill(scratch.path());
  const auto store = open(scratch.path());
  const Loaded loaded = store->load().value();
  ASSERT_TRUE(store->keep_snapshot(loaded.floor, loaded.at + kKeepClaims - std::chrono::hours{48})
                  .has_value());
  Committer committer(*store, store->load().value());
  // A change to a glue-up whose claims are archived brings none of them back.
  const Ask ask{1, {}, {CommandId{{1}}, ClimateReading{{20}, {50}}}};
  ASSERT_TRUE(committer.commit({&ask, 1}, loaded.at + std::chrono::hours{1}).has_value());
  const Loaded again = store->load().value();
  EXPECT_FALSE(again.trouble) << to_text(*again.trouble);
  EXPECT_EQ(floor_hash(again.floor), floor_hash(committer.floor()));
}

TEST(Store, is_locked_while_another_holds_it) {
  const ScratchFolder scratch;
  const auto first = open(scratch.path());
  const auto second = trouble_on_open(scratch.path());
  ASSERT_TRUE(second.has_value());
  EXPECT_EQ(second->code, Trouble::Code::locked);
  EXPECT_NE(second->next, "");
}

TEST(Store, of_a_newer_program_is_left_alone) {
  const ScratchFolder scratch;
  (void)open(scratch.path());
  sql(scratch.path(), "PRAGMA user_version = 2");
  const auto size = fs::file_size(scratch.path() / "squeezeout.db");
  const auto trouble = trouble_on_open(scratch.path());
  ASSERT_TRUE(trouble.has_value());
  EXPECT_EQ(trouble->code, Trouble::Code::newer);
  EXPECT_EQ(fs::file_size(scratch.path() / "squeezeout.db"), size);
}

TEST(Store, of_another_program_is_left_alone) {
  const ScratchFolder scratch;
  sql(scratch.path(), "CREATE TABLE theirs (x)");
  auto trouble = trouble_on_open(scratch.path());
  ASSERT_TRUE(trouble.has_value());
  EXPECT_EQ(trouble->code, Trouble::Code::foreign);
  std::ofstream(scratch.path() / "squeezeout.db") << std::string(10'000, 'x');
  trouble = trouble_on_open(scratch.path());
  ASSERT_TRUE(trouble.has_value());
  EXPECT_EQ(trouble->code, Trouble::Code::foreign);
}

TEST(Store, needs_a_folder_that_can_be_written) {
  const ScratchFolder scratch;
  std::ofstream(scratch.path() / "a file") << "x";
  auto trouble = trouble_on_open(scratch.path() / "a file" / "data");
  ASSERT_TRUE(trouble.has_value());
  EXPECT_EQ(trouble->code, Trouble::Code::read_only);

  // Root may write everywhere: ask as nobody.
  fs::permissions(scratch.path(),
                  fs::perms::owner_all | fs::perms::others_exec | fs::perms::others_read);
  const fs::path closed = scratch.path() / "closed";
  fs::create_directory(closed);
  fs::permissions(closed, fs::perms::owner_read | fs::perms::owner_exec | fs::perms::others_read |
                              fs::perms::others_exec);
  const pid_t child = ::fork();
  if (child == 0) {
    if (::geteuid() == 0 && ::setuid(65'534) != 0) ::_exit(2);
    const auto there = trouble_on_open(closed);
    ::_exit(there && there->code == Trouble::Code::read_only ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(Store, folder_is_for_its_owner_only) {
  const ScratchFolder scratch;
  (void)open(scratch.path() / "a" / "b");
  EXPECT_EQ(fs::status(scratch.path() / "a" / "b").permissions(), fs::perms::owner_all);
}

struct Tampering {
  const char* name;
  const char* sql;
};
class Damage : public testing::TestWithParam<Tampering> {};

TEST_P(Damage, is_seen_at_the_next_start_and_nothing_more_is_taken) {
  const ScratchFolder scratch;
  (void)fill(scratch.path());
  sql(scratch.path(), GetParam().sql);
  const auto store = open(scratch.path());
  Loaded loaded = store->load().value();
  ASSERT_TRUE(loaded.trouble.has_value());
  EXPECT_EQ(loaded.trouble->code, Trouble::Code::damaged);
  Committer committer(*store, std::move(loaded));
  const Ask ask{1, {}, {CommandId{{1}}, ClimateReading{{20}, {50}}}};
  const Output output = committer.commit({&ask, 1}, Instant{Seconds{2'000'000'000}}).value();
  EXPECT_TRUE(output.published.empty());
  const ServerFrame frame = decode_server_frame(*output.replies.front().frame).value();
  ASSERT_TRUE(std::holds_alternative<Error>(frame));
  EXPECT_EQ(std::get<Error>(frame).code, ErrorCode::read_only);
}

INSTANTIATE_TEST_SUITE_P(
    Store, Damage,
    testing::Values(
        Tampering{"an_event",
                  "UPDATE journal SET events = zeroblob(length(events)) WHERE revision = 40"},
        Tampering{"a_time", "UPDATE journal SET at = at + 1 WHERE revision = 40"},
        Tampering{"a_device", "UPDATE journal SET device = zeroblob(16) WHERE revision = 40"},
        Tampering{"a_lost_revision", "DELETE FROM journal WHERE revision = 40"},
        Tampering{"a_lost_end", "DELETE FROM journal WHERE revision > 200"},
        Tampering{"a_lost_claim",
                  "DELETE FROM claims WHERE holder = (SELECT max(holder) FROM claims)"},
        Tampering{
            "a_claim",
            "DROP TRIGGER claims_are_replaced; UPDATE claims SET end = end + 60 WHERE holder = 20"},
        Tampering{"stock", "UPDATE stock SET count = count + 1 WHERE kind = 3"},
        Tampering{"an_answer", "UPDATE answers SET bytes = zeroblob(length(bytes))"}),
    [](const auto& param) { return std::string{param.param.name}; });

// One flipped bit anywhere in the file is found, or changes nothing that the store says.
TEST(Store, flipped_bits_are_found_or_harmless) {
  const ScratchFolder scratch;
  const Kept& kept = fill(scratch.path());
  const fs::path file = scratch.path() / "squeezeout.db";
  std::string good(fs::file_size(file), '\0');
  std::ifstream(file, std::ios::binary)
      .read(good.data(), static_cast<std::streamsize>(good.size()));
  std::mt19937 random(11);
  int found = 0, harmless = 0;
  constexpr int kFlips = 150;
  for (int flip = 0; flip < kFlips; ++flip) {
    std::string bad = good;
    bad[random() % bad.size()] ^= static_cast<char>(1U << (random() % 8));
    std::ofstream(file, std::ios::binary | std::ios::trunc) << bad;
    fs::remove(file.string() + "-wal");
    const auto store = open_sqlite_store(scratch.path().string());
    auto loaded = store ? (*store)->load() : Result<Loaded, Trouble>(Unexpected(store.error()));
    if (!loaded || loaded->trouble) {
      ++found;
      continue;
    }
    ++harmless;
    ASSERT_EQ(floor_hash(loaded->floor), kept.hash) << "flip " << flip;
    for (const auto& [command, bytes] : kept.answers)
      ASSERT_EQ((*store)->answer(command).value(), bytes);
  }
  std::printf("flips: %d; found %d, harmless %d\n", kFlips, found, harmless);
  EXPECT_GT(found, kFlips / 2);
}

// A small file system: it fills up, nothing acknowledged is lost, and with room again the store goes on.
TEST(Store, survives_a_full_disk) {
  const ScratchFolder scratch;
  if (::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=24m,mode=0700") != 0) {
    GTEST_SKIP() << "this user may not mount a small file system";
  }
  struct Unmount {
    fs::path path;
    ~Unmount() { ::umount2(path.c_str(), MNT_DETACH); }
  } const unmount{scratch.path()};

  const fs::path ballast = scratch.path() / "ballast";
  std::ofstream(ballast) << std::string(22 * 1024 * 1024, 'x');
  std::map<CommandId, std::string> answers;
  {
    const auto store = open(scratch.path() / "data");
    Committer committer(*store, store->load().value());
    bool was_full = false;
    for (const Stamped& c : week()) {
      const Ask ask{1, c.by, {c.id, c.body}};
      const std::uint64_t hash = floor_hash(committer.floor());
      auto output = committer.commit({&ask, 1}, c.at);
      ASSERT_TRUE(output.has_value()) << to_text(output.error());
      if (committer.trouble()) {
        ASSERT_FALSE(was_full) << "it stays full with room again";
        was_full = true;
        EXPECT_EQ(committer.trouble()->code, Trouble::Code::full);
        EXPECT_EQ(floor_hash(committer.floor()), hash) << "the floor differs from the disk";
        const auto frame = decode_server_frame(*output->replies.front().frame).value();
        EXPECT_EQ(std::get<Error>(frame).code, ErrorCode::read_only);
        fs::remove(ballast);
        output = committer.commit({&ask, 1}, c.at);
        ASSERT_TRUE(output.has_value());
        ASSERT_FALSE(committer.trouble());
      }
      answers[c.id] = *output->replies.front().frame;
    }
    EXPECT_TRUE(was_full);
  }
  const auto store = open(scratch.path() / "data");
  const Loaded loaded = store->load().value();
  EXPECT_FALSE(loaded.trouble);
  EXPECT_EQ(answers.size(), week().size());
  for (const auto& [command, bytes] : answers) EXPECT_EQ(store->answer(command).value(), bytes);
}

}  // namespace
}  // namespace squeezeout
