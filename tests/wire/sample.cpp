#include "wire/sample.hpp"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>

#include "read/resolved_from_xml.hpp"
#include "wire/child_from_json.hpp"

namespace rushlight::tests {

std::string file_in_tree(const std::string& path) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/" + path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file, "cannot read " << path);
  return {std::istreambuf_iterator<char>(file), {}};
}

const Protocol& every_word() {
  static const Protocol protocol =
      resolved_from_xml(file_in_tree("tests/findings/good/protocol/every-word.xml"), "every-word.xml").value.value();
  return protocol;
}

std::string whole_child_file() { return file_in_tree("tests/findings/good/child/whole.json"); }

Child sample_child() { return child_from_json(whole_child_file(), "child.json", kToday).value.value(); }

std::string changed(std::string text, const std::string& old, const std::string& put) {
  const std::size_t at = text.find(old);
  BOOST_REQUIRE_MESSAGE(at != std::string::npos, "no " << old << " in " << text);
  return text.replace(at, old.size(), put);
}

std::string kinds_of(const std::vector<Finding>& findings) {
  std::string kinds;
  for (const Finding& finding : findings) kinds += (kinds.empty() ? "" : " ") + id_of(finding.kind);
  return kinds;
}

}  // namespace rushlight::tests
