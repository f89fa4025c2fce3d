#include "picture/decision_map.hpp"

#include <algorithm>

#include "picture/letters.hpp"
#include "picture/sheet.hpp"

namespace rushlight {
namespace {

constexpr Length kGap = 7 * kPoint;       // beside LO, HI and "can't tell"
constexpr Length kCaptions = 7 * kPoint;  // size of what stands along the axes
constexpr Length kLeft = 96 * kPoint;     // room for what stands beside the rows
constexpr Length kKey = 200 * kPoint;     // room for what did not fit into its region
constexpr Length kInside = 5 * kPoint;    // between a border and its words

std::string next_words(const Protocol& protocol, const Next& next) {
  if (!next.hands_over_to.empty()) return "go to protocol " + next.hands_over_to;
  if (!next.visits.empty()) return "protocol " + next.visits + ", then " + protocol[*next.step].name;
  return next.step ? "\u2192 " + protocol[*next.step].name : "no rule";
}

/// What a region says: what has to stand there, and what may.
struct Label {
  std::vector<SetLine> must;
  std::string may;
};

std::string short_words(const Protocol& protocol, const std::vector<Next>& nexts) {
  std::string text;
  for (const Next& next : nexts) {
    text += text.empty() ? "" : " or ";
    text += next.step && next.visits.empty() && next.hands_over_to.empty() ? protocol[*next.step].name
                                                                           : next_words(protocol, next);
  }
  return text;
}

Label label_of_change(const Protocol& protocol, const Decided& decided) {
  if (decided.beside == Decided::Beside::same) return Label{{{"the same"}}, ""};
  return Label{{{word_for(decided.beside), true},
                {"was " + short_words(protocol, decided.was)},
                {"now " + short_words(protocol, decided.nexts)}},
               ""};
}

Label label_of(const Protocol& protocol, const Decided& decided) {
  if (decided.beside != Decided::Beside::alone) return label_of_change(protocol, decided);
  if (decided.nexts.size() > 1) {
    Label label{{{"DEPENDS ON " + listed(protocol, decided.by) + ":", true}}, ""};
    for (const Next& next : decided.nexts) {
      std::string line = next_words(protocol, next);
      if (next.step && next.visits.empty()) line += " (" + word_for(protocol[*next.step].urgency) + ")";
      label.must.push_back({line});
    }
    return label;
  }
  const Next& next = decided.nexts.front();
  if (next.is_hole()) return Label{{{"NO RULE", true}}, "No rule takes these answers."};
  if (!next.step || !next.visits.empty()) return Label{{{next_words(protocol, next), true}}, ""};
  const Step& step = protocol[*next.step];
  return Label{{{word_for(step.urgency), true}, {next_words(protocol, next), true}},
               as_written(protocol, step.headline)};
}

bool same_text(const std::vector<SetLine>& one, const std::vector<SetLine>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](const SetLine& a, const SetLine& b) { return a.text == b.text; });
}

char letter_of(std::size_t i) { return static_cast<char>(i < 26 ? 'A' + i : 'a' + (i - 26)); }

Area look_of(const Protocol& protocol, const Decided& decided) {
  Area plain{};
  plain.border = 60;
  plain.dashed = true;
  switch (decided.beside) {
    case Decided::Beside::alone:
      break;
    case Decided::Beside::same:
      return plain;
    case Decided::Beside::calmer:
    case Decided::Beside::may_be_calmer:
      plain.border = 250;
      plain.dashed = false;
      plain.twofold = true;
      plain.hatch = Hatch::stripes;
      return plain;
    case Decided::Beside::graver:
      plain.border = 200;
      plain.dashed = false;
      plain.hatch = Hatch::sparse;
      return plain;
    case Decided::Beside::less:
    case Decided::Beside::may_be_less:
      plain.border = 250;
      plain.dashed = false;
      plain.hatch = Hatch::stripes;
      return plain;
    case Decided::Beside::other:
      plain.border = 120;
      plain.dashed = false;
      plain.hatch = Hatch::dots;
      return plain;
  }
  if (decided.nexts.size() > 1) {
    plain.hatch = Hatch::dots;
    return plain;
  }
  const Next& next = decided.nexts.front();
  if (next.is_hole()) {
    plain.hatch = Hatch::stripes;
    plain.border = 250;
    return plain;
  }
  return next.step && next.visits.empty() ? area_of(protocol[*next.step].urgency) : plain;
}

