#include "journal/test_disk.hpp"

#include <sqlite3.h>

#include <cstring>
#include <filesystem>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "journal/kept.hpp"

namespace rushlight {

namespace {

enum class Call : std::uint8_t { open, create, read, write, truncate, sync, size, lock, remove, ask };

struct Order {
  TestDisk::Fault fault;
  long nth;
  bool for_ever;
};
std::optional<Order> order;
long calls = 0;
long met = 0;

bool can_hit(TestDisk::Fault fault, Call call) {
  switch (fault) {
    case TestDisk::Fault::disk_full:
      return call == Call::write || call == Call::create;
    case TestDisk::Fault::torn_write:
      return call == Call::write;
    case TestDisk::Fault::device:
      return true;
    case TestDisk::Fault::read_only:
      return false;
  }
  return false;
}

bool fails(Call call) {
  if (!order || !can_hit(order->fault, call)) return false;
  ++calls;
  if (calls != order->nth && !(order->for_ever && calls > order->nth)) return false;
  ++met;
  return true;
}

// What the disk would still hold of a file, and what has been done to it since.
struct Change {
  std::int64_t at;  // where the bytes go; the new size when `cut`
  std::string bytes;
  bool cut;
};
struct Remembered {
  std::optional<std::string> durable;  // empty: the name itself is not on the disk
  std::vector<Change> since;
  bool removed = false;  // its name was removed, but that is not on the disk yet
};
bool watching = false;
std::map<std::string, Remembered> remembered;

struct File {
  sqlite3_file base;
  sqlite3_file* real;
  std::string* path;
};
sqlite3_file* real(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real; }
const std::string& path_of(sqlite3_file* file) { return *reinterpret_cast<File*>(file)->path; }
sqlite3_vfs* below() { return sqlite3_vfs_find("unix"); }

int close_file(sqlite3_file* file) {
  const int result = real(file)->pMethods->xClose(real(file));
  delete reinterpret_cast<File*>(file)->path;
  return result;
}
int read_file(sqlite3_file* file, void* bytes, int size, sqlite3_int64 at) {
  if (fails(Call::read)) return SQLITE_IOERR_READ;
  return real(file)->pMethods->xRead(real(file), bytes, size, at);
}
int write_file(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at) {
  if (fails(Call::write)) {
    if (order->fault == TestDisk::Fault::torn_write) real(file)->pMethods->xWrite(real(file), bytes, size / 2, at);
    return order->fault == TestDisk::Fault::device ? SQLITE_IOERR_WRITE : SQLITE_FULL;
  }
  if (watching) {
    remembered[path_of(file)].since.push_back(
        {at, std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size)), false});
  }
  return real(file)->pMethods->xWrite(real(file), bytes, size, at);
}
int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  if (fails(Call::truncate)) return SQLITE_IOERR_TRUNCATE;
  if (watching) remembered[path_of(file)].since.push_back({size, "", true});
  return real(file)->pMethods->xTruncate(real(file), size);
}
int sync_file(sqlite3_file* file, int how) {
  if (fails(Call::sync)) return SQLITE_IOERR_FSYNC;
  const int result = real(file)->pMethods->xSync(real(file), how);
  if (watching && result == SQLITE_OK) remembered[path_of(file)] = {kept::bytes_of(path_of(file)), {}, false};
  return result;
}
int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
  if (fails(Call::size)) return SQLITE_IOERR_FSTAT;
  return real(file)->pMethods->xFileSize(real(file), size);
}
int lock_file(sqlite3_file* file, int level) {
  if (fails(Call::lock)) return SQLITE_IOERR_LOCK;
  return real(file)->pMethods->xLock(real(file), level);
}
int unlock_file(sqlite3_file* file, int level) { return real(file)->pMethods->xUnlock(real(file), level); }
int check_reserved(sqlite3_file* file, int* reserved) {
  if (fails(Call::lock)) return SQLITE_IOERR_CHECKRESERVEDLOCK;
  return real(file)->pMethods->xCheckReservedLock(real(file), reserved);
}
int control_file(sqlite3_file* file, int what, void* argument) {
  return real(file)->pMethods->xFileControl(real(file), what, argument);
}
int sector_size(sqlite3_file* file) { return real(file)->pMethods->xSectorSize(real(file)); }
int characteristics(sqlite3_file* file) { return real(file)->pMethods->xDeviceCharacteristics(real(file)); }

