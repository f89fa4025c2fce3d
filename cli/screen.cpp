#include "cli/screen.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "cli/say.hpp"

namespace rushlight {
namespace {

constexpr int kRowsForAllKeys = 18;  // on fewer rows the keys take one line, and "more" lists them
constexpr int kLeastBody = 2;        // on the smallest screens the page may scroll rather than say nothing
constexpr int kLeastName = 8;        // columns; the words behind the clock give way before a name is shorter

using Lines = std::vector<std::string>;

void append(Lines& lines, const Lines& more) { lines.insert(lines.end(), more.begin(), more.end()); }

/// Lays one screen out at one size.
class Layout {
 public:
  Layout(const Screen& screen, const Terminal::Size& size, Language language)
      : screen_(screen), language_(language), rows_(size.rows), width_(size.columns - 1), roomy_(true) {}

  std::vector<std::vector<Line>> pages() {
    const std::vector<std::vector<Line>> roomy = laid_out();
    if (roomy.size() == 1) return roomy;
    roomy_ = false;  // first give up the blank lines, then the one page
    return laid_out();
  }

 private:
  Lines flowing(const std::string& text) const { return text.empty() ? Lines{} : wrapped("", cleaned(text), width_); }

  // Later pages of a small screen say no more above than how urgent it is and for whom.
  Lines top(std::size_t page) const {
    Lines lines = {who_line(screen_, width_)};
    if (page == 0 || rows_ >= kRowsForAllKeys) append(lines, flowing(screen_.headline));
    if (roomy_) lines.push_back("");
    return lines;
  }

  Lines bottom(std::size_t page, const std::string& tell) const {
    Lines lines;
    if (roomy_) lines.push_back("");
    if (page == 0) append(lines, flowing(screen_.said));
    append(lines, flowing(tell));
    append(lines, flowing(rows_ < kRowsForAllKeys ? screen_.few_keys : screen_.keys));
    if (!screen_.live.empty()) lines.push_back(cut(cleaned(screen_.live), width_));
    return lines;
  }

  Lines urgency() const { return flowing(screen_.urgency); }

  int room(std::size_t page, const std::string& tell) const {
    const std::size_t taken = urgency().size() + top(page).size() + bottom(page, tell).size() + 1;  // and the prompt
    return std::max(rows_ - static_cast<int>(taken), kLeastBody);
  }

  std::string not_last(std::size_t page, std::size_t pages) const {
    return say(kPage, language_, std::to_string(page), std::to_string(pages)) + " " + say(kNextPage, language_);
  }
  std::string last(std::size_t pages) const {
    const std::string number = std::to_string(pages);
    return say(kPage, language_, number, number) + " " + screen_.tell;
  }

  std::vector<Block> in_order() const {
    std::vector<Block> blocks = screen_.body;
    if (!roomy_)
      std::stable_partition(blocks.begin(), blocks.end(), [](const Block& block) { return !block.can_wait; });
    return blocks;
  }

  /// How many rows the list takes that begins at this block.
  int rows_of_list(const std::vector<Block>& blocks, std::size_t at) const {
    std::size_t rows = 0;
    for (; at < blocks.size() && blocks[at].together; ++at)
      rows += wrapped(blocks[at].lead, cleaned(blocks[at].text), width_).size();
    return static_cast<int>(rows);
  }

  /// The body in pages; `rows_of` says how many rows the body has on a page.
  template <class RowsOf>
  std::vector<Lines> filled(RowsOf rows_of) const {
    std::vector<Lines> bodies = {{}};
    const auto left = [&] { return rows_of(bodies.size() - 1) - static_cast<int>(bodies.back().size()); };
    const std::vector<Block> blocks = in_order();
    for (std::size_t at = 0; at < blocks.size(); ++at) {
      const Block& block = blocks[at];
      const bool begins_list = block.together && (at == 0 || !blocks[at - 1].together);
      const int list = begins_list ? rows_of_list(blocks, at) : 0;
      if (list > left() && list <= rows_of(bodies.size()) && !bodies.back().empty()) bodies.push_back({});
      if (block.text.empty() && (!roomy_ || bodies.back().empty())) continue;
      const Lines lines = block.text.empty() ? Lines{""} : wrapped(block.lead, cleaned(block.text), width_);
      if (static_cast<int>(lines.size()) > left() && !bodies.back().empty()) bodies.push_back({});
      for (const std::string& line : lines) {
        if (left() <= 0) bodies.push_back({});
        bodies.back().push_back(line);
      }
    }
    return bodies;
  }

  std::vector<std::vector<Line>> laid_out() const {
    std::vector<Lines> bodies = filled([&](std::size_t page) { return room(page, screen_.tell); });
    if (bodies.size() > 1) {
      // Only the last page needs the rows for what to type.
      const auto not_last_room = [&](std::size_t page) { return room(page, not_last(9, 9)); };
      const std::size_t pages = filled(not_last_room).size();
      bodies = filled([&](std::size_t page) {
        return page + 1 < pages ? not_last_room(page) : std::min(room(page, last(9)), not_last_room(page));
      });
    }
    std::vector<std::vector<Line>> pages;
    for (std::size_t at = 0; at < bodies.size(); ++at) {
      const bool more = at + 1 < bodies.size();
      const std::string tell = more                ? not_last(at + 1, bodies.size())
                               : bodies.size() > 1 ? last(bodies.size())
                                                   : screen_.tell;
      pages.push_back(page(top(at), bodies[at], bottom(at, tell)));
    }
    return pages;
  }

  std::vector<Line> page(const Lines& head, const Lines& body, const Lines& foot) const {
    std::vector<Line> lines;
    for (const std::string& line : urgency()) lines.push_back({line, true});
    for (const Lines* part : {&head, &body, &foot}) {
      for (const std::string& line : *part) lines.push_back({line, false});
    }
    return lines;
  }

  const Screen& screen_;
  Language language_;
  int rows_, width_;
  bool roomy_;
};

}  // namespace

bool Screen::says_the_same_as(const Screen& other) const {
  return urgency == other.urgency && headline == other.headline && body == other.body && said == other.said &&
         tell == other.tell && keys == other.keys && live.empty() == other.live.empty();
}

namespace {

/// The name, cut with a mark where it is too long, and the time behind it; as wide as it has to be.
std::string name_and(const std::string& name, const std::string& time, int width) {
  const int room = std::max(width - columns_of(time), kLeastName);
  return (columns_of(name) <= room ? name : cut(name, room - 1) + "\u2026") + time;
}

}  // namespace

// Words behind the clock that do not fit are left out whole: "practice clock" cut short says something else.
std::string who_line(const Screen& screen, int width) {
  const std::string name = cleaned(screen.who);
  const std::string line = name_and(name, ", " + screen.when, width);
  if (columns_of(line) <= width) return line;
  return cut(name_and(name, ", " + screen.when.substr(0, screen.when.find(',')), width), width);
}

std::vector<std::vector<Line>> pages_of(const Screen& screen, const Terminal::Size& size, Language language) {
  return Layout(screen, size, language).pages();
}

}  // namespace rushlight
