#include <algorithm>
#include <functional>
#include <map>

#include "protocol/resolve_parts.hpp"
#include "protocol/text_words.hpp"

namespace rushlight {

namespace {

using Line = DraftText::Line;

void warn(Resolver& resolver, const Where& where, Kind kind) {
  resolver.findings.push_back(Finding{Severity::warning, where, std::move(kind), std::nullopt});
}

bool is_of_a_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) >= 0x80 && c != '\xC2');
}
bool is_figure(char c) { return c >= '0' && c <= '9'; }

// What a caregiver is told to do goes by the clinic's numbers; a question may hold one that makes its meaning.
bool goes_by_numbers(std::string_view element) {
  return element == "headline" || element == "do" || element == "caution" || element == "also";
}

/// Behind "type ": the 1 is no number of the clinic.
bool names_the_diabetes(std::string_view before) {
  return before.ends_with("type ") || before.ends_with("Type ") || before.ends_with("tipo ") ||
         before.ends_with("Tipo ");
}

constexpr std::string_view kOfNoNumber[] = {"adult", "people", "person", "hand", "eye", "second", "mano", "ojo", "segundo"};
constexpr std::string_view kUnits[] = {"min", "hour", "hora", "gram", "unit", "unidad", "spoon", "cuchar", "cup", "taza", "glass", "vaso", "mmol", "mg", "ml", "kg"};
constexpr std::string_view kCounted[] = {"two", "three", "four", "five", "six", "eight", "ten", "fifteen", "twenty", "thirty",
                                         "dos", "tres", "cuatro", "cinco", "seis", "ocho", "diez", "quince", "veinte", "treinta"};

template <std::size_t kSize>
bool begins_like_one(std::string_view word, const std::string_view (&list)[kSize]) {
  return std::any_of(std::begin(list), std::end(list), [&](std::string_view each) { return word.starts_with(each); });
}

/// "At 8", "a las 8:30": an hour of the clock.
bool is_an_hour(std::string_view before, std::string_view number, std::string_view behind) {
  const bool told = before.ends_with("at ") || before.ends_with("At ") || before.ends_with("las ");
  return told && number.size() <= 2 && number <= (number.size() == 2 ? "24" : "9") && !begins_like_one(behind, kUnits);
}

/// "Five minutes" and the like; empty when there are none.
std::string number_in_words(std::string_view text) {
  std::string found, before;
  each_word(text, [&](std::string_view word) {
    const bool counts = std::find(std::begin(kCounted), std::end(kCounted), before) != std::end(kCounted);
    if (counts && begins_like_one(word, kUnits)) found = before + " " + std::string(word);
    before = word;
    return found.empty();
  });
  return found;
}

void doubt_numbers(Resolver& resolver, const DraftText& draft) {
  for (const Line& line : draft.lines) {
    const std::string& text = line.text.text;
    int depth = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
      if (text[at] == '{') ++depth;
      if (text[at] == '}' && depth > 0) --depth;
      if (depth > 0 || !is_figure(text[at]) || names_the_diabetes(std::string_view(text).substr(0, at))) continue;
      std::size_t end = at;
      while (end < text.size() && (is_figure(text[end]) || text[end] == '.' || text[end] == ',')) ++end;
      while (!is_figure(text[end - 1])) --end;
      const std::size_t number = end;
      if (end + 1 < text.size() && text[end] == ' ' && is_of_a_word(text[end + 1])) {
        ++end;
        while (end < text.size() && is_of_a_word(text[end])) ++end;
      }
      const std::string_view all = text, behind = all.substr(std::min(number + 1, end), end - std::min(number + 1, end));
      if (begins_like_one(behind, kOfNoNumber) || is_an_hour(all.substr(0, at), all.substr(at, number - at), behind)) {
        at = number;
        if (at < text.size() && text[at] == ':') at += 2;  // and its minutes
        continue;
      }
      warn(resolver, part_of(line.text, at, end - at), NumberInText{text.substr(at, end - at)});
      return;  // the languages hold the same one
    }
    if (std::string words = number_in_words(text); !words.empty()) return warn(resolver, line.text.where, NumberInText{std::move(words)});
  }
}

