// The guard of the SQL tables against the floor's ledger: whatever is put, both say the same.
//   A small world (20 minutes, 3 kinds, few pieces) makes spans touch and overlap all the time.

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdio>
#include <map>
#include <random>
#include <string>

#include "common/gear/ledger.h"

namespace squeezeout::sqlite {
extern const char kSchema[];
}

namespace squeezeout {
namespace {

constexpr int kSequences = 600, kOperations = 200;

class Tables {
 public:
  Tables() {
    sqlite3_open(":memory:", &db_);
    EXPECT_TRUE(run("PRAGMA foreign_keys = ON"));
    EXPECT_TRUE(run(sqlite::kSchema));
    remove_ = prepare("DELETE FROM claims WHERE holder_kind = ? AND holder = ?");
    insert_ = prepare("INSERT INTO claims VALUES (?, ?, ?, ?, ?, ?)");
    stock_ = prepare(
        "INSERT INTO stock VALUES (?, ?, ?) ON CONFLICT (kind) DO UPDATE SET count = "
        "excluded.count, "
        "since = iif(excluded.count < count, excluded.since, since) WHERE count != excluded.count");
  }
  ~Tables() {
    for (sqlite3_stmt* s : {remove_, insert_, stock_}) sqlite3_finalize(s);
    sqlite3_close(db_);
  }
  Tables(const Tables&) = delete;
  Tables& operator=(const Tables&) = delete;

  // False: a guard refused, and nothing changed.
  bool put(Holder holder, const std::vector<Claim>& claims) {
    EXPECT_TRUE(run("BEGIN"));
    const auto what = static_cast<std::int64_t>(holder.what);
    bool took = step(remove_, {what, holder.id});
    for (const Claim& c : claims) {
      took = took && step(insert_, {what, holder.id, c.kind.value, c.count, seconds(c.span.begin),
                                    seconds(c.span.end)});
    }
    EXPECT_TRUE(run(took ? "COMMIT" : "ROLLBACK"));
    return took;
  }
  bool set_stock(GearKindId kind, int count, Instant since) {
    return step(stock_, {kind.value, count, seconds(since)});
  }

 private:
  static std::int64_t seconds(Instant t) { return t.time_since_epoch().count(); }
  bool run(const std::string& sql) {
    return sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
  }
  sqlite3_stmt* prepare(const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    EXPECT_EQ(sqlite3_prepare_v2(db_, sql.c_str(), -1, &statement, nullptr), SQLITE_OK)
        << sqlite3_errmsg(db_);
    return statement;
  }
  bool step(sqlite3_stmt* statement, std::initializer_list<std::int64_t> values) {
    int at = 0;
    for (const std::int64_t v : values) sqlite3_bind_int64(statement, ++at, v);
    const int code = sqlite3_step(statement);
    sqlite3_reset(statement);
    EXPECT_TRUE(code == SQLITE_DONE || code == SQLITE_CONSTRAINT) << sqlite3_errmsg(db_);
    return code == SQLITE_DONE;
  }
  sqlite3* db_ = nullptr;
  sqlite3_stmt *remove_ = nullptr, *insert_ = nullptr, *stock_ = nullptr;
};

// The ledger's verdict, without the CHECK that ends the program.
class Ledger {
 public:
  bool put(Holder holder, const std::vector<Claim>& claims) {
    for (const Claim& c : claims) {
      const Span counted = c.span.intersect({since_.at(c.kind), kNever});
      if (counted.empty()) continue;
      if (ledger_.peak(c.kind, counted, holder).level + c.count > ledger_.stock(c.kind))
        return false;
    }
    ledger_.put(holder, claims);
    return true;
  }
  bool set_stock(GearKindId kind, int count, Instant since) {
    const bool cut = since_.contains(kind) && count < ledger_.stock(kind);
    if (cut && ledger_.peak(kind, {since, kNever}).level > count) return false;
    if (cut || !since_.contains(kind)) since_[kind] = since;
    ledger_.set_stock(kind, count, since);
    return true;
  }

 private:
  GearLedger ledger_;
  std::map<GearKindId, Instant> since_;
};

TEST(Guard, says_what_the_ledger_says) {
  int operations = 0, refused = 0, stock_refused = 0;
  for (int seed = 0; seed < kSequences; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    const auto minute = [&](int n) { return Instant{Minutes{n}}; };
    Tables tables;
    Ledger ledger;
    for (std::uint32_t kind = 1; kind <= 3; ++kind) {
      const int count = below(7);
      ASSERT_TRUE(tables.set_stock({kind}, count, minute(0)));
      ASSERT_TRUE(ledger.set_stock({kind}, count, minute(0)));
    }
    for (int i = 0; i < kOperations; ++i) {
      ++operations;
      if (below(10) == 0) {
        const GearKindId kind{static_cast<std::uint32_t>(1 + below(3))};
        const int count = below(8);
        const Instant since = minute(below(20));
        const bool took = ledger.set_stock(kind, count, since);
        ASSERT_EQ(tables.set_stock(kind, count, since), took)
            << "seed " << seed << ", operation " << i;
        stock_refused += took ? 0 : 1;
        continue;
      }
      const Holder holder{below(5) == 0 ? Holder::What::outage : Holder::What::glue_up,
                          static_cast<std::uint32_t>(1 + below(12))};
      std::vector<Claim> claims;
      for (std::uint32_t kind = 1; kind <= 3; ++kind) {
        if (below(2) == 0) continue;
        const int begin = below(20);
        claims.push_back({{kind}, 1 + below(4), {minute(begin), minute(begin + 1 + below(6))}});
      }
      const bool took = ledger.put(holder, claims);
      ASSERT_EQ(tables.put(holder, claims), took) << "seed " << seed << ", operation " << i;
      refused += took ? 0 : 1;
    }
  }
  std::printf("operations: %d; claims refused %d, stock cuts refused %d; verdicts that differ: 0\n",
              operations, refused, stock_refused);
  EXPECT_GE(operations, 100'000);
  EXPECT_GT(refused, operations / 10);
  EXPECT_GT(stock_refused, 100);
}

}  // namespace
}  // namespace squeezeout
