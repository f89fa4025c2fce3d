#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace rushlight {

/// One SQL statement. A failure to prepare or bind is what `step` then gives: one place to look.
class Statement {
 public:
  Statement(sqlite3* store, const char* sql) : result_(sqlite3_prepare_v2(store, sql, -1, &statement_, nullptr)) {}
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement() { sqlite3_finalize(statement_); }

  Statement& with(std::int64_t number) { return bound(sqlite3_bind_int64(statement_, ++place_, number)); }
  Statement& with(std::string_view text) {
    return bound(sqlite3_bind_text64(statement_, ++place_, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  }
  Statement& with_bytes(std::string_view bytes) {
    return bound(sqlite3_bind_blob64(statement_, ++place_, bytes.data() == nullptr ? "" : bytes.data(), bytes.size(),
                                     SQLITE_TRANSIENT));
  }

  /// SQLITE_ROW, SQLITE_DONE or what went wrong.
  int step() { return result_ == SQLITE_OK ? sqlite3_step(statement_) : result_; }

  std::int64_t number(int column) { return sqlite3_column_int64(statement_, column); }
  std::string text(int column) {
    const void* bytes = sqlite3_column_blob(statement_, column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
    return bytes == nullptr ? std::string() : std::string(static_cast<const char*>(bytes), size);
  }

 private:
  Statement& bound(int result) {
    if (result_ == SQLITE_OK) result_ = result;
    return *this;
  }
  sqlite3_stmt* statement_ = nullptr;
  int place_ = 0;
  int result_;
};

/// SQLITE_OK when every row of `sql` was stepped through.
inline int run(sqlite3* store, const char* sql) {
  Statement statement(store, sql);
  int result = statement.step();
  while (result == SQLITE_ROW) result = statement.step();
  return result == SQLITE_DONE ? SQLITE_OK : result;
}

}  // namespace rushlight
