#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

/// The view that a walk by this set shows first, on this day.
std::string first_view(const std::string& set, const std::string& day, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"walk", "--json", "--protocols", set};
  words.insert(words.end(), more.begin(), more.end());
  return clinic().run(words, "{\"at\":\"" + day + "T02:10:00+00:00\",\"tick\":true}\n").out;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(approve_command)

BOOST_AUTO_TEST_CASE(set_is_approved_in_every_file_and_everything_it_stands_for_is_shown_before) {
  const std::string set = own_set();
  const Run done = approve(set);
  BOOST_TEST(done.status == 0, done.out << done.err);
  for (const char* shown :
       {"5 files, 0 errors", "low.xml: Low glucose (`low`, version 1)", "insulin doses: off", "insulin doses: ON",
        "Treat as low below (`low`): 70 mg/dL = 3.9 mmol/L", "`rescue-glucagon`: 0.5 mg",
        "comes to `clinic-now` after 45 min", "safety.xml: 33 laws of the clinic", "type the word approve",
        "Approved by Ana Rill (consultant)"})
    BOOST_TEST(tells(done.out, shown), shown << "\n" << done.out);
  // Numbers as `thresholds` shows them, not in the codes of a file.
  for (const char* shown : {"5 g under 6 years; 10 g from 6 to under 12 years", "(`honey-age`): 1 year", "): 0 min"})
    BOOST_TEST(tells(done.out, shown), shown << "\n" << done.out);
  const std::size_t numbers = done.out.find("  numbers\n"), doses = done.out.find("  doses, from the least", numbers);
  for (const char* code : {" a\n", " mo\n", " ug/a", ": 0 s\n"})
    BOOST_TEST(!tells(done.out.substr(numbers, doses - numbers), code), code);
  for (const auto& [name, bytes] : bytes_in(set))
    BOOST_TEST(tells(bytes, "<approval by=\"Ana Rill\" role=\"consultant\""), name);
  const Run asked = clinic().run({"approval", set});
  BOOST_TEST(asked.status == 0, asked.out);
  BOOST_TEST(tells(asked.out, "Approved by Ana Rill (consultant), until " + day_from_today(365) + "."), asked.out);
  BOOST_TEST(tells(asked.out, "(trusted here)"));
  BOOST_TEST(clinic().run({"check", set}).status == 0);
}

BOOST_AUTO_TEST_CASE(approving_changes_no_byte_but_the_element) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  BOOST_REQUIRE(approve(set).status == 0);
  auto after = bytes_in(set);
  for (auto& [name, bytes] : after) {
    const std::size_t at = bytes.find("<approval "), end = bytes.find("</approval>");
    bytes.erase(at, end + 11 - at);
  }
  BOOST_TEST((after == before));
}

BOOST_AUTO_TEST_CASE(set_with_an_error_is_not_approved) {
  const std::string set = own_set();
  change_file(set + "/low.xml", "mg-dl=\"70\" mmol-l=\"3.9\"", "mg-dl=\"70\" mmol-l=\"4.9\"");
  const auto before = bytes_in(set);
  const Run refused = approve(set);
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, "\n1 error in all. A set with an error is not approved"), refused.err);
  BOOST_TEST((bytes_in(set) == before));
}

BOOST_AUTO_TEST_CASE(set_whose_law_is_broken_is_not_approved) {
  const std::string set = own_set();
  change_file(set + "/safety.xml", "45 min", "5 min");
  BOOST_TEST(approve(set).status == 1);
}

BOOST_AUTO_TEST_CASE(any_other_word_signs_nothing) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  for (const char* typed : {"", "\n", "yes\n", "y\n", "Approve\n", "approve it\n"}) {
    const Run refused = clinic().run(
        {"approve", set, "--as", "Ana Rill", "--role", "consultant", "--until", day_from_today(30)}, typed);
    BOOST_TEST(refused.status == 1, typed);
    BOOST_TEST(tells(refused.out, "Nothing was signed."));
  }
  BOOST_TEST((bytes_in(set) == before));
}

