#include "tests/bench/server/raw_store.h"

#include <stdexcept>

namespace squeezeout::bench {
namespace {

std::string blob(sqlite3_stmt* s, int column) {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(s, column));
  return bytes == nullptr
             ? ""
             : std::string(bytes, static_cast<std::size_t>(sqlite3_column_bytes(s, column)));
}

sqlite3_stmt* prepare(sqlite3* db, const char* sql) {
  sqlite3_stmt* s = nullptr;
  if (sqlite3_prepare_v2(db, sql, -1, &s, nullptr) != SQLITE_OK)
    throw std::runtime_error(sqlite3_errmsg(db));
  return s;
}

void bind(sqlite3_stmt* s, int at, std::int64_t v) { sqlite3_bind_int64(s, at, v); }
void bind(sqlite3_stmt* s, int at, const std::string& v) {
  sqlite3_bind_blob(s, at, v.data(), static_cast<int>(v.size()), SQLITE_STATIC);
}
template <class... Values>
void run(sqlite3_stmt* s, const Values&... values) {
  int at = 0;
  (bind(s, ++at, values), ...);
  if (sqlite3_step(s) != SQLITE_DONE)
    throw std::runtime_error(sqlite3_errmsg(sqlite3_db_handle(s)));
  sqlite3_reset(s);
}

std::int64_t seconds(Instant t) { return t.time_since_epoch().count(); }

}  // namespace

std::size_t Rows::count() const {
  std::size_t n = 2;
  for (const ClaimsPut& put : claims) n += put.claims.size();
  return n;
}

std::vector<Rows> rows_of(const std::filesystem::path& data) {
  sqlite3* db = nullptr;
  sqlite3_open((data / "squeezeout.db").c_str(), &db);
  sqlite3_stmt* s = prepare(
      db,
      "SELECT revision, j.at, j.command, device, events, hash, a.bytes, a.digest FROM journal j "
      "JOIN answers a ON a.command = j.command ORDER BY revision");
  std::vector<Rows> all;
  while (sqlite3_step(s) == SQLITE_ROW) {
    Rows r{sqlite3_column_int64(s, 0),
           sqlite3_column_int64(s, 1),
           blob(s, 2),
           blob(s, 3),
           blob(s, 4),
           blob(s, 5),
           blob(s, 6),
           blob(s, 7),
           {}};
    const auto events = decode_events(r.events);
    for (const Event& event : events.value()) {
      if (auto put = claims_put(event)) r.claims.push_back(std::move(*put));
    }
    all.push_back(std::move(r));
  }
  sqlite3_finalize(s);
  sqlite3_close(db);
  return all;
}

RawStore::RawStore(const std::filesystem::path& folder, const std::filesystem::path& like) {
  sqlite3_open((folder / "raw.db").c_str(), &db_);
  run("PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; "
      "PRAGMA cache_size = -16384");
  run("ATTACH '" + (like / "squeezeout.db").string() + "' AS like");
  std::vector<std::string> tables;
  sqlite3_stmt* s = prepare(
      db_,
      "SELECT sql FROM like.sqlite_schema WHERE type IN ('table', 'index') AND sql IS NOT NULL");
  while (sqlite3_step(s) == SQLITE_ROW) tables.push_back(blob(s, 0));
  sqlite3_finalize(s);
  for (const std::string& sql : tables) run(sql);
  run("INSERT INTO stock SELECT * FROM like.stock; DETACH like");
  journal_ = prepare(db_, "INSERT INTO journal VALUES (?, ?, ?, ?, ?, ?)");
  answer_ = prepare(db_, "INSERT INTO answers VALUES (?, ?, ?, ?)");
  clear_ = prepare(db_, "DELETE FROM claims WHERE holder_kind = ? AND holder = ?");
  claim_ = prepare(db_, "INSERT INTO claims VALUES (?, ?, ?, ?, ?, ?)");
  begin_ = prepare(db_, "BEGIN IMMEDIATE");
  commit_ = prepare(db_, "COMMIT");
}

RawStore::~RawStore() {
  for (sqlite3_stmt* s : {journal_, answer_, clear_, claim_, begin_, commit_}) sqlite3_finalize(s);
  sqlite3_close(db_);
}

void RawStore::run(const std::string& sql) {
  if (sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
    throw std::runtime_error(sqlite3_errmsg(db_));
}

void RawStore::begin() { bench::run(begin_); }
void RawStore::commit() { bench::run(commit_); }

void RawStore::write(const Rows& r) {
  bench::run(journal_, r.revision, r.at, r.command, r.device, r.events, r.hash);
  bench::run(answer_, r.command, r.at, r.answer, r.digest);
  for (const ClaimsPut& put : r.claims) {
    const auto what = static_cast<std::int64_t>(put.holder.what);
    const std::int64_t holder = put.holder.id;
    bench::run(clear_, what, holder);
    for (const Claim& c : put.claims) {
      bench::run(claim_, what, holder, std::int64_t{c.kind.value}, std::int64_t{c.count},
                 seconds(c.span.begin), seconds(c.span.end));
    }
  }
}

}  // namespace squeezeout::bench
