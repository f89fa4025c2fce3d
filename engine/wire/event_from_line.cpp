#include "wire/event_from_line.hpp"

#include "protocol/words.hpp"
#include "wire/deeds_from_json.hpp"
#include "wire/history_from_json.hpp"
#include "wire/json_tree.hpp"
#include "wire/object_reader.hpp"
#include "wire/value_from_json.hpp"

namespace rushlight {
namespace {

using What = decltype(Event::what);

const std::vector<std::string>& event_words() {
  static const std::vector<std::string> words{"answer", "worse",    "correct",  "done",   "call",
                                              "tick",   "language", "takeover", "abandon", "past"};
  return words;
}

std::vector<std::string> event_keys() {
  std::vector<std::string> keys{"at"};
  keys.insert(keys.end(), event_words().begin(), event_words().end());
  return keys;
}

class EventReader {
 public:
  EventReader(const Protocol& protocol, const Child& child, const std::optional<Moment>& at,
              std::vector<Finding>& findings)
      : protocol_(protocol), child_(child), at_(at), findings_(findings) {}

  std::optional<What> what_from(const std::string& word, const JsonNode& node) {
    if (word == "answer") return non_empty(word, node, Answered{answers_from(word, node)});
    if (word == "correct") return non_empty(word, node, Corrected{answers_from(word, node)});
    if (word == "worse") return GotWorse{answers_from(word, node)};
    if (word == "done") return done_from(node);
    if (word == "call") return call_from(node);
    if (word == "language") return language_from(node);
    if (word == "past") return Remembered{history_from_json(node, child_.unit, at_, findings_)};
    if (word == "takeover") {
      const auto by = ObjectReader(node, "`takeover`", {"by"}, findings_).required_text("by", kLongestName);
      return by ? std::optional<What>(TakenOver{*by}) : std::nullopt;
    }
    if (word == "abandon") return abandon_from(node);
    if (is_true(node)) return Ticked{};
    findings_.push_back(error_at(node, WrongType{"tick", "`true`"}));
    return std::nullopt;
  }

 private:
  static bool is_true(const JsonNode& node) { return node.kind == JsonNode::Kind::boolean && node.text == "true"; }

  template <class Said>
  std::optional<What> non_empty(const std::string& word, const JsonNode& node, Said said) {
    if (node.kind == JsonNode::Kind::object && node.members.empty()) {
      findings_.push_back(
          error_at(node, WrongUse{"`" + word + "` names no question", "name a question and its answer"}));
    }
    return said;
  }

  std::vector<std::string> questions() const {
    std::vector<std::string> names;
    for (const Fact& fact : protocol_.facts) {
      if (!fact.from_child) names.push_back(fact.name);
    }
    return names;
  }

  Answers answers_from(const std::string& word, const JsonNode& node) {
    Answers answers;
    if (node.kind != JsonNode::Kind::object) {
      findings_.push_back(error_at(node, WrongType{word, "an object in braces: {\"question\":\"answer\"}"}));
      return answers;
    }
    for (const JsonMember& member : node.members) {
      const auto id = protocol_.fact_named(member.key);
      if (!id) {
        findings_.push_back(
            Finding{Severity::error, member.key_where, UnknownId{member.key, "question", questions()}, {}});
        continue;
      }
      auto value = value_from_json(member.value, protocol_[*id], child_.unit);
      if (auto* finding = std::get_if<Finding>(&value)) {
        findings_.push_back(std::move(*finding));
      } else {
        answers.emplace_back(*id, std::get<Value>(value));
      }
    }
    return answers;
  }

  // Nobody has to say why. Nights that were kept with an empty one are read as well.
  std::optional<What> abandon_from(const JsonNode& node) {
    const ObjectReader reader(node, "`abandon`", {"why"}, findings_);
    const JsonNode* why = reader.optional("why");
    const bool empty = why == nullptr || (why->kind == JsonNode::Kind::text && why->text.empty());
    return Abandoned{empty ? "" : reader.optional_text("why").value_or("")};
  }

  std::optional<What> done_from(const JsonNode& node) {
    if (is_true(node)) return AllDone{};
    if (node.kind != JsonNode::Kind::object && node.kind != JsonNode::Kind::list) {
      findings_.push_back(error_at(node, WrongType{"done", "`true`, or an object with `action` and `outcome`"}));
      return std::nullopt;
    }
    return Done{deeds_from_json(node, protocol_, at_, findings_)};
  }

