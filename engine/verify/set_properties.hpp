#pragma once

#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"

// Private to engine/verify: what the protocols of a set say alike. One function a property; each adds warnings.

namespace rushlight {

using Protocols = std::vector<const Protocol*>;

inline void warn_of(std::vector<Finding>& findings, const Where& where, Kind kind,
                    std::optional<Because> because = std::nullopt) {
  findings.push_back(Finding{Severity::warning, where, std::move(kind), std::move(because)});
}

/// No answer, and no sign, has the text of another one.
void answers_keep_their_texts(const Protocols& protocols, std::vector<Finding>& findings);
/// Actions that say the same are shown to the same children.
void same_words_are_shown_alike(const Protocols& protocols, std::vector<Finding>& findings);
/// A sentence that several texts share has the same blanks in each.
void same_words_have_the_same_blanks(const Protocols& protocols, std::vector<Finding>& findings);
/// What is judged alike goes to the same protocol.
void same_cases_go_to_the_same_protocol(const Protocols& protocols, std::vector<Finding>& findings);
/// "Can't tell" goes with the same answer wherever it is asked.
void cannot_tell_goes_with_the_same_answer(const Protocols& protocols, std::vector<Finding>& findings);
/// A watch of one name fires as early in each file.
void watches_of_one_name_fire_alike(const Protocols& protocols, std::vector<Finding>& findings);

}  // namespace rushlight
