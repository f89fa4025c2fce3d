#pragma once

#include <algorithm>
#include <limits>
#include <map>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"

namespace rushlight::parts {

// A model as text: its words once each, then everything else as whole numbers. For protocol_model.cpp and
// draft_model.cpp only.

// What a place is where places are left out. Thousands of them are made before the first question: so short that a
// string holds it without asking for room.
inline constexpr std::string_view kPlanPlace = "the plan";
inline constexpr std::int64_t kMostAtOnce = 1000;  // room made for a list before anything of it was read

inline std::uint64_t sum_of(std::string_view text) {  // FNV-1a, as in docs/journal-format.md
  std::uint64_t sum = 0xcbf29ce484222325U;
  for (const char letter : text) sum = (sum ^ static_cast<unsigned char>(letter)) * 0x100000001b3U;
  return sum;
}

/// A value to read into: the types of measure have no empty one.
template <class T>
struct Blank {
  static T value() { return T{}; }
};
template <>
struct Blank<Age> {
  static Age value() { return Age::of_months(0); }
};
template <>
struct Blank<ClockTime> {
  static ClockTime value() { return ClockTime::of_minutes(0); }
};
template <Unit U>
struct Blank<Amount<U>> {
  static Amount<U> value() { return Amount<U>(Decimal{}, {}); }
};

/// What both ways do with a type that is no list and no choice: it is a few whole numbers, or has members.
template <class Way, class T>
void member(Way& way, T& value) {
  if constexpr (std::is_enum_v<T>) {
    way.number(
        value, [](T each) { return static_cast<std::int64_t>(each); },
        [](std::int64_t number) { return static_cast<T>(number); });
  } else if constexpr (std::is_same_v<T, std::uint64_t>) {  // the bits of Is: one is beyond the signed numbers
    way.number(
        value, [](T each) { return static_cast<std::int64_t>(each); },
        [](std::int64_t number) { return static_cast<T>(number); });
  } else if constexpr (std::is_integral_v<T>) {
    way.number(
        value, [](T each) { return static_cast<std::int64_t>(each); },
        [](std::int64_t number) { return static_cast<T>(number); });
  } else if constexpr (std::is_same_v<T, Decimal>) {
    way.number(
        value, [](Decimal each) { return each.micros(); },
        [](std::int64_t number) { return Decimal::of_micros(number); });
  } else if constexpr (std::is_same_v<T, Duration>) {
    way.number(
        value, [](Duration each) { return static_cast<std::int64_t>(each.count()); },
        [](std::int64_t number) { return Duration{number}; });
  } else if constexpr (std::is_same_v<T, Age>) {
    way.number(
        value, [](Age each) { return static_cast<std::int64_t>(each.months()); },
        [](std::int64_t number) { return Age::of_months(static_cast<int>(number)); });
  } else if constexpr (std::is_same_v<T, ClockTime>) {
    way.number(
        value, [](ClockTime each) { return static_cast<std::int64_t>(each.minutes()); },
        [](std::int64_t number) { return ClockTime::of_minutes(static_cast<int>(number)); });
  } else if constexpr (std::is_same_v<T, Day>) {
    way.number(
        value,
        [](Day each) { return static_cast<std::int64_t>(std::chrono::sys_days{each}.time_since_epoch().count()); },
        [](std::int64_t number) { return Day{std::chrono::sys_days{std::chrono::days{static_cast<int>(number)}}}; });
  } else {
    go(way, value);  // of what is written: protocol_parts.hpp, or protocol/draft_members.hpp
  }
}

template <class Way, Unit U>
void member(Way& way, Amount<U>& value) {
  way.number(
      value, [](Amount<U> each) { return each.in({}).micros(); },
      [](std::int64_t number) { return Amount<U>(Decimal::of_micros(number), {}); });
}
template <class Way, class Noun>
void member(Way& way, Id<Noun>& id) {
  member(way, id.index);
}

/// With the places of words, or without.
enum class Places : bool { left_out, kept };

template <Places kPlaces>
class ModelWriting {
 public:
  template <class... Each>
  void operator()(Each&... each) {
    (one(each), ...);
  }
  template <class T, class To, class From>
  void number(const T& value, To to, From) {
    put(to(value));
  }
  void put(std::int64_t number) { numbers_ += std::to_string(number) + " "; }

  /// `head` stands in front: a text is read back by the same head only.
  std::string text(std::string_view head) const {
    std::string body = std::to_string(words_.size()) + " ";
    for (const std::string& word : words_) body += std::to_string(word.size()) + ":" + word;
    body += " " + numbers_;
    return std::string(head) + std::to_string(sum_of(body)) + " " + body;
  }

 private:
  template <class T>
  void one(T& value) {
    member(*this, value);
  }
  void one(Where& where) {
    if constexpr (kPlaces == Places::kept) {
      put_word(where.file.text());
      for (const std::uint32_t number : {where.line, where.column, where.length}) put(number);
    }
  }
  void one(std::string& word) { put_word(word); }
  void put_word(const std::string& word) {
    const auto [known, is_new] = places_.emplace(word, words_.size());
    if (is_new) words_.push_back(word);
    put(static_cast<std::int64_t>(known->second));
  }
  template <class T>
  void one(std::optional<T>& value) {
    put(value ? 1 : 0);
    if (value) one(*value);
  }
  template <class T>
  void one(std::vector<T>& list) {
    put(static_cast<std::int64_t>(list.size()));
    for (T& each : list) one(each);
  }
  template <class... Each>
  void one(std::variant<Each...>& choice) {
    put(static_cast<std::int64_t>(choice.index()));
    std::visit([this](auto& chosen) { this->one(chosen); }, choice);
  }

