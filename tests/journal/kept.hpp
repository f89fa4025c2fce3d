#pragma once

#include <string>
#include <vector>

#include "journal/journal.hpp"
#include "sanitized.hpp"

namespace rushlight::kept {

/// Where every byte or every length is tried: one in so many of them.
inline constexpr std::size_t kStride = tests::kSanitized ? 5 : 1;

/// A folder of the test alone, gone with its files afterwards.
class Folder {
 public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();
  const std::string& path() const { return path_; }
  std::string file(const std::string& name = "journal.db") const { return path_ + "/" + name; }

 private:
  std::string path_;
};

std::string bytes_of(const std::string& path);
void write_bytes(const std::string& path, const std::string& bytes);  // 0600
bool exists(const std::string& path);

/// A journal and what stands beside it, as bytes.
struct Files {
  std::string journal, rollback;
  friend bool operator==(const Files&, const Files&) = default;
};
Files files_at(const std::string& path);
void put_files(const std::string& path, const Files& files);

/// True when both lie there at the same point of the same write (the nonce of a rollback file differs each time).
bool same_point(const Files& one, const Files& other);

extern const Moment kTwoAtNight;
EpisodeStart start_of(const std::string& child);
Walker walker();  // this test
std::string line(std::int64_t seq);
std::vector<std::string> lines(std::int64_t count);

/// A claim and an episode of "Wren" with so many events; fails the test otherwise.
struct Walk {
  Claim claim;
  EpisodeNumber episode;
};
Walk walk_with(Journal& journal, std::int64_t events);

Journal opened(const std::string& path, const char* disk = nullptr);

/// The lines of episode 1 of the journal at `path`; fails the test when it cannot be opened.
std::vector<std::string> lines_at(const std::string& path);

/// The id of the finding that refuses the journal at `path`; "" when it opens.
std::string refusal(const std::string& path);
std::string refusal_text(const std::string& path);

}  // namespace rushlight::kept