bool breaks_a_word(const std::string& text, Length room, Length size, bool bold) {
  std::string word;
  for (const char sign : text + " ") {
    if (sign != ' ') {
      word += sign;
    } else if (width_of(word, size, bold) > room) {
      return true;
    } else {
      word.clear();
    }
  }
  return false;
}

std::vector<SetLine> wrapped(const std::vector<SetLine>& lines, Length room, Length size) {
  std::vector<SetLine> all;
  for (const SetLine& line : lines) {
    for (const std::string& part : lines_within(line.text, room, size, line.bold)) all.push_back({part, line.bold});
  }
  return all;
}

struct Fitted {
  std::vector<SetLine> lines;
  Length size;
};

/// The label in the largest letters that fit; without what may be left out before it gets hard to read.
std::optional<Fitted> fitted(const Label& label, Length width, Length height) {
  std::vector<SetLine> full = label.must;
  if (!label.may.empty()) full.push_back({label.may});
  const auto in = [&](const std::vector<SetLine>& lines, Length smallest) -> std::optional<Fitted> {
    for (Length size = 10 * kPoint; size >= smallest; size -= kPoint / 2) {
      const bool breaks = std::any_of(lines.begin(), lines.end(), [&](const SetLine& line) {
        return breaks_a_word(line.text, width, size, line.bold);
      });
      std::vector<SetLine> set = wrapped(lines, width, size);
      if (!breaks && static_cast<Length>(set.size()) * pitch(size) <= height) return Fitted{std::move(set), size};
    }
    return std::nullopt;
  };
  if (auto fit = in(full, 7 * kPoint)) return fit;
  return in(label.must, kSmallestLetters);
}

/// Where the bands of an axis lie along it.
struct Ruler {
  std::vector<Length> from, to;
};

Ruler ruler_of(const std::vector<AxisValue>& values, const std::vector<Stretched>& bands, Length start, Length length) {
  const auto is_mark = [&](const Stretched& band) {
    if (values.empty()) return false;
    const AxisValue::Kind kind = values[band.first].kind;
    const bool exact = kind == AxisValue::Kind::border && band.first == band.last;
    return exact || kind == AxisValue::Kind::lo || kind == AxisValue::Kind::hi || kind == AxisValue::Kind::cant_tell;
  };
  const auto gap_after = [&](std::size_t i) {
    if (i + 1 >= bands.size()) return Length{0};
    const auto kind = [&](std::size_t band) { return values[bands[band].first].kind; };
    const auto is_own = [](AxisValue::Kind of) {
      return of == AxisValue::Kind::lo || of == AxisValue::Kind::hi || of == AxisValue::Kind::cant_tell;
    };
    return is_own(kind(i)) || is_own(kind(i + 1)) ? kGap : Length{0};
  };
  Length weights = 0, gaps = 0;
  for (std::size_t i = 0; i < bands.size(); ++i) {
    weights += is_mark(bands[i]) ? 6 : 10;
    gaps += gap_after(i);
  }
  Ruler ruler;
  Length at = start, weight = 0, gone = 0;
  for (std::size_t i = 0; i < bands.size(); ++i) {
    ruler.from.push_back(at);
    weight += is_mark(bands[i]) ? 6 : 10;
    at = start + gone + static_cast<Length>(static_cast<std::int64_t>(length - gaps) * weight / weights);
    ruler.to.push_back(at);
    gone += gap_after(i);
    at += gap_after(i);
  }
  return ruler;
}

class MapDrawing {
 public:
  MapDrawing(const Protocol& protocol, const Step& step, const Decisions& decisions, const std::vector<Held>& held,
             const Paper& paper, const std::string& lead)
      : protocol_(protocol), step_(step), decisions_(decisions), regions_(regions_of(decisions)) {
    picture_.paper = paper;
    picture_.title = lead + (lead.empty() ? "What step " : "what step ") + step.name + " decides by " +
                     name_of(protocol, decisions.across.subject);
    if (decisions.down) picture_.title += " and " + name_of(protocol, decisions.down->subject);
    head(held);
  }

  Picture drawn() {
    if (!draw(0)) draw(kKey);
    return std::move(picture_);
  }
  /// The key ran over the page's end.
  bool overflows() const { return overflows_; }