BOOST_AUTO_TEST_CASE(wrong_passphrase_is_said_and_signs_nothing) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  const Run refused =
      clinic().run({"approve", set, "--as", "Ana Rill", "--role", "consultant", "--until", day_from_today(30), "--yes"},
                   "four words of a thief\n");
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, "the passphrase does not open this key"), refused.err);
  BOOST_TEST((bytes_in(set) == before));
}

BOOST_AUTO_TEST_CASE(passphrase_comes_from_a_file_for_scripts) {
  const std::string set = own_set();
  clinic().write("passphrase", std::string(kPassphrase) + "\r\nanother line\n");
  const Run done = clinic().run({"approve", set, "--as", "Ana Rill", "--role", "consultant", "--until",
                                 day_from_today(30), "--yes", "--passphrase-file", clinic().path("passphrase")});
  BOOST_TEST(done.status == 0, done.err);
}

struct LastDay {
  std::string until, words;
};
std::ostream& operator<<(std::ostream& out, const LastDay& day) { return out << day.until; }
const LastDay kLastDays[] = {{day_from_today(-1), "is over"},
                             {"2026-02-30", "is not in the calendar"},
                             {"01/03/2027", "is not in the calendar"},
                             {"tomorrow", "is not in the calendar"},
                             {day_from_today(366 * 3 + 1), "is more than 3 years away"},
                             {"9999-12-31", "is more than 3 years away"}};

BOOST_DATA_TEST_CASE(last_day_that_is_over_far_away_or_no_day_is_refused, boost::unit_test::data::make(kLastDays),
                     day) {
  static const std::string set = own_set();
  const Run refused =
      clinic().run({"approve", set, "--as", "Ana Rill", "--role", "consultant", "--until", day.until, "--yes"},
                   std::string(kPassphrase) + "\n");
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, day.words), refused.err);
  BOOST_TEST(clinic().run({"approval", set}).status == 1);
}

BOOST_AUTO_TEST_CASE(today_is_a_last_day_and_so_is_the_day_in_three_years) {
  const std::string set = own_set();
  for (const int days : {0, 365 * 3}) {
    const Run done = clinic().run(
        {"approve", set, "--as", "Ana Rill", "--role", "consultant", "--until", day_from_today(days), "--yes"},
        std::string(kPassphrase) + "\n");
    BOOST_TEST(done.status == 0, done.err);
    BOOST_TEST(clinic().run({"approval", set}).status == 0);
  }
}

BOOST_AUTO_TEST_CASE(name_and_role_are_said_as_they_are_or_refused) {
  const std::string set = own_set();
  const auto with = [&](const std::string& by, const std::string& role) {
    return clinic().run({"approve", set, "--as", by, "--role", role, "--until", day_from_today(30), "--yes"},
                        std::string(kPassphrase) + "\n");
  };
  BOOST_TEST(with("Ana \"Anita\" Rill & Söhne <ana>", "pediatra > 'jefa'").status == 0);
  const Run asked = clinic().run({"approval", set});
  BOOST_TEST(asked.status == 0, asked.out);
  BOOST_TEST(tells(asked.out, "Ana \"Anita\" Rill & Söhne <ana> (pediatra > 'jefa')"), asked.out);
  for (const std::string& bad : {std::string(), std::string("  "), std::string("a\nb"), std::string("a\x1b[2J"),
                                 std::string(101, 'x'), std::string("\xff\xfe")}) {
    BOOST_TEST(with(bad, "consultant").status == 1, bad);
    BOOST_TEST(with("Ana", bad).status == 1, bad);
  }
  BOOST_TEST(clinic().run({"approval", set}).status == 0, "what was approved before stays");
}

