#pragma once
// The store in SQLite; opened by open.h. schema.sql is the tables, FORMAT.md their meaning.
//   Invariant  claims and stock say the same as the floor's ledger at the last revision, but for claims that ended before
//              meta.archived_before; chain_ is the hash of that revision

#include <optional>

#include "server/store/chain.h"
#include "server/store/sqlite/db.h"
#include "server/store/store.h"

namespace squeezeout::sqlite {

extern const char kSchema[];                       // schema.sql
inline constexpr int kApplicationId = 0x53715a65;  // "SqZe"
inline constexpr int kFormat = 1;
inline constexpr int kKeepSnapshots = 2;

class SqliteStore final : public Store {
 public:
  SqliteStore(Db db, StoreName name, Instant archived_before);

  StoreName name() const override { return name_; }
  Result<Loaded, Trouble> load() override;
  Result<Done, Trouble> append(const Batch& batch) override;
  Result<std::optional<std::string>, Trouble> answer(CommandId command) override;
  Result<Done, Trouble> keep_snapshot(const Floor& floor, Instant now) override;
  void close() override;

 private:
  struct Statements {
    explicit Statements(Db& db);
    Statement insert_entry, insert_answer, select_answer, select_claims, delete_claim, insert_claim,
        put_stock;
  };
  struct Start {  // where replay starts
    std::uint64_t revision = 0;
    Instant at{};
    std::string hash;  // of the chain there; empty: at the journal's begin
    Floor floor;
  };

  void keep(const Entry& entry, const Digest& hash, const std::string& events);
  void keep(const KeptAnswer& answer);
  void put_claims(const ClaimsPut& put);

  void check_file();  // these throw Trouble
  Start newest_snapshot();
  void replay(Loaded& loaded);
  void check_answers();
  void check_tables(const Floor& floor);
  Instant archive(
      Instant now);  // claims that ended before what it returns are no longer in the table

  Db db_;
  std::optional<Statements> statements_;
  StoreName name_;
  Instant archived_before_;
  std::uint64_t revision_ = 0;
  Instant at_{};
  Digest chain_{};
};

// What a failure of SQLite means for what was being done.
[[nodiscard]] Trouble trouble_of(const SqliteFailure& failure, const std::string& doing);

inline std::int64_t seconds(Instant t) { return t.time_since_epoch().count(); }
inline Instant instant(std::int64_t s) { return Instant{Seconds{s}}; }
template <class Bytes>
std::string_view as_blob(const Bytes& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

}  // namespace squeezeout::sqlite
