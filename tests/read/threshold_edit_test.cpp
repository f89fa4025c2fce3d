#include "read/threshold_edit.hpp"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <map>

#include "protocol/band_name.hpp"
#include "protocol/resolve.hpp"
#include "read/all_of_draft.hpp"
#include "read/hand_formatted.hpp"
#include "read/protocol_from_xml.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/xml_tree.hpp"

namespace rushlight::tests {

namespace {

const Where kStated{"--change", 0, 0, 0};

std::string every_word() {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/good/protocol/every-word.xml",
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

ThresholdChange change(const std::string& id, const std::string& value, const std::string& band = "") {
  return {id, band, {value, "", ""}, kStated};
}
ThresholdChange glucose(const std::string& id, const std::string& mg, const std::string& mmol,
                        const std::string& band = "") {
  return {id, band, {"", mg, mmol}, kStated};
}

/// Every word of the file with the way to it, in order.
void add_words(const XmlNode& node, const std::string& way, std::vector<std::string>& words) {
  const std::string here = way + "/" + node.name.text;
  std::vector<std::string> attributes;
  for (const XmlAttribute& attribute : node.attributes)
    attributes.push_back(here + "@" + attribute.name.text + "=" + attribute.value.text);
  std::sort(attributes.begin(), attributes.end());
  words.insert(words.end(), attributes.begin(), attributes.end());
  words.push_back(here + ":" + node.text.text);
  for (std::size_t i = 0; i < node.children.size(); ++i) add_words(node.children[i], here + std::to_string(i), words);
}

std::vector<std::string> words_in(const std::string& bytes) {
  const Read<VettedXml> xml = vet_xml(bytes, "low.xml");
  BOOST_REQUIRE(xml.value);
  const Read<XmlNode> tree = tree_from_vetted(*xml.value);
  BOOST_REQUIRE(tree.value);
  std::vector<std::string> words;
  add_words(*tree.value, "", words);
  return words;
}

Protocol protocol_of(const std::string& bytes) {
  Read<Protocol> read = resolved_from_xml(bytes, "low.xml");
  for (const Finding& finding : read.findings)
    BOOST_ERROR(text_from_finding(finding, Lines(bytes).line(finding.where.line)));
  BOOST_REQUIRE(read.value);
  return *read.value;
}

/// A new value that its range allows, drawn by lot.
ValueWords drawn(const Threshold& threshold, std::mt19937& dice) {
  if (threshold.kind == ThresholdKind::glucose) {
    const Decimal mg = Decimal::whole(60 + static_cast<int>(dice() % 41));
    std::string mmol = text_from_decimal(other_value(mg, GlucoseUnit::mg_per_dl));
    if (mmol.find('.') == std::string::npos) mmol += ".0";
    return {"", text_from_decimal(mg), mmol};
  }
  return {dice() % 2 == 0 ? threshold.least : threshold.most, "", ""};
}

const std::string& word_named(const ValueWords& words, const std::string& name) {
  return name == "value" ? words.value : name == "mg-dl" ? words.mg_dl : words.mmol_l;
}

/// The bytes with the values of one number written over where the hand wrote them.
std::string written_over(const HandFormatted& hand, const std::string& id, std::optional<std::size_t> band,
                         const ValueWords& words) {
  std::string bytes = hand.bytes;
  std::vector<WrittenValue> values = hand.values;
  std::sort(values.begin(), values.end(), [](const auto& a, const auto& b) { return a.span.begin > b.span.begin; });
  for (const WrittenValue& value : values) {
    if (value.threshold != id || value.band != band) continue;
    bytes.replace(value.span.begin, value.span.end - value.span.begin, word_named(words, value.name));
  }
  return bytes;
}

Finding only_finding(const std::vector<ThresholdChange>& changes, std::string bytes = every_word()) {
  const Read<EditedProtocol> edited = threshold_edit(bytes, "low.xml", changes);
  BOOST_TEST(!edited.value.has_value());
  for (std::size_t i = 1; i < edited.findings.size(); ++i) BOOST_ERROR(text_from_finding(edited.findings[i], {}));
  BOOST_REQUIRE(!edited.findings.empty());
  return edited.findings.front();
}

template <class K>
K refused_as(const std::vector<ThresholdChange>& changes) {
  const Finding finding = only_finding(changes);
  const K* kind = finding.kind.as<K>();
  BOOST_REQUIRE_MESSAGE(kind != nullptr, text_from_finding(finding, {}));
  BOOST_TEST((finding.where == kStated));
  return *kind;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(changing_a_number)

BOOST_AUTO_TEST_CASE(only_the_bytes_of_the_value_change_however_the_file_is_written) {
  constexpr unsigned kSeed = 20260301;
  constexpr int kEdits = 600;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  std::mt19937 dice(kSeed);
  std::map<std::string, int> edits_of;
  int changed = 0;
  for (int i = 0; i < kEdits; ++i) {
    const HandFormatted hand = hand_formatted(every_word(), dice);
    const Protocol before = protocol_of(hand.bytes);
    const std::size_t which = dice() % before.thresholds.size();
    const Threshold& threshold = before.thresholds[which];
    const bool banded = has_bands(threshold);
    const std::size_t band = banded ? dice() % threshold.bands.size() : 0;
    const std::string band_name = banded ? name_of(threshold.bands[band]) : "";
    const ValueWords words = drawn(threshold, dice);
    ++edits_of[threshold.name + ":" + band_name];

    const Read<EditedProtocol> edited =
        threshold_edit(hand.bytes, "low.xml", {{threshold.name, band_name, words, kStated}});
    BOOST_REQUIRE_MESSAGE(edited.value, threshold.name << " " << words.value << words.mg_dl);
    const std::optional<std::size_t> noted = banded ? std::optional<std::size_t>{band} : std::nullopt;
    BOOST_REQUIRE(edited.value->bytes == written_over(hand, threshold.name, noted, words));
    changed += edited.value->bytes != hand.bytes ? 1 : 0;

    // The draft that comes along is what a reader would make of the new bytes, each word and each place.
    const Read<Draft> again = protocol_from_xml(edited.value->bytes, "low.xml");
    BOOST_REQUIRE(again.value);
    BOOST_REQUIRE(all_of(edited.value->draft) == all_of(*again.value));

    const ThresholdChange back{threshold.name, band_name, edited.value->replaced.at(0).before, kStated};
    const Read<EditedProtocol> restored = threshold_edit(edited.value->bytes, "low.xml", {back});
    BOOST_REQUIRE(restored.value);
    BOOST_REQUIRE(restored.value->bytes == hand.bytes);

    const Protocol after = protocol_of(edited.value->bytes);
    for (std::size_t t = 0; t < before.thresholds.size(); ++t) {
      for (std::size_t b = 0; b < before.thresholds[t].bands.size(); ++b) {
        if (t == which && b == band) continue;
        BOOST_REQUIRE((before.thresholds[t].bands[b].value == after.thresholds[t].bands[b].value));
      }
    }
    const std::vector<std::string> words_before = words_in(hand.bytes), words_after = words_in(edited.value->bytes);
    BOOST_REQUIRE(words_before.size() == words_after.size());
    for (std::size_t w = 0; w < words_before.size(); ++w) {
      if (words_before[w] == words_after[w]) continue;
      const std::string value = words_after[w].substr(words_after[w].find('=') + 1);
      BOOST_REQUIRE_MESSAGE(value == words.value || value == words.mg_dl || value == words.mmol_l, words_after[w]);
    }
  }
  BOOST_TEST_MESSAGE(changed << " of " << kEdits << " edits changed a value; " << edits_of.size()
                             << " values were drawn");
  BOOST_TEST(changed >= 200);
  std::size_t values = 0;
  for (const Threshold& threshold : protocol_of(every_word()).thresholds) values += threshold.bands.size();
  BOOST_TEST(edits_of.size() == values);
}

BOOST_AUTO_TEST_CASE(all_numbers_of_a_shipped_protocol_change_at_once_and_back) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/reference/low.xml", std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  const Protocol protocol = protocol_of(bytes);
  std::vector<ThresholdChange> changes, back;
  for (const Threshold& threshold : protocol.thresholds) {
    if (threshold.kind == ThresholdKind::glucose) continue;
    for (const Band& band : threshold.bands)
      changes.push_back(change(threshold.name, threshold.least, has_bands(threshold) ? name_of(band) : ""));
  }
  const Read<EditedProtocol> edited = threshold_edit(bytes, "low.xml", changes);
  BOOST_REQUIRE(edited.value);
  BOOST_TEST((edited.value->bytes != bytes));
  for (std::size_t i = 0; i < changes.size(); ++i) {
    back.push_back(changes[i]);
    back.back().words = edited.value->replaced[i].before;
  }
  const Read<EditedProtocol> restored = threshold_edit(edited.value->bytes, "low.xml", back);
  BOOST_REQUIRE(restored.value);
  BOOST_TEST((restored.value->bytes == bytes));
}

BOOST_AUTO_TEST_CASE(a_digit_written_as_a_reference_gives_way_to_plain_digits) {
  std::string bytes = every_word();
  const std::string old = "value=\"15 min\" least=\"10 min\"";
  bytes.replace(bytes.find(old), old.size(), "value=\" 1&#53; min \" least=\"10 min\"");
  const Read<EditedProtocol> edited = threshold_edit(bytes, "low.xml", {change("recheck", "12 min")});
  BOOST_REQUIRE(edited.value);
  BOOST_TEST(edited.value->bytes.find("value=\" 12 min \" least=\"10 min\"") != std::string::npos);
  BOOST_TEST(edited.value->replaced.at(0).before.value == "15 min");
}

BOOST_AUTO_TEST_CASE(what_the_reader_would_refuse_is_refused_where_it_was_stated) {
  BOOST_TEST(refused_as<UnknownId>({change("rechek", "12 min")}).id == "rechek");
  BOOST_TEST(refused_as<BadNumber>({change("recheck", "1O min")}).written == "1O min");
  BOOST_TEST(refused_as<MissingUnit>({change("recheck", "12")}).example == "12 min");
  BOOST_TEST(refused_as<WrongUnit>({change("recheck", "12 kg")}).written == "12 kg");
  BOOST_TEST(refused_as<OutOfRange>({change("recheck", "21 min")}).most == "20 min");
  BOOST_TEST(refused_as<OutOfRange>({change("recheck", "0 min")}).least == "10 min");
  BOOST_TEST(refused_as<BadNumber>({change("recheck", "-12 min")}).written == "-12 min");
  BOOST_TEST(refused_as<BadNumber>({change("recheck", "")}).why == "nothing is written");
  BOOST_TEST(refused_as<BadNumber>({change("most-treatments", "2.5")}).why == "a count is a whole number");
  BOOST_TEST(refused_as<BadNumber>({change("night-starts", "24:00")}).written == "24:00");
  BOOST_TEST(refused_as<WrongUnit>({change("recheck", "12 min\"/><x y=\"")}).wanted == "min, s, h or d");
}

BOOST_AUTO_TEST_CASE(range_that_refuses_a_number_is_shown) {
  const Finding finding = only_finding({change("recheck", "21 min")});
  BOOST_REQUIRE(finding.because);
  BOOST_TEST(finding.because->where->line == 21U);
}

BOOST_AUTO_TEST_CASE(number_stays_in_the_unit_of_its_range) {
  BOOST_TEST(refused_as<WrongUnit>({change("glucagon-dose", "500 ug")}).wanted == "mg");
  BOOST_TEST(refused_as<WrongUnit>({change("juice-step", "5 g")}).wanted == "mL");
  BOOST_TEST(refused_as<WrongUnit>({change("juice-content", "9 g/(100.g)")}).wanted == "g/(100.mL)");
}

BOOST_AUTO_TEST_CASE(two_values_of_a_glucose_are_one_border_or_refused) {
  const ValuesDisagree kind = refused_as<ValuesDisagree>({glucose("banded", "66", "3.9", "under-6-years")});
  BOOST_TEST(remedy(Kind{kind}) == "write `66 mg/dL, 3.7 mmol/L` or `70 mg/dL, 3.9 mmol/L`");
}

BOOST_AUTO_TEST_CASE(source_that_prints_an_uneven_pair_allows_its_last_digit_and_no_slip) {
  BOOST_TEST(threshold_edit(every_word(), "low.xml", {glucose("low", "100", "5.5")}).value.has_value());
  BOOST_TEST(refused_as<ValuesDisagree>({glucose("low", "100", "5.1")}).expected_mmol_per_l == "5.6");
}

BOOST_AUTO_TEST_CASE(band_is_named_by_its_child_and_hour) {
  const auto edited =
      threshold_edit(every_word(), "low.xml", {glucose("banded", "90", "5.0", "from-6-years-and-22:00-to-06:00")});
  BOOST_REQUIRE(edited.value);
  BOOST_TEST(edited.value->bytes.find("clock-up-to=\"06:00\" mg-dl=\"90\" mmol-l=\"5.0\"") != std::string::npos);
  BOOST_TEST(refused_as<BandUnnamed>({glucose("banded", "90", "5.0")}).bands.size() == 3U);
  BOOST_TEST(refused_as<UnknownId>({glucose("banded", "90", "5.0", "under-7-years")}).what == "band of `banded`");
  BOOST_TEST(refused_as<UnknownId>({change("recheck", "12 min", "under-7-years")}).what == "band of `recheck`");
}

BOOST_AUTO_TEST_CASE(one_value_changed_twice_is_refused) {
  BOOST_TEST(refused_as<RepeatedKey>({change("recheck", "12 min"), change("recheck", "13 min")}).key == "recheck");
}

BOOST_AUTO_TEST_CASE(one_wrong_change_keeps_all_others_out) {
  const Read<EditedProtocol> edited =
      threshold_edit(every_word(), "low.xml", {change("recheck", "12 min"), change("light", "900 kg")});
  BOOST_TEST(!edited.value.has_value());
  BOOST_TEST(edited.findings.size() == 1U);
}

BOOST_AUTO_TEST_CASE(file_with_an_error_is_not_changed) {
  std::string bytes = every_word();
  bytes.replace(bytes.find("sources>"), 8, "surces>");
  const Read<EditedProtocol> edited = threshold_edit(bytes, "low.xml", {change("recheck", "12 min")});
  BOOST_TEST(!edited.value.has_value());
  BOOST_TEST(has_error(edited.findings));
  BOOST_TEST(!threshold_edit("", "low.xml", {}).value.has_value());
}

BOOST_AUTO_TEST_CASE(no_change_gives_the_same_bytes) {
  BOOST_TEST((threshold_edit(every_word(), "low.xml", {}).value.value().bytes == every_word()));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
