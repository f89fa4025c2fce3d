#include "cli/record_command.hpp"

#include <filesystem>
#include <fstream>
#include <ostream>

#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/kept_nights.hpp"
#include "cli/language.hpp"
#include "cli/paper_module.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/record_fhir.hpp"
#include "cli/record_text.hpp"

namespace rushlight {
namespace {

constexpr int kMostDays = 366;

int refuse_record(std::ostream& err, const std::string& where, Kind kind, int status) {
  print_findings(err, {Finding{Severity::error, Where{where, 0, 0, 0}, std::move(kind), {}}}, {});
  return status;
}

int refuse_record(std::ostream& err, const std::vector<Finding>& findings) {
  print_findings(err, findings, {});
  return exit_status_of(findings);
}

/// A whole number of days; 0 when it is none.
int days_in(const std::string& text) {
  int days = 0;
  for (const char letter : text) {
    if (letter < '0' || letter > '9' || days > kMostDays) return 0;
    days = days * 10 + (letter - '0');
  }
  return days <= kMostDays ? days : 0;
}

int put_record(const RecordWish& wish, const std::string& bytes, std::ostream& out, std::ostream& err) {
  if (wish.out.empty()) {
    out << bytes;
    return 0;
  }
  std::ofstream file(wish.out, std::ios::binary | std::ios::trunc);
  file << bytes;
  file.close();
  // A record is the child's: only its owner reads it.
  std::error_code error;
  std::filesystem::permissions(wish.out, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write,
                               error);
  if (!file) return refuse_record(err, wish.out, NotWritten{"nothing can be put there", ""}, 2);
  return 0;
}

}  // namespace

int record_command(const RecordWish& wish, std::ostream& out, std::ostream& err) {
  const bool pdf = !wish.text && !wish.fhir;
  if (pdf && wish.out.empty())
    return refuse_record(
        err, "record", WrongUse{"a PDF needs a file to be written to", "write `--out FILE.pdf`, `--text` or `--fhir`"},
        2);
  const int days = wish.days.empty() ? 0 : days_in(wish.days);
  if (!wish.days.empty() && days == 0)
    return refuse_record(err, "--days", BadNumber{wish.days, "a number of days is whole, from 1 to 366"}, 2);
  auto child = child_at(wish.child.empty() ? usual_child_file() : wish.child);
  if (auto* findings = std::get_if<std::vector<Finding>>(&child)) return refuse_record(err, *findings);
  const Child& known = std::get<Child>(child);
  std::optional<Instant> since;
  if (days > 0) {
    const ClockChoice choice = clock_from_environment();
    if (!choice.clock) return refuse_record(err, "RUSHLIGHT_CLOCK", WrongUse{choice.refusal, "leave it out"}, 2);
    since = choice.clock->now().utc - std::chrono::days{days};
  }
  auto kept = kept_nights(wish.journal.empty() ? usual_journal_file() : wish.journal, known.name, since);
  if (auto* findings = std::get_if<std::vector<Finding>>(&kept)) return refuse_record(err, *findings);
  const auto& nights = std::get<std::vector<Resumed>>(kept);
  const Language language = language_named(wish.language).value_or(known.language);
  std::vector<NightRecord> records;
  for (const Resumed& night : nights) {
    NightRecord record =
        record_of(night.protocol.checked.protocol(), night.child, night.episode.began, night.episode.history, language);
    for (RecordLine& line : record.lines) line.text = cleaned(line.text);
    record.child = cleaned(record.child);
    records.push_back(std::move(record));
  }
  if (records.empty() && days == 0) {
    err << "The journal has no episode of " << cleaned(known.name) << ".\n";
    return 1;
  }
  if (wish.text) return put_record(wish, text_from_records(records, language), out, err);
  if (wish.fhir) return put_record(wish, fhir_from_records(records, known), out, err);
  const std::optional<Printed> printed = printed_records(records, language, wish.paper);
  if (!printed)
    return refuse_record(err, "record",
                         WrongUse{"`rushlight-paper.so` is not beside the program, or does not work here",
                                  "write the plain text with `--text`"},
                         2);
  for (const std::string& warning : printed->warnings) err << cleaned(warning) << '\n';
  return printed->bytes.empty() ? 2 : put_record(wish, printed->bytes, out, err);
}

}  // namespace rushlight
