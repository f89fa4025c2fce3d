#pragma once

#include <string>
#include <vector>

namespace rushlight::tests {

/// What a run of the built program left behind.
struct Run {
  int status;  // exit status; -1 when it was killed
  std::string out, err;
};

/// Runs the built program with these words and this input, in a home of its own that holds nothing.
/// `settings` are environment variables, "NAME=value".
Run run_program(const std::vector<std::string>& words, const std::string& input = "",
                const std::vector<std::string>& settings = {});

/// A folder of this test's own, made empty; gone with the object.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string path(const std::string& name) const { return path_ + "/" + name; }
  void write(const std::string& name, const std::string& bytes) const;
  std::string read(const std::string& name) const;

 private:
  std::string path_;
};

std::string file_in_tree(const std::string& path);
inline bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
std::vector<std::string> lines_of(const std::string& text);

}  // namespace rushlight::tests
