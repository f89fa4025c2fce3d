#include "cli/new_set_command.hpp"

#include <fcntl.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>

#include "cli/durable.hpp"
#include "cli/embedded.hpp"
#include "cli/plain_text.hpp"
#include "cli/protocol_set.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"
#include "cli/shell_word.hpp"
#include "read/root_values.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

using Files = std::vector<KeptFile>;  // names without a folder

constexpr std::size_t kLongestSetName = 60;

/// Lower-case words joined by hyphens: it stands in the files, and is the folder when no other is named.
bool can_name_a_set(const std::string& name) {
  constexpr const char* kLetters = "abcdefghijklmnopqrstuvwxyz0123456789-";
  return !name.empty() && name.size() <= kLongestSetName && name.find_first_not_of(kLetters) == std::string::npos &&
         name.front() >= 'a' && name.back() != '-' && name.find("--") == std::string::npos;
}

Files files_in_program(const std::string& set) {
  Files files;
  for (const EmbeddedFile& file : embedded_files()) {
    const fs::path path(file.path);
    if (path.parent_path() == set && path.extension() == ".xml")
      files.push_back({path.filename().string(), std::string(file.bytes)});
  }
  return files;
}

std::variant<Files, Finding> files_to_copy(const std::string& from) {
  Files files = files_in_program(from);
  if (!files.empty()) return files;
  std::error_code error;
  if (!fs::is_directory(from, error))
    return whole_error(from, NotReadable{"it is neither a set inside the program nor a folder"});
  for (const std::string& path : files_of_set(from)) {
    FileBytes bytes = bytes_of_file(path, kMostBytes);
    if (auto* finding = std::get_if<Finding>(&bytes)) return std::move(*finding);
    files.push_back({fs::path(path).filename().string(), std::get<std::string>(std::move(bytes))});
  }
  if (files.empty()) return whole_error(from, NotReadable{"this folder holds no protocol (*.xml)"});
  return files;
}

/// The file as the clinic's own.
std::variant<std::string, Finding> made_own(const KeptFile& file, const std::string& name) {
  std::string bytes = without_approval(file.bytes);
  std::vector<std::pair<std::string, std::string>> values = {{"set", name}};
  const std::string root = root_name(bytes);
  if (root == "protocol") values.emplace_back("version", "1");
  if (root != "protocol" && root != "safety" && root != "examples") {
    return cannot_do(file.name, "this is neither a protocol nor the laws of a set",
                     "see what is wrong with it: rushlight check");
  }
  Read<std::string> own = with_root_values(bytes, file.name, values);
  if (!own.value) return own.findings.front();
  return std::move(*own.value);
}

Finding no_folder(const std::string& folder, int error) {
  return whole_error(folder, NotWritten{std::strerror(error), ""});
}

/// Everything in a folder beside, then its name: nobody finds half a set.
std::optional<Finding> write_folder(const std::string& folder, const Files& files) {
  const fs::path target = fs::path(folder).has_filename() ? fs::path(folder) : fs::path(folder).parent_path();
  const fs::path parent = target.parent_path();
  const fs::path beside = parent / ("." + target.filename().string() + ".new-" + std::to_string(::getpid()));
  if (::mkdir(beside.c_str(), 0755) != 0) return no_folder(folder, errno);
  const auto give_up = [&](int error) {
    std::error_code ignored;
    fs::remove_all(beside, ignored);
    return no_folder(folder, error);
  };
  for (const KeptFile& file : files) {
    const fs::path path = beside / file.name;
    const int descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0644);
    if (descriptor < 0) return give_up(errno);
    const bool written = write_durably(descriptor, file.bytes);
    const int error = errno;
    if (::close(descriptor) != 0 || !written) return give_up(error);
  }
  sync_folder(beside.string());
  if (::renameat2(AT_FDCWD, beside.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE) != 0) return give_up(errno);
  sync_folder(parent.string());
  return std::nullopt;
}

std::string list_of(const Files& files) {
  std::string text;
  for (const KeptFile& file : files) text += (text.empty() ? "" : ", ") + file.name;
  return text;
}

}  // namespace

int new_set_command(const NewSetWish& wish, std::ostream& out, std::ostream& err) {
  const std::string last = fs::path(wish.name).filename().string();
  if (wish.name != last && can_name_a_set(last)) {
    return tell_refusal(err,
                        cannot_do("NAME", "`" + cleaned(wish.name) + "` is a path, and a set has a name",
                                  "name it, and its folder behind --out: rushlight new-set " + last + " --from " +
                                      cleaned(shell_word(wish.from)) + " --out " + cleaned(shell_word(wish.name))));
  }
  if (!can_name_a_set(wish.name)) {
    return tell_refusal(err, cannot_do("NAME", "`" + cleaned(wish.name) + "` cannot be the name of a set",
                                       "lower-case words joined by hyphens, like harbour-clinic"));
  }
  if (!files_in_program(wish.name).empty()) {
    return tell_refusal(err, cannot_do("NAME", "`" + wish.name + "` is a set inside the program",
                                       "name yours otherwise, so that nobody takes one for the other"));
  }
  const std::string folder = wish.out.empty() ? wish.name : wish.out;
  struct stat about {};
  if (::lstat(folder.c_str(), &about) == 0) {
    return tell_refusal(err, cannot_do(folder, "something of this name is there already and stays as it is",
                                       "name another folder: --out FOLDER"));
  }
  auto read = files_to_copy(wish.from);
  if (const auto* finding = std::get_if<Finding>(&read)) return tell_refusal(err, *finding);
  Files& files = std::get<Files>(read);
  for (KeptFile& file : files) {
    auto own = made_own(file, wish.name);
    if (const auto* finding = std::get_if<Finding>(&own)) return tell_refusal(err, *finding);
    file.bytes = std::get<std::string>(std::move(own));
  }
  if (const auto finding = write_folder(folder, files)) return tell_refusal(err, *finding);
  std::error_code error;
  const std::string whole = fs::absolute(folder, error).lexically_normal().string();
  const std::string word = cleaned(shell_word(folder));
  out << cleaned(folder) << " holds your own set `" << wish.name << "`, version 1: " << cleaned(list_of(files)) << "\n"
      << "Nobody has approved it.\n"
      << "Check it after every change:     rushlight check " << word << "\n"
      << "Walk by it:                      rushlight walk --protocols " << word << "\n"
      << "Or for one child, in its file:   \"protocols\": \"" << cleaned(whole) << "\"\n"
      << "When it is right, approve it:    rushlight approve " << word << " --as NAME --role ROLE --until DATE\n";
  return 0;
}

}  // namespace rushlight
