#pragma once

#include <string>
#include <vector>

#include "protocol/draft_members.hpp"

namespace rushlight::tests {

/// Every word and every place of a draft, in order, as lines: what differs between two is the first line that does.
class AllOfDraft {
 public:
  template <class... Each>
  void operator()(Each&... each) {
    (one(each), ...);
  }
  std::vector<std::string> lines;

 private:
  template <class T>
  void one(T& value) {
    parts::go(*this, value);
  }
  void one(Where& where) {
    lines.push_back(where.file.text() + ":" + std::to_string(where.line) + ":" + std::to_string(where.column) + "+" +
                    std::to_string(where.length));
  }
  void one(std::string& text) { lines.push_back(text); }
  void one(bool& is) { lines.emplace_back(is ? "yes" : "no"); }
  template <class T>
  void one(std::optional<T>& value) {
    lines.emplace_back(value ? "there" : "absent");
    if (value) one(*value);
  }
  template <class T>
  void one(std::vector<T>& list) {
    lines.push_back(std::to_string(list.size()));
    for (T& each : list) one(each);
  }
};

inline std::vector<std::string> all_of(Draft draft) {
  AllOfDraft all;
  all(draft);
  return all.lines;
}

}  // namespace rushlight::tests
