#pragma once

#include <cstdint>
#include <string_view>

namespace rushlight::journal_format {

// docs/journal-format.md is the page for all of this.
inline constexpr std::uint32_t kApplicationId = 0x52757368;  // "Rush"
inline constexpr std::uint32_t kVersion = 1;
inline constexpr std::uint32_t kPageSize = 4096;

struct JournalTable {
  std::string_view name;
  const char* sql;  // as SQLite keeps it, to the byte: a journal whose tables read otherwise is not ours
};

inline constexpr JournalTable kTables[] = {
    {"document", "CREATE TABLE document(id INTEGER PRIMARY KEY, sum INTEGER NOT NULL, bytes BLOB NOT NULL) STRICT"},
    {"episode",
     "CREATE TABLE episode(id INTEGER PRIMARY KEY, child TEXT NOT NULL, began TEXT NOT NULL, protocol_set TEXT NOT "
     "NULL, "
     "protocol TEXT NOT NULL, version TEXT NOT NULL, protocol_document INTEGER NOT NULL REFERENCES document, "
     "child_document INTEGER NOT NULL REFERENCES document, ended TEXT, events INTEGER NOT NULL, last INTEGER NOT NULL, "
     "sum INTEGER NOT NULL) STRICT"},
    {"event",
     "CREATE TABLE event(episode INTEGER NOT NULL REFERENCES episode, seq INTEGER NOT NULL, line TEXT NOT NULL, "
     "sum INTEGER NOT NULL, PRIMARY KEY(episode, seq)) STRICT, WITHOUT ROWID"},
    {"walker",
     "CREATE TABLE walker(child TEXT NOT NULL PRIMARY KEY, token INTEGER NOT NULL, pid INTEGER NOT NULL, "
     "born TEXT NOT NULL, since TEXT NOT NULL, who TEXT NOT NULL) STRICT, WITHOUT ROWID"},
};

/// FNV-1a, 64 bits, each part preceded by its length. SQLite keeps no checksum of its pages; this finds every change of
/// one byte and any other with a chance of 2^64 to 1. It is against decay, not against forgery.
class Sum {
 public:
  Sum& add(std::string_view part) {
    number(part.size());
    for (const char letter : part) byte(static_cast<unsigned char>(letter));
    return *this;
  }
  Sum& add(std::int64_t part) {
    number(static_cast<std::uint64_t>(part));
    return *this;
  }
  std::int64_t value() const { return static_cast<std::int64_t>(state_); }

 private:
  void byte(unsigned char letter) { state_ = (state_ ^ letter) * 0x100000001b3; }
  void number(std::uint64_t part) {
    for (int shift = 0; shift < 64; shift += 8) byte(static_cast<unsigned char>((part >> shift) & 0xff));
  }
  std::uint64_t state_ = 0xcbf29ce484222325;
};

/// What an episode's row says, as one sum: a change to any column but `sum` changes it.
struct EpisodeRow {
  std::int64_t id;
  std::string_view child, began, set, protocol, version;
  std::int64_t protocol_document, child_document;
  std::string_view ended;  // empty while open
  std::int64_t events, last;
};

inline std::int64_t sum_of(const EpisodeRow& row) {
  return Sum{}
      .add(row.id)
      .add(row.child)
      .add(row.began)
      .add(row.set)
      .add(row.protocol)
      .add(row.version)
      .add(row.protocol_document)
      .add(row.child_document)
      .add(row.ended)
      .add(row.events)
      .add(row.last)
      .value();
}

/// The chain: the sum of an event follows from the one before it, the first from the episode's number.
inline std::int64_t first_link(std::int64_t episode) { return Sum{}.add(episode).value(); }
inline std::int64_t next_link(std::int64_t before, std::int64_t seq, std::string_view line) {
  return Sum{}.add(before).add(seq).add(line).value();
}

}  // namespace rushlight::journal_format
