#include "cli/plan_command.hpp"

#include <fstream>
#include <ostream>

#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/kept_nights.hpp"
#include "cli/language.hpp"
#include "cli/plain_text.hpp"
#include "cli/plan_checks.hpp"
#include "cli/print_findings.hpp"

namespace rushlight {

int plan_command(const PlanWish& wish, std::ostream& out, std::ostream& err) {
  const auto refuse = [&](const std::vector<Finding>& findings) {
    print_findings(err, findings, {});
    return exit_status_of(findings);
  };
  const auto one = [](const std::string& where, Kind kind) {
    return std::vector<Finding>{Finding{Severity::error, Where{where, 0, 0, 0}, std::move(kind), {}}};
  };
  const ClockChoice choice = clock_from_environment();
  if (!choice.clock) return refuse(one("RUSHLIGHT_CLOCK", WrongUse{choice.refusal, "leave it out"}));
  auto child = child_at(wish.child.empty() ? usual_child_file() : wish.child);
  if (auto* findings = std::get_if<std::vector<Finding>>(&child)) return refuse(*findings);
  const Child& known = std::get<Child>(child);
  auto kept = kept_nights(wish.journal.empty() ? usual_journal_file() : wish.journal, known.name, std::nullopt);
  if (auto* findings = std::get_if<std::vector<Finding>>(&kept)) return refuse(*findings);
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
  const std::string file = ical_from_checks(checks, known.name, now, language);
  if (wish.out.empty()) {
    out << file;
    return 0;
  }
  std::ofstream written(wish.out, std::ios::binary | std::ios::trunc);
  written << file;
  written.close();
  if (!written) return refuse(one(wish.out, NotWritten{"nothing can be put there", ""}));
  return 0;
}

}  // namespace rushlight
