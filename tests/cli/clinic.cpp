#include "cli/clinic.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "cli/today.hpp"

namespace rushlight::tests {

namespace fs = std::filesystem;

Run Machine::run(const std::vector<std::string>& words, const std::string& input) const {
  return run_program(words, input, {"XDG_CONFIG_HOME=" + path("settings"), "XDG_DATA_HOME=" + path("data")});
}

const Machine& clinic() {
  static const Machine machine;
  static const bool made = [] {
    const Run made_key = machine.run({"key", "new"}, std::string(kPassphrase) + "\n");
    const Run shown = machine.run({"key", "show", "--out", machine.path("clinic.key")});
    const Run trusted = machine.run({"key", "trust", machine.path("clinic.key"), "--yes"});
    if (made_key.status + shown.status + trusted.status != 0)
      throw std::runtime_error(made_key.err + shown.err + trusted.err);
    return true;
  }();
  (void)made;
  return machine;
}

std::string own_set(const std::string& from) {
  static int number = 0;
  const std::string folder = clinic().path("set-" + std::to_string(++number));
  const Run made = clinic().run({"new-set", "harbour-clinic", "--from", from, "--out", folder});
  if (made.status != 0) throw std::runtime_error(made.err);
  return folder;
}

Run approve(const std::string& set, const std::vector<std::string>& more) {
  std::vector<std::string> words = {"approve", set,          "--as",    "Ana Rill",
                                    "--role",  "consultant", "--until", day_from_today(365)};
  words.insert(words.end(), more.begin(), more.end());
  return clinic().run(words, std::string("approve\n") + kPassphrase + "\n");
}

std::vector<std::pair<std::string, std::string>> bytes_in(const std::string& folder) {
  std::vector<std::pair<std::string, std::string>> files;
  for (const auto& entry : fs::directory_iterator(folder)) {
    std::ifstream file(entry.path(), std::ios::binary);
    files.emplace_back(entry.path().filename().string(), std::string(std::istreambuf_iterator<char>(file), {}));
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string day_from_today(int days) {
  return text_from_day(Day{std::chrono::sys_days(today()) + std::chrono::days(days)});
}

bool tells(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

void change_file(const std::string& path, const std::string& from, const std::string& to) {
  std::ifstream file(path, std::ios::binary);
  std::string text(std::istreambuf_iterator<char>(file), {});
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error(path + " does not hold " + from);
  text.replace(at, from.size(), to);
  std::ofstream(path, std::ios::binary) << text;
}

}  // namespace rushlight::tests
