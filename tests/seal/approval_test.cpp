#include <boost/test/unit_test.hpp>

#include "read/resolved_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "seal/signed_set.hpp"

using namespace rushlight;
using namespace rushlight::tests;
using State = SealedSet::State;
using Each = Sealed::State;

BOOST_TEST_DONT_PRINT_LOG_VALUE(State)
BOOST_TEST_DONT_PRINT_LOG_VALUE(Each)

namespace {

Each state_of(const Files& files, const std::string& name) { return looked_at(files).find(name)->state; }

}  // namespace

BOOST_AUTO_TEST_SUITE(approvals)

BOOST_AUTO_TEST_CASE(approved_set_holds_and_says_who_as_what_and_until_when) {
  const SealedSet set = looked_at(approved(tree_set("protocols/reference")));
  BOOST_TEST(set.state == State::good);
  BOOST_TEST(set.approval->by == "Ana Rill & team");
  BOOST_TEST(set.approval->role == "consultant");
  BOOST_TEST(text_from_day(set.approval->until) == "2027-03-01");
  BOOST_TEST((set.approval->standing == Standing::good));
  BOOST_TEST(set.files.size() == 5U);
  for (const Sealed& file : set.files) BOOST_TEST(file.state == Each::fits);
}

BOOST_AUTO_TEST_CASE(reader_and_seal_read_one_and_the_same_approval) {
  const Files files = approved(tree_set("protocols/reference"));
  const Read<Protocol> low = resolved_from_xml(files.at("low.xml"), "low.xml");
  BOOST_REQUIRE(low.value.has_value());
  BOOST_TEST((low.value->parts.front().approval == approval_in(files.at("low.xml"))));
  const Read<SafetyDraft> laws = safety_from_xml(files.at("safety.xml"), "safety.xml");
  BOOST_TEST(!has_error(laws.findings));
  BOOST_TEST(laws.value->approval->role->text == "consultant");
}

BOOST_AUTO_TEST_CASE(approval_taken_out_leaves_every_file_byte_for_byte) {
  const Files plain = tree_set("protocols/reference");
  for (const auto& [name, bytes] : approved(plain)) {
    BOOST_TEST((without_approval(bytes) == plain.at(name)), name);
    BOOST_TEST((without_approval(plain.at(name)) == plain.at(name)), name);
    const auto lines = [](const std::string& text) { return std::count(text.begin(), text.end(), '\n'); };
    BOOST_TEST(lines(bytes) == lines(plain.at(name)), "a finding must keep its line");
  }
}

BOOST_AUTO_TEST_CASE(set_without_any_approval_is_not_approved) {
  BOOST_TEST(looked_at(small_set()).state == State::none);
  BOOST_TEST(!looked_at(small_set()).approval.has_value());
}

BOOST_AUTO_TEST_CASE(changed_threshold_voids_the_approval_of_the_whole_set) {
  const Files files = changed(approved(tree_set("protocols/reference")), "low.xml", "mg-dl=\"70\" mmol-l=\"3.9\"",
                              "mg-dl=\"80\" mmol-l=\"4.4\"");
  BOOST_TEST(looked_at(files).state == State::changed);
  BOOST_TEST(state_of(files, "low.xml") == Each::changed);
  BOOST_TEST(state_of(files, "ketones.xml") == Each::fits);
}

BOOST_AUTO_TEST_CASE(changed_law_voids_the_approval) {
  const Files files = changed(approved(small_set()), "safety.xml", "45 min", "95 min");
  BOOST_TEST(!holds(files));
  BOOST_TEST(state_of(files, "safety.xml") == Each::changed);
}

BOOST_AUTO_TEST_CASE(line_end_comment_blank_or_byte_order_mark_is_a_change) {
  const Files files = approved(small_set());
  BOOST_TEST(!holds(changed(files, "low.xml", "\n", "\r\n")));
  BOOST_TEST(!holds(changed(files, "low.xml", "\n", "\n\n")));
  Files noted = files;
  noted["low.xml"] += "<!-- a note -->";
  BOOST_TEST(!holds(noted));
  Files marked = files;
  marked["low.xml"].insert(0, "\xEF\xBB\xBF");
  BOOST_TEST(!holds(marked));
}

BOOST_AUTO_TEST_CASE(file_taken_away_is_missed_and_one_put_in_is_noticed) {
  Files without = approved(small_set());
  without.erase("safety.xml");
  BOOST_TEST(!holds(without));
  BOOST_TEST(state_of(without, "safety.xml") == Each::missing);
  Files with = approved(small_set());
  with["extra.xml"] = tree_file("tests/episode/small_sick.xml");
  BOOST_TEST(!holds(with));
  BOOST_TEST(state_of(with, "extra.xml") == Each::unknown);
}

