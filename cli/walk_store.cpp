#include "cli/walk_store.hpp"

#include <utility>

#include "cli/past_night.hpp"
#include "cli/resumed.hpp"

namespace rushlight {

std::optional<Walker> WalkStore::claim(const std::string& child) {
  if (!journal_) return std::nullopt;
  auto answer = journal_->claim(child, walker_);
  if (const auto* held = std::get_if<HeldBy>(&answer)) return held->walker;
  if (auto* claimed = std::get_if<Claimed>(&answer)) claim_ = std::move(claimed->claim);
  return std::nullopt;
}

void WalkStore::take_over(const std::string& child) {
  if (!journal_) return;
  auto answer = journal_->take_over(child, walker_);
  if (auto* claimed = std::get_if<Claimed>(&answer)) claim_ = std::move(claimed->claim);
  taken_over_ = false;
}

void WalkStore::let_go() {
  if (journal_ && claim_ && !taken_over_) journal_->release(*claim_);
  claim_.reset();
}

Read<std::optional<Unfinished>> WalkStore::unfinished(const std::string& child) const {
  if (journal_) return unfinished_episode(*journal_, child);
  Read<std::optional<Unfinished>> nothing;
  nothing.value.emplace(std::nullopt);
  return nothing;
}

History WalkStore::past(const std::string& child, GlucoseUnit unit, const Moment& now) const {
  History past;
  if (!journal_) return past;
  const Read<std::vector<EpisodeRecord>> episodes = journal_->episodes_of(child);
  if (!episodes.value) return past;
  KeptSets sets;
  for (auto episode = episodes.value->rbegin(); episode != episodes.value->rend(); ++episode) {  // the oldest first
    constexpr std::chrono::hours kTwoWeeks{24 * 14};
    if (episode->start.began.utc + kTwoWeeks < now.utc) continue;
    const Read<std::vector<std::string>> lines = journal_->lines_of(episode->number);
    const Read<std::optional<EpisodeRecord>> whole = journal_->episode(episode->number);
    if (!lines.value || !whole.value || !*whole.value) continue;
    const auto night = resumed_from(**whole.value, *lines.value, sets);
    // Of a night that its protocol no longer reads, what the lines say by themselves.
    if (const auto* read = std::get_if<Resumed>(&night))
      add_night_to_history(past, read->protocol.checked.protocol(), read->episode);
    else
      add_lines_to_history(past, *lines.value, unit);
  }
  keep_recent(past, now);
  return past;
}

void WalkStore::begin(EpisodeStart start) {
  start_ = std::move(start);
  episode_.reset();
  lines_.clear();
  kept_ = 0;
  retry();
}

void WalkStore::go_on_with(const Unfinished& unfinished) {
  start_.reset();
  episode_ = unfinished.record.number;
  lines_ = unfinished.lines;
  kept_ = lines_.size();
}

bool WalkStore::save(const std::string& line) {
  lines_.push_back(line);
  return retry();
}

bool WalkStore::retry() {
  if (!journal_ || taken_over_) return false;
  if (!claim_ && start_ && claim(start_->child)) return false;  // the disk came back, but somebody else walks by now
  if (!claim_) return false;
  if (!episode_ && start_) {
    auto begun = journal_->begin_episode(*claim_, *start_);
    if (const auto* number = std::get_if<EpisodeNumber>(&begun)) episode_ = *number;
    if (const auto* failed = std::get_if<SaveFailed>(&begun)) taken_over_ = failed->why == SaveFailed::Why::taken_over;
  }
  while (episode_ && kept_ < lines_.size()) {
    const auto failed = journal_->append(*claim_, *episode_, static_cast<std::int64_t>(kept_), lines_[kept_]);
    if (failed) {
      taken_over_ = failed->why == SaveFailed::Why::taken_over;
      return false;
    }
    ++kept_;
  }
  return is_saving();
}

void WalkStore::close(const Moment& ended) {
  if (retry() && episode_) journal_->close_episode(*claim_, *episode_, ended);
}

}  // namespace rushlight
