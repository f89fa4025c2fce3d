#pragma once

#include <optional>
#include <string>

#include "journal/journal.hpp"

namespace rushlight {

/// What the failure of the last call on the store means for a save.
SaveFailed save_failed(sqlite3* store, int result);

/// One write, all of it or nothing. Undone when it goes out of scope unfinished.
class Write {
 public:
  explicit Write(sqlite3* store);
  Write(const Write&) = delete;
  Write& operator=(const Write&) = delete;
  ~Write();

  /// Empty while everything went well.
  const std::optional<SaveFailed>& failed() const { return failed_; }
  /// Notes the result of one statement; false when it, or an earlier one, failed. A row or done is success.
  bool went_well(int result);
  /// Empty: everything is durable.
  std::optional<SaveFailed> finish();

 private:
  sqlite3* store_;
  std::optional<SaveFailed> failed_;
};

/// Ends the write as taken over unless the claim still holds.
bool still_claimed(Write& write, sqlite3* store, const Claim& claim);

}  // namespace rushlight
