#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

/// What stands in an attribute, for whoever has to add it: "the id of a step". Empty where the name of the attribute
/// says it, or where it depends on more than the attribute.
std::string what_stands_in(std::string_view attribute);

/// "English" for "en"; the code itself for a language that the house does not speak.
std::string name_of_language(std::string_view code);

/// "3, 5 and 11"
std::string in_a_row(const std::vector<int>& numbers);

}  // namespace rushlight
