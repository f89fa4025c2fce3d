#include "house/source_text.hpp"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cctype>
#include <fstream>
#include <sstream>

namespace rushlight::house {
namespace {

/// Walks through the text once; whatever is not code becomes a blank, line ends stay.
class Cutter {
 public:
  explicit Cutter(const std::string& text) : text_(text) {}

  SourceText cut() {
    while (at_ < text_.size()) {
      if (starts("//")) {
        blank_until("\n", false);
      } else if (starts("/*")) {
        blank_until("*/", true);
      } else if (starts("R\"") && !word_before()) {
        raw_string();
      } else if (text_[at_] == '"') {
        if (on_include_line()) {
          keep();
          while (at_ < text_.size() && text_[at_] != '"' && text_[at_] != '\n') keep();
          keep();
        } else {
          quoted('"');
        }
      } else if (text_[at_] == '\'' && !word_before()) {  // after a digit it only groups digits
        quoted('\'');
      } else {
        keep();
      }
    }
    return std::move(result_);
  }

 private:
  bool starts(const std::string& what) const { return text_.compare(at_, what.size(), what) == 0; }
  bool word_before() const { return at_ > 0 && std::isalnum(static_cast<unsigned char>(text_[at_ - 1])) != 0; }
  bool on_include_line() const {
    const std::size_t begin = result_.code.rfind('\n') + 1;
    return result_.code.compare(begin, 8, "#include") == 0;
  }

  void keep() {
    if (at_ < text_.size()) result_.code += text_[at_];
    step();
  }
  void blank() {
    result_.code += text_[at_] == '\n' ? '\n' : ' ';
    step();
  }
  void step() {
    if (at_ < text_.size() && text_[at_] == '\n') ++line_;
    ++at_;
  }
  void blank_until(const std::string& end, bool with_end) {
    while (at_ < text_.size() && !starts(end)) blank();
    for (std::size_t i = 0; with_end && i < end.size() && at_ < text_.size(); ++i) blank();
  }
  void raw_string() {
    const std::size_t open = text_.find('(', at_);
    const std::string end = ")" + text_.substr(at_ + 2, open - at_ - 2) + "\"";
    const int line = line_;
    while (at_ <= open && at_ < text_.size()) blank();
    const std::size_t begin = at_;
    while (at_ < text_.size() && !starts(end)) blank();
    result_.strings.push_back({text_.substr(begin, at_ - begin), line});
    for (std::size_t i = 0; i < end.size() && at_ < text_.size(); ++i) blank();
  }
  void quoted(char mark) {
    const int line = line_;
    blank();
    const std::size_t begin = at_;
    while (at_ < text_.size() && text_[at_] != mark && text_[at_] != '\n') {
      if (text_[at_] == '\\' && at_ + 1 < text_.size()) blank();
      blank();
    }
    if (mark == '"') result_.strings.push_back({text_.substr(begin, at_ - begin), line});
    if (at_ < text_.size()) blank();
  }

  const std::string& text_;
  std::size_t at_ = 0;
  int line_ = 1;
  SourceText result_;
};

}  // namespace

SourceText taken_apart(const std::string& text) { return Cutter(text).cut(); }

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file, path << " can be read");
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

std::vector<std::filesystem::path> files_below(const std::filesystem::path& folder,
                                               const std::vector<std::string>& endings) {
  std::vector<std::filesystem::path> found;
  for (auto entry = std::filesystem::recursive_directory_iterator(folder);
       entry != std::filesystem::recursive_directory_iterator(); ++entry) {
    const std::string name = entry->path().filename().string();
    if (entry->is_directory() && (name == "node_modules" || name.rfind("build", 0) == 0)) {
      entry.disable_recursion_pending();
    }
    if (!entry->is_regular_file()) continue;
    if (std::find(endings.begin(), endings.end(), entry->path().extension().string()) != endings.end()) {
      found.push_back(entry->path());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

}  // namespace rushlight::house
