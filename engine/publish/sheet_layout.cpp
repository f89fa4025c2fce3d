#include "publish/sheet_layout.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "publish/sheet_slabs.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr double kMargin = 18.5;    // 6.5 mm: every printer reaches that far
constexpr double kUnderBoxes = 19;  // 6.7 mm
constexpr double kGap = 3;          // between boxes
constexpr double kColumns = 6;      // between columns
// How much of the width the left column may take.
constexpr double kPageShares[] = {0.5,  0.49, 0.51, 0.48, 0.52, 0.47, 0.53,
                                  0.46, 0.54, 0.45, 0.55, 0.44, 0.56};  // of the pages behind the first one
constexpr double kShares[] = {0.5,  0.51, 0.52, 0.53, 0.54, 0.55, 0.56, 0.57, 0.58, 0.6,  0.49,
                              0.48, 0.47, 0.46, 0.45, 0.44, 0.43, 0.42, 0.41, 0.4,  0.39, 0.38};

using Boxes = std::vector<const SheetBox*>;

class SheetLayout {
 public:
  SheetLayout(const Sheet& sheet, const PaperSize& paper, Pen& pen) : sheet_(sheet), paper_(paper), pen_(pen) {
    width_ = paper.width - 2 * kMargin;
    bottom_ = paper.height - kUnderBoxes;
  }

  Laid laid() {
    Laid laid{
        paper_, sheet_.low.title, sheet_.language == Language::es ? "es" : "en", text_from_day(sheet_.printed), {}};
    // The page is named where something leads to it, and known when everything is laid out. Most often there are two.
    constexpr int kMostTries = 4;
    for (int tried = 0; tried < kMostTries; ++tried) {
      laid.pages.clear();
      free_.clear();
      choose_first_page();
      first_page(laid);
      const Elsewhere stand = pages_of(laid, sheet_.continued, rest_, sheet_.further.empty());
      const bool as_named =
          std::all_of(stand.begin(), stand.end(), [&](const auto& box) { return page_of(box.first) == box.second; });
      if (as_named) break;
      stands_on_ = stand;
    }
    stands_on_.clear();
    for (const SheetPage& page : sheet_.further) {
      Boxes boxes;
      for (const SheetBox& box : page.boxes) boxes.push_back(&box);
      pages_of(laid, page.title, boxes, &page == &sheet_.further.back());
    }
    put_cautions(laid);
    number_pages(laid);
    return laid;
  }

 private:
  double left_width() const { return (width_ - kColumns) * share_; }
  double right_width() const { return width_ - kColumns - left_width(); }
  double right_edge() const { return kMargin + left_width() + kColumns; }
  const SheetBox& look() const { return sheet_.low.boxes.front(); }

  double height_of(const Boxes& boxes, double width) {
    double height = 0;
    for (const SheetBox* box : boxes) height += height_of(*box, width) + kGap;
    return height;
  }

  // The columns are tried in many widths, and most of them twice.
  double height_of(const SheetBox& box, double width) {
    const auto [known, is_new] = heights_.try_emplace({&box, width});
    if (is_new) known->second = box_slab(pen_, box, sheet_, width, elsewhere_).height();
    return known->second;
  }

  void lead_elsewhere(Elsewhere elsewhere) {
    elsewhere_ = std::move(elsewhere);
    heights_.clear();
  }

  Slab first_question() { return look_slab(pen_, look(), sheet_, width_, left_width() + kColumns, elsewhere_); }

  double room_for_columns() {
    const double above = heading_slab(pen_, sheet_, width_).height() + first_question().height() + kGap;
    return bottom_ - kMargin - above - (calls_beside_ ? 0 : calls_slab(pen_, sheet_, width_).height());
  }

  double right_height() {
    const double calls = calls_beside_ ? calls_slab(pen_, sheet_, right_width()).height() : 0;
    return height_of(right_, right_width()) + calls;
  }

  /// The steps of the low stand at the left, the emergency at the right, as wide as it takes for both to fit. What does
  /// not fit goes to the next page, first what can wait the longest: what goes wrong is a call on the first page in any
  /// case.
  void choose_first_page() {
    using Part = SheetPart;
    const std::vector<Part> waiting[] = {
        {Part::trouble, Part::signs},
        {Part::trouble, Part::signs, Part::later},
        {Part::trouble, Part::signs, Part::later, Part::eat},
        {Part::trouble, Part::signs, Part::later, Part::eat, Part::waiting},
        {Part::trouble, Part::signs, Part::later, Part::eat, Part::again},
        {Part::trouble, Part::signs, Part::later, Part::eat, Part::waiting, Part::again}};
    for (const std::vector<Part>& waits : waiting) {
      Boxes steps, emergency;
      rest_.clear();
      Elsewhere elsewhere;
      for (const SheetBox& box : sheet_.low.boxes) {
        if (box.part == Part::look) continue;
        const bool grave = box.part == Part::emergency || box.part == Part::waiting;
        if (std::find(waits.begin(), waits.end(), box.part) != waits.end()) {
          rest_.push_back(&box);
          elsewhere[box.number] = page_of(box.number);
        } else {
          (grave ? emergency : steps).push_back(&box);
        }
      }
      lead_elsewhere(std::move(elsewhere));
      if (fits(steps, emergency)) return;
    }
    // Very long words: the columns go on on the next page.
    while (left_.size() > 1 && height_of(left_, left_width()) > room_for_columns()) {
      rest_.insert(rest_.begin(), left_.back());
      Elsewhere elsewhere = elsewhere_;
      elsewhere[left_.back()->number] = page_of(left_.back()->number);
      lead_elsewhere(std::move(elsewhere));
      left_.pop_back();
    }
  }

