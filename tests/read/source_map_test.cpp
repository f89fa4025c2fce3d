#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <string>

#include "read/vetted_bytes.hpp"

namespace rushlight::tests {

namespace {

VettedXml vetted(const std::string& bytes) {
  Read<VettedXml> read = vet_xml(bytes, "case.xml");
  BOOST_REQUIRE_MESSAGE(read.value, bytes);
  return *read.value;
}

std::string text_of(const VettedXml& xml, Span span) { return xml.bytes.substr(span.begin, span.end - span.begin); }

/// What an editor shows at this line and column.
std::string shown_at(const std::string& bytes, const Place& place) {
  const std::string line = Lines(bytes).line(place.line).value_or("no such line");
  std::string shown;
  std::uint32_t column = 0;
  for (const char c : line) {
    if ((static_cast<unsigned char>(c) & 0xC0u) != 0x80u) ++column;
    if (column >= place.column && column < place.column + place.length) shown += c;
  }
  return shown;
}

void check_place(const VettedXml& xml, const Place& place, std::uint32_t line, std::uint32_t column,
                 const std::string& text) {
  BOOST_CHECK_EQUAL(place.line, line);
  BOOST_CHECK_EQUAL(place.column, column);
  BOOST_CHECK_EQUAL(shown_at(xml.bytes, place), text);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(source_map)

BOOST_AUTO_TEST_CASE(a_place_is_the_same_from_whatever_line_it_is_looked_for) {
  const std::string text =
      "\xEF\xBB\xBF"
      "a\u00F1o\r\n\n" +
      std::string(200, 'x') + "\u00E9\u00E9\rlast\r\r\nend";
  const Lines lines(text);
  std::size_t near = 0;
  for (std::size_t begin = 0; begin <= text.size(); ++begin) {
    for (const std::size_t length : {0U, 1U, 7U, 150U}) {
      const Span span{begin, std::min(begin + length, text.size())};
      const Place place = lines.place_of(span);
      BOOST_REQUIRE(lines.place_of(span, near) == place);
      std::size_t from_the_end = 5;
      BOOST_REQUIRE(lines.place_of(span, from_the_end) == place);
    }
  }
  BOOST_TEST(near == 5U);
  BOOST_TEST((lines.place_of({text.size() - 3, text.size()}) == Place{6, 1, 3}));
  BOOST_TEST((lines.place_of({4, 8}) == Place{1, 2, 2}));
}

BOOST_AUTO_TEST_CASE(texts_between_comments_have_one_place_from_the_first_to_the_last) {
  const VettedXml xml = vetted("<a>\n  one<!-- - --> two <!-- - -->three\n four</a>");
  check_place(xml, xml.map.elements[0].text_place, 2, 3, "one<!-- - --> two <!-- - -->three");
}

BOOST_AUTO_TEST_CASE(elements_stand_in_document_order_with_their_parents) {
  const VettedXml xml = vetted("<a>\n  <b><c/></b>\n  <d/>\n</a>");
  const auto& all = xml.map.elements;
  BOOST_REQUIRE_EQUAL(all.size(), 4);
  BOOST_CHECK_EQUAL(all[0].name + all[1].name + all[2].name + all[3].name, "abcd");
  BOOST_CHECK(!all[0].parent);
  BOOST_CHECK_EQUAL(all[1].parent.value(), 0);
  BOOST_CHECK_EQUAL(all[2].parent.value(), 1);
  BOOST_CHECK_EQUAL(all[3].parent.value(), 0);
  check_place(xml, all[3].name_place, 3, 4, "d");
}

BOOST_AUTO_TEST_CASE(tags_and_contents_have_byte_spans) {
  const VettedXml xml = vetted("<a><b x='1' >two</b><c/></a>");
  const auto& all = xml.map.elements;
  BOOST_CHECK_EQUAL(text_of(xml, all[0].tag), "<a>");
  BOOST_CHECK_EQUAL(text_of(xml, all[0].content), "<b x='1' >two</b><c/>");
  BOOST_CHECK_EQUAL(text_of(xml, all[1].tag), "<b x='1' >");
  BOOST_CHECK_EQUAL(text_of(xml, all[1].content), "two");
  BOOST_CHECK_EQUAL(text_of(xml, all[2].tag), "<c/>");
  BOOST_CHECK_EQUAL(text_of(xml, all[2].content), "");
  BOOST_CHECK_EQUAL(all[2].content.begin, all[2].tag.end);
}

BOOST_AUTO_TEST_CASE(attributes_over_several_lines_keep_their_own_places) {
  const VettedXml xml = vetted("<a\n   first = 'x'\n\tsecond\n=\n\"y z\"/>");
  const auto& attributes = xml.map.elements[0].attributes;
  BOOST_REQUIRE_EQUAL(attributes.size(), 2);
  check_place(xml, attributes[0].name_place, 2, 4, "first");
  check_place(xml, attributes[0].value_place, 2, 13, "x");
  check_place(xml, attributes[1].name_place, 3, 2, "second");  // a tab is one column
  check_place(xml, attributes[1].value_place, 5, 2, "y z");
  BOOST_CHECK_EQUAL(text_of(xml, attributes[1].value), "y z");
}

BOOST_AUTO_TEST_CASE(columns_count_letters_and_spans_count_bytes) {
  const VettedXml xml = vetted("<a t='niño 😀' u='x'>¿ñ?</a>");
  const auto& element = xml.map.elements[0];
  check_place(xml, element.attributes[1].value_place, 1, 18, "x");
  BOOST_CHECK_EQUAL(element.attributes[1].value.begin, 21);
  check_place(xml, element.texts.at(0).place, 1, 21, "¿ñ?");
  BOOST_CHECK_EQUAL(element.attributes[0].value_place.length, 6);
}

BOOST_AUTO_TEST_CASE(columns_count_letters_behind_a_byte_order_mark_and_on_every_line_of_a_block) {
  const VettedXml xml = vetted("\xEF\xBB\xBF<a t='ñ' u='x'>\n<b v='y'/>\n<c t='ñ' w='z'/>\n<d v='e'/></a>");
  const auto& all = xml.map.elements;
  check_place(xml, all[0].attributes[1].value_place, 1, 13, "x");
  check_place(xml, all[1].attributes[0].value_place, 2, 7, "y");
  check_place(xml, all[2].attributes[1].value_place, 3, 13, "z");
  check_place(xml, all[3].attributes[0].value_place, 4, 7, "e");
}

BOOST_AUTO_TEST_CASE(lines_end_at_lf_cr_lf_and_cr) {
  const VettedXml xml = vetted("<a>\r\n<b/>\r<c/>\n\n<d/>\r\n\r\n<e/></a>");
  const auto& all = xml.map.elements;
  BOOST_CHECK_EQUAL(all[1].name_place.line, 2);
  BOOST_CHECK_EQUAL(all[2].name_place.line, 3);
  BOOST_CHECK_EQUAL(all[3].name_place.line, 5);
  BOOST_CHECK_EQUAL(all[4].name_place.line, 7);
  BOOST_CHECK_EQUAL(Lines(xml.bytes).line(2).value(), "<b/>");
  BOOST_CHECK(!Lines(xml.bytes).line(8));
  BOOST_CHECK(!Lines(xml.bytes).line(0));
}

BOOST_AUTO_TEST_CASE(values_are_underlined_without_blanks_at_their_ends) {
  const VettedXml xml = vetted("<a b='  x y ' c='' d='  '/>");
  const auto& attributes = xml.map.elements[0].attributes;
  check_place(xml, attributes[0].value_place, 1, 9, "x y");
  BOOST_CHECK_EQUAL(text_of(xml, attributes[0].value), "  x y ");
  check_place(xml, attributes[1].value_place, 1, 17, "''");
  check_place(xml, attributes[2].value_place, 1, 22, "'  '");
}

BOOST_AUTO_TEST_CASE(text_over_two_lines_is_underlined_to_the_end_of_its_first) {
  const VettedXml xml = vetted("<a>\n  one\n  two\n</a>");
  const MappedText& text = xml.map.elements[0].texts.at(0);
  check_place(xml, text.place, 2, 3, "one");
  BOOST_CHECK_EQUAL(text_of(xml, text.span), "one\n  two");
}

BOOST_AUTO_TEST_CASE(comments_part_a_text_and_are_no_text) {
  const VettedXml xml = vetted("<a>one<!-- <b/> & -->two <!-- --> three</a>");
  const auto& texts = xml.map.elements[0].texts;
  BOOST_REQUIRE_EQUAL(xml.map.elements.size(), 1);
  BOOST_REQUIRE_EQUAL(texts.size(), 3);
  BOOST_CHECK(!texts[0].after_blank);
  BOOST_CHECK(!texts[1].after_blank);
  BOOST_CHECK(texts[2].after_blank);
}

BOOST_AUTO_TEST_CASE(a_file_of_one_long_line_is_mapped_quickly) {
  std::string bytes = "<a>";
  for (int n = 0; n < 60000; ++n) bytes += "<b x='ñ'/>";
  const VettedXml xml = vetted(bytes + "</a>");
  BOOST_REQUIRE_EQUAL(xml.map.elements.size(), 60001);
  check_place(xml, xml.map.elements[60000].name_place, 1, 3 + 59999 * 10 + 2, "b");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
