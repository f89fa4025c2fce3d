#include <sqlite3.h>

#include "journal/format.hpp"
#include "journal/journal.hpp"
#include "journal/statement.hpp"

namespace rushlight {

namespace {

template <class Value>
Read<Value> with_finding(const std::string& path, const Kind& kind) {
  Read<Value> nothing;
  nothing.findings.push_back(Finding{Severity::error, Where{path, 0, 0, 0}, kind, std::nullopt});
  return nothing;
}

constexpr char kWithBytes[] =
    "SELECT episode.id, child, began, protocol_set, protocol, version, ended, events, used.bytes, known.bytes "
    "FROM episode JOIN document AS used ON used.id = protocol_document "
    "JOIN document AS known ON known.id = child_document ";

EpisodeRecord record_of(Statement& at) {
  const auto began = moment_from_text(at.text(2));
  return {
      EpisodeNumber{at.number(0)},
      EpisodeStart{at.text(1), began.value_or(Moment{}), at.text(3), at.text(4), at.text(5), at.text(8), at.text(9)},
      moment_from_text(at.text(6)), at.number(7)};
}

}  // namespace

Finding Journal::unreadable() const {
  const int code = sqlite3_errcode(store_);
  const std::string reason = sqlite3_errmsg(store_);
  const Kind kind =
      code == SQLITE_CORRUPT || code == SQLITE_NOTADB ? Kind{JournalDamaged{reason}} : Kind{NotReadable{reason}};
  return {Severity::error, Where{path_, 0, 0, 0}, kind, std::nullopt};
}

Read<std::optional<EpisodeRecord>> Journal::one_episode(Statement& find) const {
  const int result = find.step();
  Read<std::optional<EpisodeRecord>> read;
  if (result == SQLITE_ROW)
    read.value.emplace(record_of(find));
  else if (result == SQLITE_DONE)
    read.value.emplace(std::nullopt);
  else
    read.findings.push_back(unreadable());
  return read;
}

Read<std::optional<EpisodeRecord>> Journal::open_episode_of(const std::string& child) const {
  Statement find(
      store_,
      (std::string(kWithBytes) + "WHERE child = ?1 AND ended IS NULL ORDER BY episode.id DESC LIMIT 1").c_str());
  return one_episode(find.with(child));
}

Read<std::optional<EpisodeRecord>> Journal::episode(EpisodeNumber number) const {
  Statement find(store_, (std::string(kWithBytes) + "WHERE episode.id = ?1").c_str());
  return one_episode(find.with(number.value));
}

Read<std::vector<EpisodeRecord>> Journal::episodes_of(const std::string& child) const {
  Statement find(store_,
                 "SELECT id, child, began, protocol_set, protocol, version, ended, events, NULL, NULL FROM episode "
                 "WHERE child = ?1 ORDER BY id DESC");
  std::vector<EpisodeRecord> records;
  int result = find.with(child).step();
  for (; result == SQLITE_ROW; result = find.step()) records.push_back(record_of(find));
  Read<std::vector<EpisodeRecord>> read;
  if (result == SQLITE_DONE)
    read.value = std::move(records);
  else
    read.findings.push_back(unreadable());
  return read;
}

Read<std::vector<std::string>> Journal::lines_of(EpisodeNumber episode) const {
  Statement find(store_, "SELECT line, sum FROM event WHERE episode = ?1 ORDER BY seq");
  std::vector<std::string> lines;
  std::int64_t link = journal_format::first_link(episode.value);
  int result = find.with(episode.value).step();
  for (; result == SQLITE_ROW; result = find.step()) {
    lines.push_back(find.text(0));
    link = journal_format::next_link(link, static_cast<std::int64_t>(lines.size()) - 1, lines.back());
    if (link != find.number(1)) {
      return with_finding<std::vector<std::string>>(
          path_, JournalDamaged{"event " + std::to_string(lines.size() - 1) + " of episode " +
                                std::to_string(episode.value) + " has changed"});
    }
  }
  Read<std::vector<std::string>> read;
  if (result == SQLITE_DONE)
    read.value = std::move(lines);
  else
    read.findings.push_back(unreadable());
  return read;
}

}  // namespace rushlight
