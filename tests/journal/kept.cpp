#define BOOST_TEST_DYN_LINK
#include "journal/kept.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace rushlight::kept {

namespace {
bool memory_is_there(const std::string& folder) { return access(folder.c_str(), W_OK | X_OK) == 0; }
}  // namespace

Folder::Folder() {
  // In memory where there is such a folder: these tests make their own faults, and a real disk only makes them wait.
  const std::string memory = "/dev/shm";
  std::string pattern =
      (memory_is_there(memory) ? memory : std::filesystem::temp_directory_path().string()) + "/rushlight-XXXXXX";
  if (mkdtemp(pattern.data()) == nullptr) std::abort();
  path_ = pattern;
}
Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void write_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc)
      .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  chmod(path.c_str(), 0600);
}

bool exists(const std::string& path) { return std::filesystem::exists(std::filesystem::symlink_status(path)); }

Files files_at(const std::string& path) { return {bytes_of(path), bytes_of(path + "-journal")}; }

void put_files(const std::string& path, const Files& files) {
  write_bytes(path, files.journal);
  if (files.rollback.empty())
    std::filesystem::remove(path + "-journal");
  else
    write_bytes(path + "-journal", files.rollback);
}

bool same_point(const Files& one, const Files& other) {
  return one.journal == other.journal && one.rollback.size() == other.rollback.size() &&
         one.rollback.substr(0, 12) == other.rollback.substr(0, 12);
}

const Moment kTwoAtNight = *moment_from_text("2026-03-01T02:10:00-05:00");

EpisodeStart start_of(const std::string& child) {
  return {child,
          kTwoAtNight,
          "reference",
          "low",
          "1",
          "<protocol>" + std::string(9000, 'p') + "</protocol>",
          "{\"name\":\"" + child + "\"}"};
}

Walker walker() { return this_walker(kTwoAtNight, "the test"); }

std::string line(std::int64_t seq) {
  return "{\"at\":\"2026-03-01T02:10:00-05:00\",\"answer\":{\"count\":" + std::to_string(seq) + "}}";
}

std::vector<std::string> lines(std::int64_t count) {
  std::vector<std::string> all;
  for (std::int64_t seq = 0; seq < count; ++seq) all.push_back(line(seq));
  return all;
}

Walk walk_with(Journal& journal, std::int64_t events) {
  auto claimed = journal.claim("Wren", walker());
  BOOST_REQUIRE(std::holds_alternative<Claimed>(claimed));
  const Claim claim = std::get<Claimed>(claimed).claim;
  auto begun = journal.begin_episode(claim, start_of("Wren"));
  BOOST_REQUIRE(std::holds_alternative<EpisodeNumber>(begun));
  const auto episode = std::get<EpisodeNumber>(begun);
  for (std::int64_t seq = 0; seq < events; ++seq) BOOST_REQUIRE(!journal.append(claim, episode, seq, line(seq)));
  return {claim, episode};
}

Journal opened(const std::string& path, const char* disk) {
  Journal::Options options;
  options.disk = disk;
  options.patience = 200;
  auto read = Journal::open(path, options);
  BOOST_REQUIRE_MESSAGE(read.value, path << ": " << (read.findings.empty() ? "" : sentence(read.findings[0].kind)));
  return std::move(*read.value);
}

std::vector<std::string> lines_at(const std::string& path) {
  const Journal journal = opened(path);
  auto read = journal.lines_of(EpisodeNumber{1});
  BOOST_REQUIRE(read.value);
  return *read.value;
}

std::string refusal(const std::string& path) {
  Journal::Options options;
  options.patience = 20;
  auto read = Journal::open(path, options);
  if (read.value) return "";
  BOOST_REQUIRE_EQUAL(read.findings.size(), 1U);
  return id_of(read.findings[0].kind);
}

std::string refusal_text(const std::string& path) {
  auto read = Journal::open(path);
  return read.value ? "" : sentence(read.findings.at(0).kind);
}

}  // namespace rushlight::kept
