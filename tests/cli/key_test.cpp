#include <sys/stat.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

const std::string kSomeKey =
    "3b6a27bcceb6a42d62a3a8d02a6f0d73653215771de243a63ac048a18b59da29";  // RFC 8032 seed of zeros

mode_t rights_of(const std::string& path) {
  struct stat about {};
  return ::stat(path.c_str(), &about) == 0 ? about.st_mode & 0777 : 0;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(key_command)

BOOST_AUTO_TEST_CASE(key_lies_in_a_file_that_only_its_owner_can_read_and_is_never_written_over) {
  const std::string file = clinic().path("settings/rushlight/clinic.secret-key");
  BOOST_TEST(rights_of(file) == 0600U);
  const std::string before = clinic().read("settings/rushlight/clinic.secret-key");
  BOOST_TEST(before.rfind("rushlight secret key 1\n", 0) == 0);
  const Run again = clinic().run({"key", "new"}, std::string(kPassphrase) + "\n");
  BOOST_TEST(again.status == 1);
  BOOST_TEST(tells(again.err, "a key is there already and stays as it is"), again.err);
  BOOST_TEST(clinic().read("settings/rushlight/clinic.secret-key") == before);
  const Run shown = clinic().run({"key", "show", "--out", clinic().path("clinic.key")});
  BOOST_TEST(shown.status == 1);
  BOOST_TEST(tells(shown.err, "is already there and stays as it is"), shown.err);
}

BOOST_AUTO_TEST_CASE(short_or_missing_passphrase_makes_no_key) {
  const Machine machine;
  for (const char* typed : {"", "\n", "short\n", "elevenchars\n"}) {
    const Run refused = machine.run({"key", "new"}, typed);
    BOOST_TEST(refused.status == 1, refused.err);
    BOOST_TEST(!std::filesystem::exists(machine.path("settings/rushlight/clinic.secret-key")));
  }
  BOOST_TEST(tells(machine.run({"key", "new"}, "short\n").err, "the passphrase is too short"));
  BOOST_TEST(machine.run({"key", "new", "--passphrase-file", machine.path("no-file")}).status == 2);
}

BOOST_AUTO_TEST_CASE(secret_key_that_others_may_read_is_not_used) {
  const std::string set = own_set();
  std::filesystem::copy_file(clinic().path("settings/rushlight/clinic.secret-key"), clinic().path("copied-key"));
  BOOST_REQUIRE(::chmod(clinic().path("copied-key").c_str(), 0644) == 0);
  const Run refused = approve(set, {"--key", clinic().path("copied-key")});
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, "others on this machine may read this secret key"), refused.err);
  BOOST_REQUIRE(::chmod(clinic().path("copied-key").c_str(), 0600) == 0);
  BOOST_TEST(approve(set, {"--key", clinic().path("copied-key")}).status == 0);
}

BOOST_AUTO_TEST_CASE(damaged_or_foreign_key_file_is_told_before_the_passphrase) {
  const std::string set = own_set();
  clinic().write("no-key", "<protocol/>");
  BOOST_REQUIRE(::chmod(clinic().path("no-key").c_str(), 0600) == 0);
  const Run refused = clinic().run({"approve", set, "--as", "Ana", "--role", "nurse", "--until", day_from_today(9),
                                    "--yes", "--key", clinic().path("no-key")});
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(tells(refused.err, "this is no secret key, or only a part of one"), refused.err);
  const Run missing = approve(set, {"--key", clinic().path("nowhere")});
  BOOST_TEST(missing.status == 2);
}

BOOST_AUTO_TEST_CASE(family_trusts_a_key_after_it_compared_the_fingerprint) {
  const Machine family;
  const Run no = family.run({"key", "trust", clinic().path("clinic.key")}, "n\n");
  BOOST_TEST(no.status == 1);
  BOOST_TEST(tells(no.out, "Ask your clinic to read its fingerprint to you"), no.out);
  BOOST_TEST(tells(no.out, "Nothing was changed."));
  BOOST_TEST(tells(family.run({"key", "list"}).out, "trusts no key yet"));
  BOOST_TEST(family.run({"key", "trust", clinic().path("clinic.key")}, "").status == 1);
  BOOST_TEST(family.run({"key", "trust", clinic().path("clinic.key")}, "y\n").status == 0);
  const std::string listed = family.run({"key", "list"}).out;
  BOOST_TEST(tells(listed, "  clinic  "), listed);
  BOOST_TEST(tells(clinic().run({"key", "show"}).out, listed.substr(0, 35)), "the clinic reads the same digits");
  const Run again = family.run({"key", "trust", clinic().path("clinic.key"), "--name", "other"});
  BOOST_TEST(again.status == 0);
  BOOST_TEST(tells(again.out, "trusts this key already"));
}