  bool fits(const Boxes& steps, const Boxes& emergency) {
    for (const std::size_t way : {0U, 1U, 2U, 3U}) {
      const std::size_t moved = std::min<std::size_t>(way / 2, steps.size());
      calls_beside_ = way % 2 == 1;
      left_.assign(steps.begin(), steps.end() - static_cast<std::ptrdiff_t>(moved));
      right_ = emergency;
      right_.insert(right_.end(), steps.end() - static_cast<std::ptrdiff_t>(moved), steps.end());
      for (const double share : kShares) {
        share_ = share;
        const double room = room_for_columns();
        if (height_of(left_, left_width()) <= room && right_height() <= room) return true;
      }
    }
    calls_beside_ = false;
    left_ = steps;
    right_ = emergency;
    share_ = kShares[0];
    return false;
  }

  double put(LaidPage& page, const Slab& slab, double x, double y) {
    page.boxes.push_back(moved_to(slab.box(), x, y));
    return y + slab.height() + kGap;
  }

  void first_page(Laid& laid) {
    LaidPage page;
    double top = put(page, heading_slab(pen_, sheet_, width_), kMargin, kMargin) - kGap;
    top = put(page, first_question(), kMargin, top);
    double left = top, right = top;
    for (const SheetBox* box : left_)
      left = put(page, box_slab(pen_, *box, sheet_, left_width(), elsewhere_), kMargin, left);
    for (const SheetBox* box : right_)
      right = put(page, box_slab(pen_, *box, sheet_, right_width(), elsewhere_), right_edge(), right);
    if (calls_beside_) {
      y_ = std::max(left, put(page, calls_slab(pen_, sheet_, right_width()), right_edge(), right));
    } else {
      const Slab calls = calls_slab(pen_, sheet_, width_);
      y_ = std::max(left, right);
      if (y_ + calls.height() > bottom_) {  // endless words: no page bears them
        laid.pages.push_back(std::move(page));
        page = {};
        y_ = put(page, title_slab(pen_, sheet_.continued, width_), kMargin, kMargin);
      } else {
        free_ = {{0, kMargin, left, left_width(), y_ - kGap}, {0, right_edge(), right, right_width(), y_ - kGap}};
      }
      y_ = put(page, calls, kMargin, y_);
    }
    laid.pages.push_back(std::move(page));
  }

  /// How boxes stand on one page of so much room: those of the left column, then those of the right one, each in their
  /// order. The first column is filled before the second one where that fits; else the first other division that does.
  /// Gives where the right column begins; nothing when no division fits.
  std::optional<std::size_t> divide(Boxes& boxes, double room) {
    constexpr std::size_t kMostTried = 10;
    if (boxes.size() > kMostTried) return std::nullopt;
    std::vector<double> at_left, at_right;
    for (const SheetBox* box : boxes) {
      at_left.push_back(height_of(*box, left_width()) + kGap);
      at_right.push_back(height_of(*box, right_width()) + kGap);
    }
    const auto fit = [&](std::uint32_t left_ones) {
      double left = -kGap, right = -kGap;
      for (std::size_t i = 0; i < boxes.size(); ++i) (left_ones >> i& 1U ? left += at_left[i] : right += at_right[i]);
      return left <= room && right <= room;
    };
    const auto all = (std::uint32_t{1} << boxes.size()) - 1;
    for (std::size_t left = boxes.size(); left > 0; --left) {
      if (fit(all >> (boxes.size() - left))) return left;
    }
    for (std::uint32_t left_ones = all; left_ones > 0; --left_ones) {
      if ((left_ones & 1U) == 0 || !fit(left_ones)) continue;
      Boxes left, right;
      for (std::size_t i = 0; i < boxes.size(); ++i) (left_ones >> i & 1U ? left : right).push_back(boxes[i]);
      boxes = left;
      boxes.insert(boxes.end(), right.begin(), right.end());
      return left.size();
    }
    return std::nullopt;
  }

