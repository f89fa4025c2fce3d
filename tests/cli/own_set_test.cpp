#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

namespace fs = std::filesystem;

std::string with_one_replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(own_set_command)

BOOST_AUTO_TEST_CASE(own_set_is_the_shipped_one_but_for_its_name_and_version) {
  const std::string set = own_set();
  const auto files = bytes_in(set);
  BOOST_TEST(files.size() == 5U);
  for (const auto& [name, bytes] : files) {
    std::string shipped = file_in_tree("protocols/reference/" + name);
    shipped = with_one_replaced(shipped, "set=\"reference\"", "set=\"harbour-clinic\"");
    if (name != "safety.xml" && name != "examples.xml") {
      const std::size_t at = shipped.find("version=\"", shipped.find("<protocol")) + 9;
      shipped.replace(at, shipped.find('"', at) - at, "1");
    }
    BOOST_TEST((bytes == shipped), name);
  }
  BOOST_TEST(clinic().run({"check", set}).status == 0);
  BOOST_TEST(clinic().run({"check", own_set("harbour-lane")}).status == 0);
}

BOOST_AUTO_TEST_CASE(set_made_from_an_approved_folder_is_not_approved) {
  const std::string first = own_set();
  BOOST_REQUIRE(approve(first).status == 0);
  const std::string second = own_set(first);
  for (const auto& [name, bytes] : bytes_in(second)) BOOST_TEST(!tells(bytes, "<approval"), name);
  BOOST_TEST((bytes_in(second) == bytes_in(own_set())));
  BOOST_TEST(clinic().run({"approval", second}).status == 1);
}

BOOST_AUTO_TEST_CASE(folder_that_is_there_stays_as_it_is) {
  const std::string set = own_set();
  const auto before = bytes_in(set);
  const Run again = clinic().run({"new-set", "harbour-clinic", "--from", "harbour-lane", "--out", set});
  BOOST_TEST(again.status == 1);
  BOOST_TEST(tells(again.err, "is there already and stays as it is"), again.err);
  BOOST_TEST((bytes_in(set) == before));
  fs::create_symlink(clinic().path("nowhere"), clinic().path("a-link"));
  BOOST_TEST(
      clinic().run({"new-set", "harbour-clinic", "--from", "reference", "--out", clinic().path("a-link")}).status == 1);
  BOOST_TEST(!fs::exists(clinic().path("nowhere")));
  BOOST_TEST(clinic()
                 .run({"new-set", "harbour-clinic", "--from", "reference", "--out", clinic().path("no/folder/here")})
                 .status == 2);
}

BOOST_AUTO_TEST_CASE(name_that_is_a_path_or_no_name_is_refused) {
  for (const char* name : {"../harbour", "a/b", "/tmp/x", "Harbour", "harbour clinic", "harbour_clinic", "-x", "x-",
                           "a--b", "1a", ".", "..", "", "reference", "harbour-lane", "h\xC3\xA9"}) {
    const Run refused = clinic().run({"new-set", "--from", "reference", "--out", clinic().path("never"), "--", name});
    BOOST_TEST(refused.status != 0, name);
    BOOST_TEST(!fs::exists(clinic().path("never")), name);
  }
}

BOOST_AUTO_TEST_CASE(path_in_place_of_a_name_is_answered_with_the_command_that_makes_the_set_there) {
  const std::string place = clinic().path("my-new-clinic");
  const Run refused = clinic().run({"new-set", place, "--from", "reference"});
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, "rushlight new-set my-new-clinic --from reference --out " + place), refused.err);
  BOOST_TEST(!fs::exists(place));
  BOOST_TEST(clinic().run({"new-set", "my-new-clinic", "--from", "reference", "--out", place}).status == 0);
  BOOST_TEST(fs::exists(place + "/low.xml"));
}

BOOST_AUTO_TEST_CASE(folder_with_anything_else_than_a_set_leaves_nothing_behind) {
  fs::create_directory(clinic().path("strange"));
  clinic().write("strange/low.xml", file_in_tree("protocols/reference/low.xml"));
  clinic().write("strange/other.xml", "<!DOCTYPE x><protocol set=\"a\" version=\"1\"/>");
  const std::vector<std::string> words = {
      "new-set", "mine", "--from", clinic().path("strange"), "--out", clinic().path("mine")};
  BOOST_TEST(clinic().run(words).status == 1);
  clinic().write("strange/other.xml", "<sources/>");
  BOOST_TEST(tells(clinic().run(words).err, "this is neither a protocol nor the laws of a set"));
  BOOST_TEST(!fs::exists(clinic().path("mine")));
  for (const auto& entry : fs::directory_iterator(clinic().path(".")))
    BOOST_TEST(!tells(entry.path().filename().string(), ".new-"), "half a set was left behind");
  BOOST_TEST(clinic().run({"new-set", "mine", "--from", "no-such-set"}).status == 2);
  BOOST_TEST(clinic().run({"new-set", "mine", "--from", clinic().path("settings")}).status == 2);
}

