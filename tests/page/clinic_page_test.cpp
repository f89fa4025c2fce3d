#include "cli/page/clinic_page.hpp"

#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <random>

#include "cli/numbers_sheet.hpp"
#include "cli/page/clinic_data.hpp"
#include "cli/page/clinic_files.hpp"
#include "protocol/band_name.hpp"

namespace rushlight::tests {

namespace data = boost::unit_test::data;

namespace {

/// A clinic's page in this process, without a browser.
class AtTheDesk {
 public:
  explicit AtTheDesk(const std::string& name = "reference") : data_(*clinic_data(embedded_set(name)).value) {
    for (const KeptFile& file : data_.files) page_.add_file(file.name, file.bytes);
    BOOST_REQUIRE_EQUAL(page_.open(text_from_drafts(data_.drafts)), R"({"opened":true})");
    set_ = *clinic_set(text_from_drafts(data_.drafts), data_.files).value;
  }
  /// Fields and their parts, each as JSON: {"low", R"(["65",null])"}.
  const std::string& types(const std::vector<std::pair<std::string, std::string>>& fields,
                           const std::string& language = "en") {
    std::string list;
    for (const auto& [field, parts] : fields)
      list += (list.empty() ? "" : ",") + std::string(R"({"field":")") + field + R"(","parts":)" + parts + "}";
    return asks(R"({"do":"plan","language":")" + language + R"(","fields":[)" + list + "]}");
  }
  const std::string& asks(const std::string& request) { return answer_ = page_.call(request); }
  bool says(const std::string& text) const { return answer_.find(text) != std::string::npos; }
  /// The changes that its table makes in the set that it was made from.
  ChangePlan taken_in() {
    asks(R"({"do":"csv","language":"en"})");
    std::string csv = answer_.substr(8, answer_.size() - 10);
    for (const auto& [escaped, plain] :
         {std::pair<std::string, std::string>{"\\r", "\r"}, {"\\n", "\n"}, {"\\\"", "\""}}) {
      for (std::size_t at = 0; (at = csv.find(escaped, at)) != std::string::npos; at += plain.size())
        csv.replace(at, escaped.size(), plain);
    }
    const Read<std::vector<Wish>> wishes = wishes_from_csv(set_.numbers, csv, "numbers.csv");
    for (const Finding& finding : wishes.findings) BOOST_ERROR(text_from_finding(finding, {}));
    BOOST_REQUIRE(wishes.value);
    return planned(set_.numbers, *wishes.value);
  }
  const NumbersSet& numbers() const { return set_.numbers; }
  const ClinicData& data() const { return data_; }

 private:
  ClinicData data_;
  ClinicSet set_;
  ClinicPage page_;
  std::string answer_;
};

/// Typed, what the engine must say, and whether it is taken.
struct Typing {
  const char *field, *parts, *says;
  bool taken;
  friend std::ostream& operator<<(std::ostream& out, const Typing& typing) {
    return out << typing.field << " " << typing.parts;
  }
};
const Typing kTypings[] = {
    {"low", R"(["65",null])", R"("parts":[{"text":"65","unit":"mg/dL"},{"text":"3.6","unit":"mmol/L"}],"proposed":1)",
     true},
    {"low", R"([null,"3.6"])", R"("parts":[{"text":"65","unit":"mg/dL"},{"text":"3.6","unit":"mmol/L"}],"proposed":0)",
     true},
    {"low", R"([null,"3,6"])", R"({"text":"3.6","unit":"mmol/L"}])", true},
    {"low", R"(["65","3.6"])", R"({"text":"3.6","unit":"mmol/L"}]})", true},
    {"recheck", R"(["12"])", R"("parts":[{"text":"12","unit":"min"}])", true},
    {"recheck", R"([" 12 minutes "])", R"("parts":[{"text":"12","unit":"min"}])", true},
    {"low", R"(["70",null])", R"("changes":[])", true},
    {"low", R"(["65","3.9"])", "3.6", false},
    {"low", R"(["20",null])", "60 mg/dL", false},
    {"low", R"(["",""])", "a number is missing here", false},
    {"low", R"(["6O",null])", "6O", false},
    {"low", R"(["1,500",null])", "thousand", false},
    {"recheck", R"([""])", "a number is missing here", false},
    {"recheck", R"(["900"])", "min", false},
    {"recheck", R"(["12 mg/dL"])", "12 mg/dL", false},
    {"recheck", R"j(["<script>alert(1)</script>"])j", "<script>", false},
    {"recheck", R"j(["=HYPERLINK(1)"])j", "HYPERLINK", false},
    {"no-such-number", R"(["12"])", "no-such-number", false},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(the_clinics_page)

BOOST_DATA_TEST_CASE(what_is_typed_is_taken_or_refused_with_its_reason, data::make(kTypings)) {
  static AtTheDesk desk;  // opened once: what is typed is always all that differs from the set

  const std::string answer = desk.types({{sample.field, sample.parts}});

  BOOST_TEST(desk.says(sample.says), answer);
  BOOST_TEST(desk.says(R"("refused":[])") == sample.taken, answer);
}

BOOST_AUTO_TEST_CASE(a_number_that_is_refused_holds_back_no_other) {
  AtTheDesk desk;

  desk.types({{"low", R"(["20",null])"}, {"recheck", R"(["12"])"}, {"high", R"(["",""])"}});

  BOOST_TEST(desk.says(R"("changes":[{"field":"recheck")"));
  BOOST_TEST(desk.says(R"({"field":"low","told")"));
  BOOST_TEST(desk.says(R"({"field":"high","told")"));
}

BOOST_AUTO_TEST_CASE(a_number_put_back_leaves_nothing_changed) {
  AtTheDesk desk;
  const std::string before = desk.asks(R"({"do":"check"})");
  desk.types({{"low", R"(["65",null])"}});
  BOOST_TEST(desk.asks(R"({"do":"check"})") != before);

  desk.types({});

  BOOST_TEST(desk.says(R"({"changes":[],"refused":[],"protocols":[]})"));
  BOOST_TEST(desk.asks(R"({"do":"check"})") == before);
}

BOOST_AUTO_TEST_CASE(findings_that_come_with_a_change_are_marked) {
  AtTheDesk desk;
  desk.types({{"low", R"(["65",null])"}});

  desk.asks(R"({"do":"check"})");

  BOOST_TEST(desk.says(R"("errors":0)"));
  BOOST_TEST(desk.says(R"("fresh":true,"place":"examples.xml:)"));
  BOOST_TEST(desk.says("write `not-low` into the example if the clinic wants it so"));
}

BOOST_AUTO_TEST_CASE(a_set_with_an_error_is_not_compared_and_still_drawn) {
  AtTheDesk desk;
  desk.types({{"recheck", R"(["20"])"}});
  desk.asks(R"({"do":"check"})");
  BOOST_REQUIRE(!desk.says(R"("errors":0)"));

  BOOST_TEST(desk.asks(R"({"do":"compare","protocol":"low"})").find("a set with an error cannot be compared") !=
             std::string::npos);
  desk.asks(R"({"do":"map","protocol":"low","map":"still-low:glucose,low-treatments"})");
  BOOST_TEST(desk.says("<svg"));
  BOOST_TEST(desk.says(R"("beside":false)"));
}

BOOST_AUTO_TEST_CASE(a_map_shows_both_versions_where_they_differ) {
  AtTheDesk desk;
  desk.types({{"low", R"(["65",null])"}});

  desk.asks(R"({"do":"map","protocol":"low","map":"still-low:glucose,low-treatments"})");

  BOOST_TEST(desk.says(R"("beside":true)"));
  BOOST_TEST(desk.says("BEFORE"));
  BOOST_TEST(desk.asks(R"({"do":"map","protocol":"low","map":"no-such-step:glucose"})").find("error") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_changed_border_names_the_step_in_which_it_decides) {
  AtTheDesk desk;

  const std::string border = desk.types({{"low", R"(["65",null])"}});
  BOOST_TEST(desk.says(R"("shows":{"protocol":"low","step":"watch-soon","across":"glucose"})"), border);
  const std::string no_border = desk.types({{"one-gram", R"(["2"])"}});
  BOOST_TEST(!desk.says("\"shows\""), no_border);
}

BOOST_AUTO_TEST_CASE(a_call_that_is_none_changes_nothing_and_says_so) {
  AtTheDesk desk;
  for (const char* call : {"", "{", "[]", R"({"do":"burn"})", R"({"do":"compare","protocol":"none"})",
                           R"({"do":"map","protocol":"none","map":""})"}) {
    BOOST_TEST(desk.asks(call).find("\"error\"") != std::string::npos, call);
  }
  desk.asks(R"({"do":"plan","fields":[{},{"field":"low"},{"parts":[]},7]})");
  BOOST_TEST(desk.says(R"("changes":[])"));
}

// Whatever was typed and taken, the table makes the very same of the set.
BOOST_AUTO_TEST_CASE(the_table_that_is_saved_changes_the_set_to_what_was_looked_at) {
  constexpr unsigned kSeed = 20261130;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  std::mt19937 dice(kSeed);
  AtTheDesk desk("harbour-lane");
  int changed = 0;
  for (int i = 0; i < 60; ++i) {
    std::vector<std::pair<std::string, std::string>> typed;
    std::vector<Wish> wishes;
    for (auto more = 1 + dice() % 4; more > 0; --more) {
      const Number& number = desk.numbers().numbers[dice() % desk.numbers().numbers.size()];
      const Threshold& threshold = desk.numbers().threshold(number.places.front());
      const std::size_t band = dice() % threshold.bands.size();
      const std::string field = number.name + (has_bands(threshold) ? ":" + name_of(threshold.bands[band]) : "");
      const std::string value = threshold.kind == ThresholdKind::glucose
                                    ? std::to_string(60 + dice() % 250)
                                    : (dice() % 2 == 0 ? threshold.least : threshold.most);
      typed.push_back({field, "[\"" + value + "\"" + (threshold.kind == ThresholdKind::glucose ? ",null]" : "]")});
    }
    desk.types(typed);
    const std::string answer = desk.types(typed);

    const ChangePlan plan = desk.taken_in();

    // A fever in °C alone is changed all the same, and is doubted.
    BOOST_REQUIRE(std::none_of(plan.findings.begin(), plan.findings.end(),
                               [](const Finding& each) { return each.severity == Severity::error; }));
    for (const NumberChange& change : plan.changes) {
      BOOST_REQUIRE(answer.find("{\"field\":\"" + change.number.name + "\",\"before\"") != std::string::npos);
      BOOST_REQUIRE(!change.proposed);
      ++changed;
    }
    std::size_t typed_changes = 0;
    for (std::size_t at = 0; (at = answer.find("\"before\"", at)) != std::string::npos; ++at) ++typed_changes;
    BOOST_REQUIRE_EQUAL(plan.changes.size(), typed_changes);
  }
  BOOST_TEST(changed > 30);
}

BOOST_AUTO_TEST_CASE(no_way_on_this_machine_and_no_markup_travels_in_a_clinics_page) {
  const ProtocolSet set = set_in_folder(RUSHLIGHT_SOURCE_DIR "/protocols/reference", "");
  const Read<ClinicData> data = clinic_data(set);
  BOOST_REQUIRE(data.value);

  const std::string json =
      json_from_clinic({set, "</script><script>alert(1)</script>", false, Language::en, *day_from_text("2026-03-01")}, *data.value);

  BOOST_TEST(json.find(RUSHLIGHT_SOURCE_DIR) == std::string::npos);
  BOOST_TEST(json.find("obody") != std::string::npos, "the approval, or that there is none, is said");
  BOOST_TEST(json.find('<') == std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_set_with_a_file_that_cannot_be_read_is_refused_and_one_with_an_error_of_sense_is_not) {
  std::vector<KeptFile> files = clinic_data(embedded_set("reference")).value->files;
  const auto with = [&](const std::string& from, const std::string& to) {
    std::vector<KeptFile> changed = files;
    for (KeptFile& file : changed) {
      if (file.name != "low.xml") continue;
      const std::size_t at = file.bytes.find(from);
      BOOST_REQUIRE(at != std::string::npos);
      file.bytes.replace(at, from.size(), to);
    }
    return clinic_data(set_of_files(changed));
  };

  BOOST_TEST(!with("mg-dl=\"70\"", "mg-dl=\"7O\"").value);
  BOOST_TEST(!with("</protocol>", "").value);
  BOOST_TEST(with("<time id=\"recheck\" value=\"15 min\"", "<time id=\"recheck\" value=\"20 min\"").value.has_value());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
