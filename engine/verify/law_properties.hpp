#pragma once

#include "protocol/safety.hpp"
#include "verify/properties.hpp"

// Private to engine/verify: one function a kind of law, each in the file named for it.

namespace rushlight {

/// No rule takes a child for whom the conditions hold to a step that the law forbids. Looked at in every step that asks
/// what the conditions read; what comes from the child file, counters and deeds may be anything there.
void never_is_kept(Checking& checking, const NeverLaw& law);
/// Every step that the law is about looks again in a time that it allows, for every child and hour.
void looks_in_time(Checking& checking, const LookLaw& law);
/// In no step that asks for the fact does a worse answer lead to a calmer step than a better one, all else being the
/// same.
void worse_is_never_calmer(Checking& checking, const MonotoneLaw& law);
/// What stands on one screen together, a long text alone, and all the short ones, are no harder to read than the law
/// wants.
void texts_can_be_read(Checking& checking, const ReadingLaw& law);

/// The tables of a step cut as finely as the law asks, so that what is said of a law is exact too: its conditions are
/// one more rule, behind all others.
struct LawTables {
  std::vector<Table> tables;
  static const Box& law(const Table& table) { return table.rules.back(); }
};
LawTables tables_for_law(const Protocol& protocol, const Step& step, const Conditions& when);

/// Whether the conditions exclude each other: "below 54 and at least 70".
bool nobody_meets(const Protocol& protocol, const Conditions& when);
inline constexpr const char* kNobodyMeets = "no child can meet all its conditions at once";

/// Whether what the condition reads is known in this step: asked there, or nothing that is asked at all.
bool is_known_in(const Protocol& protocol, const Step& step, const Condition& condition);

/// What is taken before a rule: the watch, then the rules above it.
std::vector<const Box*> taken_before(const Table& table, std::size_t rule);

}  // namespace rushlight
