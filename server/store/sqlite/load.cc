// load(): the floor from snapshot and journal, and the proof that all parts of the file agree.

#include <algorithm>
#include <map>

#include "common/floor/apply.h"
#include "server/store/sqlite/sqlite_store.h"

namespace squeezeout::sqlite {
namespace {

Trouble damaged(const std::string& why) {
  return {Trouble::Code::damaged, "the store is damaged; it is open for reading only", why,
          "stop the server and restore the last good backup"};
}

template <class Id>
Id id_of(std::string_view blob) {
  Id id;
  if (blob.size() != id.bytes.size()) throw damaged("an id is not 16 bytes long");
  std::copy(blob.begin(), blob.end(), id.bytes.begin());
  return id;
}

}  // namespace

Result<Loaded, Trouble> SqliteStore::load() {
  Loaded loaded;
  const auto attempt = [&](auto step) {
    try {
      step();
    } catch (const Trouble& trouble) {
      if (!loaded.trouble) loaded.trouble = trouble;
    } catch (const SqliteFailure& failure) {
      if ((failure.code & 0xff) != SQLITE_CORRUPT) throw;
      if (!loaded.trouble) loaded.trouble = damaged(failure.message);
    }
  };
  try {
    attempt([&] { check_file(); });
    attempt([&] { replay(loaded); });
    attempt([&] { check_answers(); });
    if (!loaded.trouble) attempt([&] { check_tables(loaded.floor); });
  } catch (const SqliteFailure& failure) {
    return Unexpected(trouble_of(failure, "reading the store"));
  }
  return loaded;
}

void SqliteStore::check_file() {
  Statement integrity(db_, "PRAGMA integrity_check(1)");
  if (integrity.step() && integrity.text(0) != "ok") throw damaged(std::string{integrity.text(0)});
  Statement foreign(db_, "PRAGMA foreign_key_check");
  if (foreign.step()) throw damaged("a claim names a gear kind that has no stock");
}

SqliteStore::Start SqliteStore::newest_snapshot() {
  Statement select(
      db_,
      "SELECT revision, at, hash, bytes, digest FROM snapshots ORDER BY revision DESC LIMIT 1");
  if (!select.step()) return {};
  const std::string_view bytes = select.blob(3);
  const Digest digest = sha256({select.blob(2), bytes});
  if (select.blob(4) != as_text(digest)) throw damaged("a snapshot differs from its digest");
  auto floor = decode_floor(bytes);
  if (!floor) throw damaged("a snapshot cannot be read: " + floor.error().what);
  return {static_cast<std::uint64_t>(select.integer(0)), instant(select.integer(1)),
          std::string{select.blob(2)}, std::move(floor).value()};
}

void SqliteStore::replay(Loaded& loaded) {
  Start start = newest_snapshot();
  loaded.floor = std::move(start.floor);
  loaded.revision = loaded.snapshot = start.revision;
  loaded.at = start.at;
  chain_ = chain_begin(name_);
  revision_ = 0;

  Statement select(
      db_, "SELECT revision, at, command, device, events, hash FROM journal ORDER BY revision");
  while (select.step()) {
    Entry entry;
    entry.revision = static_cast<std::uint64_t>(select.integer(0));
    entry.at = instant(select.integer(1));
    if (!select.is_null(2)) entry.command = id_of<CommandId>(select.blob(2));
    entry.device = id_of<DeviceId>(select.blob(3));
    const std::string_view events = select.blob(4);
    const std::string name = "revision " + std::to_string(entry.revision);
    if (entry.revision != revision_ + 1)
      throw damaged("the journal lacks revision " + std::to_string(revision_ + 1));
    const Digest hash = chain_next(chain_, entry, events);
    if (select.blob(5) != as_text(hash))
      throw damaged(name + " of the journal differs from its hash");
    chain_ = hash;
    revision_ = entry.revision;
    at_ = entry.at;
    if (entry.revision == start.revision && start.hash != as_text(hash)) {
      throw damaged("the snapshot at " + name + " was made of another journal");
    }
    if (entry.revision <= start.revision) continue;
    const auto decoded = decode_events(events);
    if (!decoded) throw damaged(name + " cannot be read: " + decoded.error().what);
    for (const Event& event : *decoded) apply(loaded.floor, event);
    loaded.revision = entry.revision;
    loaded.at = entry.at;
  }
  if (revision_ < start.revision) {
    throw damaged("the journal ends before the snapshot at revision " +
                  std::to_string(start.revision));
  }
}

void SqliteStore::check_answers() {
  Statement select(db_, "SELECT command, bytes, digest FROM answers");
  while (select.step()) {
    const Digest digest = sha256({select.blob(0), select.blob(1)});
    if (select.blob(2) != as_text(digest)) throw damaged("an answer differs from its digest");
  }
}

void SqliteStore::check_tables(const Floor& floor) {
  std::map<Holder, std::vector<Claim>> table;
  Statement claims(
      db_, "SELECT holder_kind, holder, kind, count, begin, end FROM claims ORDER BY 1, 2, 3");
  while (claims.step()) {
    const Holder holder{static_cast<Holder::What>(claims.integer(0)),
                        static_cast<std::uint32_t>(claims.integer(1))};
    table[holder].push_back({GearKindId{static_cast<std::uint32_t>(claims.integer(2))},
                             static_cast<int>(claims.integer(3)),
                             {instant(claims.integer(4)), instant(claims.integer(5))}});
  }
  std::map<Holder, std::vector<Claim>> ledger;
  floor.gear.each([&](Holder holder, const std::vector<Claim>& held) {
    std::vector<Claim> kept = held;
    std::erase_if(kept, [&](const Claim& c) { return c.span.end < archived_before_; });
    if (!kept.empty()) ledger.emplace(holder, std::move(kept));
  });
  if (table != ledger) throw damaged("the table of claims differs from what the journal says");

  std::map<GearKindId, std::int64_t> stock;
  Statement select(db_, "SELECT kind, count FROM stock");
  while (select.step())
    stock[GearKindId{static_cast<std::uint32_t>(select.integer(0))}] = select.integer(1);
  std::map<GearKindId, std::int64_t> owned;
  for (const auto& [kind, set] : floor.stock) owned[kind] = set.count;
  if (stock != owned) throw damaged("the table of stock differs from what the journal says");
}

}  // namespace squeezeout::sqlite
