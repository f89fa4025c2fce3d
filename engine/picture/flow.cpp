#include "picture/flow.hpp"

#include <algorithm>

#include "picture/flow_cards.hpp"
#include "picture/letters.hpp"
#include "picture/names.hpp"
#include "picture/sheet.hpp"

namespace rushlight {
namespace {

constexpr Length kGutter = 13 * kPoint;  // between columns, where the arrows run
constexpr Length kTrack = 2 * kPoint;    // between two arrows
constexpr Length kLargestLetters = 9 * kPoint;
constexpr std::size_t kFewestColumns = 3, kMostColumns = 8;

/// One way to set the page.
struct Setting {
  Paper paper;
  Length size;
  std::size_t columns;
  bool headlines;

  Length column_width() const {
    const auto count = static_cast<Length>(columns);
    return (paper.width - 2 * kMargin - (count - 1) * kGutter) / count;
  }
};

struct Line {
  std::string text;
  bool bold;
  std::vector<StepId> to;  // of the row that begins here
};

/// A card as it is set: its lines, and where it lies.
struct Placed {
  const Card* card;
  std::optional<Urgency> urgency;
  std::vector<Line> lines;
  std::size_t column;
  Length top, height;
};

struct Heading {
  std::string text;
  std::size_t column;
  Length top;
};

struct Page {
  Setting setting;
  std::vector<Placed> cards;
  std::vector<Heading> headings;
};

Length inside(const Setting& setting) { return setting.size / 2; }

std::vector<Line> lines_of(const Card& card, const Setting& setting) {
  const Length room = setting.column_width() - 2 * inside(setting) - 4 * kPoint;
  std::vector<Line> lines;
  const auto add = [&](const std::string& text, bool bold, const std::vector<StepId>& to) {
    bool begins = true;
    for (const std::string& part : lines_within(text, room, setting.size, bold)) {
      lines.push_back({part, bold, begins ? to : std::vector<StepId>{}});
      begins = false;
    }
  };
  add(card.title, true, {});
  if (setting.headlines && !card.headline.empty()) add("\u201C" + card.headline + "\u201D", false, {});
  for (const CardRow& row : card.rows) add(row.text, false, row.to);
  return lines;
}

/// Down one column and on at the top of the next. Empty when the page is too small.
std::optional<Page> set_on(const std::vector<CardGroup>& groups, const Setting& setting, Length top) {
  const Length bottom = setting.paper.height - kMargin - 18 * kPoint;
  const Length heading = pitch(setting.size) + 4 * kPoint, gap = setting.size * 3 / 5;
  Page page{setting, {}, {}};
  std::size_t column = 0;
  Length y = top;
  for (const CardGroup& group : groups) {
    bool headed = false;
    for (const Card& card : group.cards) {
      std::vector<Line> lines = lines_of(card, setting);
      const Length height = static_cast<Length>(lines.size()) * pitch(setting.size) + 2 * inside(setting);
      if (y + (headed ? 0 : heading) + height > bottom) {
        if (y == top || ++column == setting.columns) return std::nullopt;
        y = top;
      }
      if (!headed || y == top) {
        page.headings.push_back(
            {headed && width_of(group.heading + ", more", setting.size, true) <= setting.column_width()
                 ? group.heading + ", more"
                 : group.heading,
             column, y});
        y += heading;
        headed = true;
      }
      if (y + height > bottom) return std::nullopt;
      page.cards.push_back({&card, group.urgency, std::move(lines), column, y, height});
      y += height + gap;
    }
  }
  return page;
}

/// The largest letters that this paper has room for, with the headlines if it has room for them too.
std::optional<Page> best_page(const std::vector<CardGroup>& groups, const Paper& paper, Length top) {
  for (const bool headlines : {true, false}) {
    for (Length size = kLargestLetters; size >= kSmallestLetters; size -= kPoint / 4) {
      for (std::size_t columns = kFewestColumns; columns <= kMostColumns; ++columns) {
        if (auto page = set_on(groups, Setting{paper, size, columns, headlines}, top)) return page;
      }
    }
  }
  return std::nullopt;
}

class FlowDrawing {
 public:
  FlowDrawing(const Protocol& protocol, const Page& page, Picture picture)
      : protocol_(protocol), page_(page), picture_(std::move(picture)), tracks_(page.setting.columns + 1) {}

  Picture drawn() {
    picture_.paper = page_.setting.paper;
    for (const Heading& heading : page_.headings) draw(heading);
    for (const Placed& placed : page_.cards) draw(placed);
    const std::vector<std::optional<StepId>> first = first_ways(protocol_);
    for (const Placed& placed : page_.cards) {
      if (placed.card->step && first[placed.card->step->index]) connect(*first[placed.card->step->index], placed);
    }
    return std::move(picture_);
  }

 private:
  Length left_of(std::size_t column) const {
    return kMargin + static_cast<Length>(column) * (page_.setting.column_width() + kGutter);
  }

  void draw(const Heading& heading) {
    const Length size = page_.setting.size, width = page_.setting.column_width();
    Area band{Spot{left_of(heading.column), heading.top}, width, pitch(size) + 2 * kPoint, 0};
    band.tint = "#ddd";
    picture_.shapes.push_back(band);
    picture_.shapes.push_back(Words{Spot{left_of(heading.column) + width / 2, heading.top + size + kPoint}, size,
                                    heading.text, width, true, Anchor::middle});
  }

