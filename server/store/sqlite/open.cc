#include "server/store/sqlite/open.h"

#include <fcntl.h>
#include <openssl/rand.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "server/store/sqlite/sqlite_store.h"

namespace squeezeout {
namespace {

namespace fs = std::filesystem;
using sqlite::Db;
using sqlite::SqliteFailure;
using sqlite::Statement;

Trouble not_writable(const fs::path& path, const std::string& why) {
  return {Trouble::Code::read_only, "the data folder " + path.string() + " cannot be used", why,
          "give this user the right to write it, or name another with --data"};
}

// A file's name survives a power cut only when its folder is synced too; SQLite passes over a failure here.
void sync_folder(const fs::path& folder) {
  const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const int synced = fd < 0 ? -1 : ::fsync(fd);
  const std::string why = std::strerror(errno);
  if (fd >= 0) ::close(fd);
  if (synced != 0) throw not_writable(folder, "it cannot be synced to disk: " + why);
}

void make_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::create_directories(folder, error)) {
    fs::permissions(folder, fs::perms::owner_all, error);
    if (!error) sync_folder(fs::absolute(folder).parent_path());
  }
  if (error) throw not_writable(folder, error.message());
}

std::int64_t pragma(Db& db, const std::string& name) {
  Statement read(db, "PRAGMA " + name);
  return read.step() ? read.integer(0) : 0;
}

bool is_empty(Db& db) {
  Statement count(db, "SELECT count(*) FROM sqlite_schema");
  return count.step() && count.integer(0) == 0;
}

void create(Db& db) {
  StoreName name;
  CHECK(RAND_bytes(name.bytes.data(), static_cast<int>(name.bytes.size())) == 1);
  db.run("BEGIN EXCLUSIVE");
  db.run(sqlite::kSchema);
  Statement(db, "INSERT INTO meta VALUES (1, ?, '" SQUEEZEOUT_VERSION "', ?)")
      .with(sqlite::as_blob(name.bytes), std::int64_t{0})
      .run();
  db.run("PRAGMA application_id = " + std::to_string(sqlite::kApplicationId));
  db.run("PRAGMA user_version = " + std::to_string(sqlite::kFormat));
  db.run("COMMIT");
}

void set_up(Db& db) {
  db.run("PRAGMA journal_mode = WAL");
  db.run("PRAGMA synchronous = FULL");
  db.run("PRAGMA foreign_keys = ON");
  db.run("PRAGMA trusted_schema = OFF");
  db.run("PRAGMA cell_size_check = ON");
  db.run("PRAGMA mmap_size = 0");
  db.run("PRAGMA cache_size = -16384");  // KiB
  sqlite3_db_config(db.get(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
}

std::unique_ptr<Store> open_in(const fs::path& folder) {
  make_folder(folder);
  const fs::path file = folder / "squeezeout.db";
  Db db(file.string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX);
  if (sqlite3_db_readonly(db.get(), "main") != 0)
    throw not_writable(folder, file.string() + " is read-only");
  db.run(
      "PRAGMA locking_mode = EXCLUSIVE");  // before the first access: one process, and no shared-memory file

  const std::int64_t application = pragma(db, "application_id");
  const std::int64_t format = pragma(db, "user_version");
  const bool fresh = application == 0 && is_empty(db);
  if (!fresh && application != sqlite::kApplicationId) {
    throw Trouble{Trouble::Code::foreign, file.string() + " is not a store of squeezeout",
                  "its application id says so",
                  "name another folder with --data, or move that file away"};
  }
  if (format > sqlite::kFormat) {
    throw Trouble{Trouble::Code::newer,
                  "the store in " + folder.string() + " was made by a newer squeezeout",
                  "its format is " + std::to_string(format) + ", this program knows up to " +
                      std::to_string(sqlite::kFormat),
                  "start the newer program; this one has changed nothing"};
  }
  set_up(db);
  if (fresh) {
    create(db);
    sync_folder(folder);
  }

  Statement read(db, "SELECT store, archived_before FROM meta");
  if (!read.step()) throw SqliteFailure{SQLITE_CORRUPT, "the table meta is empty"};
  StoreName name;
  const std::string_view bytes = read.blob(0);
  CHECK(bytes.size() == name.bytes.size());
  std::copy(bytes.begin(), bytes.end(), name.bytes.begin());
  const Instant archived_before = sqlite::instant(read.integer(1));
  read.reset();
  return std::make_unique<sqlite::SqliteStore>(std::move(db), name, archived_before);
}

}  // namespace

Result<std::unique_ptr<Store>, Trouble> open_sqlite_store(const std::string& folder) {
  try {
    return open_in(folder);
  } catch (const Trouble& trouble) {
    return Unexpected(trouble);
  } catch (const SqliteFailure& failure) {
    return Unexpected(sqlite::trouble_of(failure, "opening the store in " + folder));
  }
}

}  // namespace squeezeout
