#pragma once

#include <set>
#include <string>

#include "said.hpp"

namespace rushlight::tests {

bool acts(const Step& step);

/// Another protocol takes over there: each is compared by itself.
bool has_gone_elsewhere(const Version& version);

/// A dose that is none in one version alone is not counted there; what follows is told of the dose, not of steps.
bool have_counted_alike(const Version& was, const Version& now);

/// Both know the same of every fact, and since when: what may be known from before is then the same for both.
bool know_alike(const Version& was, const Version& now);

/// Of the questions of a step some were answered now and others before. The comparison takes all that may be known as
/// known, or none of it.
bool is_known_in_part(const Protocol& protocol, const std::string& step, const std::set<std::string>& told);

/// What was told, in words: for whoever has to find out why.
std::string told_words(const Protocol& protocol, GlucoseUnit unit, const Values& values,
                       const std::set<std::string>& told);

/// Who is to be called.
std::set<Contact> called(const Episode& episode);

}  // namespace rushlight::tests