BOOST_AUTO_TEST_CASE(worked_examples_that_come_out_otherwise_stand_first_in_what_is_approved) {
  const std::string set = own_set();
  const Run as_shipped = approve(set);
  BOOST_TEST(!tells(as_shipped.out, "do not come out"), as_shipped.out);
  BOOST_TEST(tells(as_shipped.out, " worked examples\n"), as_shipped.out);
  BOOST_REQUIRE(clinic().run({"thresholds", set, "--change", "low=66 mg/dL", "--yes"}).status == 0);
  const Run run = approve(set);
  BOOST_TEST(run.status == 0, run.err);
  const std::size_t examples = run.out.find("worked examples of the clinic that do not come out");
  BOOST_REQUIRE(examples != std::string::npos);
  BOOST_TEST(tells(run.out, "in example `sixty-nine-is-low`, 0 min after it began, the step is `not-low`"), run.out);
  BOOST_TEST(examples < run.out.find("insulin doses:"), "they stand before the protocols");
}

BOOST_AUTO_TEST_CASE(link_stays_and_closed_file_or_full_disk_is_told_and_nothing_is_half_done) {
  const std::string set = own_set();
  namespace fs = std::filesystem;
  fs::rename(set + "/low.xml", set + "/low.elsewhere");
  fs::create_symlink(set + "/low.elsewhere", set + "/low.xml");
  const Run through_link = approve(set);
  BOOST_TEST(through_link.status == 0, through_link.err);
  BOOST_TEST(fs::is_symlink(set + "/low.xml"));
  BOOST_TEST(clinic().run({"approval", set}).status == 0, "the file behind the link holds the approval");

  fs::remove(set + "/low.xml");
  fs::rename(set + "/low.elsewhere", set + "/low.xml");
  const auto before = bytes_in(set);
  BOOST_REQUIRE(::chmod((set + "/ketones.xml").c_str(), 0444) == 0);
  const Run closed = approve(set);
  BOOST_TEST(closed.status == 2);
  BOOST_TEST(tells(closed.err, "ketones.xml: error: this cannot be written: it is read-only"), closed.err);
  BOOST_TEST((bytes_in(set) == before));
  BOOST_REQUIRE(::chmod((set + "/ketones.xml").c_str(), 0644) == 0);

  // 100 blocks of 1024 bytes: the first files go in, a larger one does not.
  clinic().write("passphrase-line", std::string(kPassphrase) + "\n");
  const std::string command = "trap '' XFSZ; ulimit -f 100; XDG_CONFIG_HOME=" + clinic().path("settings") + " " +
                              RUSHLIGHT_PROGRAM + " approve " + set +
                              " --as 'Ana Rill' --role consultant --yes --until " + day_from_today(30) + " <" +
                              clinic().path("passphrase-line") + " >/dev/null 2>" + clinic().path("said");
  const int status = std::system(("bash -c \"" + command + "\"").c_str());
  BOOST_TEST(WEXITSTATUS(status) == 2);
  BOOST_TEST(tells(clinic().read("said"), ".xml: error: this cannot be written"), clinic().read("said"));
  BOOST_TEST((bytes_in(set) == before), "no file changed and none was left beside");
}

BOOST_AUTO_TEST_CASE(file_that_cannot_be_renamed_gives_the_others_their_old_bytes_back) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  clinic().write("bound", before.back().second);
  clinic().write("passphrase-line", std::string(kPassphrase) + "\n");
  // A mount on the last file lets everything be written beside it and refuses its name (EBUSY); it ends with the
  // namespace.
  const std::string mount = "mount --bind " + clinic().path("bound") + " " + set + "/safety.xml";
  if (std::system(("unshare -m sh -c '" + mount + "' 2>/dev/null").c_str()) != 0) {
    BOOST_TEST_MESSAGE("no file can be mounted here: not tried");
    BOOST_TEST(before.back().first == "safety.xml");
    return;
  }
  const std::string command = mount + " && XDG_CONFIG_HOME=" + clinic().path("settings") + " " + RUSHLIGHT_PROGRAM +
                              " approve " + set + " --as Ana --role consultant --yes --until " + day_from_today(30) +
                              " <" + clinic().path("passphrase-line") + " >/dev/null 2>" + clinic().path("said");
  const int status = std::system(("unshare -m sh -c '" + command + "'").c_str());
  BOOST_TEST(WEXITSTATUS(status) == 2);
  BOOST_TEST(tells(clinic().read("said"), "safety.xml: error: this cannot be written"), clinic().read("said"));
  BOOST_TEST((bytes_in(set) == before), "no file changed and none was left beside");
}

