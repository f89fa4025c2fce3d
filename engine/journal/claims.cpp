#include <sqlite3.h>

#include "journal/journal.hpp"
#include "journal/statement.hpp"
#include "journal/write.hpp"

namespace rushlight {

namespace {

using Outcome = std::variant<Claimed, HeldBy, SaveFailed>;

std::int64_t new_token() {
  std::int64_t token = 0;
  sqlite3_randomness(sizeof token, &token);
  return token;
}

Outcome claimed(sqlite3* store, const std::string& child, const Walker& walker, bool from_the_living) {
  Write write(store);
  Claimed claimed{{child, new_token()}, std::nullopt};
  if (!write.failed()) {
    Statement holder(store, "SELECT pid, born, since, who FROM walker WHERE child = ?1");
    const int result = holder.with(child).step();
    if (write.went_well(result) && result == SQLITE_ROW) {
      const auto since = moment_from_text(holder.text(2));
      claimed.before = Walker{holder.number(0), holder.text(1), since.value_or(walker.since), holder.text(3)};
      if (!from_the_living && is_alive(*claimed.before)) return HeldBy{*claimed.before};
    }
  }
  if (!write.failed()) {
    Statement hold(store,
                   "INSERT OR REPLACE INTO walker(child, token, pid, born, since, who) VALUES(?1, ?2, ?3, ?4, ?5, ?6)");
    write.went_well(hold.with(child)
                        .with(claimed.claim.token)
                        .with(walker.pid)
                        .with(walker.born)
                        .with(text_from_moment(walker.since))
                        .with(walker.who)
                        .step());
  }
  if (auto failed = write.finish()) return *failed;
  return claimed;
}

}  // namespace

Outcome Journal::claim(const std::string& child, const Walker& walker) { return claimed(store_, child, walker, false); }

std::variant<Claimed, SaveFailed> Journal::take_over(const std::string& child, const Walker& walker) {
  Outcome outcome = claimed(store_, child, walker, true);
  if (auto* failed = std::get_if<SaveFailed>(&outcome)) return *failed;
  return std::get<Claimed>(outcome);
}

std::optional<SaveFailed> Journal::release(const Claim& claim) {
  Write write(store_);
  if (!write.failed()) {
    Statement let_go(store_, "DELETE FROM walker WHERE child = ?1 AND token = ?2");
    write.went_well(let_go.with(claim.child).with(claim.token).step());
  }
  return write.finish();
}

}  // namespace rushlight
