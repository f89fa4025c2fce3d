#include "picture/names.hpp"

#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "protocol/words.hpp"

namespace rushlight {
namespace {

bool is_whole(const Protocol& protocol, const Subject& subject) {
  return subject.kind == Subject::Kind::counter ||
         (subject.kind == Subject::Kind::fact && protocol.facts[subject.index].kind == FactKind::count);
}

std::string number_words(const Protocol& protocol, const Subject& subject, std::int64_t value) {
  if (subject.kind == Subject::Kind::clock) {
    return text_from_clock_time(ClockTime::of_minutes(static_cast<int>(value)));
  }
  if (subject.kind != Subject::Kind::fact) return std::to_string(value);
  switch (protocol.facts[subject.index].kind) {
    case FactKind::glucose:
    case FactKind::ketones:
      return text_from_decimal(Decimal::of_micros(value));
    case FactKind::weight:
      return text_from_quantity(Quantity{Decimal::of_micros(value), Unit::kilogram});
    case FactKind::insulin:
      return said(Quantity{Decimal::of_micros(value), Unit::insulin_unit}, Language::en);
    case FactKind::time_since:
      return text_from_duration(Duration{value});
    case FactKind::age:
      return said(Limit{Age::of_months(static_cast<int>(value))}, GlucoseUnit::mg_per_dl, Language::en);
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::count:
      break;
  }
  return std::to_string(value);
}

struct Ends {
  std::string least, most;  // empty: open
  bool with_least = true, with_most = true;
};

std::string range_words(const Ends& ends) {
  if (ends.least.empty() && ends.most.empty()) return "any number";
  if (ends.least.empty()) return ends.with_most ? ends.most + " or less" : "below " + ends.most;
  if (ends.most.empty()) return ends.with_least ? ends.least + " or more" : "above " + ends.least;
  if (ends.least == ends.most) return "exactly " + ends.least;
  return (ends.with_least ? "" : "above ") + ends.least + (ends.with_most ? " to " : " to below ") + ends.most;
}

bool is_number(const Axis& axis, std::size_t place) {
  return place < axis.values.size() &&
         (axis.values[place].kind == AxisValue::Kind::number || axis.values[place].kind == AxisValue::Kind::border);
}

std::string whole_range(const Axis& axis, const Stretched& values) {
  const auto value = [&](std::size_t place) { return axis.values[place].in[0].value; };
  const bool open_below =
      !is_number(axis, values.first - 1) && axis.values[values.first].kind != AxisValue::Kind::border;
  const std::int64_t least = open_below ? 0 : value(values.first);
  if (!is_number(axis, values.last + 1)) return std::to_string(least) + " or more";
  const std::int64_t most = value(values.last + 1) - 1;
  return least == most ? std::to_string(least) : std::to_string(least) + " to " + std::to_string(most);
}

std::string range_in(const Protocol& protocol, const Axis& axis, const Stretched& values, GlucoseUnit unit) {
  const auto words = [&](std::size_t place) {
    return number_words(protocol, axis.subject, axis.values[place].in[static_cast<std::size_t>(unit)].value);
  };
  Ends ends;
  ends.with_least = axis.values[values.first].kind == AxisValue::Kind::border;
  ends.with_most = axis.values[values.last].kind == AxisValue::Kind::border;
  if (ends.with_least) {
    ends.least = words(values.first);
  } else if (values.first > 0 && is_number(axis, values.first - 1)) {
    ends.least = words(values.first - 1);
  }
  if (ends.with_most) {
    ends.most = words(values.last);
  } else if (is_number(axis, values.last + 1)) {
    ends.most = words(values.last + 1);
  }
  return range_words(ends);
}

std::string option_words(const Protocol& protocol, const Subject& subject, std::size_t option) {
  if (subject.kind == Subject::Kind::done) return option == 1 ? "given" : "not given";
  if (subject.kind == Subject::Kind::change) return std::string(words::kChanges[option]);
  return protocol.facts[subject.index].options[option].name;
}

}  // namespace

std::string name_of(const Protocol& protocol, const Subject& subject) {
  switch (subject.kind) {
    case Subject::Kind::fact:
      return protocol.facts[subject.index].name;
    case Subject::Kind::counter:
      return protocol.counters[subject.index].name;
    case Subject::Kind::done:
      return protocol.actions[subject.index].name;
    case Subject::Kind::change:
      return protocol.marks[subject.index].name;
    case Subject::Kind::clock:
      break;
  }
  return "clock";
}

std::string meaning_of(const Protocol& protocol, const Subject& subject) {
  switch (subject.kind) {
    case Subject::Kind::fact:
      return protocol.facts[subject.index].from_child ? "from the child file"
                                                      : as_written(protocol, protocol.facts[subject.index].question);
    case Subject::Kind::counter:
      return "counted so far";
    case Subject::Kind::done:
      return "done in this episode";
    case Subject::Kind::change:
      return protocol.facts[protocol.marks[subject.index].fact.index].name + " since then";
    case Subject::Kind::clock:
      break;
  }
  return "local time";
}

std::vector<std::string> words_of(const Protocol& protocol, const Axis& axis, const Stretched& values,
                                  bool mg_per_dl_alone) {
  const AxisValue& first = axis.values[values.first];
  switch (first.kind) {
    case AxisValue::Kind::lo:
      return {"LO"};
    case AxisValue::Kind::hi:
      return {"HI"};
    case AxisValue::Kind::cant_tell:
      return {"can't tell"};
    case AxisValue::Kind::not_asked:
      return {"not asked yet"};
    case AxisValue::Kind::option: {
      const auto option = static_cast<std::size_t>(first.in[0].value);
      std::vector<std::string> lines{option_words(protocol, axis.subject, option)};
      if (axis.subject.kind == Subject::Kind::fact) {
        const std::string text = as_written(protocol, protocol.facts[axis.subject.index].options[option].text);
        if (!text.empty()) lines.push_back(text);
      }
      return lines;
    }
    case AxisValue::Kind::number:
    case AxisValue::Kind::border:
      break;
  }
  if (is_whole(protocol, axis.subject)) return {whole_range(axis, values)};
  std::string in_mg = range_in(protocol, axis, values, GlucoseUnit::mg_per_dl);
  if (axis.subject.kind != Subject::Kind::fact || in_mg == "any number") return {in_mg};
  const FactKind kind = protocol.facts[axis.subject.index].kind;
  if (kind == FactKind::ketones) return {in_mg + " mmol/L"};
  if (kind != FactKind::glucose) return {in_mg};
  if (mg_per_dl_alone) return {in_mg + " mg/dL"};
  return {in_mg + " mg/dL", range_in(protocol, axis, values, GlucoseUnit::mmol_per_l) + " mmol/L"};
}

std::string listed(const Protocol& protocol, const std::vector<Subject>& subjects) {
  std::string text;
  for (std::size_t i = 0; i < subjects.size(); ++i) {
    if (i > 0) text += i + 1 == subjects.size() ? " and " : ", ";
    text += name_of(protocol, subjects[i]);
  }
  return text;
}

std::string word_for(Decided::Beside beside) {
  switch (beside) {
    case Decided::Beside::calmer:
      return "CALMER";
    case Decided::Beside::may_be_calmer:
      return "MAY BE CALMER";
    case Decided::Beside::less:
      return "LESS IS DONE";
    case Decided::Beside::may_be_less:
      return "MAY BE LESS";
    case Decided::Beside::graver:
      return "GRAVER";
    case Decided::Beside::alone:
    case Decided::Beside::same:
    case Decided::Beside::other:
      break;
  }
  return "OTHER";
}

std::string word_for(Urgency urgency) {
  std::string word = shown_as(urgency, Language::en);
  for (char& letter : word) {
    if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
  }
  return word;
}

Area area_of(Urgency urgency) {
  Area box{};
  switch (urgency) {
    case Urgency::home:
      box.border = 60;
      break;
    case Urgency::clinic:
      box.border = 120;
      box.hatch = Hatch::sparse;
      box.tint = "#fdf6d8";
      break;
    case Urgency::clinic_now:
      box.border = 200;
      box.hatch = Hatch::dense;
      box.tint = "#fde8cf";
      break;
    case Urgency::emergency:
      box.border = 250;
      box.twofold = true;
      box.hatch = Hatch::crossed;
      box.tint = "#fadbd8";
      break;
  }
  return box;
}

}  // namespace rushlight
