#include "cli/record_command.hpp"

#include <ostream>

#include "cli/child_file.hpp"
#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/kept_nights.hpp"
#include "cli/language.hpp"
#include "cli/paper_module.hpp"
#include "cli/plain_text.hpp"
#include "cli/record_fhir.hpp"
#include "cli/record_text.hpp"
#include "cli/refusals.hpp"
#include "cli/written_out.hpp"

namespace rushlight {
namespace {

constexpr int kMostDays = 366;

/// A whole number of days; 0 when it is none.
int days_in(const std::string& text) {
  int days = 0;
  for (const char letter : text) {
    if (letter < '0' || letter > '9' || days > kMostDays) return 0;
    days = days * 10 + (letter - '0');
  }
  return days <= kMostDays ? days : 0;
}

/// Nothing that somebody wrote into a name or a note steers what reads the record.
void clean(NightRecord& record) {
  for (std::string* text : {&record.child, &record.stands, &record.approval}) *text = cleaned(*text);
  for (RecordLine& line : record.lines) {
    line.told = cleaned(line.told);
    line.advised = cleaned(line.advised);
    for (std::string& answer : line.answers) answer = cleaned(answer);
    for (RecordDeed& deed : line.done) deed.text = cleaned(deed.text);
  }
  for (RecordCall& call : record.calls) {
    call.whom = cleaned(call.whom);
    call.how = cleaned(call.how);
  }
}

}  // namespace

int record_command(const RecordWish& wish, std::ostream& out, std::ostream& err) {
  const bool pdf = !wish.text && !wish.fhir;
  if (pdf && wish.out.empty())
    return tell_no_use(err, cannot_do("record", "a PDF needs a file to be written to",
                                      "write `--out FILE.pdf`, `--text` or `--fhir`"));
  const int days = wish.days.empty() ? 0 : days_in(wish.days);
  if (!wish.days.empty() && days == 0)
    return tell_no_use(err, whole_error("--days", BadNumber{wish.days, "a number of days is whole, from 1 to 366"}));
  const ChildFile file = child_in(wish.child.empty() ? usual_child_file() : wish.child);
  if (!file.child) return tell_refusal(err, file.findings);
  const Child& known = *file.child;
  std::optional<Instant> since;
  if (days > 0) {
    const ClockChoice choice = clock_from_environment();
    if (!choice.clock) return tell_no_use(err, cannot_do("RUSHLIGHT_CLOCK", choice.refusal, "leave it out"));
    since = choice.clock->now().utc - std::chrono::days{days};
  }
  auto kept = kept_nights(wish.journal.empty() ? usual_journal_file() : wish.journal, known.name, since);
  if (auto* findings = std::get_if<std::vector<Finding>>(&kept)) return tell_refusal(err, *findings);
  const auto& nights = std::get<std::vector<Resumed>>(kept);
  const Language language = language_named(wish.language).value_or(known.language);
  std::vector<NightRecord> records;
  for (const Resumed& night : nights) {
    NightRecord record =
        record_of(night.protocol.checked.protocol(), night.child, night.episode.began, night.episode.history, language);
    clean(record);
    records.push_back(std::move(record));
  }
  if (records.empty() && days == 0) {
    err << "The journal has no episode of " << cleaned(known.name) << ".\n";
    return 1;
  }
  if (wish.text) return put_out(wish.out, text_from_records(records, language), out, err);
  if (wish.fhir) return put_out(wish.out, fhir_from_records(records, known), out, err);
  return put_printed(printed_records(records, language, wish.paper), "record", wish.out, out, err);
}

}  // namespace rushlight
