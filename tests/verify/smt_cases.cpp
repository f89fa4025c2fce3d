#include <algorithm>

#include "protocol/words.hpp"
#include "tests/verify/smt_tables.hpp"
#include "tests/verify/smt_words.hpp"

namespace rushlight::tests {

using namespace smt;

namespace {

std::vector<std::string> words_in(const std::string& text, const std::string& between) {
  std::vector<std::string> words;
  std::size_t from = 0;
  for (std::size_t at = 0; (at = text.find(between, from)) != std::string::npos; from = at + between.size())
    words.push_back(text.substr(from, at - from));
  words.push_back(text.substr(from));
  return words;
}

template <class Thing>
std::optional<std::size_t> place_named(const std::vector<Thing>& things, const std::string& name) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].name == name) return i;
  }
  return std::nullopt;
}

std::optional<std::int64_t> thousandths_in(const std::string& text) {
  const auto read = decimal_from_text(text);
  const auto* value = std::get_if<Decimal>(&read);
  if (value == nullptr) return std::nullopt;
  return value->micros() / 1'000;
}

// "4 years", "2 years 6 months", "under 1 month"
std::optional<std::int64_t> months_of(const std::vector<std::string>& words) {
  if (words == std::vector<std::string>{"under", "1", "month"}) return 0;
  std::int64_t months = 0;
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const auto count = thousandths_in(words[i]);
    if (!count || i + 1 == words.size()) return std::nullopt;
    const std::string& unit = words[i + 1];
    if (unit == "year" || unit == "years") {
      months += *count / 1'000 * 12;
    } else if (unit == "month" || unit == "months") {
      months += *count / 1'000;
    } else {
      return std::nullopt;
    }
  }
  return months;
}

std::optional<std::int64_t> seconds_of(const std::string& text) {
  const auto read = quantity_from_text(text);
  const auto* quantity = std::get_if<Quantity>(&read);
  const auto duration = quantity != nullptr ? duration_from_quantity(*quantity) : std::nullopt;
  if (!duration) return std::nullopt;
  return duration->count();
}

class Part {
 public:
  Part(const Protocol& protocol, const std::string& text)
      : protocol_(protocol), text_(text), words_(words_in(text, " ")) {}

  std::optional<std::string> truth() const {
    if (const std::size_t colon = text_.find(": "); colon != std::string::npos)
      return answer(text_.substr(0, colon), text_.substr(colon + 2));
    if (words_.size() == 2 && words_[0] == "at") return clock(words_[1]);
    if (words_.size() == 4 && words_[0] == "counter") return counter(words_[1], words_[3]);
    if (words_.back() == "given") return was_given(words_.front(), words_.size() == 2);
    if (words_.size() > 2 && words_[1] == "has") return change(words_.back());
    return measured();
  }

 private:
  std::optional<FactId> fact_named(const std::string& name) const { return protocol_.fact_named(name); }

  std::optional<std::string> answer(const std::string& name, const std::string& said) const {
    const auto fact = fact_named(name);
    if (!fact) return std::nullopt;
    if (said == "can't tell") return no(known(*fact));
    const auto option = place_named(protocol_[*fact].options, said);
    if (!option) return std::nullopt;
    return all_of({known(*fact), call("=", value_of(*fact), number(static_cast<std::int64_t>(*option)))});
  }

  std::optional<std::string> clock(const std::string& time) const {
    const auto read = clock_time_from_text(time);
    if (!read) return std::nullopt;
    return call("=", "clock", number(read->minutes()));
  }

  std::optional<std::string> counter(const std::string& name, const std::string& at) const {
    const auto place = place_named(protocol_.counters, name);
    if (!place) return std::nullopt;
    return call("=", count_of(CounterId{static_cast<std::uint16_t>(*place)}), at);
  }

  std::optional<std::string> was_given(const std::string& name, bool yes) const {
    const auto place = place_named(protocol_.actions, name);
    if (!place) return std::nullopt;
    const std::string truth = given(ActionId{static_cast<std::uint16_t>(*place)});
    return yes ? truth : no(truth);
  }

