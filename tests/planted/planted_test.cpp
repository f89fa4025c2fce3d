#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "planted/judge.hpp"
#include "planted/same_decisions.hpp"
#include "read/resolved_from_xml.hpp"
#include "tests/sanitized.hpp"

using namespace rushlight;
using namespace rushlight::planted;

namespace {

const std::string kPage = std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/planted-faults.md";

/// Of each kind of slip and in each set, spread evenly over all the places where it can be made.
constexpr std::size_t kOfEachKind = 8;
constexpr std::size_t kOfEachKindSanitized = 1;

/// What the shipped sets' own examples and laws must find of the faults that no proof owns, in percent. A floor, so
/// that examples that are taken out are missed; the page says how many there are. Which faults are drawn hangs on the
/// files: a few in a hundred come and go with every step that is added.
constexpr std::size_t kFloor = 55;

struct Planted {
  std::string set, file, what;
  std::uint32_t line;
  Verdict verdict;
};

struct Row {
  Operator slip;
  std::size_t places = 0;
  std::vector<Planted> planted;

  std::size_t number(Verdict::Kind kind) const {
    std::size_t sum = 0;
    for (const Planted& each : planted) sum += each.verdict.kind == kind ? 1U : 0U;
    return sum;
  }
};

void plant(const ShippedSet& set, Row& row) {
  std::vector<std::pair<const Markup*, Fault>> all;
  for (const Markup& file : set.protocols) {
    for (Fault& fault : row.slip.faults(file)) all.emplace_back(&file, std::move(fault));
  }
  row.places += all.size();
  const std::size_t number = std::min(all.size(), tests::kSanitized ? kOfEachKindSanitized : kOfEachKind);
  for (std::size_t i = 0; i < number; ++i) {
    const auto& [file, fault] = all[i * all.size() / number];
    row.planted.push_back(
        Planted{set.name, file->file(), fault.what, file->first_line(fault.at), judged(set, row.slip, *file, fault)});
  }
}

const std::vector<Row>& rows() {
  static const std::vector<Row> kRows = [] {
    std::vector<Row> made;
    for (const Operator& slip : all_operators()) made.push_back(Row{slip, 0, {}});
    for (const char* name : {"reference", "harbour-lane"}) {
      const ShippedSet set = shipped_set(name);
      for (Row& row : made) plant(set, row);
    }
    return made;
  }();
  return kRows;
}

std::string told(const Planted& fault) {
  return fault.set + "/" + fault.file + ":" + std::to_string(fault.line) + ": " + fault.what;
}

std::vector<const Row*> rows_of(Owner owner) {
  std::vector<const Row*> some;
  for (const Row& row : rows()) {
    if (row.slip.owner == owner) some.push_back(&row);
  }
  return some;
}

using Told = Verdict::Kind;

struct Score {
  std::size_t planted = 0, by[kVerdicts] = {};
  std::size_t of(Told kind) const { return by[static_cast<std::size_t>(kind)]; }
  std::size_t that_change_something() const { return planted - of(Told::same); }
  std::size_t found() const { return that_change_something() - of(Told::nobody); }
};

Score score_of(Owner owner) {
  Score score;
  for (const Row* row : rows_of(owner)) {
    for (const Planted& fault : row->planted) ++score.by[static_cast<std::size_t>(fault.verdict.kind)];
    score.planted += row->planted.size();
  }
  return score;
}

std::string table(Owner owner) {
  std::string text =
      "| fault | places | planted | by its proof | otherwise | by a law | by an example | same | nobody |\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
  for (const Row* row : rows_of(owner)) {
    text += "| " + row->slip.slip + " | " + std::to_string(row->places) + " | " + std::to_string(row->planted.size());
    for (int i = 0; i < kVerdicts; ++i) {
      const std::size_t number = row->number(static_cast<Told>(i));
      text += " | " + (number == 0 ? std::string("") : std::to_string(number));
    }
    text += " |\n";
  }
  return text;
}

std::string list_of_nobody(Owner owner) {
  std::string text;
  for (const Row* row : rows_of(owner)) {
    for (const Planted& fault : row->planted) {
      if (fault.verdict.kind == Told::nobody) text += "- " + told(fault) + "\n";
    }
  }
  return text;
}

std::string percent(std::size_t part, std::size_t whole) {
  return std::to_string(whole == 0 ? 0 : 100 * part / whole) + " %";
}

std::string page() {
  const Score proofs = score_of(Owner::proof), examples = score_of(Owner::example), choices = score_of(Owner::choice);
  std::ostringstream text;
  text << "# Planted faults\n\n"
          "How much does `rushlight check` find? The tests plant slips into the shipped sets, one at a time, as "
          "somebody who writes a\n"
          "protocol might make them, and hand the set to the same check that the program uses, with its laws "
          "(safety.xml) and its\n"
          "worked examples (examples.xml). This page is written by the tests: `RUSHLIGHT_REWRITE=1 "
          "build/tests/test_planted`.\n"
          "`build/tests/test_planted --log_level=message` names every fault and what told it.\n\n"
          "`Places` is how often a slip could be made in the two sets; of each kind at most "
       << kOfEachKind
       << " in each set are planted, spread evenly.\n"
          "`By its proof` counts a fault only when the finding that owns it stands in the step, dose, number or list "
          "that was\n"
          "changed, points there, or names it; for the faults of the second table any finding of the protocol that "
          "does so. `Otherwise`\n"
          "is any other finding. `Same` is shown, not guessed: the changed step decides the same for every answer, "
          "child and hour\n"
          "(decision diagrams, both units).\n\n"
          "## Faults that a proof owns\n\n"
          "Every one has to be found, with its place, or be shown to change nothing.\n\n"
       << table(Owner::proof) << "\n"
       << proofs.planted << " planted, " << proofs.of(Told::same) << " change nothing, " << proofs.found() << " of "
       << proofs.that_change_something() << " found.\n\n"
       << "## Faults that fit together\n\n"
          "Here the protocol is whole after the slip: it does something else. No proof knows what a clinic meant. What "
          "its laws and\n"
          "examples say is what is found; the rest is for whoever compares the old protocol with the new.\n\n"
       << table(Owner::example) << "\n"
       << examples.planted << " planted, " << examples.of(Told::same) << " change nothing, " << examples.found()
       << " of " << examples.that_change_something() << " found ("
       << percent(examples.found(), examples.that_change_something())
       << "): " << examples.of(Told::by_proof) + examples.of(Told::by_another) << " by proofs, "
       << examples.of(Told::by_law) << " by laws, " << examples.of(Told::by_example)
       << " by examples alone.\n\n"
          "Nobody finds the following. Some change nothing that anybody meets: two rows of 4-2-1 give the same at "
          "their border. Others\n"
          "are as grave as before and only slower, or ask again.\n\n"
       << list_of_nobody(Owner::example) << "\n"
       << "## What a clinic may want so\n\n"
          "No mistake, and the check says nothing about most of it: only a comparison shows it.\n\n"
       << table(Owner::choice) << "\n"
       << choices.planted << " planted, " << choices.found() << " of them also break something else and are told.\n";
  return text.str();
}

std::string written_page() {
  std::ifstream file(kPage, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(planted_faults)

BOOST_AUTO_TEST_CASE(what_is_planted_is_enough_and_of_many_kinds) {
  std::size_t planted = 0;
  for (const Row& row : rows()) {
    BOOST_TEST(row.planted.size() > 0U, "`" << row.slip.name << "` can be made nowhere");
    planted += row.planted.size();
    for (const Planted& fault : row.planted) {
      static const char* const kWords[] = {"by its proof", "otherwise", "by a law", "by an example", "same", "nobody"};
      BOOST_TEST_MESSAGE(
          row.slip.name << ": " << told(fault) << ": " << kWords[static_cast<int>(fault.verdict.kind)] << " "
                        << fault.verdict.id
                        << (fault.verdict.lines > 0 ? ", " + std::to_string(fault.verdict.lines) + " lines away" : ""));
    }
  }
  BOOST_TEST_MESSAGE(page());
  if (!tests::kSanitized) BOOST_TEST(planted > 700U);
}

// What is not found stands on the page; a table of one row has no other row whose cap it could pass.
BOOST_AUTO_TEST_CASE(every_fault_that_a_proof_owns_is_found_where_it_was_made) {
  std::size_t planted = 0, missed = 0;
  for (const Row* row : rows_of(Owner::proof)) {
    for (const Planted& fault : row->planted) {
      const bool good = fault.verdict.kind == Told::by_proof || fault.verdict.kind == Told::same;
      ++planted;
      if (good) continue;
      ++missed;
      BOOST_TEST_MESSAGE(row->slip.name << ": " << told(fault) << ": " << fault.verdict.id);
    }
  }
  BOOST_TEST(100 * missed <= 2 * planted, missed << " of " << planted << " are missed");
}

BOOST_AUTO_TEST_CASE(examples_and_laws_find_most_of_what_still_fits_together) {
  const Score score = score_of(Owner::example);
  BOOST_TEST(score.found() > 0U);
  if (tests::kSanitized) return;  // too few are planted there to speak of a part
  BOOST_TEST(100 * score.found() >= kFloor * score.that_change_something());
  BOOST_TEST(score.of(Told::by_law) > 0U);
  BOOST_TEST(score.of(Told::by_example) > 0U);
}

BOOST_AUTO_TEST_CASE(nothing_is_said_of_the_sets_as_they_are) {
  for (const char* name : {"reference", "harbour-lane"}) {
    const ShippedSet set = shipped_set(name);
    BOOST_TEST(findings_with(set, set.protocols.front(), Fault{{}, 0, ""}).empty());
  }
}

BOOST_AUTO_TEST_CASE(a_rule_counts_as_the_same_only_where_every_answer_leads_on_as_before) {
  const ShippedSet set = shipped_set("reference");
  const Markup& low = set.protocols.back();
  const auto decides_as_before = [&](const std::string& was, const std::string& is) {
    std::string bytes = low.bytes();
    const std::size_t at = bytes.find(was, bytes.find("<step id=\"still-low\""));
    bytes.replace(at, was.size(), is);
    const auto before = resolved_from_xml(low.bytes(), "low.xml"), after = resolved_from_xml(bytes, "low.xml");
    return decides_the_same(before.value.value(), after.value.value(), "still-low");
  };
  const std::string unknown = "<rule go=\"no-meter\"><if fact=\"glucose\" is=\"unknown\"/></rule>";
  const std::string well = "<rule go=\"recovered\"><if fact=\"glucose\" at-least=\"low\"/></rule>";
  BOOST_TEST(decides_as_before(unknown + "\n    " + well, well + "\n    " + unknown));
  BOOST_TEST(!decides_as_before("at-least=\"low\"", "above=\"low\""));
  BOOST_TEST(!decides_as_before("go=\"no-meter\"", "go=\"treat\""));
}

BOOST_AUTO_TEST_CASE(the_page_of_planted_faults_is_what_was_found) {
  if (tests::kSanitized) return;  // fewer are planted there
  const char* rewrite = std::getenv("RUSHLIGHT_REWRITE");
  if (rewrite && std::string(rewrite) == "1") std::ofstream(kPage, std::ios::binary) << page();
  BOOST_TEST((written_page() == page()), "docs/planted-faults.md differs: RUSHLIGHT_REWRITE=1 writes it anew");
}

BOOST_AUTO_TEST_SUITE_END()
