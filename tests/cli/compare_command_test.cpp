#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace rushlight::tests {

namespace {

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string with(std::string text, const std::string& old, const std::string& now) {
  const std::size_t at = text.find(old);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), now);
}

/// Line breaks where a terminal has them say nothing.
std::string unwrapped(const std::string& text) {
  std::string words;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || (!words.empty() && words.back() != ' ')) words += blank ? ' ' : c;
  }
  return words;
}

/// The reference low in one folder, and in another with 65 for 70.
struct TwoVersions {
  Folder was, now;
  TwoVersions() {
    const std::string low = file_in_tree("protocols/reference/low.xml");
    was.write("low.xml", low);
    now.write("low.xml", with(low, R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="65" mmol-l="3.6")"));
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(compare_command)

BOOST_AUTO_TEST_CASE(set_beside_itself_ends_with_0_and_says_so) {
  const Run run = run_program({"compare", "reference", "reference"});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(says(run.out, "Nothing changes: "));
}

BOOST_AUTO_TEST_CASE(changed_number_ends_with_1_and_says_for_whom_calmer_first) {
  const TwoVersions files;
  const Run run = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml")});
  BOOST_TEST(run.status == 1, run.err);
  BOOST_TEST(says(unwrapped(run.out),
                  "number `low` (Treat as low below): was 70 mg/dL = 3.9 mmol/L, now 65 mg/dL = 3.6 mmol/L"));
  BOOST_TEST(says(run.out, "All of it is for glucose 65 to 69 mg/dL (3.6 to 3.8 mmol/L)."));
  BOOST_TEST(run.out.find("CALMER THAN BEFORE") < run.out.find("LESS IS DONE"));
  BOOST_TEST(says(run.out, "The same: "));
  BOOST_TEST(says(run.out, " on from them lead."));
  const Run all = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml"), "--all"});
  BOOST_TEST(says(all.out, "The same: what is shown, asked and done in "));
  BOOST_TEST(says(all.out, " lead elsewhere now, which is told above."));
}

BOOST_AUTO_TEST_CASE(where_the_first_measurement_leads_stands_above_everything_else) {
  const TwoVersions files;
  const std::string was = files.was.path("low.xml"), now = files.now.path("low.xml");
  const auto opening = [&](const std::string& out) {
    const std::size_t first = out.find("WHERE THE FIRST ANSWERS OF A NIGHT LEAD"), calmer = out.find("CALMER THAN");
    BOOST_REQUIRE(first < calmer);
    return unwrapped(out.substr(first, calmer - first));
  };
  const std::string all = opening(run_program({"compare", was, now, "--all"}).out);
  BOOST_TEST(says(all, "symptoms: no was `which-reading`,"), all);
  BOOST_TEST(says(all,
                  "reading-from: meter or can't tell, symptoms: no was `treat`, Treat here: Low. Give "
                  "{fast-carbohydrate} of sugar now. now "
                  "`bedtime-check`,"),
             all);
  // In brief the worst of them first, without the headlines.
  const std::string brief = opening(run_program({"compare", was, now}).out);
  BOOST_TEST(says(brief,
                  "- LESS: after `which-reading` ({glucose} is low. Meter or sensor?): reading-from: meter or "
                  "can't tell, symptoms: "),
             brief);
  BOOST_TEST(says(brief, "was `treat`, Treat here; now "), brief);
}

BOOST_AUTO_TEST_CASE(in_brief_a_changed_border_of_a_whole_set_is_told_on_two_pages) {
  const std::string was = RUSHLIGHT_SOURCE_DIR "/protocols/reference";
  Folder now;
  for (const char* file : {"low.xml", "illness.xml", "ketones.xml"})
    now.write(file, with(file_in_tree(std::string("protocols/reference/") + file),
                         R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="66" mmol-l="3.7")"));
  const Run brief = run_program({"compare", was, now.path("")});
  BOOST_TEST(brief.status == 1, brief.err);
  BOOST_TEST(std::count(brief.out.begin(), brief.out.end(), '\n') <= 140);
  // Of each protocol what is calmer comes first, then what is less, and the rest is counted.
  std::size_t at = 0;
  for (const char* protocol : {"illness\n", "\nketones\n", "\nlow\n"}) {
    for (const char* next : {protocol, "`--all` tells all", "\nCALMER THAN BEFORE", "\n1. was  ", "\nLESS IS DONE",
                             "Besides: ", " GRAVER, ", "The same: "}) {
      at = brief.out.find(next, at);
      BOOST_REQUIRE_MESSAGE(at != std::string::npos, protocol << " " << next);
    }
  }
  BOOST_TEST(says(unwrapped(brief.out),
                  "1. was `emergency-awake`, Emergency: Call {emergency-number} now. Sugar, if awake and swallows. now "
                  "`finger-prick`, Treat here: Check by finger-prick now. It decides. Or one of "),
             brief.out);
}

BOOST_AUTO_TEST_CASE(in_brief_every_step_that_becomes_calmer_is_named) {
  const TwoVersions files;
  const std::string was = files.was.path("low.xml"), now = files.now.path("low.xml");
  const std::string brief = run_program({"compare", was, now}).out,
                    all = run_program({"compare", was, now, "--all"}).out;
  const std::size_t calmer = all.find("CALMER THAN BEFORE"), less = all.find("LESS IS DONE"),
                    brief_end = brief.find("LESS IS DONE");
  BOOST_REQUIRE(calmer < less);
  std::size_t steps = 0;
  for (std::size_t at = all.find(". was  `", calmer); at < less; at = all.find(". was  `", at + 1)) {
    const std::size_t from = at + 7, end = all.find('`', from + 1) + 1;
    BOOST_TEST(brief.find(all.substr(from, end - from)) < brief_end, all.substr(from, end - from));
    ++steps;
  }
  BOOST_TEST(steps > 5U);
}

BOOST_AUTO_TEST_CASE(smaller_dose_is_shown_for_whole_kilograms_and_once) {
  Folder now;
  const std::string low = file_in_tree("protocols/reference/low.xml");
  now.write("low.xml", with(low, R"(id="carb-per-kg" value="0.3 g/kg")", R"(id="carb-per-kg" value="0.25 g/kg")"));
  const Run run = run_program({"compare", RUSHLIGHT_SOURCE_DIR "/protocols/reference/low.xml", now.path("low.xml")});
  const std::string out = unwrapped(run.out);
  // By hand: 0.3 g/kg and 0.25 g/kg of 44 kg are 13.2 and 11 g, of 37 kg 11.1 and 9.25 g, rounded up.
  BOOST_TEST(says(out, "delivery: injections or pump."), out);
  BOOST_TEST(says(out, "was `fast-carbohydrate`: weight 44 kg: 14 g; weight 37 kg: 12 g now "), out);
  BOOST_TEST(says(out, "now `fast-carbohydrate`: weight 44 kg: 11 g; weight 37 kg: 10 g"), out);
  BOOST_TEST(!says(out, "age "), out);
  BOOST_TEST(says(out, "Amounts are not counted here: those that change are told above."), out);
}

BOOST_AUTO_TEST_CASE(map_says_less_where_the_words_do) {
  const TwoVersions files;
  const Run run = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml"), "--map", "sips:glucose",
                               "--out", files.now.path("map.svg")});
  BOOST_TEST(run.status == 1, run.out << run.err);
  const std::string picture = files.now.read("map.svg");
  BOOST_TEST((says(picture, "LESS IS DONE") || says(picture, "MAY BE LESS")), picture);
  const Run same =
      run_program({"compare", files.was.path("low.xml"), files.was.path("low.xml"), "--map", "which-reading:glucose",
                   "--given", "reading-from=meter", "--out", files.now.path("same.svg")});
  BOOST_TEST(same.status == 0, same.out << same.err);
}

BOOST_AUTO_TEST_CASE(instruction_turned_round_in_one_language_is_shown_in_it_and_not_called_the_same) {
  const TwoVersions files;
  const std::string low = file_in_tree("protocols/reference/low.xml");
  const struct {
    const char *was, *now, *in;
  } rows[] = {
      {"Nada de chocolate, leche ni insulina ahora.", "Insulina ahora.", "in Spanish: "},
      {"No chocolate, milk or insulin now.", "Chocolate, milk and insulin now.", "in English: "},
  };
  for (const auto& row : rows) {
    files.now.write("low.xml", with(low, row.was, row.now));
    const std::string was = files.was.path("low.xml"), now = files.now.path("low.xml");
    const Run run = run_program({"compare", was, now}), json = run_program({"compare", was, now, "--json"});
    BOOST_TEST(run.status == 1, run.err);
    BOOST_TEST(says(run.out, "OTHER WORDS: read whether each still means the same"), run.out);
    BOOST_TEST(!says(run.out, "THE SAME IN"));
    BOOST_TEST(says(run.out, std::string("was  ") + row.in + row.was), run.out);
    BOOST_TEST(says(run.out, std::string("now  ") + row.in + row.now), run.out);
    const nlohmann::json change = nlohmann::json::parse(json.out)["protocols"][0]["changes"][0];
    BOOST_TEST(change["was"] == row.was);
    BOOST_TEST(change["now"] == row.now);
    BOOST_TEST(change["language"] == (row.in == std::string("in Spanish: ") ? "es" : "en"));
  }
}

BOOST_AUTO_TEST_CASE(two_clinics_sets_are_told_in_brief_and_with_every_case_when_asked) {
  const std::string was = RUSHLIGHT_SOURCE_DIR "/protocols/reference/low.xml",
                    now = RUSHLIGHT_SOURCE_DIR "/protocols/harbour-lane/low.xml";
  const Run brief = run_program({"compare", was, now}), all = run_program({"compare", was, now, "--all"});
  BOOST_TEST(brief.status == 1, brief.err);
  BOOST_TEST(all.status == 1, all.err);
  BOOST_TEST(says(brief.out, " differences. Told are the worst, each with one case; `--all` tells all."));
  BOOST_TEST(!says(brief.out, "\n10. was"));
  BOOST_TEST(!says(all.out, "Told are the worst"));
  BOOST_TEST(says(all.out, "\n50. was"));
  // Every step that becomes calmer is named in both.
  const std::size_t calmer = all.out.find("CALMER THAN BEFORE"), less = all.out.find("LESS IS DONE");
  BOOST_REQUIRE(calmer < less);
  const std::size_t brief_end = brief.out.find("LESS IS DONE");
  std::size_t steps = 0;
  for (std::size_t at = all.out.find(". was  `", calmer); at < less; at = all.out.find(". was  `", at + 1)) {
    const std::size_t from = at + 7, end = all.out.find('`', from + 1) + 1;
    BOOST_TEST(brief.out.find(all.out.substr(from, end - from)) < brief_end);
    ++steps;
  }
  BOOST_TEST(steps > 10U);
}

BOOST_AUTO_TEST_CASE(json_holds_the_exact_borders_in_both_units) {
  const TwoVersions files;
  const Run run = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml"), "--json"});
  BOOST_TEST(run.status == 1, run.err);
  const nlohmann::json document = nlohmann::json::parse(run.out);
  const nlohmann::json& changes = document["protocols"][0]["changes"];
  bool found = false;
  for (const nlohmann::json& change : changes) {
    if (change["kind"] != "leads") continue;
    for (const nlohmann::json& region : change["regions"]) {
      for (const nlohmann::json& limit : region) {
        if (limit.value("fact", "") != "glucose") continue;
        found = true;
        BOOST_TEST(limit["unit"] == "mg/dL");
        BOOST_TEST(limit["numbers"][0]["at_least"] == 65);
        BOOST_TEST(limit["numbers"][0]["below"] == 70);
      }
    }
    BOOST_TEST(change.contains("regions_mmol"));
  }
  BOOST_TEST(found);
}

BOOST_AUTO_TEST_CASE(map_draws_before_now_and_what_changes_below_each_other) {
  const TwoVersions files;
  const Run run = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml"), "--map",
                               "still-low:glucose,low-treatments", "--out", files.now.path("map.svg")});
  BOOST_TEST(run.status == 1, run.out << run.err);
  const std::string picture = files.now.read("map.svg");
  for (const char* words :
       {"BEFORE: what step still-low", "NOW: what step still-low", "WHAT CHANGES: what step still-low", "CALMER",
        "call-and-treat", "now finger-read or", "recovered", "65 to below 70 mg/dL"})
    BOOST_TEST(says(picture, words), words);
}

