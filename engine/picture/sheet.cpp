#include "picture/sheet.hpp"

#include "picture/letters.hpp"
#include "picture/names.hpp"

namespace rushlight {

Length set_lines(Picture& picture, const std::vector<SetLine>& lines, Spot top, Length size, Length room,
                 Anchor anchor) {
  Length y = top.y;
  for (const SetLine& line : lines) {
    picture.shapes.push_back(Words{Spot{top.x, y + size}, size, line.text, room, line.bold, anchor});
    y += pitch(size);
  }
  return y;
}

Length set_head(Picture& picture, const Protocol& protocol, const std::string& title, const std::string& below) {
  const Length room = picture.paper.width - 2 * kMargin;
  const std::string file = "protocol " + protocol.name + " of " + protocol.set + ", version " + protocol.version;
  const Length file_room = width_of(file, 7 * kPoint, false);
  picture.shapes.push_back(
      Words{Spot{kMargin + room, kMargin + 10 * kPoint}, 7 * kPoint, file, file_room, false, Anchor::end});
  Length y = kMargin;
  for (const std::string& line : lines_within(title, room - file_room - 10 * kPoint, 13 * kPoint, true)) {
    y = set_lines(picture, {SetLine{line, true}}, Spot{kMargin, y}, 13 * kPoint, room, Anchor::start);
  }
  for (const std::string& line : lines_within(below, room, 8 * kPoint, false)) {
    y = set_lines(picture, {SetLine{line}}, Spot{kMargin, y}, 8 * kPoint, room, Anchor::start);
  }
  return y + 4 * kPoint;
}

void set_urgency_legend(Picture& picture, Spot corner, Length width) {
  const Length size = 7 * kPoint, sample = 26 * kPoint;
  Length x = corner.x;
  for (const Urgency urgency : {Urgency::home, Urgency::clinic, Urgency::clinic_now, Urgency::emergency}) {
    Area box = area_of(urgency);
    box.corner = Spot{x, corner.y};
    box.width = sample;
    box.height = 12 * kPoint;
    picture.shapes.push_back(box);
    picture.shapes.push_back(
        Words{Spot{x + sample + 5 * kPoint, corner.y + 9 * kPoint}, size, word_for(urgency), width / 4 - sample, true});
    x += sample + 20 * kPoint + width_of(word_for(urgency), size, true);
  }
}

}  // namespace rushlight
