#include "journal/image.hpp"

#include <sqlite3.h>

#include <cstddef>
#include <memory>

#include "journal/format.hpp"
#include "journal/journal.hpp"

namespace rushlight {

using journal_format::kPageSize;

namespace {

// A file opened through the disk the journal itself will use, so that its locks and its faults are the same.
class DiskFile {
 public:
  DiskFile(sqlite3_vfs* disk, const std::string& path, int kind)
      : room_(std::make_unique<std::max_align_t[]>(static_cast<std::size_t>(disk->szOsFile) / sizeof(std::max_align_t) +
                                                   1)),
        name_(sqlite3_create_filename(path.c_str(), (path + "-journal").c_str(), "", 0, nullptr)) {
    result = name_ == nullptr ? SQLITE_NOMEM : disk->xOpen(disk, name_, file(), kind | SQLITE_OPEN_READONLY, nullptr);
  }
  DiskFile(const DiskFile&) = delete;
  DiskFile& operator=(const DiskFile&) = delete;
  ~DiskFile() {
    if (result == SQLITE_OK) file()->pMethods->xClose(file());
    sqlite3_free_filename(name_);
  }

  sqlite3_file* file() { return reinterpret_cast<sqlite3_file*>(room_.get()); }
  const sqlite3_io_methods& does() { return *file()->pMethods; }

  // SQLITE_OK, SQLITE_TOOBIG or the fault.
  int read_all(std::string& bytes) {
    sqlite3_int64 size = 0;
    if (const int failed = does().xFileSize(file(), &size)) return failed;
    if (size > kMostJournalBytes) return SQLITE_TOOBIG;
    bytes.resize(static_cast<std::size_t>(size));
    return size == 0 ? SQLITE_OK : does().xRead(file(), bytes.data(), static_cast<int>(size), 0);
  }

  int result;

 private:
  std::unique_ptr<std::max_align_t[]> room_;
  sqlite3_filename name_;
};

Kind not_read(int result) {
  if (result == SQLITE_TOOBIG) return TooLarge{"journal", kMostJournalBytes + 1, kMostJournalBytes};
  return NotReadable{sqlite3_errstr(result)};
}

constexpr char kRollbackMagic[] = "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7";
constexpr std::size_t kMagicBytes = 8;
constexpr std::size_t kRecordBytes = 4 + kPageSize + 4;

// As SQLite makes it: the header's nonce and every 200th byte, counted from the end.
std::uint32_t record_sum(std::uint32_t nonce, const std::string& bytes, std::size_t page_at) {
  std::uint32_t sum = nonce;
  for (std::size_t at = kPageSize - 200; at > 0; at -= at < 200 ? at : 200) {
    sum += static_cast<unsigned char>(bytes[page_at + at]);
  }
  return sum;
}

}  // namespace

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
  std::uint32_t number = 0;
  for (std::size_t offset = 0; offset < 4; ++offset)
    number = number << 8 | static_cast<unsigned char>(bytes[at + offset]);
  return number;
}

std::variant<JournalBytes, Kind> journal_bytes(sqlite3_vfs* disk, const std::string& path, int patience) {
  DiskFile journal(disk, path, SQLITE_OPEN_MAIN_DB);
  if (journal.result != SQLITE_OK) return not_read(journal.result);
  int locked = journal.does().xLock(journal.file(), SQLITE_LOCK_SHARED);
  for (int waited = 0; locked == SQLITE_BUSY && waited < patience; ++waited) {
    disk->xSleep(disk, 1000);
    locked = journal.does().xLock(journal.file(), SQLITE_LOCK_SHARED);
  }
  if (locked != SQLITE_OK) return not_read(locked);

  JournalBytes bytes;
  int result = journal.read_all(bytes.file);
  const std::string rollback_path = path + "-journal";
  int exists = 0;
  int being_written = 0;
  if (result == SQLITE_OK) result = disk->xAccess(disk, rollback_path.c_str(), SQLITE_ACCESS_EXISTS, &exists);
  // A living writer's rollback file is its own; it cannot touch the journal while we hold the shared lock.
  if (result == SQLITE_OK && exists) result = journal.does().xCheckReservedLock(journal.file(), &being_written);
  if (result == SQLITE_OK && exists && !being_written) {
    DiskFile rollback(disk, rollback_path, SQLITE_OPEN_MAIN_JOURNAL);
    result = rollback.result == SQLITE_OK ? rollback.read_all(bytes.rollback) : rollback.result;
    // A writer may have finished, and deleted it, in between.
    int still_exists = 1;
    if (result == SQLITE_CANTOPEN) disk->xAccess(disk, rollback_path.c_str(), SQLITE_ACCESS_EXISTS, &still_exists);
    if (!still_exists) result = SQLITE_OK;
  }
  journal.does().xUnlock(journal.file(), SQLITE_LOCK_NONE);
  if (result != SQLITE_OK) return not_read(result);
  return bytes;
}

std::variant<std::string, Kind> image_before_unfinished_write(JournalBytes bytes) {
  const std::string& rollback = bytes.rollback;
  std::string image = std::move(bytes.file);
  std::size_t at = 0;
  std::uint32_t pages = 0;
  while (at + 28 <= rollback.size() && rollback.compare(at, kMagicBytes, kRollbackMagic, kMagicBytes) == 0) {
    const std::uint32_t records = big_endian(rollback, at + 8);
    const std::uint32_t nonce = big_endian(rollback, at + 12);
    const std::uint32_t sector = big_endian(rollback, at + 20);
    if (big_endian(rollback, at + 24) != kPageSize || sector < 32 || sector > 65536 || (sector & (sector - 1)) != 0) {
      return JournalDamaged{"the file that undoes its last write has another shape"};
    }
    if (at + sector > rollback.size()) break;  // the header itself was never finished: nothing was overwritten yet
    if (at == 0) {
      pages = big_endian(rollback, 16);
      // A journal only grows. SQLite would fill the missing pages with nothing.
      if (image.size() < std::size_t{pages} * kPageSize)
        return JournalDamaged{"it is shorter than before its last write"};
      image.resize(std::size_t{pages} * kPageSize);
    }
    at += sector;
    for (std::uint32_t record = 0; record < records; ++record, at += kRecordBytes) {
      if (at + kRecordBytes > rollback.size())
        return JournalDamaged{"the file that undoes its last write is cut short"};
      const std::uint32_t page = big_endian(rollback, at);
      if (record_sum(nonce, rollback, at + 4) != big_endian(rollback, at + 4 + kPageSize) || page == 0) {
        return JournalDamaged{"the file that undoes its last write has changed"};
      }
      if (page > pages) continue;
      const std::size_t place = std::size_t{page - 1} * kPageSize;
      image.replace(place, kPageSize, rollback, at + 4, kPageSize);
    }
    at = (at + sector - 1) / sector * sector;
  }
  return image;
}

}  // namespace rushlight
