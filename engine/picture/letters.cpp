#include "picture/letters.hpp"

#include <array>

namespace rushlight {
namespace {

// Advance widths of DejaVu Sans 2.37 in thousandths of the size, rounded up: U+0020 to U+007E, then U+00A0 to U+00FF.
// tests/picture holds them against what the renderer draws.
constexpr std::array<std::uint16_t, 191> kPlain{
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500,  838, 318, 361, 318, 337, 637,  637, 637, 637, 637, 637,
    637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632, 576,  775, 752, 295, 295, 656,
    558, 863, 749, 788, 604, 788, 695, 635, 611, 732, 685,  989, 686, 611, 686, 391, 337,  391, 838, 500, 500, 613,
    635, 550, 635, 616, 353, 635, 634, 278, 278, 580, 278,  975, 634, 612, 635, 635, 412,  521, 393, 634, 592, 818,
    592, 592, 525, 637, 337, 637, 838, 318, 401, 637, 637,  637, 637, 337, 500, 500, 1000, 472, 612, 838, 361, 1000,
    500, 500, 838, 401, 401, 500, 637, 637, 318, 500, 401,  472, 612, 970, 970, 970, 531,  685, 685, 685, 685, 685,
    685, 975, 699, 632, 632, 632, 632, 295, 295, 295, 295,  775, 749, 788, 788, 788, 788,  788, 838, 788, 732, 732,
    732, 732, 611, 605, 630, 613, 613, 613, 613, 613, 613,  982, 550, 616, 616, 616, 616,  278, 278, 278, 278, 612,
    634, 612, 612, 612, 612, 612, 838, 612, 634, 634, 634,  634, 592, 635, 592};

constexpr std::array<std::uint16_t, 191> kBold{
    349, 457, 521, 838,  696,  1002, 873, 307, 458, 458,  523, 838, 380,  416,  380, 366,  696, 696,  696, 696,
    696, 696, 696, 696,  696,  696,  400, 400, 838, 838,  838, 581, 1000, 774,  763, 734,  831, 684,  684, 821,
    837, 373, 373, 775,  638,  996,  837, 851, 733, 851,  771, 721, 683,  813,  774, 1104, 771, 725,  726, 458,
    366, 458, 838, 500,  500,  675,  716, 593, 716, 679,  436, 716, 712,  343,  343, 666,  343, 1042, 712, 688,
    716, 716, 494, 596,  479,  712,  652, 924, 646, 652,  583, 712, 366,  712,  838, 349,  457, 696,  696, 637,
    696, 366, 500, 500,  1000, 564,  646, 838, 416, 1000, 500, 500, 838,  438,  438, 500,  736, 637,  380, 500,
    438, 564, 646, 1036, 1036, 1036, 581, 774, 774, 774,  774, 774, 774,  1085, 734, 684,  684, 684,  684, 373,
    373, 373, 373, 838,  837,  851,  851, 851, 851, 851,  838, 851, 813,  813,  813, 813,  725, 738,  720, 675,
    675, 675, 675, 675,  675,  1048, 593, 679, 679, 679,  679, 343, 343,  343,  343, 688,  712, 688,  688, 688,
    688, 688, 838, 688,  712,  712,  712, 712, 652, 716,  652};

// The few signs beyond: dash, quotes, at least, at most, arrow. Both weights.
constexpr Length width_of_sign(std::uint32_t sign) {
  switch (sign) {
    case 0x2013:
      return 500;
    case 0x2018:
    case 0x2019:
      return 380;
    case 0x201C:
    case 0x201D:
      return 658;
    case 0x2264:
    case 0x2265:
    case 0x2192:
      return 838;
    default:
      return 1100;
  }
}

Length width_of_point(std::uint32_t sign, bool bold) {
  const auto& table = bold ? kBold : kPlain;
  if (sign >= 0x20 && sign <= 0x7E) return table[sign - 0x20];
  if (sign >= 0xA0 && sign <= 0xFF) return table[sign - 0xA0 + 95];
  return width_of_sign(sign);
}

/// The bytes of the sign that begins here. The texts of a protocol were vetted as UTF-8.
std::size_t bytes_of_sign(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t bytes = lead < 0x80 ? 1 : (lead < 0xE0 ? 2 : (lead < 0xF0 ? 3 : 4));
  return bytes < text.size() ? bytes : text.size();
}

std::uint32_t point_of(std::string_view sign) {
  const auto lead = static_cast<unsigned char>(sign.front());
  std::uint32_t point = sign.size() == 1 ? lead : lead & (0xFFU >> (sign.size() + 1));
  for (std::size_t i = 1; i < sign.size(); ++i) point = point << 6 | (static_cast<unsigned char>(sign[i]) & 0x3FU);
  return point;
}

std::string_view head_within(std::string_view word, Length room, Length size, bool bold) {
  std::size_t end = bytes_of_sign(word);
  while (end < word.size()) {
    const std::size_t next = end + bytes_of_sign(word.substr(end));
    if (width_of(word.substr(0, next), size, bold) > room) break;
    end = next;
  }
  return word.substr(0, end);
}

}  // namespace

Length width_of(std::string_view text, Length size, bool bold) {
  std::int64_t thousandths = 0;
  while (!text.empty()) {
    const std::string_view sign = text.substr(0, bytes_of_sign(text));
    thousandths += width_of_point(point_of(sign), bold);
    text.remove_prefix(sign.size());
  }
  return static_cast<Length>((thousandths * size + 999) / 1000);
}

std::vector<std::string> lines_within(std::string_view text, Length room, Length size, bool bold) {
  std::vector<std::string> lines;
  std::string line;
  const auto end_line = [&] {
    if (!line.empty()) lines.push_back(line);
    line.clear();
  };
  while (!text.empty()) {
    const std::size_t blank = text.find(' ');
    std::string_view word = text.substr(0, blank);
    text.remove_prefix(blank == std::string_view::npos ? text.size() : blank + 1);
    if (word.empty()) continue;
    const std::string longer = line.empty() ? std::string(word) : line + " " + std::string(word);
    if (width_of(longer, size, bold) <= room) {
      line = longer;
      continue;
    }
    end_line();
    while (width_of(word, size, bold) > room) {
      const std::string_view head = head_within(word, room, size, bold);
      if (head.size() == word.size()) break;
      lines.emplace_back(head);
      word.remove_prefix(head.size());
    }
    line = word;
  }
  end_line();
  return lines;
}

}  // namespace rushlight
