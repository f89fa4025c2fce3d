#include "read/vocabulary.hpp"

#include <tinyxml2.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace rushlight::tests {

namespace {

const std::string kRoot = RUSHLIGHT_SOURCE_DIR;

std::string bytes_of(const std::string& path) {
  std::ifstream file(kRoot + path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file, path);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A schema of protocols/, to be looked at word by word; what it does not name itself may stand in the one it includes.
class Schema {
 public:
  explicit Schema(const std::string& name = "protocol") : Schema(name, true) {}

  const tinyxml2::XMLElement* named(const std::string& element, const std::string& name) const {
    const tinyxml2::XMLElement* found = document_.RootElement()->FirstChildElement(element.c_str());
    while (found && name != found->Attribute("name")) found = found->NextSiblingElement(element.c_str());
    return found || !included_ ? found : included_->named(element, name);
  }

  std::size_t count(const std::string& element) const {
    std::size_t count = 0;
    for (const auto* type = document_.RootElement()->FirstChildElement(element.c_str()); type;
         type = type->NextSiblingElement(element.c_str())) {
      ++count;
    }
    return count;
  }

  std::vector<std::string> enumeration(const std::string& type) const {
    std::vector<std::string> values;
    const tinyxml2::XMLElement* simple = named("xs:simpleType", type);
    if (!simple) return values;
    const auto* restriction = simple->FirstChildElement("xs:restriction");
    for (const auto* value = restriction->FirstChildElement("xs:enumeration"); value;
         value = value->NextSiblingElement("xs:enumeration")) {
      values.emplace_back(value->Attribute("value"));
    }
    return values;
  }

  /// Elements, attributes, types and words of closed lists that an XML editor could not explain: without any words, or
  /// with so few that they only repeat the name.
  std::vector<std::string> unexplained() const {
    std::vector<std::string> names;
    collect_unexplained(*document_.RootElement(), names);
    return names;
  }

 private:
  Schema(const std::string& name, bool with_included) {
    const std::string bytes = bytes_of("/protocols/" + name + ".xsd");
    BOOST_REQUIRE_EQUAL(document_.Parse(bytes.data(), bytes.size()), tinyxml2::XML_SUCCESS);
    if (with_included && name != "protocol") included_.reset(new Schema("protocol", false));
  }

  static std::size_t words_in(const char* text) {
    std::size_t words = 0;
    bool in_word = false;
    for (const char* at = text; *at != 0; ++at) {
      const bool blank = *at == ' ' || *at == '\n';
      if (!blank && !in_word) ++words;
      in_word = !blank;
    }
    return words;
  }

  static void collect_unexplained(const tinyxml2::XMLElement& node, std::vector<std::string>& names) {
    for (const auto* child = node.FirstChildElement(); child; child = child->NextSiblingElement()) {
      const std::string what = child->Name();
      const bool in_list = what == "xs:enumeration";
      if (in_list || what == "xs:element" || what == "xs:attribute" || what == "xs:complexType" ||
          what == "xs:simpleType") {
        constexpr std::size_t kFewest = 4, kFewestInList = 3;
        const auto* annotation = child->FirstChildElement("xs:annotation");
        const auto* words = annotation ? annotation->FirstChildElement("xs:documentation") : nullptr;
        const char* name = child->Attribute(in_list ? "value" : "name");
        const bool explained =
            words && words->GetText() && words_in(words->GetText()) >= (in_list ? kFewestInList : kFewest);
        if (!explained) names.emplace_back(what + " " + (name ? name : ""));
      }
      collect_unexplained(*child, names);
    }
  }

  tinyxml2::XMLDocument document_;
  std::unique_ptr<Schema> included_;
};

/// "name shape least most" of each child in order; the group of languages as "en line 0 1" and "es line 0 1".
std::vector<std::string> children_in_schema(const tinyxml2::XMLElement& type) {
  std::vector<std::string> children;
  const tinyxml2::XMLElement* list = type.FirstChildElement("xs:sequence");
  const bool choice = !list;
  if (choice) list = type.FirstChildElement("xs:choice");
  for (const auto* child = list ? list->FirstChildElement() : nullptr; child; child = child->NextSiblingElement()) {
    if (child->Attribute("ref", "lines")) {
      children.insert(children.end(), {"en line 0 1", "es line 0 1"});
      continue;
    }
    const char* least = child->Attribute("minOccurs");
    const char* most = child->Attribute("maxOccurs");
    children.push_back(std::string(child->Attribute("name")) + " " + child->Attribute("type") + " " +
                       (choice  ? "0"
                        : least ? least
                                : "1") +
                       " " +
                       (choice ? "unbounded"
                        : most ? most
                               : "1"));
  }
  return children;
}

std::vector<std::string> children_in_table(const ElementWords& words) {
  std::vector<std::string> children;
  for (const ChildWords& child : words.children) {
    children.push_back(std::string(child.name) + " " + std::string(child.shape) + " " + std::to_string(child.least) +
                       " " + (child.most == kAnyNumber ? "unbounded" : std::to_string(child.most)));
  }
  return children;
}

std::string text_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += "\n    " + line;
  return text;
}

void check_attribute(const Schema& schema, const ElementWords& words, const tinyxml2::XMLElement& written) {
  const std::string name = written.Attribute("name");
  const std::string where = std::string(words.shape) + "/" + name;
  const auto known = std::find_if(words.attributes.begin(), words.attributes.end(),
                                  [&](const AttributeWords& attribute) { return attribute.name == name; });
  BOOST_REQUIRE_MESSAGE(known != words.attributes.end(), where << " is only in the schema");
  BOOST_CHECK_MESSAGE(known->required == (written.Attribute("use", "required") != nullptr),
                      where << " is required in one only");
  const std::string type = written.Attribute("type");
  BOOST_CHECK_MESSAGE((known->rule == ValueRule::id) == (type == "id"), where << " is an id in one only");
  BOOST_CHECK_MESSAGE((known->rule == ValueRule::several_of) == (type == "languages"),
                      where << " is a list in one only");
  const std::vector<std::string> values = schema.enumeration(type == "languages" ? "language" : type);
  BOOST_CHECK_MESSAGE(values == known->allowed, where << text_of(values) << "\n  is not" << text_of(known->allowed));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(vocabulary_table)

void compare(const Schema& schema, const std::vector<ElementWords>& table) {
  std::size_t shapes = 0;
  for (const ElementWords& words : table) {
    if (words.holds_text) continue;  // a text is a simple type
    ++shapes;
    const tinyxml2::XMLElement* type = schema.named("xs:complexType", std::string(words.shape));
    BOOST_REQUIRE_MESSAGE(type, words.shape << " is not in the schema");
    const auto in_schema = children_in_schema(*type);
    const auto in_table = children_in_table(words);
    BOOST_CHECK_MESSAGE(in_schema == in_table, words.shape << text_of(in_schema) << "\n  is not" << text_of(in_table));
    BOOST_CHECK_EQUAL(words.in_any_order, type->FirstChildElement("xs:choice") != nullptr);
    std::size_t attributes = 0;
    for (const auto* written = type->FirstChildElement("xs:attribute"); written;
         written = written->NextSiblingElement("xs:attribute"), ++attributes) {
      check_attribute(schema, words, *written);
    }
    BOOST_CHECK_MESSAGE(attributes == words.attributes.size(),
                        words.shape << " has attributes that are not in the schema");
  }
  BOOST_CHECK_EQUAL(shapes, schema.count("xs:complexType"));
}

BOOST_AUTO_TEST_CASE(schema_and_reader_know_the_same_words_in_the_same_order) {
  const Schema protocol;
  compare(protocol, vocabulary());
  BOOST_CHECK(protocol.named("xs:simpleType", "line"));
  compare(Schema("safety"), safety_vocabulary());
  compare(Schema("examples"), examples_vocabulary());
}

BOOST_AUTO_TEST_CASE(every_element_and_attribute_of_the_schema_is_explained) {
  for (const char* schema : {"protocol", "safety", "examples"}) {
    const std::vector<std::string> names = Schema(schema).unexplained();
    BOOST_CHECK_MESSAGE(names.empty(), schema << ": " << names.size() << " without an explanation: " << text_of(names));
  }
}

void look_for_every_word(const std::vector<ElementWords>& table, const std::string& path) {
  const std::string page = bytes_of(path);
  for (const ElementWords& words : table) {
    for (const ChildWords& child : words.children) {
      const std::string name(child.name);
      const bool found = page.find("<" + name) != std::string::npos || page.find("`" + name + "`") != std::string::npos;
      BOOST_CHECK_MESSAGE(found, "the page does not know the element " << name);
    }
    for (const AttributeWords& attribute : words.attributes) {
      const std::string name(attribute.name);
      const bool found =
          page.find(name + "=\"") != std::string::npos || page.find("`" + name + "`") != std::string::npos;
      BOOST_CHECK_MESSAGE(found, "the page does not know the attribute " << name << " of " << words.shape);
      for (const std::string& value : attribute.allowed) {
        const bool known = page.find("\"" + value + "\"") != std::string::npos ||
                           page.find("`" + value + "`") != std::string::npos || page.find(value) != std::string::npos;
        BOOST_CHECK_MESSAGE(known, "the page does not know " << value << " of " << name);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(every_word_stands_in_its_format_page) {
  look_for_every_word(vocabulary(), "/docs/protocol-format.md");
  look_for_every_word(safety_vocabulary(), "/docs/safety-format.md");
  look_for_every_word(examples_vocabulary(), "/docs/examples-format.md");
}

BOOST_AUTO_TEST_CASE(the_example_of_every_word_holds_every_word) {
  const std::string example = bytes_of("/tests/findings/good/protocol/every-word.xml");
  tinyxml2::XMLDocument document;
  BOOST_REQUIRE_EQUAL(document.Parse(example.data(), example.size()), tinyxml2::XML_SUCCESS);
  std::set<std::string> seen;
  struct Visit {
    std::set<std::string>& seen;
    void element(const tinyxml2::XMLElement& node, const ElementWords& words) {
      for (const auto* a = node.FirstAttribute(); a; a = a->Next())
        seen.insert(std::string(words.shape) + "/" + a->Name());
      for (const auto* child = node.FirstChildElement(); child; child = child->NextSiblingElement()) {
        const auto known = std::find_if(words.children.begin(), words.children.end(),
                                        [&](const ChildWords& c) { return c.name == child->Name(); });
        BOOST_REQUIRE_MESSAGE(known != words.children.end(), child->Name());
        seen.insert(std::string(words.shape) + "<" + child->Name());
        element(*child, words_of(known->shape));
      }
    }
  };
  Visit{seen}.element(*document.RootElement(), vocabulary().front());
  for (const ElementWords& words : vocabulary()) {
    for (const ChildWords& child : words.children) {
      BOOST_CHECK_MESSAGE(seen.count(std::string(words.shape) + "<" + std::string(child.name)),
                          words.shape << "<" << child.name);
    }
    for (const AttributeWords& attribute : words.attributes) {
      BOOST_CHECK_MESSAGE(seen.count(std::string(words.shape) + "/" + std::string(attribute.name)),
                          words.shape << "/" << attribute.name);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
