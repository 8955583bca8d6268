#include "server/store/sqlite/sqlite_store.h"

#include <algorithm>
#include <utility>

namespace squeezeout::sqlite {
namespace {

Digest answer_digest(const KeptAnswer& answer) {
  return sha256({as_blob(answer.command.bytes), *answer.bytes});
}

std::int64_t number(Holder::What what) { return static_cast<std::int64_t>(what); }

}  // namespace

Trouble trouble_of(const SqliteFailure& failure, const std::string& doing) {
  const std::string why = failure.message + " (SQLite " + std::to_string(failure.code) + ")";
  switch (failure.code & 0xff) {
    case SQLITE_FULL:
      return {Trouble::Code::full, doing + ": the disk is full", why,
              "make room; the server goes on by itself"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Trouble::Code::locked, doing + ": the store is in use",
              "another server holds its lock (" + why + ")",
              "stop the other server, or name another folder with --data"};
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
      return {Trouble::Code::read_only, doing + ": the store cannot be written", why,
              "give this user the right to write the folder and its files, or name another with "
              "--data"};
    case SQLITE_NOTADB:
      return {Trouble::Code::foreign, doing + ": squeezeout.db is not a store", why,
              "name another folder with --data, or move that file away"};
    case SQLITE_CORRUPT:
      return {Trouble::Code::damaged, doing + ": the store is damaged", why,
              "restore the last good backup"};
    default:
      return {Trouble::Code::broken, doing + ": the disk failed", why,
              "look at the disk, then start the server again"};
  }
}

SqliteStore::Statements::Statements(Db& db)
    : insert_entry(db, "INSERT INTO journal VALUES (?, ?, ?, ?, ?, ?)"),
      insert_answer(db, "INSERT INTO answers VALUES (?, ?, ?, ?)"),
      select_answer(db, "SELECT bytes, digest FROM answers WHERE command = ?"),
      select_claims(db,
                    "SELECT kind, count, begin, end FROM claims WHERE holder_kind = ? AND holder = "
                    "? ORDER BY kind"),
      delete_claim(db, "DELETE FROM claims WHERE holder_kind = ? AND holder = ? AND kind = ?"),
      insert_claim(db, "INSERT INTO claims VALUES (?, ?, ?, ?, ?, ?)"),
      // More stock than before cannot break what was promised under the smaller one: its beginning stays.
      put_stock(db,
                "INSERT INTO stock VALUES (?, ?, ?) ON CONFLICT (kind) DO UPDATE SET count = "
                "excluded.count, "
                "since = iif(excluded.count < count, excluded.since, since) WHERE count != "
                "excluded.count") {}

SqliteStore::SqliteStore(Db db, StoreName name, Instant archived_before)
    : db_(std::move(db)),
      name_(name),
      archived_before_(archived_before),
      chain_(chain_begin(name)) {
  statements_.emplace(db_);
}

Result<Done, Trouble> SqliteStore::append(const Batch& batch) {
  if (batch.entries.empty() && batch.answers.empty()) return Done{};
  Digest chain = chain_;
  std::uint64_t revision = revision_;
  try {
    db_.run("BEGIN IMMEDIATE");
    for (const Entry& entry : batch.entries) {
      CHECK(entry.revision == ++revision);
      const std::string events = encode_events(entry.events);
      chain = chain_next(chain, entry, events);
      keep(entry, chain, events);
    }
    for (const KeptAnswer& answer : batch.answers) keep(answer);
    db_.run("COMMIT");
  } catch (const SqliteFailure& failure) {
    if ((failure.code & 0xff) == SQLITE_CONSTRAINT) {
      std::fprintf(stderr, "squeezeout: bug: the store refuses what the floor granted: %s\n",
                   failure.message.c_str());
      CHECK(!"the ledger and the guard agree");
    }
    Trouble trouble = trouble_of(failure, "keeping revision " + std::to_string(revision));
    if (sqlite3_get_autocommit(db_.get()) == 0) {
      try {
        db_.run("ROLLBACK");
      } catch (const SqliteFailure& again) {
        return Unexpected(trouble_of({SQLITE_IOERR, again.message}, "taking back a revision"));
      }
    }
    return Unexpected(std::move(trouble));
  }
  chain_ = chain;
  revision_ = revision;
  if (!batch.entries.empty()) at_ = batch.entries.back().at;
  return Done{};
}

void SqliteStore::keep(const Entry& entry, const Digest& hash, const std::string& events) {
  Statement& insert = statements_->insert_entry;
  const auto revision = static_cast<std::int64_t>(entry.revision);
  const std::string_view device = as_blob(entry.device.bytes);
  if (entry.command) {
    insert.with(revision, seconds(entry.at), as_blob(entry.command->bytes), device,
                std::string_view{events}, as_blob(hash));
  } else {
    insert.with(revision, seconds(entry.at), nullptr, device, std::string_view{events},
                as_blob(hash));
  }
  insert.run();
  for (const Event& event : entry.events) {
    if (const auto* s = std::get_if<StockSet>(&event)) {
      statements_->put_stock
          .with(std::int64_t{s->kind.value}, std::int64_t{s->count}, seconds(s->at))
          .run();
    }
    if (const auto put = claims_put(event)) put_claims(*put);
  }
}

void SqliteStore::put_claims(const ClaimsPut& put) {
  const std::int64_t holder = put.holder.id;
  std::vector<Claim> had;
  Statement& select = statements_->select_claims.with(number(put.holder.what), holder);
  while (select.step()) {
    had.push_back({GearKindId{static_cast<std::uint32_t>(select.integer(0))},
                   static_cast<int>(select.integer(1)),
                   {instant(select.integer(2)), instant(select.integer(3))}});
  }
  select.reset();

  std::vector<Claim> want = put.claims;
  std::erase_if(want, [&](const Claim& c) { return c.span.end < archived_before_; });
  std::vector<Claim> gone, fresh;
  std::set_difference(had.begin(), had.end(), want.begin(), want.end(), std::back_inserter(gone));
  std::set_difference(want.begin(), want.end(), had.begin(), had.end(), std::back_inserter(fresh));
  for (const Claim& c : gone) {
    statements_->delete_claim.with(number(put.holder.what), holder, std::int64_t{c.kind.value})
        .run();
  }
  for (const Claim& c : fresh) {
    statements_->insert_claim
        .with(number(put.holder.what), holder, std::int64_t{c.kind.value}, std::int64_t{c.count},
              seconds(c.span.begin), seconds(c.span.end))
        .run();
  }
}

void SqliteStore::keep(const KeptAnswer& answer) {
  const Digest digest = answer_digest(answer);
  statements_->insert_answer
      .with(as_blob(answer.command.bytes), seconds(answer.at), std::string_view{*answer.bytes},
            as_blob(digest))
      .run();
}

Result<std::optional<std::string>, Trouble> SqliteStore::answer(CommandId command) {
  try {
    Statement& select = statements_->select_answer.with(as_blob(command.bytes));
    std::optional<std::string> found;
    if (select.step()) {
      found.emplace(select.blob(0));
      const Digest digest = sha256({as_blob(command.bytes), *found});
      if (select.blob(1) != as_text(digest)) {
        select.reset();
        return Unexpected(trouble_of({SQLITE_CORRUPT, "an answer differs from its digest"},
                                     "looking up an answer"));
      }
    }
    select.reset();
    return found;
  } catch (const SqliteFailure& failure) {
    return Unexpected(trouble_of(failure, "looking up an answer"));
  }
}

Result<Done, Trouble> SqliteStore::keep_snapshot(const Floor& floor, Instant now) {
  try {
    db_.run("BEGIN IMMEDIATE");
    if (revision_ > 0) {
      const std::string bytes = encode_floor(floor);
      const Digest digest = sha256({as_blob(chain_), bytes});
      Statement(db_, "INSERT OR REPLACE INTO snapshots VALUES (?, ?, ?, ?, ?)")
          .with(static_cast<std::int64_t>(revision_), seconds(at_), as_blob(chain_),
                std::string_view{bytes}, as_blob(digest))
          .run();
      Statement(db_,
                "DELETE FROM snapshots WHERE revision NOT IN "
                "(SELECT revision FROM snapshots ORDER BY revision DESC LIMIT ?)")
          .with(std::int64_t{kKeepSnapshots})
          .run();
    }
    const Instant archived_before = archive(now);
    db_.run("COMMIT");
    archived_before_ = archived_before;
    return Done{};
  } catch (const SqliteFailure& failure) {
    if (sqlite3_get_autocommit(db_.get()) == 0)
      sqlite3_exec(db_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
    return Unexpected(trouble_of(failure, "keeping a snapshot"));
  }
}

Instant SqliteStore::archive(Instant now) {
  const Instant before = std::max(archived_before_, now - kKeepClaims);
  Statement(db_, "DELETE FROM claims WHERE end < ?").with(seconds(before)).run();
  Statement(db_, "UPDATE meta SET archived_before = ?").with(seconds(before)).run();

  std::vector<std::string> old;
  Statement select(db_, "SELECT command FROM answers WHERE at < ? AND bytes != x''");
  select.with(seconds(now - kKeepAnswers));
  while (select.step()) old.emplace_back(select.blob(0));
  Statement forget(db_, "UPDATE answers SET bytes = x'', digest = ? WHERE command = ?");
  for (const std::string& command : old) {
    const Digest digest = sha256({command, {}});
    forget.with(as_blob(digest), std::string_view{command}).run();
  }
  return before;
}

void SqliteStore::close() {
  statements_.reset();
  try {
    db_.run("PRAGMA wal_checkpoint(TRUNCATE)");
  } catch (const SqliteFailure&) {
    // The log stays and is read at the next start.
  }
}

}  // namespace squeezeout::sqlite
