#include <sqlite3.h>
#include <unistd.h>

#include <memory>
#include <utility>

#include "journal/format.hpp"
#include "journal/image.hpp"
#include "journal/journal.hpp"
#include "journal/place.hpp"
#include "journal/statement.hpp"

namespace rushlight {

namespace {

struct CloseStore {
  void operator()(sqlite3* store) const { sqlite3_close(store); }
};
using Store = std::unique_ptr<sqlite3, CloseStore>;

Read<Journal> refused(const std::string& path, const Kind& kind) {
  Read<Journal> nothing;
  nothing.findings.push_back(Finding{Severity::error, Where{path, 0, 0, 0}, kind, std::nullopt});
  return nothing;
}

// One connection with the settings that make "acknowledged" mean "durable": a rollback file that is on the disk before
// the journal is touched, and whose removal is on the disk (EXTRA) before the write counts as done.
std::variant<Store, Kind> connected(const std::string& path, const Journal::Options& options) {
  sqlite3* opened = nullptr;
  int result = sqlite3_open_v2(path.c_str(), &opened, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW, options.disk);
  Store store(opened);
  if (result != SQLITE_OK) return NotReadable{sqlite3_errstr(result)};
  sqlite3_extended_result_codes(opened, 1);
  sqlite3_busy_timeout(opened, options.patience);
  sqlite3_db_config(opened, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(opened, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  for (const char* setting : {"PRAGMA journal_mode=DELETE", "PRAGMA synchronous=EXTRA", "PRAGMA mmap_size=0"}) {
    result = run(opened, setting);
    if (result != SQLITE_OK) return NotReadable{sqlite3_errmsg(opened)};
  }
  return store;
}

std::optional<Kind> fault_of_making_tables(sqlite3* store) {
  const std::string header =
      "PRAGMA page_size=" + std::to_string(journal_format::kPageSize) +
      "; PRAGMA auto_vacuum=NONE; PRAGMA encoding='UTF-8'; BEGIN IMMEDIATE; PRAGMA application_id=" +
      std::to_string(journal_format::kApplicationId) +
      "; PRAGMA user_version=" + std::to_string(journal_format::kVersion) + ";";
  std::string all = header;
  for (const auto& table : journal_format::kTables) all += std::string(table.sql) + ";";
  all += "COMMIT;";
  const int result = sqlite3_exec(store, all.c_str(), nullptr, nullptr, nullptr);
  if (result != SQLITE_OK) return Kind{NotReadable{sqlite3_errmsg(store)}};
  return std::nullopt;
}

// A new journal is made whole under another name and only then gets its own: at its own name there is never half of
// one.
std::optional<Kind> fault_of_making(const std::string& path, const Journal::Options& options) {
  const std::string half = name_of_making(path);
  unlink(half.c_str());  // left by an earlier process with this pid, or by an earlier try
  if (auto fault = make_private_file(half)) return fault;
  std::optional<Kind> fault;
  {
    auto made = connected(half, options);
    fault = std::holds_alternative<Kind>(made) ? std::optional(std::get<Kind>(made))
                                               : fault_of_making_tables(std::get<Store>(made).get());
  }
  bool exists = false;
  if (!fault && !name_for_good(half, path)) {
    // Another program may have made the journal in this moment: then that one is used.
    auto place = private_place(path);
    exists = std::holds_alternative<JournalPlace>(place) && std::get<JournalPlace>(place).exists;
    if (!exists) fault = NotReadable{"it cannot be made here"};
  }
  if (fault || exists) {
    unlink(half.c_str());
    unlink((half + "-journal").c_str());
  }
  return fault;
}

// Everything is judged in memory before SQLite may touch the file: SQLite would undo an unfinished write in a file
// that is about to be refused.
std::optional<Kind> fault_of_file(const std::string& path, const Journal::Options& options) {
  sqlite3_vfs* disk = sqlite3_vfs_find(options.disk);
  if (disk == nullptr) return Kind{NotReadable{"no such disk"}};
  auto read = journal_bytes(disk, path, options.patience);
  if (auto* kind = std::get_if<Kind>(&read)) return *kind;
  auto& bytes = std::get<JournalBytes>(read);
  if (auto fault = fault_of_header(bytes.file)) return fault;
  auto image = image_before_unfinished_write(std::move(bytes));
  if (auto* kind = std::get_if<Kind>(&image)) return *kind;
  return fault_of_image(std::get<std::string>(image));
}

}  // namespace

Read<Journal> Journal::open(const std::string& path, Options options) {
  auto placed = private_place(path);
  if (auto* kind = std::get_if<Kind>(&placed)) return refused(path, *kind);
  const auto& place = std::get<JournalPlace>(placed);
  if (!place.exists) {
    if (auto fault = fault_of_making(place.path, options)) return refused(path, *fault);
  }
  if (auto fault = fault_of_file(place.path, options)) return refused(path, *fault);
  auto connection = connected(place.path, options);
  if (auto* kind = std::get_if<Kind>(&connection)) return refused(path, *kind);
  Read<Journal> opened;
  opened.value.emplace(Journal(std::get<Store>(connection).release(), path));
  return opened;
}

Journal::Journal(Journal&& other) noexcept
    : store_(std::exchange(other.store_, nullptr)), path_(std::move(other.path_)) {}

Journal& Journal::operator=(Journal&& other) noexcept {
  std::swap(store_, other.store_);
  std::swap(path_, other.path_);
  return *this;
}

Journal::~Journal() { sqlite3_close(store_); }

}  // namespace rushlight
