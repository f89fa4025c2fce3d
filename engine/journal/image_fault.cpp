#include <memory>

#include "journal/format.hpp"
#include "journal/image.hpp"
#include "journal/statement.hpp"
#include "measure/moment.hpp"

namespace rushlight {

using namespace journal_format;

namespace {

std::optional<Kind> damaged(const std::string& what) { return Kind{JournalDamaged{what}}; }

// Trigger, view or column added by another program: what it does to a write is not known.
std::optional<Kind> fault_of_tables(sqlite3* store) {
  Statement tables(store, "SELECT name, sql FROM sqlite_schema ORDER BY name");
  int result = tables.step();
  for (const JournalTable& table : kTables) {
    if (result != SQLITE_ROW || tables.text(0) != table.name || tables.text(1) != table.sql) {
      return damaged("its tables are not those of a journal");
    }
    result = tables.step();
  }
  if (result != SQLITE_DONE) return damaged("its tables are not those of a journal");
  return std::nullopt;
}

std::optional<Kind> fault_of_trees(sqlite3* store) {
  Statement check(store, "PRAGMA quick_check(1)");
  if (check.step() != SQLITE_ROW || check.text(0) != "ok") return damaged("its pages do not fit together");
  return std::nullopt;
}

std::optional<Kind> fault_of_documents(sqlite3* store) {
  Statement documents(store, "SELECT sum, bytes FROM document");
  int result = documents.step();
  for (; result == SQLITE_ROW; result = documents.step()) {
    if (Sum{}.add(documents.text(1)).value() != documents.number(0))
      return damaged("a protocol or child file in it has changed");
  }
  if (result != SQLITE_DONE) return damaged("the protocol and child files in it cannot be read");
  return std::nullopt;
}

// Walks the episodes and, beside them, all events in the same order: an event too few, too many or changed stands out.
std::optional<Kind> fault_of_episodes(sqlite3* store) {
  Statement episodes(
      store,
      "SELECT id, child, began, protocol_set, protocol, version, protocol_document, child_document, ended, "
      "events, last, sum, EXISTS(SELECT 1 FROM document WHERE document.id = protocol_document) AND "
      "EXISTS(SELECT 1 FROM document WHERE document.id = child_document) FROM episode ORDER BY id");
  Statement events(store, "SELECT episode, seq, line, sum FROM event ORDER BY episode, seq");
  int event = events.step();
  int episode = episodes.step();
  for (; episode == SQLITE_ROW; episode = episodes.step()) {
    const std::string child = episodes.text(1), began = episodes.text(2), set = episodes.text(3),
                      protocol = episodes.text(4), version = episodes.text(5), ended = episodes.text(8);
    const EpisodeRow row{episodes.number(0),
                         child,
                         began,
                         set,
                         protocol,
                         version,
                         episodes.number(6),
                         episodes.number(7),
                         ended,
                         episodes.number(9),
                         episodes.number(10)};
    const std::string name = "episode " + std::to_string(row.id);
    if (sum_of(row) != episodes.number(11)) return damaged(name + " has changed");
    if (!moment_from_text(began) || (!ended.empty() && !moment_from_text(ended))) return damaged(name + " has no time");
    if (episodes.number(12) != 1) return damaged(name + " has lost its protocol or child file");
    std::int64_t link = first_link(row.id);
    std::int64_t seq = 0;
    for (; event == SQLITE_ROW && events.number(0) == row.id; event = events.step(), ++seq) {
      link = next_link(link, seq, events.text(2));
      if (events.number(1) != seq || events.number(3) != link) {
        return damaged("event " + std::to_string(seq) + " of " + name + " has changed");
      }
    }
    if (seq != row.events || link != row.last) {
      return damaged(name + " holds " + std::to_string(seq) + " of " + std::to_string(row.events) + " events");
    }
  }
  if (episode != SQLITE_DONE || event != SQLITE_DONE) return damaged("it has events that belong to no episode");
  return std::nullopt;
}

}  // namespace

std::optional<Kind> fault_of_header(const std::string& image) {
  static const std::string magic("SQLite format 3\0", 16);
  if (image.empty()) return damaged("it is empty");
  const bool is_cut = image.size() < 100 && magic.compare(0, image.size(), image, 0, 16) == 0;
  if (is_cut) return damaged("it is cut short: " + std::to_string(image.size()) + " bytes are left");
  if (image.size() < 100 || image.compare(0, 16, magic) != 0 || big_endian(image, 68) != kApplicationId) {
    // Not "damaged": nothing is wrong with a file that another program wrote.
    return Kind{WrongUse{"this file is not a Rushlight journal, or its beginning was overwritten",
                         "name another file: `--journal FILE`"}};
  }
  const std::uint32_t version = big_endian(image, 60);
  if (version > kVersion) return Kind{JournalNewer{std::to_string(version), std::to_string(kVersion)}};
  const bool known_shape = big_endian(image, 16) == ((kPageSize << 16) | 0x0101) && image[20] == 0;
  if (version != kVersion || !known_shape) return damaged("its first page has changed");
  return std::nullopt;
}

std::optional<Kind> fault_of_image(std::string& image) {
  if (auto fault = fault_of_header(image)) return fault;
  const std::size_t said = std::size_t{big_endian(image, 28)} * kPageSize;
  if (image.size() < said) {
    return damaged("it is cut short: " + std::to_string(image.size()) + " of " + std::to_string(said) + " bytes");
  }
  if (image.size() > said) return damaged("something was added behind its end");

  sqlite3* opened = nullptr;
  const int result = sqlite3_open(":memory:", &opened);
  const std::unique_ptr<sqlite3, int (*)(sqlite3*)> store(opened, sqlite3_close);
  if (result != SQLITE_OK) return Kind{NotReadable{sqlite3_errstr(result)}};
  sqlite3_db_config(opened, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  const auto size = static_cast<sqlite3_int64>(image.size());
  if (sqlite3_deserialize(opened, "main", reinterpret_cast<unsigned char*>(image.data()), size, size,
                          SQLITE_DESERIALIZE_READONLY) != SQLITE_OK) {
    return Kind{NotReadable{sqlite3_errmsg(opened)}};
  }
  for (auto* fault_of : {fault_of_tables, fault_of_trees, fault_of_documents, fault_of_episodes}) {
    if (auto fault = fault_of(opened)) return fault;
  }
  return std::nullopt;
}

}  // namespace rushlight
