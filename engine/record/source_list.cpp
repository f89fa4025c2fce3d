#include "record/source_list.hpp"

#include <algorithm>

namespace rushlight {

std::size_t SourceList::number_of(const Why& why) {
  auto source = std::find_if(sources_.begin(), sources_.end(),
                             [&](const RecordSource& each) { return each.citation == why.source; });
  if (source == sources_.end()) source = sources_.insert(source, RecordSource{why.source, {}});
  const std::string number = why.label + " " + why.value;
  std::vector<std::string>& numbers = source->numbers;
  if (!why.value.empty() && std::find(numbers.begin(), numbers.end(), number) == numbers.end())
    numbers.push_back(number);
  return static_cast<std::size_t>(source - sources_.begin()) + 1;
}

std::string SourceList::ground_of(const std::vector<Why>& why) {
  if (why.empty()) return "";
  std::vector<std::size_t> numbers;
  for (const Why& each : why) {
    // What else stands beside the advice (how long to wait) is no ground of it.
    if (each.rule != why.front().rule && each.rule.rfind("dose/", 0) != 0 && each.rule.rfind("watch/", 0) != 0)
      continue;
    const std::size_t number = number_of(each);
    if (std::find(numbers.begin(), numbers.end(), number) == numbers.end()) numbers.push_back(number);
  }
  std::sort(numbers.begin(), numbers.end());
  std::string ground = why.front().rule + " [";
  for (const std::size_t number : numbers) ground += (number == numbers.front() ? "" : ",") + std::to_string(number);
  return ground + "]";
}

}  // namespace rushlight
