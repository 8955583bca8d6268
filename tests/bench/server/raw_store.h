#pragma once
// What SQLite alone can do: the rows that a server kept, written again into a plain file with the same tables and the same
// durability, and without guard, hash or decision.

#include <sqlite3.h>

#include <filesystem>
#include <string>
#include <vector>

#include "server/store/store.h"

namespace squeezeout::bench {

// The rows of one command.
struct Rows {
  std::int64_t revision = 0, at = 0;
  std::string command, device, events, hash, answer, digest;
  std::vector<ClaimsPut> claims;
  std::size_t count() const;
};

// Of every command that changed the floor, in order, as a stopped server left them.
[[nodiscard]] std::vector<Rows> rows_of(const std::filesystem::path& data);

class RawStore {
 public:
  // `like`: a server's folder, whose tables and stock it gets.
  RawStore(const std::filesystem::path& folder, const std::filesystem::path& like);
  ~RawStore();
  RawStore(const RawStore&) = delete;
  RawStore& operator=(const RawStore&) = delete;

  void begin();
  void write(const Rows& rows);
  void commit();  // returns when it is durable

 private:
  void run(const std::string& sql);
  sqlite3* db_ = nullptr;
  sqlite3_stmt *journal_ = nullptr, *answer_ = nullptr, *clear_ = nullptr, *claim_ = nullptr;
  sqlite3_stmt *begin_ = nullptr, *commit_ = nullptr;
};

}  // namespace squeezeout::bench
