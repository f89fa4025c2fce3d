#include <sys/stat.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

namespace fs = std::filesystem;

/// The clinic's key under another name, changed by an accident.
std::string damaged_key(const std::string& name, const std::string& bytes) {
  clinic().write(name, bytes);
  ::chmod(clinic().path(name).c_str(), 0600);
  return clinic().path(name);
}

/// Everything that a person would type is there: only what is wrong stops it.
Run approved_with(const Machine& machine, const std::string& set, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"approve", set,          "--as",    "Ana Rill",
                                    "--role",  "consultant", "--until", day_from_today(30)};
  words.insert(words.end(), more.begin(), more.end());
  return machine.run(words, std::string("approve\n") + kPassphrase + "\n");
}

void is_refused_at_once(const Run& run, int status, const std::string& why) {
  BOOST_TEST(run.status == status, why << "\n" << run.err);
  BOOST_TEST(tells(run.err, why), why << "\n" << run.err);
  BOOST_TEST(run.out == "", "nobody reads a list for nothing: " << why);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(approve_refuses_at_once)

BOOST_AUTO_TEST_CASE(without_a_key_and_says_how_to_make_one) {
  const std::string set = own_set();
  const Machine new_clinic;
  const Run run = approved_with(new_clinic, set);
  is_refused_at_once(run, 2, "clinic.secret-key: error: there is no secret key here");
  BOOST_TEST(tells(run.err, "try      make the clinic's key once: rushlight key new, or name the file that holds it: "),
             run.err);
  is_refused_at_once(approved_with(clinic(), set, {"--key", clinic().path("nobody-made-this-key")}), 2,
                     "there is no secret key here");
  const Run shown = new_clinic.run({"key", "show"});
  is_refused_at_once(shown, 2, "there is no secret key here");
}

BOOST_AUTO_TEST_CASE(by_a_key_that_cannot_be_used) {
  const std::string set = own_set(), key = clinic().read("settings/rushlight/clinic.secret-key");
  const std::string open = damaged_key("open-key", key);
  ::chmod(open.c_str(), 0644);
  is_refused_at_once(approved_with(clinic(), set, {"--key", open}), 1, "others on this machine may read");
  is_refused_at_once(approved_with(clinic(), set, {"--key", damaged_key("half-key", key.substr(0, key.size() / 2))}), 1,
                     "this is no secret key, or only a part of one");
}

BOOST_AUTO_TEST_CASE(by_a_file_of_the_passphrase_that_is_not_there_or_holds_another) {
  const std::string set = own_set();
  is_refused_at_once(approved_with(clinic(), set, {"--passphrase-file", clinic().path("no-words")}), 2,
                     "there is no such file");
  clinic().write("other-words", "four words of a thief\n");
  is_refused_at_once(approved_with(clinic(), set, {"--passphrase-file", clinic().path("other-words")}), 1,
                     "the passphrase does not open this key");
}

BOOST_AUTO_TEST_CASE(when_a_file_could_not_be_written) {
  const std::string set = own_set();
  BOOST_REQUIRE(::chmod((set + "/ketones.xml").c_str(), 0444) == 0);
  is_refused_at_once(approved_with(clinic(), set), 2, "ketones.xml: error: this cannot be written: it is read-only");
  BOOST_REQUIRE(::chmod((set + "/ketones.xml").c_str(), 0644) == 0);
  fs::create_hard_link(set + "/low.xml", clinic().path("second-name"));
  is_refused_at_once(approved_with(clinic(), set), 2, "low.xml: error: this cannot be written: it has 1 more name");
  fs::remove(clinic().path("second-name"));
  BOOST_TEST(approved_with(clinic(), set).status == 0, "and looking left nothing behind");
  BOOST_TEST(bytes_in(set).size() == 5U);
}

BOOST_AUTO_TEST_CASE(when_a_file_has_a_name_that_cannot_be_signed) {
  const std::string set = own_set();
  fs::rename(set + "/illness.xml", set + "/illness  of today.xml");
  is_refused_at_once(approved_with(clinic(), set), 1, "a file of this set has a name that cannot be signed");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