  std::optional<std::string> change(const std::string& mark) const {
    const auto place = place_named(protocol_.marks, mark);
    if (!place) return std::nullopt;
    const auto which = words::place_of(words::kChanges, words_[2]);
    return call("=", change_of(MarkId{static_cast<std::uint16_t>(*place)}),
                number(which ? static_cast<std::int64_t>(*which) : 3));
  }

  std::optional<std::string> measured() const {
    const auto fact = fact_named(words_.front());
    if (!fact || words_.size() < 2) return std::nullopt;
    const FactKind kind = protocol_[*fact].kind;
    std::vector<std::string> truths{known(*fact)};
    std::optional<std::int64_t> value;
    if (words_[1] == "LO" || words_[1] == "HI") {
      truths.push_back(call("=", value_of(*fact), words_[1] == "LO" ? kLo : kHi));
      return all_of(truths);
    }
    if (kind == FactKind::age) {
      value = months_of({words_.begin() + 1, words_.end()});
    } else if (kind == FactKind::time_since) {
      value = seconds_of(text_.substr(words_.front().size() + 1));
    } else {
      value = thousandths_in(words_[1]);
      if (value && kind == FactKind::count) *value /= 1'000;
      if (kind == FactKind::glucose) truths.push_back(words_.back() == "mg/dL" ? "mg" : no("mg"));
    }
    if (!value) return std::nullopt;
    truths.push_back(call("=", value_of(*fact), number(*value)));
    return all_of(truths);
  }

  const Protocol& protocol_;
  const std::string& text_;
  std::vector<std::string> words_;
};

}  // namespace

std::optional<std::string> smt_from_example(const Protocol& protocol, const std::string& example) {
  std::vector<std::string> truths;
  if (example == "any answer") return "true";
  for (const std::string& part : words_in(example, ", ")) {
    const auto truth = Part(protocol, part).truth();
    if (!truth) return std::nullopt;
    truths.push_back(*truth);
  }
  return all_of(truths);
}

namespace {

// A region names numbers as the model keeps them; here they are in thousandths, or whole.
std::string in_interval(const std::string& value, const Interval& interval, bool in_micros) {
  const auto bound = [&](std::int64_t border) { return number(in_micros ? border / 1'000 : border); };
  std::vector<std::string> parts;
  if (interval.from) parts.push_back(call(interval.with_from ? ">=" : ">", value, bound(*interval.from)));
  if (interval.up_to) parts.push_back(call(interval.with_up_to ? "<=" : "<", value, bound(*interval.up_to)));
  return all_of(parts);
}

std::string in_limit(const Protocol& protocol, const CaseLimit& limit) {
  const std::uint16_t index = limit.subject.index;
  std::string value, is_known = "true";
  bool in_micros = false;
  switch (limit.subject.kind) {
    case Subject::Kind::clock:
      value = "clock";
      break;
    case Subject::Kind::counter:
      value = count_of(CounterId{index});
      break;
    case Subject::Kind::done:
      value = choose(given(ActionId{index}), "1", "0");
      break;
    case Subject::Kind::change:
      value = change_of(MarkId{index});
      break;
    case Subject::Kind::fact: {
      const FactKind kind = protocol.facts[index].kind;
      value = value_of(FactId{index});
      is_known = known(FactId{index});
      in_micros = kind == FactKind::glucose || kind == FactKind::ketones || kind == FactKind::weight ||
                  kind == FactKind::insulin;
      break;
    }
  }
  std::vector<std::string> values;
  for (const Interval& each : limit.intervals) values.push_back(in_interval(value, each, in_micros));
  for (const std::uint16_t option : limit.options) values.push_back(call("=", value, number(option)));
  const std::string told = all_of({is_known, any_of(values)});
  return limit.cant_tell ? any_of({told, no(is_known)}) : told;
}

}  // namespace

std::string smt_from_cases(const Protocol& protocol, const Cases& cases) {
  std::vector<std::string> truths;
  for (const CaseLimit& limit : cases.limits) truths.push_back(in_limit(protocol, limit));
  return all_of(truths);
}

}  // namespace rushlight::tests
