#include "cli/thresholds_command.hpp"

#include <ostream>

#include "cli/change_numbers.hpp"
#include "cli/language.hpp"
#include "cli/numbers_list.hpp"
#include "cli/numbers_sheet.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "wire/csv.hpp"

namespace rushlight {
namespace {

constexpr const char* kUsage =
    "rushlight thresholds SET                        list every number of a folder, a file or a set such as reference\n"
    "rushlight thresholds SET --change 'low=66 mg/dL, 3.7 mmol/L'\n"
    "rushlight thresholds SET --csv > numbers.csv    and, when it was changed in a spreadsheet: SET --from "
    "numbers.csv\n";

int wrong_use(std::ostream& err, const std::string& why) {
  err << "rushlight thresholds: " << cleaned(why) << '\n' << kUsage;
  return 2;
}

/// In a command line the set may stand behind the changes, where it looks like one more of them.
ThresholdsOptions sorted_out(ThresholdsOptions options) {
  std::vector<std::string> changes;
  for (std::string& word : options.changes) {
    const bool is_set = options.set.empty() && word.find('=') == std::string::npos;
    (is_set ? options.set : changes).push_back(std::move(word));
  }
  options.changes = std::move(changes);
  return options;
}

int list_numbers(const NumbersSet& set, const ThresholdsOptions& options, Language language, std::ostream& out,
                 std::ostream& err) {
  if (options.json) {
    out << json_from_numbers(set, language) << '\n';
  } else {
    if (options.csv) {
      out << csv_from_numbers(set, language);
    } else if (!set.numbers.empty()) {
      print_numbers(out, set, language);
    }
    print_findings(err, set.findings, set.texts);
  }
  return exit_status_of(set.findings);
}

Read<std::vector<Wish>> wishes_of(const NumbersSet& set, const ThresholdsOptions& options) {
  if (options.from.empty()) {
    std::vector<Wish> wishes;
    for (const std::string& word : options.changes) wishes.push_back(*wish_from_text(word));
    return {std::move(wishes), {}};
  }
  FileBytes bytes = bytes_of_file(options.from, kMostCsvBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) return {std::nullopt, {std::move(*finding)}};
  return wishes_from_csv(set, std::get<std::string>(bytes), options.from);
}

}  // namespace

int thresholds_command(const ThresholdsOptions& given, std::istream& in, bool asks, std::ostream& out,
                       std::ostream& err) {
  const ThresholdsOptions options = sorted_out(given);
  const bool changes = !options.changes.empty() || !options.from.empty();
  if (options.set.size() != 1) return wrong_use(err, "name one folder, one protocol or one set.");
  if (options.csv && options.json) return wrong_use(err, "--csv and --json both want the output. Choose one.");
  if (options.csv && changes) return wrong_use(err, "--csv lists. Change with --change or --from, without --csv.");
  if (!options.changes.empty() && !options.from.empty()) return wrong_use(err, "--change and --from: one at a time.");
  if (!changes && (options.yes || options.draft)) return wrong_use(err, "--yes and --draft belong to a change.");
  for (const std::string& word : options.changes) {
    const std::optional<Wish> wish = wish_from_text(word);
    if (!wish) return wrong_use(err, "`" + word + "` is no change: write it like 'low=66 mg/dL'.");
    if (wish->value.empty()) return wrong_use(err, "`" + word + "` names no value: write it like 'low=66 mg/dL'.");
  }
  const Language language = language_named(options.language).value_or(language_of_machine());
  const NumbersSet set = numbers_set(options.set.front());
  if (!changes) return list_numbers(set, options, language, out, err);
  if (set.files.empty()) return list_numbers(set, options, language, out, err);
  Read<std::vector<Wish>> wishes = wishes_of(set, options);
  if (set.inside_program && wishes.value) {
    const WrongUse inside{"the set `" + set.path + "` is inside the program and stays as it is",
                          "make a copy first: `rushlight new-set my-clinic --from " + set.path + "`"};
    wishes = {std::nullopt, {Finding{Severity::error, Where{set.path, 0, 0, 0}, inside, {}}}};
  }
  return change_numbers(set, std::move(wishes), options, language, asks ? &in : nullptr, out, err);
}

}  // namespace rushlight
