#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "finding/finding.hpp"
#include "journal/walker.hpp"
#include "measure/moment.hpp"

struct sqlite3;

namespace rushlight {

/// Why something is not in the journal. It never delays an instruction: the face says "not being saved" and goes on.
struct SaveFailed {
  enum class Why : std::uint8_t {
    disk_full,
    read_only,    // the file, its folder or its disk
    taken_over,   // somebody else walks this child now; nothing was written
    busy,         // another program holds the file; the same call may be tried again
    gone,         // the file was moved or deleted while it was open
    damaged,      // the file is no longer what it was when it was opened
    out_of_step,  // not the next event of an open episode
    not_a_line,   // empty, longer than kMostLineBytes, or with a line end or NUL in it
    device,       // every other failure of the disk
  };
  Why why;
  std::string detail;  // in the words of the system; for a report, not for a caregiver
};

/// An event line is a few hundred bytes; a clinician's words are the longest part. This leaves room and stops a
/// runaway.
inline constexpr std::size_t kMostLineBytes = 64 * 1024;

/// A journal is read whole when it is opened. A low every night fills about 4 kB a day.
inline constexpr long long kMostJournalBytes = 256LL * 1024 * 1024;

struct EpisodeNumber {
  std::int64_t value;
  friend bool operator==(EpisodeNumber, EpisodeNumber) = default;
};

/// What is kept about an episode when it begins. The bytes are those of the files that were used, so that a resume
/// walks the same protocol for the same child even if either file has changed since.
struct EpisodeStart {
  std::string child;  // the name in the child file
  Moment began;
  std::string set, protocol, version;
  std::string protocol_bytes, child_bytes;
};

struct EpisodeRecord {
  EpisodeNumber number;
  EpisodeStart start;
  std::optional<Moment> ended;  // empty: still open
  std::int64_t events;          // how many are kept; the next has this number
};

/// The right to write about one child. It lasts until somebody takes over.
struct Claim {
  std::string child;
  std::int64_t token;
};

struct Claimed {
  Claim claim;
  std::optional<Walker> before;  // who held it without letting go: crashed, or taken over from
};

/// A living walk of the same child. Ask whether to take over.
struct HeldBy {
  Walker walker;
};

/// The store of episodes: one file, one line for each event, nothing acknowledged before it is durable.
/// One thread at a time. Several programs may have the same file open.
class Journal {
 public:
  struct Options {
    const char* disk = nullptr;  // name of the SQLite VFS to go through; null: the system's
    int patience = 2000;         // milliseconds to wait for another program's write
  };

  /// The journal at `path`; a new one, with its folders, when nothing is there. Files are made 0600, folders 0700.
  /// Refuses, and changes not one byte: a symbolic link, a file with a second name, a file of somebody else, one that
  /// others may read, a folder others may write in (not readable); a foreign file (wrong use); a damaged, cut or empty
  /// one (journal damaged); one written by a later Rushlight (journal newer). What a write left unfinished is undone
  /// first. It is not an error if the file can be read but not written: saving then fails as read_only.
  static Read<Journal> open(const std::string& path, Options options);
  static Read<Journal> open(const std::string& path) { return open(path, Options{}); }

  Journal(Journal&& other) noexcept;
  Journal& operator=(Journal&& other) noexcept;
  Journal(const Journal&) = delete;
  Journal& operator=(const Journal&) = delete;
  ~Journal();

  /// Makes `walker` the one who writes about `child`. A walk whose process has died holds nothing.
  std::variant<Claimed, HeldBy, SaveFailed> claim(const std::string& child, const Walker& walker);
  /// The same, also from the living: from then on every save of the other fails as taken_over.
  std::variant<Claimed, SaveFailed> take_over(const std::string& child, const Walker& walker);
  /// Lets go. It is not an error if somebody has taken over.
  std::optional<SaveFailed> release(const Claim& claim);

  /// A new episode of the claim's child. One that was left open ends at the moment this one begins.
  std::variant<EpisodeNumber, SaveFailed> begin_episode(const Claim& claim, const EpisodeStart& start);
  /// Keeps event number `seq` (from 0). Empty: it is durable. After any failure the same call may be repeated: an event
  /// that is already kept with the same line is acknowledged, and never kept twice.
  std::optional<SaveFailed> append(const Claim& claim, EpisodeNumber episode, std::int64_t seq,
                                   const std::string& line);
  /// It is not an error to close a closed episode; the first end stays.
  std::optional<SaveFailed> close_episode(const Claim& claim, EpisodeNumber episode, const Moment& ended);

  /// The episode of the child that has not ended; `value` holds an empty optional when there is none.
  Read<std::optional<EpisodeRecord>> open_episode_of(const std::string& child) const;
  /// All episodes of the child, the latest first, without the bytes of their files.
  Read<std::vector<EpisodeRecord>> episodes_of(const std::string& child) const;
  /// One episode with the bytes of its files; `value` holds an empty optional when there is none of that number.
  Read<std::optional<EpisodeRecord>> episode(EpisodeNumber number) const;
  /// The lines of an episode in order; line n is event number n. Empty for an episode that does not exist.
  Read<std::vector<std::string>> lines_of(EpisodeNumber episode) const;

 private:
  Journal(sqlite3* store, std::string path) : store_(store), path_(std::move(path)) {}
  Finding unreadable() const;
  Read<std::optional<EpisodeRecord>> one_episode(class Statement& find) const;
  sqlite3* store_;
  std::string path_;
};

}  // namespace rushlight
