#include <sys/wait.h>

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cstdlib>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

const std::string kSources = RUSHLIGHT_SOURCE_DIR;

/// The program with these words, its standard output sent where the shell says.
Run sent_to(const std::string& where, const std::string& words, const std::string& input = "/dev/null") {
  const std::string said = clinic().path("said-on-stderr");
  const std::string command = "cd " + clinic().path("") + " && HOME=" + clinic().path("") +
                              " XDG_CONFIG_HOME=" + clinic().path("settings") + " " + RUSHLIGHT_PROGRAM + " " + words +
                              " <" + input + " 2>" + said + " " + where;
  const int status = std::system(("bash -o pipefail -c \"" + command + "\"").c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, "", clinic().read("said-on-stderr")};
}

// Each prints, some a line and some thousands, and would end with 0 or 1.
const std::string kPrinting[] = {
    "--help",
    "--version",
    "man thresholds",
    "completion bash",
    "where",
    "demo",
    "check " + kSources + "/protocols/reference",
    "check " + kSources + "/tests/findings/bad/protocol/unknown-attribute.xml",
    "check --json " + kSources + "/protocols/reference",
    "thresholds reference",
    "thresholds reference --csv",
    "thresholds reference --json",
    "compare reference reference",
    "compare " + kSources + "/protocols/reference/illness.xml " + kSources + "/protocols/harbour-lane/illness.xml",
    "approval reference",
    "key list",
    "key show",
    "sheet --text",
    "new-set printed-nowhere --from reference"};

}  // namespace

BOOST_AUTO_TEST_SUITE(printing)

BOOST_DATA_TEST_CASE(disk_that_is_full_is_told_and_ends_with_2, boost::unit_test::data::make(kPrinting), words) {
  const Run run = sent_to(">/dev/full", words);
  BOOST_TEST(run.status == 2);
  BOOST_TEST(tells(run.err, "standard output: error: this cannot be written: no space is left on the disk"), run.err);
  BOOST_TEST(tells(run.err, "make room, and give the command again: what stands there now is cut off"), run.err);
}

BOOST_AUTO_TEST_CASE(view_of_a_walk_in_lines_that_could_not_be_written_is_told) {
  clinic().write("one-line", "{\"at\":\"2027-03-01T02:10:00+00:00\",\"tick\":true}\n");
  const Run run = sent_to(">/dev/full", "walk --json", clinic().path("one-line"));
  BOOST_TEST(run.status == 2);
  BOOST_TEST(tells(run.err, "no space is left on the disk"), run.err);
}

BOOST_AUTO_TEST_CASE(reader_that_has_had_enough_is_no_error) {
  const Run run = sent_to("| head -n 1 >/dev/null", "thresholds reference --csv");
  BOOST_TEST(run.status == 0);
  BOOST_TEST(run.err == "");
}

BOOST_AUTO_TEST_CASE(nothing_is_signed_when_what_it_stands_for_could_not_be_shown) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  clinic().write("passphrase-typed", std::string(kPassphrase) + "\n");
  const Run run = sent_to(">/dev/full", "approve " + set + " --as Ana --role nurse --yes --until " + day_from_today(30),
                          clinic().path("passphrase-typed"));
  BOOST_TEST(run.status == 2);
  BOOST_TEST(tells(run.err, "Nothing was signed"), run.err);
  BOOST_TEST((bytes_in(set) == before));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
