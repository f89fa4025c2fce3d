#include "read/check_words.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "read/vocabulary.hpp"
#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

/// Lower-case words joined by single hyphens; digits count as letters, but not at the beginning.
bool is_kebab_case(const std::string& id) {
  bool after_hyphen = true;
  for (const char c : id) {
    const bool letter = c >= 'a' && c <= 'z';
    const bool digit = c >= '0' && c <= '9';
    if (!letter && !digit && (c != '-' || after_hyphen)) return false;
    after_hyphen = c == '-';
  }
  return !after_hyphen && id.front() >= 'a' && id.front() <= 'z';
}

/// The words of a value with the place of each.
std::vector<Word> words_in(const Word& value) {
  std::vector<Word> parts;
  std::size_t begin = 0;
  while (begin < value.text.size()) {
    const std::size_t end = std::min(value.text.find(' ', begin), value.text.size());
    Where where = value.where;
    std::string part = value.text.substr(begin, end - begin);
    where.column += static_cast<std::uint32_t>(points_in(std::string_view(value.text).substr(0, begin)));
    where.length = static_cast<std::uint32_t>(points_in(part));
    parts.push_back({std::move(part), std::move(where)});
    begin = end + 1;
  }
  return parts;
}

/// Values that begin with a digit are numbers with their units, except on a source, where they are words for people.
bool is_number(const XmlNode& node, const Word& value) {
  std::size_t at = 0;
  for (CodePoint point = code_point_at(value.text, at); is_foreign_blank(point.value);
       point = code_point_at(value.text, at)) {
    at += point.size;
  }
  return node.name.text != "source" && at < value.text.size() && value.text[at] >= '0' && value.text[at] <= '9';
}

/// What a word of this attribute is called in a sentence.
std::string noun_of(std::string_view attribute) {
  return attribute == "languages" ? "language" : std::string(attribute);
}

template <class Words>
std::vector<std::string> names_of(const std::vector<Words>& list) {
  std::vector<std::string> names;
  for (const Words& words : list) names.emplace_back(words.name);
  return names;
}

template <class Words>
const Words* named(const std::vector<Words>& list, const std::string& name) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const Words& words) { return words.name == name; });
  return found == list.end() ? nullptr : &*found;
}

bool has_attribute(const XmlNode& node, std::string_view name) {
  return std::any_of(node.attributes.begin(), node.attributes.end(),
                     [&](const XmlAttribute& attribute) { return attribute.name.text == name; });
}

void drop_unknown(XmlNode& node, const ElementWords& words) {
  std::erase_if(node.attributes, [&](const XmlAttribute& a) { return !named(words.attributes, a.name.text); });
  std::erase_if(node.children, [&](const XmlNode& child) { return !named(words.children, child.name.text); });
  for (XmlNode& child : node.children) drop_unknown(child, words_of(named(words.children, child.name.text)->shape));
}

class WordCheck {
 public:
  std::vector<Finding> findings;

  void check(const XmlNode& node, const ElementWords& words) {
    if (findings.size() >= kMostWordFindings) return;
    check_attributes(node, words);
    if (!words.holds_text) {
      const auto stray = [&](const Word& text) {
        if (!text.text.empty()) report(text.where, StrayText{text.text, node.name.text});  // `&#10;` is a blank
      };
      if (node.texts.empty()) stray(node.text);
      std::for_each(node.texts.begin(), node.texts.end(), stray);
    }
    check_children(node, words);
  }

 private:
  void report(const Where& where, Kind kind, std::optional<Because> because = std::nullopt) {
    if (findings.size() >= kMostWordFindings) return;
    findings.push_back({Severity::error, where, std::move(kind), std::move(because)});
  }

  void check_attributes(const XmlNode& node, const ElementWords& words) {
    for (const XmlAttribute& written : node.attributes) {
      const AttributeWords* known = named(words.attributes, written.name.text);
      if (!known) {
        report(written.name.where, UnknownAttribute{written.name.text, node.name.text, names_of(words.attributes)});
      } else {
        check_value(written.value, *known);
        if (known->rule == ValueRule::any && is_number(node, written.value)) check_blanks(written.value);
      }
    }
    for (const AttributeWords& wanted : words.attributes) {
      if (!wanted.required || has_attribute(node, wanted.name)) continue;
      report(node.name.where, missing(std::string(wanted.name), node));
    }
  }