BOOST_AUTO_TEST_CASE(map_of_a_step_with_a_new_name_takes_the_old_name_or_the_new_one) {
  Folder was, now;
  std::string low = file_in_tree("protocols/reference/low.xml");
  was.write("low.xml", low);
  for (std::size_t at = low.find("\"still-low\""); at != std::string::npos; at = low.find("\"still-low\"", at))
    low.replace(at, 11, "\"low-after-sugar\"");
  now.write("low.xml", with(low, R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="65" mmol-l="3.6")"));
  std::string pictures[2];
  for (const std::string step : {"still-low", "low-after-sugar"}) {
    const Run run = run_program({"compare", was.path("low.xml"), now.path("low.xml"), "--map",
                                 step + ":glucose,low-treatments", "--out", now.path("map.svg")});
    BOOST_TEST(run.status == 1, run.out << run.err);
    std::string& picture = pictures[step == "still-low" ? 0 : 1];
    picture = now.read("map.svg");
    for (const char* words : {"BEFORE: what step still-low", "NOW: what step low-after-sugar", "65 to below 70 mg/dL"})
      BOOST_TEST(says(picture, words), step << ": " << words);
  }
  BOOST_TEST(pictures[0] == pictures[1]);
}

BOOST_AUTO_TEST_CASE(map_of_a_step_that_only_one_version_has_says_so_and_proposes_no_such_step) {
  Folder now;
  now.write("low.xml", file_in_tree("tests/episode/small_low.xml"));
  const Run run = run_program({"compare", RUSHLIGHT_SOURCE_DIR "/protocols/reference/low.xml", now.path("low.xml"),
                               "--map", "call-and-treat:glucose", "--out", now.path("map.svg")});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(says(run.err, "only one of the versions has a step `call-and-treat`"), run.err);
  BOOST_TEST(!says(run.err, "write `call-and-treat`"), run.err);
}

BOOST_AUTO_TEST_CASE(map_of_what_is_not_there_is_refused_with_what_would_be_right) {
  const TwoVersions files;
  const std::string was = files.was.path("low.xml"), now = files.now.path("low.xml");
  const auto refused = [&](const std::string& map, const std::string& out) {
    const Run run = run_program({"compare", was, now, "--map", map, "--out", files.now.path(out)});
    BOOST_TEST(run.status == 2, map);
    return run.err;
  };
  BOOST_TEST(says(refused("stil-low:glucose", "map.svg"), "write `still-low`"));
  BOOST_TEST(says(refused("still-low:glucos", "map.svg"), "write `glucose`"));
  BOOST_TEST(says(refused("still-low", "map.svg"), "write `--map STEP:FACT,FACT`"));
  BOOST_TEST(says(refused("still-low:glucose", "map.txt"), "a picture is *.svg or *.png"));
}

BOOST_AUTO_TEST_CASE(protocol_with_mistakes_is_not_compared) {
  const TwoVersions files;
  files.now.write("low.xml", with(file_in_tree("protocols/reference/low.xml"), R"(go="measure")", R"(go="mesure")"));
  const Run run = run_program({"compare", files.was.path("low.xml"), files.now.path("low.xml")});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(says(run.err, "mesure"));
}

BOOST_AUTO_TEST_CASE(set_that_is_not_there_is_named) {
  const Run run = run_program({"compare", "reference", "/nowhere/at/all"});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(says(run.err, "/nowhere/at/all"), run.err);
}

BOOST_AUTO_TEST_CASE(protocol_that_only_one_set_has_is_told) {
  const Folder was, now;
  const std::string small = file_in_tree("tests/episode/small_low.xml");
  was.write("low.xml", small);
  now.write("low.xml", small);
  now.write("other.xml", with(small, R"(id="low")", R"(id="other")"));
  const Run run = run_program({"compare", was.path(""), now.path("")});
  BOOST_TEST(run.status == 1, run.err);
  BOOST_TEST(says(run.out, "This protocol is new."), run.out << run.err);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