 private:
  void head(const std::vector<Held>& held) {
    std::string given;
    for (const Held& fast : held) {
      const Axis axis{fast.subject,
                      {AxisValue{fast.value.unknown ? AxisValue::Kind::cant_tell : AxisValue::Kind::option,
                                 {fast.value, fast.value}}}};
      given += (given.empty() ? "Only when " : " and ") + name_of(protocol_, fast.subject) + " is " +
               words_of(protocol_, axis, {0, 0}, true).front();
    }
    if (!given.empty()) given += ". ";
    std::string below = "\u201C" + as_written(protocol_, step_.headline) + "\u201D " + given +
                        "All other answers: any; where they decide, the region says which. Not to scale.";
    if (decisions_.other_in_mmol) below += " For readings in mg/dL only: in mmol/L the borders stand in another order.";
    picture_.told = below;
    top_ = set_head(picture_, protocol_, picture_.title, below);
  }

  std::vector<std::string> told_of(const Axis& axis, const std::vector<Stretched>& bands, const Stretched& of) const {
    const Stretched values{bands[of.first].first, bands[of.last].last};
    if (of.first == of.last || axis.values[values.first].kind != AxisValue::Kind::option) {
      return words_of(protocol_, axis, values, decisions_.other_in_mmol);
    }
    std::string all;
    for (std::size_t i = of.first; i <= of.last; ++i) {
      all += (all.empty() ? "" : " or ") + words_of(protocol_, axis, bands[i], true).front();
    }
    return {all};
  }

  void tell(const Region& region, const Label& label) {
    picture_.told += " " + name_of(protocol_, decisions_.across.subject) + " " +
                     told_of(decisions_.across, regions_.columns, region.across).front();
    if (decisions_.down) {
      picture_.told += ", " + name_of(protocol_, decisions_.down->subject) + " " +
                       told_of(*decisions_.down, regions_.rows, region.down).front();
    }
    picture_.told += ":";
    for (const SetLine& line : label.must) picture_.told += " " + line.text;
    picture_.told += ".";
  }

  /// Draws everything with this much room for a key on the right. False, and nothing drawn, when a key is needed and
  /// there is no room for one.
  bool draw(Length key_room) {
    const Picture before = picture_;
    overflows_ = false;
    const Length left = kMargin + (decisions_.down ? kLeft : 0);
    const Length right = picture_.paper.width - kMargin - (key_room == 0 ? 0 : key_room + 10 * kPoint);
    const std::vector<AxisValue> none;
    columns_ = ruler_of(decisions_.across.values, regions_.columns, left, right - left);
    const Length title_height = pitch(kCaptions + kPoint), legend = 22 * kPoint;
    const Length bottom = picture_.paper.height - kMargin - legend - title_height - captions_height();
    const Length top = top_ + (decisions_.down ? title_height + 2 * kPoint : 0);
    rows_ = ruler_of(decisions_.down ? decisions_.down->values : none, regions_.rows, top, bottom - top);
    if (decisions_.down) title("Down: ", *decisions_.down, Spot{kMargin, top_}, Anchor::start);
    Spot key{right + 12 * kPoint, top};
    std::vector<std::vector<SetLine>> keyed;  // what each letter stands for
    for (const Region& region : regions_.regions) {
      const Label label = label_of(protocol_, region.decided);
      tell(region, label);
      if (place(region, label)) continue;
      if (key_room == 0) {
        picture_ = before;
        return false;
      }
      // Regions that say the same share a letter.
      const auto same = std::find_if(keyed.begin(), keyed.end(),
                                     [&](const std::vector<SetLine>& lines) { return same_text(lines, label.must); });
      const std::string letter(1, letter_of(static_cast<std::size_t>(same - keyed.begin())));
      place(region, Label{{{letter, true}}, ""}, true);
      if (same != keyed.end()) continue;
      keyed.push_back(label.must);
      std::vector<SetLine> lines = label.must;
      lines.front().text = letter + ": " + lines.front().text;
      key.y = set_lines(picture_, wrapped(lines, key_room, kCaptions), key, kCaptions, key_room, Anchor::start) +
              4 * kPoint;
      overflows_ = overflows_ || key.y > bottom;
    }
    captions(left, bottom);
    title("Across: ", decisions_.across, Spot{(left + right) / 2, bottom + captions_height()}, Anchor::middle);
    set_urgency_legend(picture_, Spot{kMargin, picture_.paper.height - kMargin - 12 * kPoint},
                       picture_.paper.width - 2 * kMargin);
    return true;
  }

