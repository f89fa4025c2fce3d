#pragma once

#include "cli/interview.hpp"
#include "protocol/child.hpp"
#include "wire/json_from_child.hpp"

// The questions of `child new`, in their order. Each fills what it asks about; what is skipped stays empty.

namespace rushlight::child_questions {

struct Answers {
  Child child{};
  Confirmed confirmed;
};

void ask_who(Interview& interview, Answers& answers, Day today);
void ask_weight(Interview& interview, Answers& answers, Day today);
void ask_insulin(Interview& interview, Answers& answers, Day today);
void ask_rescue(Interview& interview, Answers& answers);
void ask_foods(Interview& interview, Answers& answers);
void ask_contacts(Interview& interview, Answers& answers);
/// Everything that was understood, line by line.
void show_back(Interview& interview, const Answers& answers);

}  // namespace rushlight::child_questions
