#include "journal/write.hpp"

#include "journal/statement.hpp"

namespace rushlight {

SaveFailed save_failed(sqlite3* store, int result) {
  using Why = SaveFailed::Why;
  const std::string detail =
      std::string(sqlite3_errmsg(store)) + " (" + std::to_string(sqlite3_extended_errcode(store)) + ")";
  if (result == SQLITE_READONLY_DBMOVED) return {Why::gone, detail};
  switch (result & 0xff) {
    case SQLITE_FULL:
      return {Why::disk_full, detail};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {Why::read_only, detail};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Why::busy, detail};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {Why::damaged, detail};
    default:
      return {Why::device, detail};
  }
}

Write::Write(sqlite3* store) : store_(store) { went_well(run(store, "BEGIN IMMEDIATE")); }

Write::~Write() {
  if (sqlite3_get_autocommit(store_) == 0) run(store_, "ROLLBACK");
}

bool Write::went_well(int result) {
  if (!failed_ && result != SQLITE_OK && result != SQLITE_DONE && result != SQLITE_ROW)
    failed_ = save_failed(store_, result);
  return !failed_;
}

std::optional<SaveFailed> Write::finish() {
  if (!failed_) went_well(run(store_, "COMMIT"));
  return failed_;
}

bool still_claimed(Write& write, sqlite3* store, const Claim& claim) {
  if (write.failed()) return false;
  Statement holder(store, "SELECT token FROM walker WHERE child = ?1");
  const int result = holder.with(claim.child).step();
  return write.went_well(result) && result == SQLITE_ROW && holder.number(0) == claim.token;
}

}  // namespace rushlight
