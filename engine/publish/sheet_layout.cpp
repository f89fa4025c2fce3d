#include "publish/sheet_layout.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "publish/sheet_slabs.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr double kMargin = 22;  // 7.8 mm: every printer reaches that far
constexpr double kGap = 3;      // between boxes
constexpr double kColumns = 6;  // between columns
// How much of the width the left column may take.
constexpr double kShares[] = {0.5, 0.52, 0.54, 0.55, 0.56, 0.57, 0.58, 0.6, 0.48, 0.46};

using Boxes = std::vector<const SheetBox*>;

class SheetLayout {
 public:
  SheetLayout(const Sheet& sheet, const PaperSize& paper, Pen& pen) : sheet_(sheet), paper_(paper), pen_(pen) {
    width_ = paper.width - 2 * kMargin;
    bottom_ = paper.height - kMargin;
  }

  Laid laid() {
    Laid laid{
        paper_, sheet_.low.title, sheet_.language == Language::es ? "es" : "en", text_from_day(sheet_.printed), {}};
    choose_first_page();
    first_page(laid);
    pages_of(laid, sheet_.low.title, rest_);
    for (const SheetPage& page : sheet_.further) {
      Boxes boxes;
      for (const SheetBox& box : page.boxes) boxes.push_back(&box);
      pages_of(laid, page.title, boxes);
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
    for (const SheetBox* box : boxes) height += box_slab(pen_, *box, sheet_, width, elsewhere_).height() + kGap;
    return height;
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
    const SheetPart waits[] = {SheetPart::trouble, SheetPart::later, SheetPart::eat, SheetPart::waiting};
    for (std::size_t fewer = 1; fewer <= std::size(waits); ++fewer) {
      Boxes steps, emergency;
      rest_.clear();
      elsewhere_.clear();
      for (const SheetBox& box : sheet_.low.boxes) {
        if (box.part == SheetPart::look) continue;
        const bool grave = box.part == SheetPart::emergency || box.part == SheetPart::waiting;
        if (std::find(waits, waits + fewer, box.part) != waits + fewer) {
          rest_.push_back(&box);
          elsewhere_[box.number] = 2;
        } else {
          (grave ? emergency : steps).push_back(&box);
        }
      }
      if (fits(steps, emergency)) return;
    }
    // Very long words: the columns go on on the next page.
    while (left_.size() > 1 && height_of(left_, left_width()) > room_for_columns()) {
      rest_.insert(rest_.begin(), left_.back());
      elsewhere_[left_.back()->number] = 2;
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
        y_ = put(page, title_slab(pen_, sheet_.low.title, width_), kMargin, kMargin);
      }
      y_ = put(page, calls, kMargin, y_);
    }
    laid.pages.push_back(std::move(page));
  }

  /// Where boxes do not fill two columns one after the other, they stand in the first other division that does: those
  /// of the left column, then those of the right one, each in their order. Gives where the right one begins.
  std::size_t divide(Boxes& boxes, double room) {
    constexpr std::size_t kMostTried = 10;
    std::vector<double> heights;
    for (const SheetBox* box : boxes)
      heights.push_back(box_slab(pen_, *box, sheet_, left_width(), elsewhere_).height() + kGap);
    const auto fit = [&](std::uint32_t at_the_left) {
      double left = -kGap, right = -kGap;
      for (std::size_t i = 0; i < heights.size(); ++i) (at_the_left >> i & 1U ? left : right) += heights[i];
      return left <= room && right <= room;
    };
    const auto all = std::uint32_t{1} << std::min(boxes.size(), kMostTried);
    for (std::uint32_t first = all - 1; first > 0; first >>= 1) {
      if (boxes.size() > kMostTried || fit(first)) return boxes.size();
    }
    for (std::uint32_t at_the_left = all - 1; at_the_left > 0; --at_the_left) {
      if ((at_the_left & 1U) == 0 || !fit(at_the_left)) continue;
      Boxes left, right;
      for (std::size_t i = 0; i < boxes.size(); ++i) (at_the_left >> i & 1U ? left : right).push_back(boxes[i]);
      boxes = left;
      boxes.insert(boxes.end(), right.begin(), right.end());
      return left.size();
    }
    return boxes.size();
  }

  /// The boxes in two columns, on as many pages as they take.
  void pages_of(Laid& laid, const std::string& title, Boxes boxes) {
    if (boxes.empty()) return;
    share_ = 0.5;
    // Back to the first page, by its number.
    elsewhere_.clear();
    for (const Boxes* there : {&left_, &right_}) {
      for (const SheetBox* box : *there) elsewhere_[box->number] = 1;
    }
    LaidPage page;
    const auto begin_page = [&] {
      page = {};
      return put(page, title_slab(pen_, title, width_), kMargin, kMargin);
    };
    double top = begin_page(), y = top, lowest = top, left_end = top;
    const std::size_t at_the_right = divide(boxes, bottom_ - top);
    bool right = false;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const Slab slab = box_slab(pen_, *boxes[i], sheet_, left_width(), elsewhere_);
      if (i == at_the_right || (y + slab.height() > bottom_ && y > top)) {
        if (right) {
          laid.pages.push_back(std::move(page));
          lowest = top = begin_page();
        }
        right = !right;
        if (right) left_end = y;
        y = top;
      }
      y = put(page, slab, right ? right_edge() : kMargin, y);
      lowest = std::max(lowest, y);
    }
    laid.pages.push_back(std::move(page));
    y_ = lowest;
    free_ = {{right_edge(), right ? y : top}, {kMargin, right ? left_end : y}};
  }

  /// Behind everything else; on a page of their own when there is no room.
  void put_cautions(Laid& laid) {
    const Slab slab = cautions_slab(pen_, sheet_, width_);
    for (const auto& [x, from] : free_) {
      const Slab narrow = cautions_slab(pen_, sheet_, right_width());
      if (y_ + slab.height() <= bottom_ || from + narrow.height() > bottom_) continue;
      put(laid.pages.back(), narrow, x, from);
      return;
    }
    if (y_ + slab.height() > bottom_) {
      laid.pages.emplace_back();
      y_ = put(laid.pages.back(), title_slab(pen_, sheet_.low.title, width_), kMargin, kMargin);
    }
    y_ = put(laid.pages.back(), slab, kMargin, y_);
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
  bool calls_beside_ = false;                    // whom to call stands in the right column, not across the page
  double y_ = 0;                                 // below what is there on the last page
  std::vector<std::pair<double, double>> free_;  // below the columns of the last page: where, and from where on
  Boxes left_, right_, rest_;
  Elsewhere elsewhere_;
};

}  // namespace

Laid laid_sheet(const Sheet& sheet, const PaperSize& paper, Pen& pen) { return SheetLayout(sheet, paper, pen).laid(); }

}  // namespace rushlight
