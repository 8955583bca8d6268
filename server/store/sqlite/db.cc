#include "server/store/sqlite/db.h"

namespace squeezeout::sqlite {

Db::Db(const std::string& file, int flags) {
  sqlite3* db = nullptr;
  const int code = sqlite3_open_v2(file.c_str(), &db, flags, nullptr);
  db_.reset(db);
  if (code != SQLITE_OK) fail(code);
  sqlite3_extended_result_codes(db, 1);
}

void Db::run(const std::string& sql) {
  const int code = sqlite3_exec(db_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

void Db::fail(int code) const {
  const int extended = db_ ? sqlite3_extended_errcode(db_.get()) : code;
  throw SqliteFailure{extended, db_ ? sqlite3_errmsg(db_.get()) : sqlite3_errstr(code)};
}

Statement::Statement(Db& db, std::string_view sql) : db_(&db) {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v3(db.get(), sql.data(), static_cast<int>(sql.size()),
                                      SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  statement_.reset(statement);
  if (code != SQLITE_OK) db.fail(code);
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  db_->fail(code);
}

std::string_view Statement::blob(int column) const {
  const void* bytes = sqlite3_column_blob(statement_.get(), column);
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return bytes == nullptr
             ? std::string_view{}
             : std::string_view{static_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

std::string_view Statement::text(int column) const { return blob(column); }

void Statement::bind(int at, std::int64_t value) {
  if (const int code = sqlite3_bind_int64(statement_.get(), at, value); code != SQLITE_OK)
    db_->fail(code);
}

void Statement::bind(int at, std::string_view blob) {
  // A null pointer would bind NULL; an empty blob is not nothing.
  const char* bytes = blob.data() == nullptr ? "" : blob.data();
  const int code = sqlite3_bind_blob64(statement_.get(), at, bytes, blob.size(), SQLITE_STATIC);
  if (code != SQLITE_OK) db_->fail(code);
}

void Statement::bind(int at, std::nullptr_t) {
  if (const int code = sqlite3_bind_null(statement_.get(), at); code != SQLITE_OK) db_->fail(code);
}

}  // namespace squeezeout::sqlite
