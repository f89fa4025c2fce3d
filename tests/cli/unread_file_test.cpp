#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "cli/clinic_copy.hpp"

namespace rushlight::tests {

namespace {

bool is_told_in(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(file_of_a_set_that_cannot_be_read)

BOOST_AUTO_TEST_CASE(link_to_nowhere_is_called_one_and_no_draft_is_advised) {
  const ClinicCopy clinic;
  std::filesystem::remove(clinic.path("low.xml"));
  std::filesystem::create_symlink("elsewhere.xml", clinic.path("low.xml"));
  const std::string ketones = clinic.read("ketones.xml");
  const Run run = clinic.run({"--change", "recheck=16 min"});
  BOOST_TEST(run.status == 2, run.out << run.err);
  BOOST_TEST(is_told_in(run.out + run.err,
                        "low.xml: error: this file cannot be read: it is a link to a file that is not there"),
             run.out << run.err);
  BOOST_TEST(!is_told_in(run.out + run.err, "--draft"), run.out << run.err);
  BOOST_TEST(clinic.read("ketones.xml") == ketones);
  // What can be read and is wrong may still be kept as a draft.
  const ClinicCopy other;
  BOOST_TEST(is_told_in(other.run({"--change", "recheck=20 min"}).out, "--draft"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
