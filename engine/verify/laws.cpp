#include "verify/laws.hpp"

#include "verify/law_properties.hpp"

namespace rushlight {

std::vector<Finding> broken_laws(const CheckedProtocol& checked, const SafetyRules& rules) {
  const Protocol& protocol = checked.protocol();
  Checking checking{protocol, {}, {}};  // a law makes the tables it needs
  for (const NeverLaw& law : rules.never) never_is_kept(checking, law);
  for (const WithinLaw& law : rules.within) {
    if (law.come_to == Urgency::home)
      checking.warning(law.where, LawIdle{law.name, "every step is as grave as `home`"});
    if (nobody_meets(protocol, law.stays)) checking.warning(law.where, LawIdle{law.name, kNobodyMeets});
  }
  for (const LookLaw& law : rules.look) looks_in_time(checking, law);
  for (const MonotoneLaw& law : rules.monotone) worse_is_never_calmer(checking, law);
  for (const ReadingLaw& law : rules.reading) texts_can_be_read(checking, law);
  sort_findings(checking.findings);
  return std::move(checking.findings);
}

}  // namespace rushlight
