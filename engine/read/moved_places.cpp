#include "read/moved_places.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "protocol/draft_members.hpp"

namespace rushlight {

namespace {

class Moving {
 public:
  Moving(std::string_view before, const std::vector<Splice>& splices, std::string_view after)
      : before_(before), splices_(splices), after_(after) {}

  template <class... Each>
  void operator()(Each&... each) {
    (one(each), ...);
  }

 private:
  template <class T>
  void one(T& value) {
    parts::go(*this, value);
  }
  void one(Where& where) {
    if (where.line == 0) return;
    const std::size_t begin = before_.byte_at(where.line, where.column);
    const std::size_t end = before_.byte_at(where.line, where.column + where.length);
    where = where_of(after_.place_of({moved(begin), moved(end)}), where.file);
  }
  void one(std::string&) {}
  void one(bool&) {}
  template <class T>
  void one(std::optional<T>& value) {
    if (value) one(*value);
  }
  template <class T>
  void one(std::vector<T>& list) {
    for (T& each : list) one(each);
  }

  std::size_t moved(std::size_t byte) const {
    std::size_t now = byte;
    for (const Splice& splice : splices_) {
      if (splice.span.begin >= byte) continue;
      // Inside of what was replaced nothing stands but its end, on the line where it began.
      const std::size_t gone = std::min(byte, splice.span.end) - splice.span.begin;
      now += splice.text.size();
      now -= gone;
    }
    return now;
  }

  const Lines before_;
  const std::vector<Splice>& splices_;
  const Lines after_;
};

}  // namespace

std::string spliced(std::string text, std::vector<Splice> splices) {
  // From the end, so that the places further up stay what they are.
  std::sort(splices.begin(), splices.end(),
            [](const Splice& a, const Splice& b) { return a.span.begin > b.span.begin; });
  for (const Splice& splice : splices)
    text.replace(splice.span.begin, splice.span.end - splice.span.begin, splice.text);
  return text;
}

void move_places(Draft& draft, std::string_view before, const std::vector<Splice>& splices, std::string_view after) {
  Moving moving(before, splices, after);
  moving(draft);
}

}  // namespace rushlight