  std::optional<What> call_from(const JsonNode& node) {
    const ObjectReader reader(node, "`call`", {"contact", "outcome", "text"}, findings_);
    const auto contact = word_of(reader, "contact", words::all_of(words::kContacts));
    const auto outcome = word_of(reader, "outcome", {"reached", "no-answer", "told"});
    const auto text = reader.optional_text("text");
    if (outcome == "told" && reader.optional("text") == nullptr) {
      findings_.push_back(error_at(node, MissingKey{"text", "a call with the outcome `told`"}));
    }
    if (outcome && outcome != "told" && reader.optional("text") != nullptr) {
      findings_.push_back(error_at(*reader.optional("text"),
                                   WrongUse{"`text` goes with the outcome `told` only", "write the outcome `told`"}));
    }
    if (!contact || !outcome) return std::nullopt;
    return Called{static_cast<Contact>(*words::place_of(words::kContacts, *contact)),
                  static_cast<Outcome>(*words::place_of(words::kOutcomes, *outcome)), text.value_or("")};
  }

  std::optional<What> language_from(const JsonNode& node) {
    const auto text = text_of(node, "language", findings_, kLongestName);
    if (!text) return std::nullopt;
    std::vector<std::string> allowed;
    for (const Language language : protocol_.languages) {
      const auto place = static_cast<std::size_t>(language);
      if (words::kLanguages[place] == *text) return LanguageChanged{language};
      allowed.emplace_back(words::kLanguages[place]);
    }
    findings_.push_back(error_at(node, WrongWord{*text, "language of this protocol", allowed}));
    return std::nullopt;
  }

  std::optional<std::string> word_of(const ObjectReader& reader, const std::string& key,
                                     const std::vector<std::string>& allowed) {
    const auto text = reader.required_text(key, kLongestName);
    if (!text) return std::nullopt;
    for (const std::string& word : allowed) {
      if (word == *text) return text;
    }
    findings_.push_back(error_at(*reader.optional(key), WrongWord{*text, key + " of a call", allowed}));
    return std::nullopt;
  }

  const Protocol& protocol_;
  const Child& child_;
  const std::optional<Moment>& at_;
  std::vector<Finding>& findings_;
};

// The one thing that the event says; a finding when it says nothing or two things.
std::optional<std::string> only_word(const JsonNode& root, std::vector<Finding>& findings) {
  std::optional<std::string> word;
  bool unknown_keys = false;
  for (const JsonMember& member : root.members) {
    bool known = member.key == "at";
    for (const std::string& one : event_words()) {
      if (one != member.key) continue;
      known = true;
      if (word) {
        findings.push_back(
            Finding{Severity::error,
                    member.key_where,
                    WrongUse{"one line holds one event, and this one holds `" + *word + "` and `" + member.key + "`",
                             "write two lines"},
                    {}});
        return std::nullopt;
      }
      word = one;
    }
    unknown_keys = unknown_keys || !known;
  }
  if (!word && !unknown_keys) {
    findings.push_back(error_at(root, WrongUse{"the event does not say what happened",
                                               "add `answer`, `done`, `call`, `worse`, `correct` or `tick`"}));
  }
  return word;
}

}  // namespace

std::variant<Event, std::vector<Finding>> event_from_line(std::string_view line, const Protocol& protocol,
                                                          const Child& child, const std::string& file,
                                                          std::uint32_t line_number) {
  Read<JsonNode> tree = json_from_text(line, file, kEventLimits, line_number);
  if (!tree.value) return std::move(tree.findings);
  const JsonNode& root = *tree.value;
  std::vector<Finding> findings;
  const ObjectReader reader(root, "the event", event_keys(), findings);
  if (root.kind != JsonNode::Kind::object) return findings;

  const JsonNode* at_node = reader.required("at");
  const std::optional<Moment> at = at_node ? moment_from_json(*at_node, "at", findings) : std::nullopt;
  const auto word = only_word(root, findings);
  std::optional<What> what;
  if (word) what = EventReader(protocol, child, at, findings).what_from(*word, *root.find(*word));
  if (findings.empty() && at && what) return Event{*at, std::move(*what)};
  sort_findings(findings);
  return findings;
}

}  // namespace rushlight
