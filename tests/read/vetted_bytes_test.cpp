#include "read/vetted_bytes.hpp"

#include <boost/test/unit_test.hpp>
#include <string>
#include <utility>
#include <vector>

#include "read/xmllint.hpp"

namespace rushlight::tests {

namespace {

struct Case {
  std::string bytes;
  std::string kind;  // of the first finding; empty: accepted
};

using namespace std::string_literals;

// One row for each way in which bytes are or are not what we take.
const std::vector<Case> kCases = {
    {"<a/>", ""},
    {"<a></a>", ""},
    {"<a ></a >", ""},
    {"\xEF\xBB\xBF<a/>", ""},
    {"\xEF\xBB\xBF<?xml version=\"1.0\"?><a/>", ""},
    {"<?xml version='1.0' encoding='utf-8' standalone='yes' ?>\r\n<a/>\r\n", ""},
    {"<?xml version = \"1.0\"?><a/>", ""},
    {"<!-- a --><a/><!-- - b -->\n", ""},
    {"<!----><a/>", ""},
    {"<a b = 'x' c=\"it's\"/>", ""},
    {"<a b='>'>&amp;&lt;&gt;&quot;&apos;&#233;&#xE9;&#x1F600;</a>", ""},
    {"<a>]] > ]]</a>", ""},
    {"<ni\xC3\xB1o/>", ""},
    {"<a>\xF0\x9F\x98\x80\t\r\n</a>", ""},
    {"<_a-b.c1/>", ""},

    {"", "not-xml"},
    {" \n", "not-xml"},
    {"words", "not-xml"},
    {"<a/>words", "not-xml"},
    {"words<a/>", "not-xml"},
    {"&amp;<a/>", "not-xml"},
    {"<a/><b/>", "not-xml"},
    {"<a", "not-xml"},
    {"<a b", "not-xml"},
    {"<a b=", "not-xml"},
    {"<a b='", "not-xml"},
    {"<a/", "not-xml"},
    {"<a / >", "not-xml"},
    {"<a><b></a></b>", "not-xml"},
    {"<a></b>", "not-xml"},
    {"<a></a", "not-xml"},
    {"<a></ a>", "not-xml"},
    {"<a></a b='1'>", "not-xml"},
    {"<a></>", "not-xml"},
    {"</a>", "not-xml"},
    {"<a/></a>", "not-xml"},
    {"<a>", "not-xml"},
    {"< a/>", "not-xml"},
    {"<1a/>", "not-xml"},
    {"<-a/>", "not-xml"},
    {"<a b=1/>", "not-xml"},
    {"<a b/>", "not-xml"},
    {"<a 1='b'/>", "not-xml"},
    {"<a 'b'/>", "not-xml"},
    {"<a x='1'y='2'/>", "not-xml"},
    {"<a x='1' x='2'/>", "repeated-key"},
    {"<a x='<'/>", "not-xml"},
    {"<a x='&'/>", "not-xml"},
    {"<a x='&b;'/>", "not-xml"},
    {"<a>a & b</a>", "not-xml"},
    {"<a>&</a>", "not-xml"},
    {"<a>&amp</a>", "not-xml"},
    {"<a>&nbsp;</a>", "not-xml"},
    {"<a>&#;</a>", "not-xml"},
    {"<a>&#x;</a>", "not-xml"},
    {"<a>&#xG;</a>", "not-xml"},
    {"<a>&#1F;</a>", "not-xml"},
    {"<a>&#X41;</a>", "not-xml"},
    {"<a>&1;</a>", "not-xml"},
    {"<a>&#0;</a>", "forbidden-character"},
    {"<a>&#8;</a>", "forbidden-character"},
    {"<a>&#xD800;</a>", "forbidden-character"},
    {"<a>&#xFFFE;</a>", "forbidden-character"},
    {"<a>&#x110000;</a>", "forbidden-character"},
    {"<a>&#99999999999;</a>", "not-xml"},
    {"<a>]]></a>", "not-xml"},
    {"<a><!-- a -- b --></a>", "not-xml"},
    {"<a><!-- a ---></a>", "not-xml"},
    {"<!--><a/>", "not-xml"},
    {"<!---><a/>", "not-xml"},
    {"<a><!-- a</a>", "not-xml"},
    {"<a><!b></a>", "not-xml"},
    {" <?xml version='1.0'?><a/>", "not-xml"},
    {"<?xml version='1.0'?><?xml version='1.0'?><a/>", "not-xml"},
    {"<?xml?><a/>", "not-xml"},
    {"<?xml ?><a/>", "not-xml"},
    {"<?xml version='1.0'><a/>", "not-xml"},
    {"<?xml version='2.0'?><a/>", "not-xml"},
    {"<?xml encoding='UTF-8'?><a/>", "not-xml"},
    {"<?xml encoding='UTF-8' version='1.0'?><a/>", "not-xml"},
    {"<?xml version='1.0'encoding='UTF-8'?><a/>", "not-xml"},
    {"<?xml version='1.0' encoding='UTF-8' encoding='UTF-8'?><a/>", "not-xml"},
    {"<?xml version='1.0' standalone='maybe'?><a/>", "not-xml"},
    {"<?xml version='1.0' lang='es'?><a/>", "not-xml"},
    {"<?xml version='1.0'  encoding='latin1'?><a/>", "not-xml"},
    {"<?XML version='1.0'?><a/>", "not-xml"},
    {"<a>\x01</a>", "forbidden-character"},
    {"<a>\0</a>"s, "forbidden-character"},
    {"<a/>\0<b/>"s, "forbidden-character"},
    {"<a>\xEF\xBF\xBF</a>", "forbidden-character"},
    {"<a>\x1B[2J</a>", "forbidden-character"},
    {"<a>\xFF</a>", "not-utf8"},
    {"<a>\xC3</a>", "not-utf8"},
    {"<a>\xC0\x80</a>", "not-utf8"},
    {"<a>\xED\xA0\x80</a>", "not-utf8"},
    {"<a>\xF4\x90\x80\x80</a>", "not-utf8"},
    {"<a b='\xE9'/>", "not-utf8"},

    // XML takes these; a protocol does not.
    {"<!DOCTYPE a><a/>", "not-xml"},
    {"<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>", "not-xml"},
    {"<?style x?><a/>", "not-xml"},
    {"<a><?style x?></a>", "not-xml"},
    {"<a><![CDATA[b]]></a>", "not-xml"},
    {"<?xml version='1.1'?><a/>", "not-xml"},
    {"<a xml:lang='en'/>", "not-xml"},
    {"<a>\x7F</a>", "forbidden-character"},
    {"<a>\xC2\x9B</a>", "forbidden-character"},
    {"<a>\xE2\x80\xAE</a>", "forbidden-character"},
    {"<a>&#x202E;</a>", "forbidden-character"},
    {"<a>&#x9B;</a>", "forbidden-character"},
};

std::string kind_found(const std::string& bytes) {
  const Read<VettedXml> read = vet_xml(bytes, "case.xml");
  BOOST_CHECK_EQUAL(read.value.has_value(), read.findings.empty());
  return read.findings.empty() ? "" : id_of(read.findings.front().kind);
}

std::string nested(std::size_t depth) {
  std::string bytes;
  for (std::size_t n = 0; n < depth; ++n) bytes += "<a>";
  for (std::size_t n = 0; n < depth; ++n) bytes += "</a>";
  return bytes;
}

std::string with_attributes(std::size_t count) {
  std::string bytes = "<a";
  for (std::size_t n = 0; n < count; ++n) bytes += " a" + std::to_string(n) + "=''";
  return bytes + "/>";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(vetted_bytes)

BOOST_AUTO_TEST_CASE(each_way_to_write_bytes_is_taken_or_refused_as_listed) {
  for (const Case& row : kCases)
    BOOST_CHECK_MESSAGE(kind_found(row.bytes) == row.kind, row.bytes << " -> " << kind_found(row.bytes));
}

BOOST_AUTO_TEST_CASE(what_xmllint_refuses_is_refused) {
  std::vector<std::pair<std::string, std::string>> files;
  for (std::size_t n = 0; n < kCases.size(); ++n) files.emplace_back("c" + std::to_string(n) + ".xml", kCases[n].bytes);
  const XmllintVerdict verdict = xmllint(files);
  BOOST_CHECK_GT(verdict.refused.size(), 50);
  for (std::size_t n = 0; n < kCases.size(); ++n) {
    if (verdict.refused.count(files[n].first) == 0) continue;
    BOOST_CHECK_MESSAGE(!kCases[n].kind.empty(), "xmllint refuses what is taken here: " << kCases[n].bytes);
  }
}

BOOST_AUTO_TEST_CASE(what_is_at_a_limit_is_taken_and_what_is_above_it_refused) {
  BOOST_CHECK_EQUAL(kind_found(nested(kMostDepth)), "");
  BOOST_CHECK_EQUAL(kind_found(nested(kMostDepth + 1)), "too-large");
  BOOST_CHECK_EQUAL(kind_found(with_attributes(kMostAttributes)), "");
  BOOST_CHECK_EQUAL(kind_found(with_attributes(kMostAttributes + 1)), "too-large");
  const auto text = [](std::size_t length) { return "<a>" + std::string(length, 'x') + "</a>"; };
  BOOST_CHECK_EQUAL(kind_found(text(kMostTextLength)), "");
  BOOST_CHECK_EQUAL(kind_found(text(kMostTextLength + 1)), "too-large");
  const auto value = [](std::size_t length) { return "<a b='" + std::string(length, 'x') + "'/>"; };
  BOOST_CHECK_EQUAL(kind_found(value(kMostTextLength)), "");
  BOOST_CHECK_EQUAL(kind_found(value(kMostTextLength + 1)), "too-large");
  const auto name = [](std::size_t length) { return "<" + std::string(length, 'x') + "/>"; };
  BOOST_CHECK_EQUAL(kind_found(name(kMostNameLength)), "");
  BOOST_CHECK_EQUAL(kind_found(name(kMostNameLength + 1)), "too-large");
  const auto file = [](std::size_t size) { return "<a/>" + std::string(size - 4, ' '); };
  BOOST_CHECK_EQUAL(kind_found(file(kMostBytes)), "");
  BOOST_CHECK_EQUAL(kind_found(file(kMostBytes + 1)), "too-large");
}

BOOST_AUTO_TEST_CASE(text_length_counts_letters_and_not_bytes) {
  std::string letters;
  for (std::size_t n = 0; n < kMostTextLength; ++n) letters += "ñ";
  BOOST_CHECK_EQUAL(kind_found("<a>" + letters + "</a>"), "");
  BOOST_CHECK_EQUAL(kind_found("<a>" + letters + "ñ</a>"), "too-large");
}

BOOST_AUTO_TEST_CASE(a_file_full_of_mistakes_gives_a_bounded_list) {
  std::string bytes = "<a>";
  for (int n = 0; n < 10000; ++n) bytes += "&";
  const Read<VettedXml> read = vet_xml(bytes + "</a>", "case.xml");
  BOOST_CHECK_GT(read.findings.size(), 10);
  BOOST_CHECK_LE(read.findings.size(), kMostVettingFindings);
}

BOOST_AUTO_TEST_CASE(one_run_tells_every_mistake_behind_which_reading_goes_on) {
  const std::string bytes = "<a x='1'y='&'>\n<b z>&c;</b>\n<!-- -- -->\n<d>]]></e></d>\n</a>";
  const Read<VettedXml> read = vet_xml(bytes, "case.xml");
  std::vector<std::uint32_t> lines;
  for (const Finding& finding : read.findings) lines.push_back(finding.where.line);
  const std::vector<std::uint32_t> expected = {1, 1, 2, 2, 3, 4, 4};
  BOOST_CHECK_EQUAL_COLLECTIONS(lines.begin(), lines.end(), expected.begin(), expected.end());
}

BOOST_AUTO_TEST_CASE(byte_order_mark_is_remembered_and_has_no_column) {
  const Read<VettedXml> read = vet_xml("\xEF\xBB\xBF<a/>", "case.xml");
  BOOST_REQUIRE(read.value);
  BOOST_CHECK(read.value->has_byte_order_mark);
  BOOST_CHECK_EQUAL(read.value->map.elements[0].name_place.column, 2);
  BOOST_CHECK_EQUAL(read.value->map.elements[0].name_span.begin, 4);
  BOOST_CHECK(!vet_xml("<a/>", "case.xml").value->has_byte_order_mark);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