constexpr std::string_view kBeforeAnHour[] = {"at", "by", "for", "until", "till", "before", "after", "las", "los"};

/// The word in front of a place of a text, in small letters.
std::string word_before(std::string_view text, std::size_t at) {
  std::string word;
  while (at > 0 && text[at - 1] == ' ') --at;
  for (; at > 0 && is_of_a_word(text[at - 1]); --at) {
    const char c = text[at - 1];
    word.insert(word.begin(), c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
  }
  return word;
}

/// "At {again}" reads "at in 15 minutes", and "Measure {until}" "Measure 02:26".
void doubt_times(Resolver& resolver, const DraftText& draft) {
  for (const Line& line : draft.lines) {
    const std::string& text = line.text.text;
    for (const Filler filler : {Filler::again, Filler::until}) {
      const std::string name(words::kFillers[static_cast<std::size_t>(filler)]);
      const std::size_t at = text.find("{" + name + "}");
      if (at == std::string::npos) continue;
      const std::string before = word_before(text, at);
      const bool behind_one = std::find(std::begin(kBeforeAnHour), std::end(kBeforeAnHour), before) != std::end(kBeforeAnHour);
      if (before.empty() || behind_one == (filler == Filler::until)) continue;
      return warn(resolver, part_of(line.text, at, name.size() + 2), BlankMisread{name, behind_one ? before : std::string()});
    }
  }
}

/// The letter that became these four bytes: its own two were read as two letters. Empty when they are no such thing.
std::string letter_before(std::string_view four) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(four[i]); };
  if (four.size() < 4 || byte(0) != 0xC3 || (byte(1) != 0x83 && byte(1) != 0x82) || byte(2) != 0xC2) return {};
  const unsigned char lead = byte(1) + 0x40U, next = byte(3);
  if (next < 0x80 || next > 0xBF) return {};
  return {static_cast<char>(lead), static_cast<char>(next)};
}

void refuse_garbled(Resolver& resolver, const DraftText& draft) {
  for (const Line& line : draft.lines) {
    const std::string_view text = line.text.text;
    for (std::size_t at = text.find("\xC3"); at != std::string_view::npos; at = text.find("\xC3", at + 1)) {
      const std::string letter = letter_before(text.substr(at, 4));
      if (letter.empty()) continue;
      resolver.error(part_of(line.text, at, 4), GarbledText{std::string(text.substr(at, 4)), letter});
      return;
    }
  }
}

/// The name in braces that stands before these words, and its one value.
struct Degrees {
  std::string name;
  std::size_t at;
  Decimal value;
};
std::optional<Degrees> degrees_before(const Resolver& resolver, const std::string& text, std::string_view words) {
  const std::size_t end = text.find(words);
  const std::size_t from = end == std::string::npos ? end : text.rfind('{', end);
  if (from == std::string::npos || from + 1 >= end) return std::nullopt;
  const std::string name = text.substr(from + 1, end - from - 1);
  for (const Threshold& threshold : resolver.protocol.thresholds) {
    if (threshold.name != name || threshold.bands.size() != 1) continue;
    const auto* number = std::get_if<Quantity>(&threshold.bands.front().value);
    if (number != nullptr) return Degrees{name, from, number->value};
  }
  return std::nullopt;
}

