#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/journal.hpp"
#include "journal/resume.hpp"
#include "wire/history_from_json.hpp"

namespace rushlight {

/// One walk's place in the journal. A save that fails keeps its line and is tried again with the next one, so that a
/// full disk that is cleared later loses nothing; the walk goes on meanwhile and says so.
class WalkStore {
 public:
  /// A walk that keeps nothing.
  WalkStore() = default;
  WalkStore(Journal journal, Walker walker) : journal_(std::move(journal)), walker_(std::move(walker)) {}

  /// Takes the right to write about the child. The living walker who has it already, if somebody has.
  std::optional<Walker> claim(const std::string& child);
  /// Takes it from the living.
  void take_over(const std::string& child);
  void let_go();

  /// The child's unfinished episode, as kept.
  Read<std::optional<Unfinished>> unfinished(const std::string& child) const;

  /// What the journal tells of the child's last two weeks; nothing without a journal.
  History past(const std::string& child, GlucoseUnit unit, const Moment& now) const;

  void begin(EpisodeStart start);
  void go_on_with(const Unfinished& unfinished);
  /// Keeps one more line, and those that could not be kept before. False: it is not kept (yet).
  bool save(const std::string& line);
  /// Tries again what is not kept yet.
  bool retry();
  void close(const Moment& ended);

  /// Everything said so far is on the disk.
  bool is_saving() const { return journal_.has_value() && episode_.has_value() && kept_ == lines_.size(); }
  /// Somebody took over since: nothing more is kept from here.
  bool was_taken_over() const { return taken_over_; }
  /// Forgets the last line, which was refused because somebody took over.
  void forget_last() {
    if (kept_ < lines_.size()) lines_.pop_back();
  }
  const std::vector<std::string>& lines() const { return lines_; }

 private:
  std::optional<Journal> journal_;
  Walker walker_{};
  std::optional<Claim> claim_;
  std::optional<EpisodeStart> start_;  // of an episode that is not kept yet
  std::optional<EpisodeNumber> episode_;
  std::vector<std::string> lines_;
  std::size_t kept_ = 0;
  bool taken_over_ = false;
};

}  // namespace rushlight
