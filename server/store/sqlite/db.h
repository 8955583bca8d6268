#pragma once
// SQLite with owners: a connection and its statements. Failures are thrown as SqliteFailure within this folder and become
// Trouble at the store's border.

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace squeezeout::sqlite {

struct SqliteFailure {
  int code = 0;  // extended result code
  std::string message;
};

class Db {
 public:
  Db(const std::string& file, int flags);
  void run(const std::string& sql);
  sqlite3* get() const { return db_.get(); }
  [[noreturn]] void fail(int code) const;

 private:
  struct Close {
    void operator()(sqlite3* db) const { sqlite3_close_v2(db); }
  };
  std::unique_ptr<sqlite3, Close> db_;
};

// A prepared statement, used again and again: bind, then step. What is bound must live until reset().
class Statement {
 public:
  Statement(Db& db, std::string_view sql);

  template <class... Values>
  Statement& with(const Values&... values) {
    reset();
    int at = 0;
    (bind(++at, values), ...);
    return *this;
  }
  bool step();  // true: a row is there
  void run() {  // to its end
    while (step()) {
    }
    reset();
  }
  void reset() { sqlite3_reset(statement_.get()); }

  std::int64_t integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }
  bool is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
  }
  std::string_view blob(int column) const;  // until the next step or reset
  std::string_view text(int column) const;

 private:
  void bind(int at, std::int64_t value);
  void bind(int at, std::string_view blob);
  void bind(int at, std::nullptr_t);

  struct Finalize {
    void operator()(sqlite3_stmt* s) const { sqlite3_finalize(s); }
  };
  Db* db_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

}  // namespace squeezeout::sqlite