BOOST_AUTO_TEST_CASE(key_is_trusted_by_its_digits_too_and_forgotten_by_name_or_digits) {
  const Machine family;
  BOOST_TEST(family.run({"key", "trust", kSomeKey, "--yes"}).status == 0);
  BOOST_TEST(rights_of(family.path("settings/rushlight/keys/key-3b6a27bc.key")) == 0600U);
  BOOST_TEST(family.run({"key", "forget", "nobody", "--yes"}).status == 1);
  BOOST_TEST(family.run({"key", "forget", "key-3b6a27bc"}, "n\n").status == 1);
  BOOST_TEST(tells(family.run({"key", "list", "--json"}).out, "\"name\":\"key-3b6a27bc\""));
  BOOST_TEST(family.run({"key", "forget", kSomeKey}, "y\n").status == 0);
  BOOST_TEST(!tells(family.run({"key", "list", "--json"}).out, "key-3b6a27bc"));
}

BOOST_AUTO_TEST_CASE(what_is_no_public_key_is_not_trusted_and_a_secret_one_is_named_for_what_it_is) {
  const Machine family;
  const Run secret = family.run({"key", "trust", clinic().path("settings/rushlight/clinic.secret-key"), "--yes"});
  BOOST_TEST(secret.status == 1);
  BOOST_TEST(tells(secret.err, "this is a secret key: it stays at the clinic"), secret.err);
  family.write("notes.txt", "no key");
  BOOST_TEST(family.run({"key", "trust", family.path("notes.txt"), "--yes"}).status == 1);
  BOOST_TEST(family.run({"key", "trust", kSomeKey.substr(1), "--yes"}).status == 2);
  for (const char* name : {"../x", "a/b", ".", "a b", "x.key"})
    BOOST_TEST(family.run({"key", "trust", kSomeKey, "--yes", "--name", name}).status == 1, name);
  BOOST_TEST(family.run({"key", "trust", kSomeKey, "--yes", "--name", "harbour"}).status == 0);
  const Run taken = family.run({"key", "trust", clinic().path("clinic.key"), "--yes", "--name", "harbour"});
  BOOST_TEST(taken.status == 1);
  BOOST_TEST(tells(taken.err, "another key has the name `harbour` here"), taken.err);
}

BOOST_AUTO_TEST_CASE(key_in_a_file_or_folder_that_others_may_write_does_not_count) {
  const std::string set = own_set();
  BOOST_REQUIRE(approve(set).status == 0);
  const Machine family;
  BOOST_REQUIRE(family.run({"key", "trust", clinic().path("clinic.key"), "--yes"}).status == 0);
  BOOST_TEST(family.run({"approval", set}).status == 0);
  const std::string folder = family.path("settings/rushlight/keys"), file = folder + "/clinic.key";
  BOOST_REQUIRE(::chmod(file.c_str(), 0666) == 0);
  BOOST_TEST(family.run({"approval", set}).status == 1);
  BOOST_TEST(tells(family.run({"key", "list"}).err, "not trusted, since others on this machine may write it"));
  BOOST_REQUIRE(::chmod(file.c_str(), 0644) == 0);
  BOOST_TEST(family.run({"approval", set}).status == 0);
  BOOST_REQUIRE(::chmod(folder.c_str(), 0777) == 0);
  BOOST_TEST(family.run({"approval", set}).status == 1);
}

BOOST_AUTO_TEST_CASE(family_is_asked_in_spanish_on_a_spanish_machine) {
  const Folder home;
  const Run asked =
      run_program({"key", "trust", kSomeKey}, "n\n", {"XDG_CONFIG_HOME=" + home.path("c"), "LANG=es_ES.UTF-8"});
  BOOST_TEST(tells(asked.out, "Pida a su clínica que le lea su huella"), asked.out);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