BOOST_AUTO_TEST_CASE(child_file_names_the_clinics_folder_and_the_walk_follows_it) {
  const std::string set = own_set();
  const std::string child = with_one_replaced(file_in_tree("protocols/demo-child.json"), "\"set\"",
                                              "\"protocols\": \"" + set + "\",\n  \"set\"");
  clinic().write("child.json", child);
  const Run walked = clinic().run({"walk", "--json", "--child", clinic().path("child.json")},
                                  "{\"at\":\"2027-03-01T02:10:00+00:00\",\"tick\":true}\n");
  BOOST_TEST(tells(walked.out, "\"set\":\"harbour-clinic\""), walked.out << walked.err);
  const Run where = clinic().run({"where", "--child", clinic().path("child.json")});
  BOOST_TEST(tells(where.out, "set in use           " + set), where.out);
  BOOST_TEST(tells(where.out, "because `protocols` of the child file names it"));
}

BOOST_AUTO_TEST_CASE(clinics_folder_that_is_gone_leaves_the_card_a_clear_sentence_and_a_way_on) {
  const std::string child =
      with_one_replaced(file_in_tree("protocols/demo-child.json"), "\"set\"", "\"protocols\": \"gone\",\n  \"set\"");
  clinic().write("gone-child.json", child);
  const std::vector<std::string> words = {"walk", "--child", clinic().path("gone-child.json"), "--no-journal"};
  const Run walked = clinic().run(words);
  BOOST_TEST(walked.status == 2);
  BOOST_TEST(tells(walked.err, "The clinic's protocols are not where the child file says: " + clinic().path("gone")),
             walked.err);
  BOOST_TEST(tells(walked.err, "FIRST AID FOR A LOW"));
  BOOST_TEST(tells(walked.err, "To walk by the example set, which no clinic approved: rushlight walk --child "));
  BOOST_TEST(lines_of(walked.err).size() <= 23U, "it fits a screen of 24 rows");
  std::vector<std::string> spanish = words;
  spanish.insert(spanish.end(), {"--lang", "es"});
  BOOST_TEST(tells(clinic().run(spanish).err, "Los protocolos de la clínica no están donde dice la ficha"));
  const Run lines = clinic().run({"walk", "--json", "--child", clinic().path("gone-child.json")});
  BOOST_TEST(lines.status == 2);
  BOOST_TEST(tells(lines.out, "\"error\""), lines.out);
}

BOOST_AUTO_TEST_CASE(where_says_every_place_and_the_order_in_which_the_set_is_looked_for) {
  const Machine machine;
  const Run said = machine.run({"where"});
  BOOST_TEST(said.status == 0);
  for (const std::string& part :
       {machine.path("settings/rushlight"), machine.path("settings/rushlight/keys"),
        machine.path("settings/rushlight/clinic.secret-key"),
        machine.path("data/rushlight/child.json") + "  (not there)", machine.path("data/rushlight/journal.db"),
        std::string("`reference`, inside the program"), std::string("Not approved."),
        std::string("1. --protocols DIR\n  2. --set NAME\n  3. `protocols` of the child file")})
    BOOST_TEST(tells(said.out, part), part << "\n" << said.out);
  BOOST_TEST(tells(machine.run({"where", "--set", "harbour-lane"}).out, "`harbour-lane`, inside the program"));
  const std::string json = machine.run({"where", "--json", "--protocols", machine.path("none")}).out;
  BOOST_TEST(tells(json, "\"can_be_walked\":false"), json);
  BOOST_TEST(tells(json, "\"why\":\"--protocols names it\""));
  const Run none = machine.run({"where", "--protocols", machine.path("none")});
  BOOST_TEST(none.status == 1);
  BOOST_TEST(tells(none.out, "There is no such folder."), none.out);
  BOOST_TEST(!tells(none.out, "cannot be walked"), none.out);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
