#include <sqlite3.h>

#include <utility>

#include "journal/format.hpp"
#include "journal/journal.hpp"
#include "journal/statement.hpp"
#include "journal/write.hpp"

namespace rushlight {

using namespace journal_format;

namespace {

const SaveFailed kTakenOver{SaveFailed::Why::taken_over, "another walk of this child writes here now"};
const SaveFailed kOutOfStep{SaveFailed::Why::out_of_step, "not the next event of an open episode of this child"};

// A night after a night uses the same files: each is kept once.
std::int64_t kept_document(Write& write, sqlite3* store, std::string_view bytes) {
  const std::int64_t sum = Sum{}.add(bytes).value();
  if (write.failed()) return 0;
  Statement same(store, "SELECT id FROM document WHERE sum = ?1 AND bytes = ?2");
  const int found = same.with(sum).with_bytes(bytes).step();
  if (!write.went_well(found)) return 0;
  if (found == SQLITE_ROW) return same.number(0);
  Statement keep(store, "INSERT INTO document(sum, bytes) VALUES(?1, ?2)");
  write.went_well(keep.with(sum).with_bytes(bytes).step());
  return sqlite3_last_insert_rowid(store);
}

constexpr char kRowColumns[] =
    "SELECT id, child, began, protocol_set, protocol, version, protocol_document, child_document, ended, events, last "
    "FROM episode ";

struct Row {
  std::int64_t id;
  std::string child, began, set, protocol, version;
  std::int64_t protocol_document, child_document;
  std::string ended;
  std::int64_t events, last;

  std::int64_t sum() const {
    return sum_of({id, child, began, set, protocol, version, protocol_document, child_document, ended, events, last});
  }
};

Row row_of(Statement& at) {
  return {at.number(0), at.text(1),   at.text(2), at.text(3),   at.text(4),   at.text(5),
          at.number(6), at.number(7), at.text(8), at.number(9), at.number(10)};
}

std::optional<Row> row_with(Write& write, sqlite3* store, EpisodeNumber episode) {
  if (write.failed()) return std::nullopt;
  Statement find(store, (std::string(kRowColumns) + "WHERE id = ?1").c_str());
  const int result = find.with(episode.value).step();
  if (!write.went_well(result) || result != SQLITE_ROW) return std::nullopt;
  return row_of(find);
}

void keep_end(Write& write, sqlite3* store, const Row& row) {
  if (write.failed()) return;
  Statement change(store, "UPDATE episode SET ended = ?2, sum = ?3 WHERE id = ?1");
  write.went_well(change.with(row.id).with(row.ended).with(row.sum()).step());
}

void end_what_is_open(Write& write, sqlite3* store, const std::string& child, const std::string& ended) {
  if (write.failed()) return;
  std::vector<Row> open;
  {
    Statement find(store, (std::string(kRowColumns) + "WHERE child = ?1 AND ended IS NULL").c_str());
    int result = find.with(child).step();
    for (; result == SQLITE_ROW; result = find.step()) open.push_back(row_of(find));
    write.went_well(result);
  }
  for (Row& row : open) {
    row.ended = ended;
    keep_end(write, store, row);
  }
}

bool is_a_line(const std::string& line) {
  return !line.empty() && line.size() <= kMostLineBytes &&
         line.find_first_of(std::string("\n\r\0", 3)) == std::string::npos;
}

}  // namespace

std::variant<EpisodeNumber, SaveFailed> Journal::begin_episode(const Claim& claim, const EpisodeStart& start) {
  Write write(store_);
  if (!still_claimed(write, store_, claim)) return write.failed().value_or(kTakenOver);
  if (start.child != claim.child) return kOutOfStep;
  const std::string began = text_from_moment(start.began);
  end_what_is_open(write, store_, claim.child, began);
  Row row{0, start.child, began, start.set, start.protocol, start.version, 0, 0, "", 0, 0};
  row.protocol_document = kept_document(write, store_, start.protocol_bytes);
  row.child_document = kept_document(write, store_, start.child_bytes);
  if (!write.failed()) {
    Statement next(store_, "SELECT coalesce(max(id), 0) + 1 FROM episode");
    if (write.went_well(next.step())) row.id = next.number(0);
  }
  row.last = first_link(row.id);
  if (!write.failed()) {
    Statement keep(store_,
                   "INSERT INTO episode(id, child, began, protocol_set, protocol, version, protocol_document, "
                   "child_document, events, last, sum) VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)");
    write.went_well(keep.with(row.id)
                        .with(row.child)
                        .with(row.began)
                        .with(row.set)
                        .with(row.protocol)
                        .with(row.version)
                        .with(row.protocol_document)
                        .with(row.child_document)
                        .with(row.events)
                        .with(row.last)
                        .with(row.sum())
                        .step());
  }
  if (auto failed = write.finish()) return *failed;
  return EpisodeNumber{row.id};
}

std::optional<SaveFailed> Journal::append(const Claim& claim, EpisodeNumber episode, std::int64_t seq,
                                          const std::string& line) {
  if (!is_a_line(line)) return SaveFailed{SaveFailed::Why::not_a_line, "an event is one line"};
  Write write(store_);
  if (!still_claimed(write, store_, claim)) return write.failed().value_or(kTakenOver);
  auto row = row_with(write, store_, episode);
  if (!row || row->child != claim.child) return write.failed().value_or(kOutOfStep);
  if (seq >= 0 && seq < row->events) {
    // Said again after a failure that came too late to undo anything.
    Statement kept(store_, "SELECT line FROM event WHERE episode = ?1 AND seq = ?2");
    const int result = kept.with(episode.value).with(seq).step();
    if (!write.went_well(result)) return write.failed();
    if (result == SQLITE_ROW && kept.text(0) == line) return std::nullopt;
    return kOutOfStep;
  }
  if (seq != row->events || !row->ended.empty()) return kOutOfStep;
  row->last = next_link(row->last, seq, line);
  row->events = seq + 1;
  {
    Statement keep(store_, "INSERT INTO event(episode, seq, line, sum) VALUES(?1, ?2, ?3, ?4)");
    write.went_well(keep.with(episode.value).with(seq).with(line).with(row->last).step());
  }
  if (!write.failed()) {
    Statement count(store_, "UPDATE episode SET events = ?2, last = ?3, sum = ?4 WHERE id = ?1");
    write.went_well(count.with(row->id).with(row->events).with(row->last).with(row->sum()).step());
  }
  return write.finish();
}

std::optional<SaveFailed> Journal::close_episode(const Claim& claim, EpisodeNumber episode, const Moment& ended) {
  Write write(store_);
  if (!still_claimed(write, store_, claim)) return write.failed().value_or(kTakenOver);
  auto row = row_with(write, store_, episode);
  if (!row || row->child != claim.child) return write.failed().value_or(kOutOfStep);
  if (!row->ended.empty()) return std::nullopt;
  row->ended = text_from_moment(ended);
  keep_end(write, store_, *row);
  return write.finish();
}

}  // namespace rushlight