  void draw(const Placed& placed) {
    Area area = placed.urgency ? area_of(*placed.urgency) : Area{};
    area.hatch = Hatch::none;  // too much to read here for anything behind it
    if (!placed.urgency) {
      area.border = 60;
      area.dashed = true;
    }
    area.corner = Spot{left_of(placed.column), placed.top};
    area.width = page_.setting.column_width();
    area.height = placed.height;
    picture_.shapes.push_back(area);
    const Length size = page_.setting.size, room = area.width - 2 * inside(page_.setting) - 4 * kPoint;
    Length y = placed.top + inside(page_.setting);
    for (const Line& line : placed.lines) {
      const Spot at{area.corner.x + inside(page_.setting) + 2 * kPoint, y + size};
      picture_.shapes.push_back(Words{at, size, line.text, room, line.bold});
      y += pitch(size);
    }
  }

  const Placed* place_of(StepId id) const {
    for (const Placed& placed : page_.cards) {
      if (placed.card->step && *placed.card->step == id) return &placed;
    }
    return nullptr;
  }

  // The middle of the first line of the row that names the step.
  std::optional<Length> height_of_row(const Placed& placed, StepId to) const {
    for (std::size_t i = 0; i < placed.lines.size(); ++i) {
      const std::vector<StepId>& named = placed.lines[i].to;
      if (std::find(named.begin(), named.end(), to) != named.end()) return height_of_line(placed, i);
    }
    return std::nullopt;
  }

  Length height_of_line(const Placed& placed, std::size_t line) const {
    const Length size = page_.setting.size;
    return placed.top + inside(page_.setting) + static_cast<Length>(line) * pitch(size) + size * 2 / 3;
  }

  // Through the gutter beside both; what lies further off is found by its number.
  void connect(StepId from_step, const Placed& to) {
    const Placed* from = place_of(from_step);
    if (from == nullptr) return;
    const auto row = height_of_row(*from, *to.card->step);
    if (!row) return;
    const std::size_t a = from->column, b = to.column;
    if (a > b + 1 || b > a + 1) return;
    const std::size_t gutter = std::max(a, b);  // to the left of this column
    const Length entry = height_of_line(to, 0);
    const auto track = free_track(gutter, std::min(*row, entry), std::max(*row, entry));
    if (!track) return;
    const Length width = page_.setting.column_width();
    const Length x = left_of(gutter) - kTrack - *track;
    const Length start = a < gutter ? left_of(a) + width : left_of(a);
    const Length end = b < gutter ? left_of(b) + width : left_of(b);
    picture_.shapes.push_back(Stroke{{{start, *row}, {x, *row}, {x, entry}, {end, entry}}, 60, true});
  }

  struct Run {
    Length from, to;
  };

  std::optional<Length> free_track(std::size_t gutter, Length from, Length to) {
    const Length room = gutter == 0 ? kMargin - 6 * kPoint : kGutter - 2 * kTrack;
    std::vector<std::vector<Run>>& tracks = tracks_[gutter];
    for (std::size_t i = 0; static_cast<Length>(i) * kTrack <= room; ++i) {
      if (i == tracks.size()) tracks.emplace_back();
      const bool is_free = std::all_of(tracks[i].begin(), tracks[i].end(), [&](const Run& run) {
        return to + kPoint < run.from || run.to + kPoint < from;
      });
      if (!is_free) continue;
      tracks[i].push_back({from, to});
      return 2 * kPoint + static_cast<Length>(i) * kTrack;
    }
    return std::nullopt;
  }

  const Protocol& protocol_;
  const Page& page_;
  Picture picture_;
  std::vector<std::vector<std::vector<Run>>> tracks_;
};

}  // namespace

std::optional<Picture> flow_picture(const Protocol& protocol) {
  const std::vector<CardGroup> groups = card_groups(protocol);
  const std::string below =
      "Begin at 1. In a box the first line that holds counts; \u2192 is the box to go on with. Urgency: the word above "
      "the "
      "box, and its border: the heavier, the graver. An arrow shows where a box is first come to from, if that is "
      "near.";
  for (const Paper& paper : {kA4, kA3, kA2}) {
    Picture picture{paper, "Steps of protocol " + protocol.name, below, {}};
    for (const CardGroup& group : groups) {
      for (const Card& card : group.cards) {
        picture.told += " " + group.heading + ": " + card.title + ".";
        for (const CardRow& row : card.rows) picture.told += " " + row.text + ".";
      }
    }
    const Length top = set_head(picture, protocol, as_written(protocol, protocol.title), below);
    const auto page = best_page(groups, paper, top);
    if (!page) continue;
    picture = FlowDrawing(protocol, *page, std::move(picture)).drawn();
    const std::string note = std::string(paper.name) + " on its long side; letters of " +
                             std::to_string(page->setting.size / kPoint) + " points or more";
    picture.shapes.push_back(Words{Spot{paper.width - kMargin, paper.height - kMargin - 3 * kPoint}, 6 * kPoint, note,
                                   paper.width / 3, false, Anchor::end});
    set_urgency_legend(picture, Spot{kMargin, paper.height - kMargin - 12 * kPoint}, paper.width * 2 / 3);
    return picture;
  }
  return std::nullopt;
}

}  // namespace rushlight