  /// False, and nothing drawn, when the label does not fit; a letter is drawn however small its region is.
  bool place(const Region& region, const Label& label, bool is_letter = false) {
    const Length x = columns_.from[region.across.first], y = rows_.from[region.down.first];
    const Length width = columns_.to[region.across.last] - x, height = rows_.to[region.down.last] - y;
    auto fit = fitted(label, width - 4 * kInside, height - 4 * kInside);
    if (!fit && is_letter) fit = Fitted{label.must, kSmallestLetters};
    if (!fit) return false;
    Area box = look_of(protocol_, region.decided);
    // Inside its place, so that a heavy border does not lie on its neighbour.
    box.corner = Spot{x + box.border / 2, y + box.border / 2};
    box.width = width - box.border;
    box.height = height - box.border;
    picture_.shapes.push_back(box);
    const Length high = static_cast<Length>(fit->lines.size()) * pitch(fit->size);
    Length wide = 0;
    for (const SetLine& line : fit->lines) wide = std::max(wide, width_of(line.text, fit->size, line.bold));
    const Length top = y + (height - high) / 2;
    if (box.hatch != Hatch::none) {
      Area plate{Spot{x + (width - wide) / 2 - kInside, top - kInside / 2}, wide + 2 * kInside, high + kInside, 0};
      plate.tint = "#fff";
      picture_.shapes.push_back(plate);
    }
    set_lines(picture_, fit->lines, Spot{x + width / 2, top}, fit->size, width - 4 * kInside, Anchor::middle);
    return true;
  }

  std::vector<SetLine> caption(const Axis& axis, const Stretched& band, Length room) const {
    std::vector<SetLine> lines;
    for (const std::string& text : words_of(protocol_, axis, band, decisions_.other_in_mmol)) {
      for (const std::string& line : lines_within(text, room, kCaptions, lines.empty())) {
        lines.push_back({line, lines.empty()});
      }
    }
    return lines;
  }

  std::vector<SetLine> caption_of_column(std::size_t column) const {
    return caption(decisions_.across, regions_.columns[column],
                   columns_.to[column] - columns_.from[column] - 2 * kPoint);
  }

  Length captions_height() const {
    std::size_t most = 0;
    for (std::size_t i = 0; i < regions_.columns.size(); ++i) most = std::max(most, caption_of_column(i).size());
    return static_cast<Length>(most) * pitch(kCaptions) + 6 * kPoint;
  }

  void captions(Length left, Length bottom) {
    for (std::size_t i = 0; i < regions_.columns.size(); ++i) {
      const Length room = columns_.to[i] - columns_.from[i] - 2 * kPoint;
      set_lines(picture_, caption_of_column(i), Spot{(columns_.from[i] + columns_.to[i]) / 2, bottom + 2 * kPoint},
                kCaptions, room, Anchor::middle);
    }
    if (!decisions_.down) return;
    const Length room = kLeft - 8 * kPoint;
    for (std::size_t i = 0; i < regions_.rows.size(); ++i) {
      std::vector<SetLine> lines = caption(*decisions_.down, regions_.rows[i], room);
      const Length height = rows_.to[i] - rows_.from[i];
      while (lines.size() > 1 && static_cast<Length>(lines.size()) * pitch(kCaptions) > height) lines.pop_back();
      const Length high = static_cast<Length>(lines.size()) * pitch(kCaptions);
      set_lines(picture_, lines, Spot{left - 5 * kPoint, rows_.from[i] + (height - high) / 2}, kCaptions, room,
                Anchor::end);
    }
  }

  void title(const std::string& where, const Axis& axis, Spot at, Anchor anchor) {
    const Length size = kCaptions + kPoint,
                 room = picture_.paper.width - 2 * kMargin - (anchor == Anchor::middle ? kLeft : 0);
    const std::string text = where + name_of(protocol_, axis.subject) + ", " + meaning_of(protocol_, axis.subject);
    set_lines(picture_, {SetLine{lines_within(text, room, size, true).front(), true}}, at, size, room, anchor);
  }

  const Protocol& protocol_;
  const Step& step_;
  const Decisions& decisions_;
  Regions regions_;
  Picture picture_;
  bool overflows_ = false;
  Length top_ = 0;
  Ruler columns_, rows_;
};

}  // namespace

Picture decision_map(const Protocol& protocol, const Step& step, const Decisions& decisions,
                     const std::vector<Held>& held, const std::string& lead) {
  for (const Paper& paper : {kA4, kA3}) {
    MapDrawing map(protocol, step, decisions, held, paper, lead);
    if (Picture drawn = map.drawn(); !map.overflows()) return drawn;
  }
  return MapDrawing(protocol, step, decisions, held, kA2, lead).drawn();
}

}  // namespace rushlight
