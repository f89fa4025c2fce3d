#pragma once

#include <cstdint>
#include <string>

namespace rushlight {

/// The disk as SQLite sees it, with faults on order. It stands between SQLite and the real disk.
class TestDisk {
 public:
  static constexpr const char* kName = "rushlight-test-disk";

  enum class Fault : std::uint8_t {
    disk_full,   // a write, or the making of a file, finds no room
    torn_write,  // half of a write reaches the file, then there is no more room
    device,      // any call fails
    read_only,   // a file cannot be opened for writing
  };

  /// The `nth` call that the fault can hit fails (1 is the next one), and with `for_ever` every one after it.
  static void order(Fault fault, long nth, bool for_ever);
  /// All is well again.
  static void heal();
  /// How many calls failed since the order.
  static long faults_met();

  /// From now on remembers which bytes and names have really reached the disk. What is at `path` now has.
  static void watch_syncs(const std::string& path);
  /// The power fails: every file at or beside `path` becomes what a disk may hold then. Whatever was not synced is kept
  /// or lost piece by piece (sectors of 512 bytes), as `seed` decides. Files must be closed.
  static void pull_the_plug(const std::string& path, std::uint64_t seed);
};

}  // namespace rushlight
