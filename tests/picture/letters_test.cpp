#include "picture/letters.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "picture/decision_map.hpp"
#include "picture/flow.hpp"
#include "picture/svg.hpp"
#include "raster/png_from_svg.hpp"
#include "tests/picture/shipped.hpp"

// The table of widths, and every line of every picture, against the renderer.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// In hundredths of a point, as librsvg draws it.
int drawn(const std::string& text, Length size, bool bold) {
  std::string safe;
  for (const char sign : text) safe += sign == '&' ? "&amp;" : sign == '<' ? "&lt;" : std::string(1, sign);
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9000\" height=\"100\"><text id=\"t\" x=\"9\" y=\"50\" "
      "font-family=\"DejaVu Sans\" xml:space=\"preserve\" font-size=\"" +
      std::to_string(size / kPoint) + "." + std::to_string(kPoint + size % kPoint).substr(1) + "\"" +
      (bold ? " font-weight=\"bold\"" : "") + ">" + safe + "</text></svg>";
  return (drawn_width(svg, "t") + 9) / 10;
}

void expect_every_line_fits(const Picture& picture) {
  std::size_t lines = 0;
  for (const Shape& shape : picture.shapes) {
    const auto* words = std::get_if<Words>(&shape);
    if (words == nullptr) continue;
    ++lines;
    BOOST_TEST(words->size >= kSmallestLetters, words->text);
    // A renderer sets letters at whole units of its own: a hundredth of the line is forgiven.
    BOOST_TEST(drawn(words->text, words->size, words->bold) <= words->room + words->room / 100 + kPoint / 2,
               picture.title << ": " << words->text);
    const Length left = words->anchor == Anchor::start    ? words->at.x
                        : words->anchor == Anchor::middle ? words->at.x - words->room / 2
                                                          : words->at.x - words->room;
    BOOST_TEST((left >= 0 && left + words->room <= picture.paper.width + kPoint), picture.title << ": " << words->text);
    BOOST_TEST((words->at.y <= picture.paper.height), words->text);
  }
  BOOST_TEST(lines > 10U);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(letters)

BOOST_DATA_TEST_CASE(no_letter_is_drawn_wider_than_the_table_says, boost::unit_test::data::make({false, true}), bold) {
  const Length size = 100 * kPoint;
  std::vector<std::uint32_t> signs;
  for (std::uint32_t sign = 0x21; sign <= 0x7E; ++sign) signs.push_back(sign);
  for (std::uint32_t sign = 0xA1; sign <= 0xFF; ++sign) {
    if (sign != 0xAD) signs.push_back(sign);  // a hyphen that is drawn only where a line breaks
  }
  for (const std::uint32_t sign : {0x2013U, 0x2018U, 0x2019U, 0x201CU, 0x201DU, 0x2264U, 0x2265U, 0x2192U}) {
    signs.push_back(sign);
  }
  for (const std::uint32_t sign : signs) {
    std::string text;
    if (sign < 0x80) {
      text = static_cast<char>(sign);
    } else if (sign < 0x800) {
      text = {static_cast<char>(0xC0 | sign >> 6), static_cast<char>(0x80 | (sign & 0x3F))};
    } else {
      text = {static_cast<char>(0xE0 | sign >> 12), static_cast<char>(0x80 | (sign >> 6 & 0x3F)),
              static_cast<char>(0x80 | (sign & 0x3F))};
    }
    // Alone, since two of a kind can be set closer or wider; the ink may lie a little outside a letter's own room.
    BOOST_TEST(drawn(text, size, bold) <= width_of(text, size, bold) + 4 * kPoint, "U+" << std::hex << sign);
    BOOST_TEST(width_of(text, size, bold) < drawn(text, size, bold) + 33 * kPoint, "U+" << std::hex << sign);
  }
}

BOOST_AUTO_TEST_CASE(a_line_breaks_at_blanks_and_a_long_word_within) {
  const Length size = 10 * kPoint, room = width_of("twelve letters", size, false);
  const auto lines = lines_within("twelve letters incomprehensibilities end", room, size, false);
  BOOST_TEST_REQUIRE(lines.size() == 3U);
  BOOST_TEST(lines.front() == "twelve letters");
  BOOST_TEST(lines[1] + lines[2] == "incomprehensibilities end");
  for (const std::string& line : lines) BOOST_TEST(width_of(line, size, false) <= room, line);
}

BOOST_DATA_TEST_CASE(no_line_of_a_picture_leaves_its_box, boost::unit_test::data::make(kShipped), file) {
  const Protocol protocol = protocol_at(file);
  const auto flow = flow_picture(protocol);
  BOOST_TEST_REQUIRE(flow.has_value());
  expect_every_line_fits(*flow);
  for (const Step& step : protocol.steps) {
    const std::vector<Subject> read = read_by(protocol, step);
    if (read.size() < 2) continue;
    const auto decisions = decisions_of(protocol, step, read[0], read[1], {});
    BOOST_TEST_REQUIRE(decisions.has_value());
    expect_every_line_fits(decision_map(protocol, step, *decisions, {}));
  }
}

BOOST_AUTO_TEST_SUITE_END()
