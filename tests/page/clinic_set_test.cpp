#include "cli/page/clinic_set.hpp"

#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <random>

#include "cli/assembled_set.hpp"
#include "cli/number_words.hpp"
#include "cli/page/clinic_data.hpp"
#include "cli/print_findings.hpp"
#include "measure/written.hpp"
#include "protocol/band_name.hpp"
#include "read/protocol_from_xml.hpp"
#include "sanitized.hpp"
#include "wire/protocol_model.hpp"

namespace rushlight::tests {

namespace data = boost::unit_test::data;

namespace {

const char* const kSets[] = {"reference", "harbour-lane"};

ClinicData data_of(const std::string& name) {
  const Read<ClinicData> read = clinic_data(embedded_set(name));
  BOOST_REQUIRE(read.value);
  return *read.value;
}

ClinicSet opened(const ClinicData& data) {
  Read<ClinicSet> set = clinic_set(text_from_drafts(data.drafts), data.files);
  BOOST_REQUIRE_MESSAGE(set.value, text_from_findings(set.findings, {}));
  return std::move(*set.value);
}

std::string model_of(const ProtocolSet& set) {
  std::vector<const Protocol*> protocols;
  for (const LoadedProtocol& loaded : set.protocols) protocols.push_back(&loaded.checked.protocol());
  return text_from_protocols(protocols);
}

/// A number of the set with a value drawn by lot: mostly one that a clinic may choose, now and then one beyond.
std::optional<Wish> drawn(const NumbersSet& set, std::mt19937& dice) {
  const Number& number = set.numbers[dice() % set.numbers.size()];
  const Threshold& threshold = set.threshold(number.places.front());
  const std::size_t band = dice() % threshold.bands.size();
  std::string value;
  if (threshold.kind == ThresholdKind::glucose) {
    value = std::to_string(45 + dice() % 260) + " mg/dL";
  } else {
    const ValueWords words = words_of(set.draft(number.places.front()), band);
    const Written now = written_from_text(words.value);
    const auto choice = dice() % 4;
    value = choice == 0   ? threshold.least
            : choice == 1 ? threshold.most
            : clock_time_from_text(words.value)
                ? words.value
                : std::to_string(1 + dice() % 60) + (now.unit.empty() ? "" : " " + std::string(now.unit));
  }
  auto wish =
      wish_from_text(number.name + (has_bands(threshold) ? ":" + name_of(threshold.bands[band]) : "") + "=" + value);
  return wish;
}

/// The set read anew from bytes in which the same numbers are changed.
ProtocolSet read_again(const ClinicData& data, const NumbersSet& numbers, const std::vector<ChangedFile>& changed) {
  std::vector<KeptFile> files = data.files;
  for (KeptFile& file : files) {
    for (const ChangedFile& change : changed) {
      if (numbers.files[change.file].name == file.name) file.bytes = change.bytes;
    }
  }
  return set_of_files(files);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(the_clinics_set)

BOOST_DATA_TEST_CASE(the_drafts_of_a_set_come_out_of_their_text_as_they_were, data::make(kSets)) {
  const std::string text = text_from_drafts(data_of(sample).drafts);

  const Read<SetDrafts> back = drafts_from_text(text);

  BOOST_REQUIRE(back.value);
  BOOST_TEST((text_from_drafts(*back.value) == text));
  const ClinicData data = data_of(sample);
  for (const Draft& draft : back.value->protocols) {
    for (const KeptFile& file : data.files) {
      if (file.name != draft.where.file) continue;
      const Read<Draft> read = protocol_from_xml(file.bytes, file.name);
      BOOST_TEST((text_from_drafts({{*read.value}, {}, {}}) == text_from_drafts({{draft}, {}, {}})), file.name);
    }
  }
}

BOOST_AUTO_TEST_CASE(a_text_of_drafts_that_was_cut_or_changed_is_refused) {
  const std::string text = text_from_drafts(data_of("reference").drafts);
  std::mt19937 dice(7);
  for (int i = 0; i < 200; ++i) {
    std::string other = text;
    if (i % 2 == 0) {
      other.resize(dice() % other.size());
    } else {
      char& letter = other[dice() % other.size()];
      letter = letter == '7' ? '8' : '7';
    }
    BOOST_REQUIRE(!drafts_from_text(other).value);
  }
  BOOST_TEST(!drafts_from_text("").value);
  BOOST_TEST(!drafts_from_text("rushlight-model 1 " + text.substr(text.find(' ', 17) + 1)).value);
}

// A text that nobody summed anew is refused by its sum. One that was is read to its end or refused, and never beyond.
BOOST_AUTO_TEST_CASE(a_damaged_text_with_a_right_sum_is_never_read_beyond_its_end) {
  const std::string text = text_from_drafts({{data_of("reference").drafts.protocols.front()}, {}, {}});
  const std::string head = "rushlight-drafts 1 ";
  const std::string body = text.substr(text.find(' ', head.size()) + 1);
  const auto sum_of = [](const std::string& all) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    for (const char letter : all) sum = (sum ^ static_cast<unsigned char>(letter)) * 0x100000001b3U;
    return std::to_string(sum);
  };
  BOOST_REQUIRE(drafts_from_text(head + sum_of(body) + " " + body).value);
  std::mt19937 dice(11);
  int refused = 0;
  for (int i = 0; i < 300; ++i) {
    std::string other = body;
    if (i % 3 == 0) other.resize(dice() % other.size());
    for (int hits = 0; hits < 5; ++hits) other[dice() % other.size()] = "0123456789 -:a"[dice() % 14];
    refused += drafts_from_text(head + sum_of(other) + " " + other).value ? 0 : 1;
  }
  BOOST_TEST(refused > 0);
}

BOOST_DATA_TEST_CASE(a_set_put_together_from_drafts_is_the_set_read_from_its_files, data::make(kSets)) {
  const ClinicData data = data_of(sample);

  const ProtocolSet set = set_with(opened(data), {}), read = set_of_files(data.files);

  BOOST_TEST(text_from_findings(set.findings, set.texts) == text_from_findings(read.findings, read.texts));
  BOOST_TEST((model_of(set) == model_of(read)));
}

BOOST_DATA_TEST_CASE(a_number_changed_in_the_draft_is_the_number_changed_in_the_file_and_read_again,
                     data::make(kSets)) {
  constexpr unsigned kSeed = 20261129;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  std::mt19937 dice(kSeed);
  const ClinicData data = data_of(sample);
  const ClinicSet set = opened(data);
  const int wanted = kSanitized ? 8 : 60, most_draws = 12 * wanted, checked_each = kSanitized ? 4 : 5;
  int changed = 0, plans = 0, with_errors = 0, with_findings = 0;
  for (int i = 0; i < most_draws && changed < wanted; ++i) {
    std::vector<Wish> wishes;
    for (auto more = 1 + dice() % 3; more > 0; --more) {
      if (auto wish = drawn(set.numbers, dice)) wishes.push_back(std::move(*wish));
    }
    const ChangePlan plan = planned(set.numbers, wishes);
    for (const ChangedFile& file : plan.files) {
      ++changed;
      const Read<Draft> again = protocol_from_xml(file.bytes, set.numbers.files[file.file].name);
      BOOST_REQUIRE(again.value);
      BOOST_REQUIRE(text_from_drafts({{file.draft}, {}, {}}) == text_from_drafts({{*again.value}, {}, {}}));
    }
    if (plan.files.empty() || plans++ % checked_each != 0) continue;
    const ProtocolSet here = set_with(set, plan.files), there = read_again(data, set.numbers, plan.files);
    BOOST_REQUIRE_EQUAL(text_from_findings(here.findings, here.texts), text_from_findings(there.findings, there.texts));
    BOOST_REQUIRE(model_of(here) == model_of(there));
    with_findings += here.findings.empty() ? 0 : 1;
    with_errors += has_error(here.findings) ? 1 : 0;
  }
  BOOST_TEST_MESSAGE(changed << " files changed; of the sets that were checked " << with_findings << " had findings, "
                             << with_errors << " errors");
  BOOST_TEST(changed >= wanted);
  if (!kSanitized) BOOST_TEST(with_findings > 0);  // too few are drawn there
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