BOOST_AUTO_TEST_CASE(rights_of_a_file_stay_as_they_were) {
  const std::string set = own_set();
  BOOST_REQUIRE(::chmod((set + "/low.xml").c_str(), 0640) == 0);
  BOOST_REQUIRE(approve(set).status == 0);
  struct stat about {};
  BOOST_REQUIRE(::stat((set + "/low.xml").c_str(), &about) == 0);
  BOOST_TEST((about.st_mode & 0777) == 0640U);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(approval_on_every_face)

BOOST_AUTO_TEST_CASE(every_face_says_who_approved_it_as_what_and_until_when) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  const std::string said = "Approved by Ana Rill (consultant), until " + day_from_today(365) + ".";
  const std::string view = first_view(set, day_from_today(0));
  BOOST_TEST(tells(view, said), view);
  BOOST_TEST(tells(view, "\"approval\":{\"state\":\"approved\",\"by\":\"Ana Rill\",\"role\":\"consultant\""), view);
  const Run checked = clinic().run({"check", set});
  BOOST_TEST(lines_of(checked.out).front() == set + ": " + said);
  BOOST_TEST(tells(clinic().run({"check", set, "--json"}).out,
                   "\"state\":\"approved\",\"by\":\"Ana Rill\",\"role\":\"consultant\""));
  BOOST_TEST(tells(clinic().run({"check", set, "--junit", "-"}).out,
                   "<property name=\"approval\" value=\"Approved by Ana Rill (consultant)"));
  const Run walked = clinic().run({"walk", "--demo-child", "--no-journal", "--protocols", set, "--lang", "es"}, "");
  BOOST_TEST(tells(walked.out, "Aprobado por Ana Rill (consultant), hasta " + day_from_today(365)), walked.out);
}

BOOST_AUTO_TEST_CASE(after_a_change_of_any_file_every_face_says_so_in_its_first_lines) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  change_file(set + "/safety.xml", "<never", " <never");
  const std::string said = "Changed since the clinic approved it. Ask the clinic.";
  BOOST_TEST(tells(first_view(set, day_from_today(0)), "\"state\":\"changed\""));
  BOOST_TEST(lines_of(clinic().run({"check", set}).out).front() == set + ": " + said);
  const Run asked = clinic().run({"approval", set});
  BOOST_TEST(asked.status == 1);
  BOOST_TEST(tells(asked.out, "safety.xml    changed since it was approved"), asked.out);
  BOOST_TEST(tells(asked.out, "low.xml       as it was approved"), asked.out);
  const Run walked = clinic().run({"walk", "--demo-child", "--no-journal", "--protocols", set}, "");
  BOOST_TEST(tells(lines_of(walked.out).at(1), ", changed since approval"), walked.out);
  BOOST_TEST(tells(walked.out, said), walked.out);
}

BOOST_AUTO_TEST_CASE(approval_that_ended_or_has_not_begun_is_said_with_its_day) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  const std::string after = first_view(set, day_from_today(366));
  BOOST_TEST(tells(after, "The approval ended on " + day_from_today(365)), after);
  BOOST_TEST(tells(after, "\"state\":\"ended\""));
  const std::string on_the_day = first_view(set, day_from_today(365));
  BOOST_TEST(tells(on_the_day, "\"state\":\"approved\""), on_the_day);
  BOOST_TEST(
      tells(first_view(set, day_from_today(-1)), "Not approved yet: the approval begins on " + day_from_today(0)));
}

