#include "finding/attribute_words.hpp"

#include <algorithm>
#include <array>

namespace rushlight {

namespace {

struct AttributeWord {
  std::string_view attribute, what;
};

constexpr std::string_view kTime = "the id of a `<time>`";
constexpr std::string_view kGlucose = "the id of a `<glucose>` among the thresholds";

constexpr std::array kWhat = {
    AttributeWord{"answer-within", kTime},
    AttributeWord{"contact", "`clinic`, `on-call` or `emergency`"},
    AttributeWord{"fact", "the id of a question"},
    AttributeWord{"floor", kGlucose},
    AttributeWord{"fresh", kTime},
    AttributeWord{"go", "the id of a step"},
    AttributeWord{"high", kGlucose},
    AttributeWord{"id", "a name of its own, in lower-case words joined by hyphens"},
    AttributeWord{"lasts", kTime},
    AttributeWord{"low", kGlucose},
    AttributeWord{"mg-dl", "the same glucose in mg/dL"},
    AttributeWord{"mmol-l", "the same glucose in mmol/L"},
    AttributeWord{"near", kTime},
    AttributeWord{"no-stacking", kTime},
    AttributeWord{"overdue", kTime},
    AttributeWord{"timer", "the id of a `<timer>`"},
    AttributeWord{"urgency", "`home`, `clinic`, `clinic-now` or `emergency`"},
};

}  // namespace

std::string what_stands_in(std::string_view attribute) {
  const auto found =
      std::find_if(kWhat.begin(), kWhat.end(), [&](const AttributeWord& word) { return word.attribute == attribute; });
  return found == kWhat.end() ? std::string{} : std::string(found->what);
}

std::string name_of_language(std::string_view code) {
  if (code == "en") return "English";
  if (code == "es") return "Spanish";
  return std::string(code);
}

std::string in_a_row(const std::vector<int>& numbers) {
  std::string text;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (i > 0) text += i + 1 == numbers.size() ? " and " : ", ";
    text += std::to_string(numbers[i]);
  }
  return text;
}

}  // namespace rushlight