const sqlite3_io_methods kMethods = {
    1,         close_file,  read_file,      write_file,   truncate_file, sync_file,       size_of_file,
    lock_file, unlock_file, check_reserved, control_file, sector_size,   characteristics, nullptr,
    nullptr,   nullptr,     nullptr,        nullptr,      nullptr};

int open_file(sqlite3_vfs*, sqlite3_filename path, sqlite3_file* file, int flags, int* flags_out) {
  auto* opened = reinterpret_cast<File*>(file);
  opened->base.pMethods = nullptr;
  const bool makes = (flags & SQLITE_OPEN_CREATE) != 0;
  if (fails(makes ? Call::create : Call::open))
    return makes && order->fault == TestDisk::Fault::disk_full ? SQLITE_FULL : SQLITE_CANTOPEN;
  const bool read_only = order && order->fault == TestDisk::Fault::read_only;
  if (read_only && makes) return SQLITE_CANTOPEN;
  if (read_only) flags = (flags & ~SQLITE_OPEN_READWRITE) | SQLITE_OPEN_READONLY;
  if (watching && remembered.count(path) == 0 && kept::exists(path)) remembered[path].durable = kept::bytes_of(path);
  opened->real = reinterpret_cast<sqlite3_file*>(opened + 1);
  const int result = below()->xOpen(below(), path, opened->real, flags, flags_out);
  if (result != SQLITE_OK) return result;
  opened->path = new std::string(path);
  opened->base.pMethods = &kMethods;
  if (watching) remembered[path];
  return SQLITE_OK;
}
int remove_file(sqlite3_vfs*, const char* path, int sync_folder) {
  if (fails(Call::remove)) return SQLITE_IOERR_DELETE;
  const int result = below()->xDelete(below(), path, sync_folder);
  if (watching && result == SQLITE_OK) {
    if (sync_folder)
      remembered.erase(path);
    else
      remembered[path].removed = true;
  }
  return result;
}
int ask_for_file(sqlite3_vfs*, const char* path, int what, int* answer) {
  if (fails(Call::ask)) return SQLITE_IOERR_ACCESS;
  return below()->xAccess(below(), path, what, answer);
}

void register_disk() {
  static sqlite3_vfs disk;
  if (disk.zName != nullptr) return;
  disk = *below();
  disk.szOsFile = static_cast<int>(sizeof(File)) + below()->szOsFile;
  disk.zName = TestDisk::kName;
  disk.pNext = nullptr;
  disk.xOpen = open_file;
  disk.xDelete = remove_file;
  disk.xAccess = ask_for_file;
  sqlite3_vfs_register(&disk, 0);
}

}  // namespace

void TestDisk::order(Fault fault, long nth, bool for_ever) {
  register_disk();
  rushlight::order = Order{fault, nth, for_ever};
  calls = met = 0;
}
void TestDisk::heal() {
  register_disk();
  rushlight::order.reset();
}
long TestDisk::faults_met() { return met; }

void TestDisk::watch_syncs(const std::string& path) {
  register_disk();
  watching = true;
  remembered.clear();
  remembered[path].durable = kept::bytes_of(path);
}

void TestDisk::pull_the_plug(const std::string& path, std::uint64_t seed) {
  constexpr std::size_t kSector = 512;
  watching = false;
  std::mt19937_64 chance(seed);
  const auto heads = [&chance] { return (chance() & 1) != 0; };
  for (auto& [name, file] : remembered) {
    if (name != path && name != path + "-journal") continue;
    std::filesystem::remove(name);
    const bool name_was_synced = file.durable.has_value();
    if (file.removed ? heads() : !name_was_synced && heads()) continue;  // the name is not there after all
    std::string bytes = file.durable.value_or("");
    for (const Change& change : file.since) {
      if (change.cut) {
        if (heads()) bytes.resize(static_cast<std::size_t>(change.at));
        continue;
      }
      for (std::size_t from = 0; from < change.bytes.size(); from += kSector) {
        if (!heads()) continue;
        const std::string piece = change.bytes.substr(from, kSector);
        const auto at = static_cast<std::size_t>(change.at) + from;
        if (bytes.size() < at + piece.size()) bytes.resize(at + piece.size());
        bytes.replace(at, piece.size(), piece);
      }
    }
    kept::write_bytes(name, bytes);
  }
  remembered.clear();
}

}  // namespace rushlight
