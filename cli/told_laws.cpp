#include "cli/told_laws.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>

#include "cli/plain_text.hpp"
#include "finding/quoted.hpp"
#include "read/vetted_bytes.hpp"
#include "read/vocabulary.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {
namespace {

constexpr int kWidth = 100;

/// One thing that a law says: "at once", "45 min".
struct Said {
  std::string what, value;
  friend bool operator==(const Said&, const Said&) = default;
};

struct Law {
  std::string kind, name;
  std::uint32_t line;
  std::vector<Said> says;  // in the order of the vocabulary, its conditions last
};
using Laws = std::vector<Law>;

std::string plain(std::string_view attribute) {
  std::string words(attribute);
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

std::vector<Said> attributes_of(const XmlNode& node, std::string_view shape) {
  std::vector<Said> all;
  for (const AttributeWords& each : words_of(shape).attributes) {
    if (each.name == "id" || each.name == "source") continue;
    if (const MaybeWord value = node.value_of(each.name)) all.push_back({plain(each.name), value->text});
  }
  return all;
}

/// "glucose below low"
std::string condition_of(const XmlNode& node) {
  std::string text;
  for (const Said& said : attributes_of(node, "if")) {
    const bool names_it = said.what == "fact" || said.what == "counter";
    text += (text.empty() ? "" : " ") + (names_it ? "" : said.what + " ") + said.value;
  }
  return text;
}

Law law_of(const XmlNode& node) {
  Law law{node.name.text, "", node.name.where.line, attributes_of(node, node.name.text)};
  const MaybeWord id = node.value_of("id"), language = node.value_of("language");
  law.name = id ? id->text : law.kind + (language ? "-" + language->text : "");
  std::vector<std::string> conditions;
  for (const XmlNode& child : node.children) {
    if (child.name.text == "if") conditions.push_back(condition_of(child));
  }
  std::sort(conditions.begin(), conditions.end());
  std::string all;
  for (const std::string& each : conditions) all += (all.empty() ? "" : " and ") + each;
  if (!all.empty()) law.says.push_back({"if", all});
  return law;
}

/// Empty when they cannot be read.
std::optional<Laws> laws_in(std::string_view bytes) {
  const Read<VettedXml> vetted = vet_xml(std::string(bytes), "safety.xml");
  if (!vetted.value) return std::nullopt;
  const Read<XmlNode> tree = tree_from_vetted(*vetted.value);
  if (!tree.value || tree.value->name.text != "safety") return std::nullopt;
  Laws laws;
  for (const XmlNode& child : tree.value->children) {
    for (const ChildWords& known : words_of("safety").children) {
      const bool is_law = known.name != "approval" && known.name != "sources";
      if (is_law && child.name.text == known.name) laws.push_back(law_of(child));
    }
  }
  return laws;
}

/// Takes out of both lists what stands for each other; gives the pairs.
template <class Same>
std::vector<std::pair<Law, Law>> taken_out(Laws& was, Laws& now, Same same) {
  std::vector<std::pair<Law, Law>> pairs;
  for (auto one = was.begin(); one != was.end();) {
    const auto other = std::find_if(now.begin(), now.end(), [&](const Law& law) { return same(*one, law); });
    if (other == now.end()) {
      ++one;
      continue;
    }
    pairs.emplace_back(std::move(*one), std::move(*other));
    one = was.erase(one);
    now.erase(other);
  }
  return pairs;
}

std::string value_of(const Law& law, const std::string& what) {
  const auto said = std::find_if(law.says.begin(), law.says.end(), [&](const Said& each) { return each.what == what; });
  return said == law.says.end() ? "nothing" : said->value;
}

std::string what_changes(const Law& was, const Law& now) {
  std::string text;
  const auto add = [&](const std::string& what) {
    const std::string before = value_of(was, what), after = value_of(now, what);
    if (before != after) text += (text.empty() ? "" : "; ") + what + ": was " + before + ", now " + after;
  };
  for (const Said& each : was.says) add(each.what);
  for (const Said& each : now.says) {
    if (value_of(was, each.what) == "nothing") add(each.what);
  }
  return text;
}

std::string whole(const Law& law) {
  std::string text = law.kind;
  for (const Said& each : law.says) text += (text == law.kind ? ": " : ", ") + each.what + " " + each.value;
  return text;
}

std::string line_of(const Law& law) { return "line " + std::to_string(law.line); }

std::string all_of_them(std::size_t number) {
  return number == 1 ? "its one law" : "its " + std::to_string(number) + " laws";
}

}  // namespace

std::vector<std::string> told_laws(std::string_view was_bytes, std::string_view now_bytes) {
  if (was_bytes == now_bytes) return {};
  std::optional<Laws> was = laws_in(was_bytes), now = laws_in(now_bytes);
  if (was_bytes.empty() && now)
    return {"The laws of the clinic: safety.xml is new, with " + all_of_them(now->size()) + "."};
  if (now_bytes.empty() && was)
    return {"The laws of the clinic: safety.xml is gone, and " + all_of_them(was->size()) + " with it."};
  if (!was || !now) return {"The laws of the clinic: safety.xml is another one, and one of the two cannot be read."};
  taken_out(*was, *now,
            [](const Law& a, const Law& b) { return a.kind == b.kind && a.name == b.name && a.says == b.says; });
  taken_out(*was, *now, [](const Law& a, const Law& b) { return a.kind == b.kind && a.says == b.says; });
  const auto changed =
      taken_out(*was, *now, [](const Law& a, const Law& b) { return a.kind == b.kind && a.name == b.name; });
  std::vector<std::string> lines;
  const auto add = [&](const std::string& text) {
    for (const std::string& line : wrapped("- ", cleaned(text), kWidth)) lines.push_back(line);
  };
  for (const auto& [before, after] : changed)
    add("changed: " + quoted(before.name) + " (" + line_of(before) +
        (before.line == after.line ? "" : ", now " + line_of(after)) + "): " + what_changes(before, after));
  for (const Law& law : *was) add("gone: " + quoted(law.name) + " (was " + line_of(law) + "): " + whole(law));
  for (const Law& law : *now) add("new: " + quoted(law.name) + " (" + line_of(law) + "): " + whole(law));
  if (!lines.empty()) lines.insert(lines.begin(), "The clinic's laws in safety.xml are other ones:");
  return lines;
}

}  // namespace rushlight
