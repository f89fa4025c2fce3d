#include "seal/seal.hpp"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>

#include "read/resolved_from_xml.hpp"

using namespace rushlight;

namespace {

std::string low() {
  std::ifstream file(RUSHLIGHT_SOURCE_DIR "/protocols/reference/low.xml", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

const KeyPair& clinic() {
  static const KeyPair keys = new_key_pair();
  return keys;
}

std::string approved() {
  return *with_approval(low(), "Harbour clinic & team", *day_from_text("2026-03-01"), *day_from_text("2027-03-01"),
                        clinic());
}

/// As the program does it: the approval is what the reader makes of the file.
bool holds(const std::string& bytes, const std::vector<PublicKey>& trusted) {
  const Read<Protocol> read = resolved_from_xml(bytes, "low.xml");
  if (!read.value || !read.value->parts.front().approval) return false;
  return is_approved(*read.value->parts.front().approval, bytes, trusted);
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(approvals)

BOOST_AUTO_TEST_CASE(approved_file_is_read_and_its_approval_holds) {
  BOOST_TEST(holds(approved(), {clinic().public_key}));
  const Read<Protocol> read = resolved_from_xml(approved(), "low.xml");
  BOOST_TEST(read.value->parts.front().approval->by == "Harbour clinic & team");
  BOOST_TEST(text_from_day(read.value->parts.front().approval->until) == "2027-03-01");
}

BOOST_AUTO_TEST_CASE(approval_taken_out_leaves_the_file_byte_for_byte) {
  BOOST_TEST((without_approval(approved()) == low()));
  BOOST_TEST((without_approval(low()) == low()));
}

BOOST_AUTO_TEST_CASE(changed_threshold_voids_the_approval) {
  BOOST_TEST(!holds(changed(approved(), "mg-dl=\"70\" mmol-l=\"3.9\"", "mg-dl=\"80\" mmol-l=\"4.4\""), {clinic().public_key}));
}

BOOST_AUTO_TEST_CASE(changed_blank_or_comment_voids_the_approval) {
  BOOST_TEST(!holds(changed(approved(), "\n", "\n\n"), {clinic().public_key}));
  BOOST_TEST(!holds(approved() + "<!-- a note -->", {clinic().public_key}));
}

BOOST_AUTO_TEST_CASE(later_end_or_another_name_needs_a_new_signature) {
  BOOST_TEST(!holds(changed(approved(), "until=\"2027-03-01\"", "until=\"2029-03-01\""), {clinic().public_key}));
  BOOST_TEST(!holds(changed(approved(), "by=\"Harbour clinic", "by=\"Another clinic"), {clinic().public_key}));
}

BOOST_AUTO_TEST_CASE(key_that_nobody_trusts_here_approves_nothing) {
  BOOST_TEST(!holds(approved(), {}));
  BOOST_TEST(!holds(approved(), {new_key_pair().public_key}));
}

BOOST_AUTO_TEST_CASE(signature_of_another_key_is_none) {
  const KeyPair other = new_key_pair();
  const std::string theirs = *with_approval(low(), "somebody", *day_from_text("2026-03-01"), *day_from_text("2027-03-01"), other);
  BOOST_TEST(!holds(changed(theirs, other.public_key.hex, clinic().public_key.hex), {clinic().public_key}));
}

BOOST_AUTO_TEST_CASE(approving_again_replaces_the_approval) {
  const std::string again = *with_approval(approved(), "Harbour clinic", *day_from_text("2026-06-01"),
                                           *day_from_text("2027-06-01"), clinic());
  BOOST_TEST(holds(again, {clinic().public_key}));
  BOOST_TEST((without_approval(again) == low()));
}

BOOST_AUTO_TEST_CASE(comment_that_speaks_of_an_approval_is_no_approval) {
  const std::string noted = changed(low(), "<protocol ", "<!-- <approval by=\"x\"/> --><protocol ");
  BOOST_TEST((without_approval(noted) == noted));
}

BOOST_AUTO_TEST_CASE(file_that_is_no_protocol_is_not_signed) {
  BOOST_TEST(!with_approval("<sources/>", "x", Day{}, Day{}, clinic()).has_value());
  BOOST_TEST(!with_approval(low(), "x", Day{}, Day{}, KeyPair{clinic().public_key, "00"}).has_value());
}

BOOST_AUTO_TEST_CASE(key_is_read_from_one_line_of_hexadecimal_digits_only) {
  BOOST_TEST((public_key_from_text(" " + clinic().public_key.hex + "\n") == clinic().public_key));
  for (const char* wrong : {"", "12", "zz", "no key"}) BOOST_TEST(!public_key_from_text(wrong).has_value());
}

BOOST_AUTO_TEST_SUITE_END()