BOOST_AUTO_TEST_CASE(machine_that_does_not_trust_the_key_says_so) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  const Machine family;
  const Run asked = family.run({"approval", set});
  BOOST_TEST(asked.status == 1);
  BOOST_TEST(tells(asked.out, "nobody on this machine trusts the key"), asked.out);
  BOOST_TEST(tells(asked.out, "(not trusted here)"));
  BOOST_REQUIRE(family.run({"key", "trust", clinic().path("clinic.key"), "--yes"}).status == 0);
  BOOST_TEST(family.run({"approval", set}).status == 0);
  BOOST_REQUIRE(family.run({"key", "forget", "clinic", "--yes"}).status == 0);
  BOOST_TEST(family.run({"approval", set}).status == 1);
}

BOOST_AUTO_TEST_CASE(shipped_sets_and_the_demo_say_that_nobody_approved_them) {
  for (const char* set : {"reference", "harbour-lane"}) {
    const Run asked = clinic().run({"approval", set});
    BOOST_TEST(asked.status == 1);
    BOOST_TEST(tells(lines_of(asked.out).front(), "Not approved."), asked.out);
  }
  const std::string demo = clinic().run({"demo"}).out;
  BOOST_TEST(tells(lines_of(demo).at(3), "Mika (practice), 02:10, not approved"), demo);
  BOOST_TEST(tells(demo, "Not approved. No clinic has approved it for care."));
}

BOOST_AUTO_TEST_CASE(approval_in_json_names_every_file_and_its_state) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  std::filesystem::remove(set + "/safety.xml");
  std::filesystem::copy_file(set + "/low.xml", set + "/other.xml");
  const std::string json = clinic().run({"approval", set, "--json"}).out;
  for (const char* part :
       {"\"state\":\"changed\"", "\"trusted\":true", "{\"name\":\"safety.xml\",\"state\":\"missing\"",
        "{\"name\":\"other.xml\",\"state\":\"added\"", "{\"name\":\"low.xml\",\"state\":\"as-approved\"",
        "\"fingerprint\":\""})
    BOOST_TEST(tells(json, part), part << json);
}

BOOST_AUTO_TEST_CASE(folder_that_is_not_there_or_holds_no_protocol_cannot_be_asked_about) {
  BOOST_TEST(clinic().run({"approval", clinic().path("nothing")}).status == 2);
  BOOST_TEST(clinic().run({"approval", clinic().path("settings")}).status == 2);
  BOOST_TEST(clinic()
                 .run({"approve", clinic().path("nothing"), "--as", "A", "--role", "B", "--until", day_from_today(1)})
                 .status == 2);
}

BOOST_AUTO_TEST_CASE(night_that_goes_on_keeps_the_approval_it_began_with_and_looks_at_the_key_again) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  const std::string journal = clinic().path("night.db");
  BOOST_TEST(tells(first_view(set, day_from_today(0), {"--journal", journal}), "\"state\":\"approved\""));
  change_file(set + "/low.xml", "<title>", "<title> ");
  BOOST_TEST(tells(first_view(set, day_from_today(0), {"--journal", journal}), "\"state\":\"approved\""),
             "the files of the night are in its journal");
  const std::string line = "{\"at\":\"" + day_from_today(0) + "T02:12:00+00:00\",\"tick\":true}\n";
  const Machine other;
  const Run elsewhere = other.run({"walk", "--json", "--protocols", set, "--journal", journal}, line);
  BOOST_TEST(tells(elsewhere.out, "\"state\":\"not-trusted\""), elsewhere.out << elsewhere.err);
}

BOOST_AUTO_TEST_CASE(night_begun_by_a_changed_set_stays_one_of_a_changed_set) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  std::filesystem::remove(set + "/safety.xml");
  const std::string journal = clinic().path("changed-night.db");
  BOOST_TEST(tells(first_view(set, day_from_today(0), {"--journal", journal}), "\"state\":\"changed\""));
  BOOST_TEST(tells(first_view(set, day_from_today(0), {"--journal", journal}), "\"state\":\"changed\""));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