  std::vector<std::string> words_;
  std::map<std::string, std::size_t> places_;
  std::string numbers_;
};

/// Never reads behind the end: a text that is not as it was written gives nothing, and `is_whole` says so.
template <Places kPlaces>
class ModelReading {
 public:
  explicit ModelReading(std::string_view rest) : rest_(rest) {
    for (std::int64_t words = count(); words > 0 && whole_; --words) take_word();
  }
  bool is_whole() const { return whole_ && rest_.find_first_not_of(' ') == std::string_view::npos; }

  template <class... Each>
  void operator()(Each&... each) {
    (one(each), ...);
  }
  template <class T, class To, class From>
  void number(T& value, To, From from) {
    value = from(next());
  }

 private:
  std::int64_t next() {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    const bool minus = !rest_.empty() && rest_.front() == '-';
    if (minus) rest_.remove_prefix(1);
    std::uint64_t number = 0;
    std::size_t digits = 0;
    for (; digits < rest_.size() && rest_[digits] >= '0' && rest_[digits] <= '9'; ++digits)
      number = number * 10 + static_cast<std::uint64_t>(rest_[digits] - '0');
    if (digits == 0 || digits > 19) whole_ = false;
    rest_.remove_prefix(digits);
    return static_cast<std::int64_t>(minus ? ~number + 1 : number);
  }
  /// Of things of which each takes a letter at least.
  std::int64_t count() {
    const std::int64_t number = next();
    if (number < 0 || static_cast<std::uint64_t>(number) > rest_.size()) whole_ = false;
    return whole_ ? number : 0;
  }
  void take_word() {
    const auto length = static_cast<std::size_t>(count());
    if (!whole_ || rest_.size() < length + 1 || rest_.front() != ':') {
      whole_ = false;
      return;
    }
    words_.push_back(rest_.substr(1, length));
    rest_.remove_prefix(length + 1);
  }

  template <class T>
  void one(T& value) {
    member(*this, value);
  }
  void one(Where& where) {
    if constexpr (kPlaces == Places::left_out) {
      where = Where{std::string(kPlanPlace), 0, 0, 0};
    } else {
      std::string file;
      one(file);
      if (!(file_ == file)) file_ = file;
      where.file = file_;
      for (std::uint32_t* number : {&where.line, &where.column, &where.length})
        *number = static_cast<std::uint32_t>(next());
    }
  }
  void one(std::string& word) {
    const std::int64_t place = next();
    if (place < 0 || static_cast<std::size_t>(place) >= words_.size()) {
      whole_ = false;
      return;
    }
    word = words_[static_cast<std::size_t>(place)];
  }
  template <class T>
  void one(std::optional<T>& value) {
    value.reset();
    if (next() == 0 || !whole_) return;
    value.emplace(Blank<T>::value());
    one(*value);
  }
  template <class T>
  void one(std::vector<T>& list) {
    list.clear();
    const std::int64_t number = count();
    list.reserve(static_cast<std::size_t>(std::min(number, kMostAtOnce)));
    for (std::int64_t each = number; each > 0 && whole_; --each) {
      list.push_back(Blank<T>::value());
      one(list.back());
    }
  }
  template <class... Each>
  void one(std::variant<Each...>& choice) {
    const std::int64_t wanted = next();
    std::int64_t place = 0;
    const auto take = [&](auto blank) {
      if (place++ != wanted) return;
      one(blank);
      choice = std::move(blank);
    };
    (take(Blank<Each>::value()), ...);
    if (wanted < 0 || wanted >= place) whole_ = false;
  }

  std::string_view rest_;
  FileName file_;  // of the place before: places of one file share its name
  std::vector<std::string_view> words_;
  bool whole_ = true;
};

/// What ModelWriting::text wrote. Refuses a text that was cut, changed by accident, or written with another head.
template <Places kPlaces, class Model>
Read<Model> model_from_text(std::string_view text, std::string_view head) {
  const auto refused = [](const char* why) {
    return Read<Model>{std::nullopt,
                       {Finding{Severity::error, Where{std::string(kPlanPlace), 0, 0, 0}, NotReadable{why}, {}}}};
  };
  if (text.substr(0, head.size()) != head) return refused("it was written by another version of this program");
  text.remove_prefix(head.size());
  const std::size_t blank = text.find(' ');
  if (blank == std::string_view::npos) return refused("it was cut");
  const std::string_view body = text.substr(blank + 1);
  if (text.substr(0, blank) != std::to_string(sum_of(body))) return refused("it was cut or changed");
  ModelReading<kPlaces> reading(body);
  Model model{};
  reading(model);
  if (!reading.is_whole()) return refused("it was cut or changed");
  return {std::move(model), {}};
}

}  // namespace rushlight::parts
