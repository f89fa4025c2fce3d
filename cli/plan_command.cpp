#include "cli/plan_command.hpp"

#include <ostream>

#include "cli/child_file.hpp"
#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/kept_nights.hpp"
#include "cli/language.hpp"
#include "cli/plain_text.hpp"
#include "cli/plan_checks.hpp"
#include "cli/refusals.hpp"
#include "cli/written_out.hpp"

namespace rushlight {

int plan_command(const PlanWish& wish, std::ostream& out, std::ostream& err) {
  const ClockChoice choice = clock_from_environment();
  if (!choice.clock) return tell_no_use(err, cannot_do("RUSHLIGHT_CLOCK", choice.refusal, "leave it out"));
  const ChildFile file = child_in(wish.child.empty() ? usual_child_file() : wish.child);
  if (!file.child) return tell_refusal(err, file.findings);
  const Child& known = *file.child;
  auto kept = kept_nights(wish.journal.empty() ? usual_journal_file() : wish.journal, known.name, std::nullopt);
  if (auto* findings = std::get_if<std::vector<Finding>>(&kept)) return tell_refusal(err, *findings);
  const auto& nights = std::get<std::vector<Resumed>>(kept);
  if (nights.empty() || nights.back().episode.ended) {
    err << "No episode of " << cleaned(known.name) << " is open.\n";
    return 1;
  }
  const Resumed& night = nights.back();
  const Moment now = choice.clock->now();
  Episode episode = night.episode;
  const Language language = language_named(wish.language).value_or(known.language);
  episode.language = language;
  const std::vector<PlannedCheck> checks = coming_checks(night.protocol.checked.protocol(), night.child, episode, now);
  if (checks.empty()) {
    err << "No check is coming: go on with the walk.\n";
    return 1;
  }
  return put_out(wish.out, ical_from_checks(checks, known.name, now, language), out, err);
}

}  // namespace rushlight