/// "{fever-celsius} °C ({fever-fahrenheit} °F)": two numbers of the file, and one temperature. Source: 1 °F is 5/9 K, and 0 °C
/// is 32 °F (exact by definition).
void doubt_degrees(Resolver& resolver, const DraftText& draft) {
  constexpr Decimal kTenth = Decimal::of_micros(100'000), kHalf = Decimal::of_micros(500'000), kNone{};
  const auto apart = [&](Decimal a, Decimal b) { return a < b ? b - a : a - b; };
  for (const Line& line : draft.lines) {
    const auto celsius = degrees_before(resolver, line.text.text, "} °C"), other = degrees_before(resolver, line.text.text, "} °F");
    if (!celsius || !other || other->value < Decimal::whole(32)) continue;
    const Decimal is = quotient(product(celsius->value, Decimal::whole(9)), Decimal::whole(5)) + Decimal::whole(32);
    const Decimal back = quotient(product(other->value - Decimal::whole(32), Decimal::whole(5)), Decimal::whole(9));
    const bool whole = rounded(other->value, RoundDirection::down, Decimal::whole(1)) == other->value;
    // Either may be the printed one, and the other its rounding.
    if (apart(is, other->value) <= (whole ? kHalf : kTenth) || apart(back, celsius->value) < kTenth || back < kNone) continue;
    const auto said = [&](Decimal value, const char* unit) {
      return text_from_decimal(rounded(value, RoundDirection::nearest, kTenth)) + unit;
    };
    warn(resolver, part_of(line.text, other->at, other->name.size() + 2),
         DegreesApart{celsius->name, other->name,
                      said(celsius->value, " °C") + " is " + said(is, " °F") + ", not " + said(other->value, " °F"),
                      said(is, " °F") + ", or " + said(back, " °C")});
    return;
  }
}

std::string blank_of(std::string_view name) { return "{" + std::string(name) + "}"; }
std::string_view name_of(Filler filler) { return words::kFillers[static_cast<std::size_t>(filler)]; }

bool holds(const Line& line, std::string_view name) { return line.text.text.find(blank_of(name)) != std::string::npos; }

constexpr Filler kNumbers[] = {Filler::clinic_number, Filler::on_call_number, Filler::emergency_number};

// Whom to try when nobody answers may stand there too.
void refuse_other_contact(Resolver& resolver, const DraftAction& draft, const Action& action) {
  if (!action.call) return;
  const std::string_view own = name_of(kNumbers[static_cast<std::size_t>(action.call->contact)]);
  for (const Line& line : draft.text.lines) {
    if (holds(line, own)) continue;
    for (const Filler number : kNumbers) {
      const std::size_t at = line.text.text.find(blank_of(name_of(number)));
      if (at == std::string::npos) continue;
      resolver.error(part_of(line.text, at, blank_of(name_of(number)).size()),
                     OtherContact{action.name, std::string(name_of(action.call->contact)), std::string(name_of(number)),
                                  std::string(own)});
      return;
    }
  }
}

/// Of a call to the clinic either number does.
void doubt_number(Resolver& resolver, const DraftAction& draft, const Action& action) {
  if (!is_call(action.kind) || !action.call) return;
  const Filler own = kNumbers[static_cast<std::size_t>(action.call->contact)];
  for (const Line& line : draft.text.lines) {
    const bool told = std::any_of(std::begin(kNumbers), std::end(kNumbers),
                                  [&](Filler number) { return holds(line, name_of(number)); });
    if (told || line.text.text.empty()) continue;
    return warn(resolver, line.text.where, NumberUntold{action.name, line.language.text, std::string(name_of(own))});
  }
}

bool is_measured(const Action& action) {
  return action.dose &&
         (action.kind == ActionKind::by_mouth || action.kind == ActionKind::glucagon || action.kind == ActionKind::insulin);
}

/// A number of the file in the unit of the dose: "Give 20 units", where 20 is the most.
bool is_an_amount(const Threshold& threshold, Unit unit) {
  return std::any_of(threshold.bands.begin(), threshold.bands.end(), [&](const Band& band) {
    const auto* quantity = std::get_if<Quantity>(&band.value);
    return quantity != nullptr && quantity->unit == unit;
  });
}

/// Whether the line names an amount that could be taken for that of the action, and is another.
bool refuse_other_amount(Resolver& resolver, const Line& line, const Action& action,
                         const std::function<bool(std::size_t dose)>& is_given) {
  const std::string& own = resolver.doses.names[action.dose->index];
  const Unit unit = resolver.protocol[*action.dose].unit;
  const auto refused = [&](const std::string& other) {
    const std::size_t at = other.empty() ? std::string::npos : line.text.text.find(blank_of(other));
    if (at == std::string::npos) return false;
    resolver.error(part_of(line.text, at, blank_of(other).size()), OtherDoseNamed{action.name, own, other});
    return true;
  };
  for (std::size_t i = 0; i < resolver.doses.names.size() && i < resolver.protocol.doses.size(); ++i) {
    if (resolver.protocol.doses[i].unit == unit && !is_given(i) && refused(resolver.doses.names[i])) return true;
  }
  for (const Threshold& threshold : resolver.protocol.thresholds) {
    if (is_an_amount(threshold, unit) && refused(threshold.name)) return true;
  }
  return false;
}