  /// On one page if the columns can be so wide that it does, with the cautions below them if they can.
  std::optional<std::size_t> divide_one_page(Boxes& boxes, double room, bool last) {
    const double cautions = last ? cautions_slab(pen_, sheet_, width_).height() + kGap : 0;
    for (const double below : {cautions, 0.0}) {
      for (const double share : kPageShares) {
        share_ = share;
        if (const auto at = divide(boxes, room - below)) return at;
      }
    }
    share_ = kPageShares[0];
    return std::nullopt;
  }

  /// The boxes in two columns, on as many pages as they take. `last`: nothing but the cautions follows.
  /// Gives the page on which each box came to stand.
  Elsewhere pages_of(Laid& laid, const std::string& title, Boxes boxes, bool last) {
    Elsewhere stand;
    if (boxes.empty()) return stand;
    LaidPage page;
    const auto begin_page = [&] {
      lead_from(static_cast<int>(laid.pages.size()) + 1);
      page = {};
      return put(page, title_slab(pen_, title, width_), kMargin, kMargin);
    };
    double top = begin_page(), y = top, lowest = top, left_end = top;
    const std::optional<std::size_t> at_the_right = divide_one_page(boxes, bottom_ - top, last);
    bool right = false;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const auto slab = [&] {
        return box_slab(pen_, *boxes[i], sheet_, right ? right_width() : left_width(), elsewhere_);
      };
      if (i == at_the_right || (!at_the_right && y + slab().height() > bottom_ && y > top)) {
        if (right) {
          laid.pages.push_back(std::move(page));
          lowest = top = begin_page();
        }
        right = !right;
        if (right) left_end = y;
        y = top;
      }
      y = put(page, slab(), right ? right_edge() : kMargin, y);
      lowest = std::max(lowest, y);
      stand[boxes[i]->number] = static_cast<int>(laid.pages.size()) + 1;
    }
    laid.pages.push_back(std::move(page));
    y_ = lowest;
    const std::size_t here = laid.pages.size() - 1;
    free_.insert(free_.begin(), {{here, right_edge(), right ? y : top, right_width(), bottom_},
                                 {here, kMargin, right ? left_end : y, left_width(), bottom_}});
    return stand;
  }

  /// What stands on another page than this one behind the first is led to by the number of its page.
  void lead_from(int here) {
    Elsewhere elsewhere;
    for (const Boxes* there : {&left_, &right_}) {
      for (const SheetBox* box : *there) elsewhere[box->number] = 1;
    }
    for (const auto& [number, page] : stands_on_) {
      if (page != here && elsewhere.count(number) == 0) elsewhere[number] = page;
    }
    lead_elsewhere(std::move(elsewhere));
  }

  int page_of(int number) const {
    const auto known = stands_on_.find(number);
    return known == stands_on_.end() ? 2 : known->second;
  }

  /// Behind everything else, or where a column leaves room; on a page of their own when nothing does.
  void put_cautions(Laid& laid) {
    const Slab slab = cautions_slab(pen_, sheet_, width_);
    if (y_ + slab.height() <= bottom_) {
      put(laid.pages.back(), slab, kMargin, y_);
      return;
    }
    for (const Free& free : free_) {
      const Slab narrow = cautions_slab(pen_, sheet_, free.width);
      if (free.from + narrow.height() > free.up_to) continue;
      put(laid.pages[free.page], narrow, free.x, free.from);
      return;
    }
    laid.pages.emplace_back();
    y_ = put(laid.pages.back(), title_slab(pen_, sheet_.continued, width_), kMargin, kMargin);
    put(laid.pages.back(), slab, kMargin, y_);
  }

  void number_pages(Laid& laid) {
    if (laid.pages.size() < 2) return;
    for (std::size_t at = 0; at < laid.pages.size(); ++at) {
      const std::string text =
          sheet_say(SheetWord::page, sheet_.language, std::to_string(at + 1), std::to_string(laid.pages.size()));
      laid.pages[at].boxes.push_back(moved_to(number_slab(pen_, text).box(), kMargin + width_ - kPageNumber, kMargin));
    }
  }

  const Sheet& sheet_;
  PaperSize paper_;
  Pen& pen_;
  double width_, bottom_;
  double share_ = kShares[0];
  bool calls_beside_ = false;  // whom to call stands in the right column, not across the page
  double y_ = 0;               // below what is there on the last page
  /// Room that a column leaves.
  struct Free {
    std::size_t page;
    double x, from, width, up_to;
  };
  std::vector<Free> free_;  // the last page's first
  Boxes left_, right_, rest_;
  Elsewhere elsewhere_;
  Elsewhere stands_on_;  // the page of each box behind the first page, as the try before found it
  std::map<std::pair<const SheetBox*, double>, double> heights_;  // with what leads elsewhere now
};

}  // namespace

Laid laid_sheet(const Sheet& sheet, const PaperSize& paper, Pen& pen) { return SheetLayout(sheet, paper, pen).laid(); }

}  // namespace rushlight