  static Kind missing(const std::string& attribute, const XmlNode& node) {
    if (attribute == "start") return UnknownStart{};
    if (attribute != "source") return MissingAttribute{attribute, node.name.text};
    const MaybeWord id = node.value_of("id");
    return MissingSource{node.name.text, id ? id->text : ""};
  }

  void check_value(const Word& value, const AttributeWords& words) {
    if (words.rule == ValueRule::id && (value.text.empty() || !is_kebab_case(value.text))) {
      report(value.where, BadId{value.text});
    }
    const bool several = words.rule == ValueRule::several_of && !value.text.empty();
    if (several) {
      for (const Word& part : words_in(value)) check_allowed(part, words);
    } else if (words.rule == ValueRule::one_of || words.rule == ValueRule::several_of) {
      check_allowed(value, words);
    }
  }

  void check_allowed(const Word& word, const AttributeWords& words) {
    if (std::find(words.allowed.begin(), words.allowed.end(), word.text) != words.allowed.end()) return;
    report(word.where, WrongWord{word.text, noun_of(words.name), words.allowed});
  }

  void check_blanks(const Word& value) {
    const std::optional<ForeignBlank> found = foreign_blank_in(value.text);
    if (!found) return;
    Where where = value.where;
    where.column += found->points_before;
    where.length = 1;
    report(where, found->kind);
  }

  void check_children(const XmlNode& node, const ElementWords& words) {
    std::vector<const XmlNode*> first_of(words.children.size(), nullptr);  // by their place in the table
    const XmlNode* furthest = nullptr;
    std::size_t furthest_slot = 0;
    for (const XmlNode& child : node.children) {
      const ChildWords* known = named(words.children, child.name.text);
      if (!known) {
        report(child.name.where, UnknownElement{child.name.text, node.name.text, names_of(words.children)});
        continue;
      }
      const auto place = static_cast<std::size_t>(known - words.children.data());
      const XmlNode*& first = first_of[place];
      const bool is_first = first == nullptr;
      if (is_first) first = &child;
      const std::size_t slot = slot_of(words, place);
      if (!is_first && known->most == 1) {
        report(child.name.where, RepeatedElement{child.name.text, node.name.text},
               Because{"the first one stands here", first->name.where});
      } else if (!words.in_any_order && furthest && slot < furthest_slot) {
        report(child.name.where, MisplacedElement{child.name.text, node.name.text, furthest->name.text},
               Because{"`" + furthest->name.text + "` stands here", furthest->name.where});
      } else if (!furthest || slot > furthest_slot) {
        furthest = &child;
        furthest_slot = slot;
      }
      check(child, words_of(known->shape));
    }
    for (std::size_t place = 0; place < words.children.size(); ++place) {
      const ChildWords& wanted = words.children[place];
      if (wanted.least == 0 || first_of[place] != nullptr) continue;
      report(node.name.where, MissingElement{std::string(wanted.name), node.name.text});
    }
  }

  static std::size_t slot_of(const ElementWords& words, std::size_t index) {
    while (words.children[index].beside_previous) --index;
    return index;
  }
};

}  // namespace

std::vector<Finding> word_findings(const XmlNode& root, const ElementWords& words) {
  WordCheck check;
  if (root.name.text != words.shape) {
    const UnknownElement kind{root.name.text, "", {std::string(words.shape)}};
    return {{Severity::error, root.name.where, kind, std::nullopt}};
  }
  check.check(root, words);
  return std::move(check.findings);
}

XmlNode known_part_of(XmlNode root, const ElementWords& words, const std::vector<Finding>& findings) {
  if (!findings.empty()) drop_unknown(root, words);
  return root;
}

}  // namespace rushlight
