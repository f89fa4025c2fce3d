#include <boost/test/unit_test.hpp>

#include "sanitized.hpp"
#include "seal/signed_set.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// Whether any set with one bit of this byte turned still holds. All eight bits, or one that moves with the place.
int turned_and_held(Files& files, const std::string& name, std::size_t at, bool all_bits) {
  int held = 0;
  for (unsigned bit = all_bits ? 0 : static_cast<unsigned>(at % 8); bit < 8; bit += all_bits ? 1 : 8) {
    char& byte = files.at(name)[at];
    const char before = byte;
    byte = static_cast<char>(static_cast<unsigned char>(before) ^ (1U << bit));
    if (holds(files)) {
      ++held;
      BOOST_TEST_MESSAGE(name << " byte " << at << " bit " << bit);
    }
    byte = before;
  }
  return held;
}

/// The signed element as somebody else would have written it.
Files respelled(const std::string& from, const std::string& to) {
  const Files before = approved(small_set());
  Files files = before;
  for (const auto& [name, bytes] : before) files = changed(files, name, from, to);
  return files;
}

std::string attribute_of(const std::string& element, const std::string& name) {
  const std::size_t at = element.find(" " + name + "=\"");
  return element.substr(at, element.find('"', at + name.size() + 3) + 1 - at);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(tampering)

BOOST_AUTO_TEST_CASE(no_bit_of_a_signed_set_can_be_turned) {
  Files files = approved(small_set());
  BOOST_REQUIRE(holds(files));
  const std::size_t stride = kSanitized ? 37 : 1;
  std::size_t turned = 0;
  for (const auto& [name, bytes] : approved(small_set())) {
    const std::size_t size = bytes.size();
    for (std::size_t at = 0; at < size; at += stride) {
      BOOST_TEST(turned_and_held(files, name, at, !kSanitized) == 0);
      ++turned;
    }
  }
  BOOST_TEST_MESSAGE(turned << " bytes turned");
  BOOST_TEST(holds(files));
}

BOOST_AUTO_TEST_CASE(no_byte_of_the_shipped_set_once_signed_can_change) {
  const Files signed_files = approved(tree_set("protocols/reference"));
  Files files = signed_files;
  BOOST_REQUIRE(holds(files));
  const std::size_t stride = kSanitized ? 7919 : 101;
  for (const auto& [name, bytes] : signed_files) {
    for (std::size_t at = 0; at < bytes.size(); at += stride) BOOST_TEST(turned_and_held(files, name, at, false) == 0);
    // The element itself, whole: there the bytes are not hashed but compared.
    const std::size_t element = bytes.find("<approval "), behind = bytes.find("</approval>") + 11;
    for (std::size_t at = element; at < behind; at += kSanitized ? 53 : 1)
      BOOST_TEST(turned_and_held(files, name, at, false) == 0);
  }
}

BOOST_AUTO_TEST_CASE(cut_at_any_place_or_longer_by_a_byte_it_does_not_hold) {
  const Files files = approved(small_set());
  for (const auto& [name, bytes] : files) {
    for (std::size_t size = 0; size < bytes.size(); size += kSanitized ? 211 : 7) {
      Files cut = files;
      cut[name].resize(size);
      BOOST_TEST(!holds(cut));
    }
    for (const char* more : {" ", "\n", "\t", "\r", "x"}) {
      Files longer = files;
      longer[name] += more;
      BOOST_TEST(!holds(longer));
    }
  }
}

BOOST_AUTO_TEST_CASE(approval_moved_to_another_place_does_not_hold) {
  for (const auto& [name, bytes] : approved(small_set())) {
    const std::string element = element_in(bytes);
    for (const char* behind : {"<sources>", "</sources>", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"}) {
      Files files = approved(small_set());
      files[name] = without_approval(bytes);
      files = changed(files, name, behind, behind + element);
      BOOST_TEST(!holds(files), name << " " << behind);
    }
    Files a_line_lower = approved(small_set());
    a_line_lower = changed(a_line_lower, name, element, "");
    const std::size_t at =
        a_line_lower[name].find('>', a_line_lower[name].find(name == "low.xml" ? "<protocol" : "<safety")) + 2;
    a_line_lower[name].insert(at, element);
    BOOST_TEST(!holds(a_line_lower), name);
  }
}

BOOST_AUTO_TEST_CASE(two_approvals_in_one_file_do_not_hold) {
  const Files files = approved(small_set());
  const Files others = approved(small_set(), new_key_pair());
  for (const auto& [name, bytes] : files) {
    const std::string element = element_in(bytes);
    for (const std::string& second : {element, element_in(others.at(name))}) {
      BOOST_TEST(!holds(changed(files, name, element, element + second)));
      BOOST_TEST(!holds(changed(files, name, element, second + element)));
    }
  }
}

BOOST_AUTO_TEST_CASE(approval_of_another_file_or_set_pasted_in_does_not_hold) {
  Files other = small_set();
  other["low.xml"] += "<!-- another clinic's -->";
  const std::string pasted = element_in(approved(other).at("low.xml"));
  Files files = approved(small_set());
  files["low.xml"] = *with_approval(small_set().at("low.xml"), *approval_in(approved(other).at("low.xml")));
  BOOST_TEST(!holds(files));
  Files all = small_set();
  for (auto& [name, bytes] : all) bytes = *with_approval(bytes, *approval_in(approved(other).at("low.xml")));
  BOOST_TEST(!holds(all));
  BOOST_TEST(element_in(all.at("low.xml")) == pasted);
}

BOOST_AUTO_TEST_CASE(attributes_in_another_order_do_not_hold) {
  const std::string element = element_in(approved(small_set()).at("low.xml"));
  const std::string by = attribute_of(element, "by"), role = attribute_of(element, "role"),
                    on = attribute_of(element, "on"), until = attribute_of(element, "until");
  BOOST_TEST(!holds(respelled(by + role, role + by)));
  BOOST_TEST(!holds(respelled(on + until, until + on)));
  const std::string name = attribute_of(element, "name"), hash = attribute_of(element, "sha256");
  BOOST_TEST(!holds(respelled(name + hash, hash + name)));
}

BOOST_AUTO_TEST_CASE(another_spelling_of_the_same_approval_does_not_hold) {
  const std::string element = element_in(approved(small_set()).at("low.xml"));
  BOOST_TEST(holds(respelled("<approval by", "<approval by")));  // respelling it as it is changes nothing
  BOOST_TEST(!holds(respelled("<approval by", "<approval  by")));
  BOOST_TEST(!holds(respelled("<approval by=", "<approval by =")));
  BOOST_TEST(!holds(respelled("<approval by", "<approval\nby")));
  BOOST_TEST(!holds(respelled("/><file", "/> <file")));
  BOOST_TEST(!holds(respelled("/></approval>", " /></approval>")));
  BOOST_TEST(!holds(respelled("/></approval>", "/>\n</approval>")));
  BOOST_TEST(!holds(respelled("/></approval>", "/></approval >")));
  BOOST_TEST(!holds(respelled("/></approval>", "/><!-- --></approval>")));
  BOOST_TEST(!holds(respelled("Ana Rill &amp; team", "Ana Rill &#38; team")));
  BOOST_TEST(!holds(respelled("Ana Rill", "Ana &#82;ill")));
  BOOST_TEST(!holds(respelled("\"consultant\"", "'consultant'")));
  BOOST_TEST(!holds(respelled("\"consultant\"", "\"consultant \"")));
  const std::string key = attribute_of(element, "key"), signature = attribute_of(element, "signature");
  const auto capital = [](std::string text) {
    const std::size_t from = text.find('"');
    for (std::size_t at = from; at < text.size(); ++at) {
      if (text[at] >= 'a' && text[at] <= 'f') text[at] = static_cast<char>(text[at] - 'a' + 'A');
    }
    return text;
  };
  BOOST_REQUIRE(capital(key) != key);
  BOOST_TEST(!holds(respelled(key, capital(key))));
  BOOST_TEST(!holds(respelled(signature, capital(signature))));
}

BOOST_AUTO_TEST_CASE(later_end_swapped_days_another_name_or_role_needs_a_new_signature) {
  BOOST_TEST(!holds(respelled("until=\"2027-03-01\"", "until=\"2029-03-01\"")));
  BOOST_TEST(!holds(respelled("on=\"2026-03-01\" until=\"2027-03-01\"", "on=\"2027-03-01\" until=\"2026-03-01\"")));
  BOOST_TEST(!holds(respelled("by=\"Ana Rill", "by=\"Eva Rill")));
  BOOST_TEST(!holds(respelled("role=\"consultant\"", "role=\"receptionist\"")));
  BOOST_TEST(!holds(
      respelled("by=\"Ana Rill &amp; team\" role=\"consultant\"", "by=\"consultant\" role=\"Ana Rill &amp; team\"")));
}

BOOST_AUTO_TEST_CASE(key_replaced_by_another_is_changed_and_signed_by_another_is_not_trusted) {
  const KeyPair other = new_key_pair();
  const Files replaced = respelled(clinic().public_key.hex, other.public_key.hex);
  BOOST_TEST((looked_at(replaced).state == SealedSet::State::changed));
  const Files by_other = approved(small_set(), other);
  BOOST_TEST((looked_at(by_other).state == SealedSet::State::untrusted));
  Files claims = by_other;
  for (auto& [name, bytes] : by_other) claims = changed(claims, name, other.public_key.hex, clinic().public_key.hex);
  BOOST_TEST((looked_at(claims).state == SealedSet::State::changed));
}

BOOST_AUTO_TEST_CASE(hashes_of_changed_files_written_into_the_approval_do_not_hold) {
  const Files files = approved(small_set());
  Files other = small_set();
  other["low.xml"] += "<!-- changed -->";
  const Approval theirs = *approval_in(approved(other, new_key_pair()).at("low.xml"));
  Approval forged = *approval_in(files.at("low.xml"));
  forged.files = theirs.files;
  Files all = other;
  for (auto& [name, bytes] : all) bytes = *with_approval(bytes, forged);
  BOOST_TEST((looked_at(all).state == SealedSet::State::changed));
}

BOOST_AUTO_TEST_CASE(two_files_cannot_hide_behind_one_name) {
  const Approval good = *approval_in(approved(small_set()).at("low.xml"));
  Approval merged = good;
  // The same statement, letter by letter, in one line that holds a line end.
  merged.files = {{good.files[0].name + "\n" + good.files[1].sha256 + " " + good.files[1].name, good.files[0].sha256}};
  BOOST_REQUIRE(statement(merged) == statement(good));
  Files files = {{merged.files[0].name, *with_approval(small_set().at("low.xml"), merged)}};
  BOOST_TEST(!holds(files));
}

BOOST_AUTO_TEST_SUITE_END()