void doubt_amount(Resolver& resolver, const DraftAction& draft, const Action& action) {
  if (!is_measured(action)) return;
  const std::string& own = resolver.doses.names[action.dose->index];
  for (const Line& line : draft.text.lines) {
    if (holds(line, own)) continue;
    if (refuse_other_amount(resolver, line, action, [&](std::size_t dose) { return dose == action.dose->index; })) return;
    const bool told = holds(line, name_of(Filler::food)) || holds(line, name_of(Filler::other_foods));
    if (action.kind == ActionKind::by_mouth && !told)
      return warn(resolver, line.text.where, AmountUntold{action.name, own});
  }
}

}  // namespace

void doubt_text(Resolver& resolver, const DraftText& draft, const char* element) {
  doubt_meanings(resolver, draft, element);
  refuse_garbled(resolver, draft);
  doubt_degrees(resolver, draft);
  doubt_times(resolver, draft);
  if (goes_by_numbers(element)) doubt_numbers(resolver, draft);
}

void doubt_action(Resolver& resolver, const DraftAction& draft, const Action& action) {
  refuse_other_contact(resolver, draft, action);
  doubt_number(resolver, draft, action);
  doubt_amount(resolver, draft, action);
}

void doubt_headline(Resolver& resolver, const DraftText& draft, const Step& step) {
  const auto is_given = [&](std::size_t dose) {
    return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
      return resolver.protocol[id].dose && resolver.protocol[id].dose->index == dose;
    });
  };
  for (const ActionId id : step.actions) {
    if (!is_measured(resolver.protocol[id])) continue;
    for (const Line& line : draft.lines) {
      if (refuse_other_amount(resolver, line, resolver.protocol[id], is_given)) return;
    }
  }
}

void refuse_alike(Resolver& resolver, const std::string& what, const std::vector<Choosable>& choices) {
  std::map<std::pair<std::string_view, std::string_view>, std::pair<const Choosable*, const Line*>> read;
  for (const Choosable& choice : choices) {
    for (const Line& line : choice.text->lines) {
      if (line.text.text.empty()) continue;
      const auto [first, is_new] = read.try_emplace({line.language.text, line.text.text}, &choice, &line);
      const auto& [earlier, there] = first->second;
      if (is_new || earlier == &choice) continue;
      return resolver.error(line.text.where, ReadsAlike{what, earlier->name, choice.name, line.language.text},
                            Because{"the other one", there->text.where});
    }
  }
}

namespace {

/// What it was for is nearly always told by its label.
std::optional<Because> reads_as(const Resolver& resolver, const Names& names, std::size_t place) {
  if (&names != &resolver.thresholds || place >= resolver.protocol.thresholds.size()) return std::nullopt;
  std::string label;
  for (const Piece& piece : resolver.protocol.thresholds[place].label.in(Language::en)) {
    if (const auto* words = std::get_if<std::string>(&piece)) label += *words;
  }
  return Because{"the line that is missing had to do with this: " + label, std::nullopt};
}

}  // namespace

void doubt_unused_names(Resolver& resolver) {
  for (const Names* names : {&resolver.thresholds, &resolver.doses, &resolver.marks}) {
    for (std::size_t place = 0; place < names->names.size(); ++place) {
      const bool repeated = std::count(names->names.begin(), names->names.end(), names->names[place]) > 1;
      if (!names->is_used(place) && !repeated)
        resolver.findings.push_back(Finding{Severity::warning, names->places[place], NobodyUses{names->noun, names->names[place]},
                                            reads_as(resolver, *names, place)});
    }
  }
}

}  // namespace rushlight