BOOST_AUTO_TEST_CASE(file_under_another_name_is_not_the_approved_one) {
  Files files = approved(small_set());
  files["lows.xml"] = files.at("low.xml");
  files.erase("low.xml");
  BOOST_TEST(!holds(files));
  Files swapped = approved(tree_set("protocols/reference"));
  std::swap(swapped["low.xml"], swapped["ketones.xml"]);
  BOOST_TEST(!holds(swapped));
}

BOOST_AUTO_TEST_CASE(file_of_an_earlier_approval_of_the_same_clinic_does_not_fit_into_the_set) {
  Files old = small_set();
  old["low.xml"] += "<!-- last year -->";
  Files now = approved(small_set());
  now["low.xml"] = approved(old).at("low.xml");
  BOOST_TEST(looked_at(now).state == State::changed);
}

BOOST_AUTO_TEST_CASE(key_that_nobody_trusts_here_approves_nothing) {
  const Files files = approved(small_set());
  BOOST_TEST(looked_at(files, {}).state == State::untrusted);
  BOOST_TEST(looked_at(files, {new_key_pair().public_key}).state == State::untrusted);
  BOOST_TEST((looked_at(files, {}).approval->standing == Standing::untrusted));
}

BOOST_AUTO_TEST_CASE(approving_again_replaces_the_approval_and_any_other_spelling_of_one) {
  const Files again = approved(approved(small_set()), clinic(), "2028-02-29");
  BOOST_TEST(holds(again));
  BOOST_TEST((without_approval(again.at("low.xml")) == small_set().at("low.xml")));
  Files by_hand = small_set();
  by_hand = changed(by_hand, "low.xml", "<title>", "<approval\n by='x' role='y'>\n<file/></approval><title>");
  BOOST_TEST((without_approval(approved(by_hand).at("low.xml")) == small_set().at("low.xml")));
  BOOST_TEST(holds(approved(by_hand)));
}

BOOST_AUTO_TEST_CASE(comment_that_speaks_of_an_approval_is_none) {
  const Files noted = changed(small_set(), "low.xml", "<protocol ", "<!-- <approval by=\"x\"/> --><protocol ");
  BOOST_TEST((without_approval(noted.at("low.xml")) == noted.at("low.xml")));
  BOOST_TEST(looked_at(noted).state == State::none);
  BOOST_TEST(holds(approved(noted)));
}

BOOST_AUTO_TEST_CASE(file_alone_is_known_for_what_was_approved) {
  const Files files = approved(small_set());
  const std::vector<PublicKey> trusted = {clinic().public_key};
  BOOST_TEST((standing_of({"low.xml", files.at("low.xml")}, trusted) == Standing::good));
  BOOST_TEST((standing_of({"low.xml", files.at("low.xml")}, {}) == Standing::untrusted));
  BOOST_TEST((standing_of({"safety.xml", files.at("low.xml")}, trusted) == Standing::changed));
  BOOST_TEST((standing_of({"low.xml", files.at("low.xml") + " "}, trusted) == Standing::changed));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_said_or_signed_is_not_signed) {
  const std::vector<NamedBytes> files = {{"low.xml", "<protocol>"}};
  const auto signs = [&](const std::string& by, const std::string& role, const std::vector<NamedBytes>& what,
                         const KeyPair& keys) {
    return signed_approval(what, by, role, *day_from_text("2026-03-01"), *day_from_text("2027-03-01"), keys)
        .has_value();
  };
  BOOST_TEST(signs("Ana", "nurse", files, clinic()));
  for (const char* words : {"", " ", "A\nB", "A\tB", " A", "A ", "A  B", "A\x7F"}) {
    BOOST_TEST(!signs(words, "nurse", files, clinic()));
    BOOST_TEST(!signs("Ana", words, files, clinic()));
    BOOST_TEST(!signs("Ana", "nurse", {{words, "<protocol>"}}, clinic()));
  }
  BOOST_TEST(!signs("Ana", "nurse", files, KeyPair{clinic().public_key, "00"}));
}

BOOST_AUTO_TEST_CASE(file_without_an_outermost_element_has_no_place_for_an_approval) {
  const Approval approval = *looked_at(approved(small_set())).approval;
  for (const char* bytes : {"", "no tag", "<protocol", "<!-- <protocol> -->", "<protocol/>"})
    BOOST_TEST(!with_approval(bytes, approval).has_value());
}

BOOST_AUTO_TEST_CASE(statement_names_every_file_on_a_line_of_its_own) {
  const Approval approval{"Ana",
                          "nurse",
                          *day_from_text("2026-03-01"),
                          *day_from_text("2027-03-01"),
                          {{"a.xml", std::string(64, '0')}, {"b.xml", std::string(64, '1')}},
                          "",
                          "",
                          Standing::unseen};
  BOOST_TEST(statement(approval) == "rushlight approval 2\nAna\nnurse\n2026-03-01\n2027-03-01\n" +
                                        std::string(64, '0') + " a.xml\n" + std::string(64, '1') + " b.xml\n");
}

BOOST_AUTO_TEST_SUITE_END()
