#include "cli/program.hpp"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace rushlight::tests {

namespace {

std::string all_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

void put_in_place(int wanted, const std::string& path, int flags) {
  const int descriptor = ::open(path.c_str(), flags, 0600);
  if (descriptor < 0 || ::dup2(descriptor, wanted) < 0) ::_exit(126);
}

std::vector<char*> pointers_to(std::vector<std::string>& words) {
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  return pointers;
}

}  // namespace

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "rushlight-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot make a folder");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

void Folder::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(path(name), std::ios::binary) << bytes;
}

std::string Folder::read(const std::string& name) const { return all_of(path(name)); }

Run run_program(const std::vector<std::string>& words, const std::string& input,
                const std::vector<std::string>& settings) {
  const Folder folder;
  folder.write("in", input);
  std::vector<std::string> arguments{RUSHLIGHT_PROGRAM};
  arguments.insert(arguments.end(), words.begin(), words.end());
  std::vector<std::string> environment{"HOME=" + folder.path("home"), "PATH=/usr/bin:/bin", "TZ=UTC"};
  for (const char* sanitizers : {"LSAN_OPTIONS", "ASAN_OPTIONS"}) {
    if (const char* set = std::getenv(sanitizers)) environment.push_back(std::string(sanitizers) + "=" + set);
  }
  environment.insert(environment.end(), settings.begin(), settings.end());
  const std::vector<char*> argument_pointers = pointers_to(arguments);
  const std::vector<char*> environment_pointers = pointers_to(environment);
  const std::string in = folder.path("in"), out = folder.path("out"), err = folder.path("err");
  const pid_t child = ::fork();
  if (child == 0) {
    put_in_place(0, in, O_RDONLY);
    put_in_place(1, out, O_WRONLY | O_CREAT | O_TRUNC);
    put_in_place(2, err, O_WRONLY | O_CREAT | O_TRUNC);
    ::execve(RUSHLIGHT_PROGRAM, argument_pointers.data(), environment_pointers.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, folder.read("out"), folder.read("err")};
}

std::string file_in_tree(const std::string& path) { return all_of(std::string(RUSHLIGHT_SOURCE_DIR) + "/" + path); }

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

}  // namespace rushlight::tests
