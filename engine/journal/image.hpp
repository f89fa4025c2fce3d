#pragma once

#include <string>
#include <variant>

#include "finding/finding.hpp"

struct sqlite3_vfs;

namespace rushlight {

/// The bytes of a journal and of the rollback file beside it, read under a shared lock so that no write runs between.
struct JournalBytes {
  std::string file;
  std::string rollback;  // empty when no write was left unfinished
};

/// Reads, and changes nothing. Waits up to `patience` milliseconds for a write that is running.
std::variant<JournalBytes, Kind> journal_bytes(sqlite3_vfs* disk, const std::string& path, int patience);

/// The journal as it was before the unfinished write, undone in memory as SQLite will undo it on disk.
/// Refuses a rollback file that names more pages than it holds or holds one that changed: undoing half a write would
/// leave neither the old journal nor the new one.
std::variant<std::string, Kind> image_before_unfinished_write(JournalBytes bytes);

/// Empty when the image is a whole journal of this version: header, tables, trees, every sum and every chain.
std::optional<Kind> fault_of_image(std::string& image);

/// Empty when the first bytes are those of a journal of this version. Says nothing about the rest.
std::optional<Kind> fault_of_header(const std::string& image);

std::uint32_t big_endian(const std::string& bytes, std::size_t at);

}  // namespace rushlight
