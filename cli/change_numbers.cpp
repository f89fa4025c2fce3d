#include "cli/change_numbers.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/fresh_findings.hpp"
#include "cli/interview.hpp"
#include "cli/number_words.hpp"
#include "cli/numbers_json.hpp"
#include "cli/numbers_sheet.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/replace_files.hpp"
#include "cli/shell_word.hpp"
#include "cli/threshold_words.hpp"
#include "episode/words.hpp"
#include "measure/moment.hpp"
#include "protocol/band_name.hpp"

namespace rushlight {
namespace {

constexpr int kChangePage = 100;

/// The set with these files in place of its own, read anew: what is looked at is what will lie there.
ProtocolSet checked_with(const NumbersSet& set, const std::vector<ChangedFile>& changed) {
  std::vector<KeptFile> all;
  for (const NumbersFile& file : set.files) all.push_back({file.name, file.bytes});
  for (const ChangedFile& put : changed) all[put.file].bytes = put.bytes;
  all.insert(all.end(), set.beside.begin(), set.beside.end());
  std::sort(all.begin(), all.end(), [](const KeptFile& a, const KeptFile& b) { return a.name < b.name; });
  ProtocolSet checked = set_of_files(all);
  for (const Finding& finding : set.findings) {
    if (!set.texts.contains(finding.where.file)) checked.findings.push_back(finding);  // could not even be read
  }
  return checked;
}

class Changing {
 public:
  Changing(const NumbersSet& set, const ThresholdsOptions& options, Language language, std::istream* asked,
           std::ostream& out, std::ostream& err)
      : set_(set), options_(options), language_(language), asked_(asked), out_(out), err_(err) {}

  int run(Read<std::vector<Wish>> wishes) {
    FileTexts texts = set_.texts;
    if (!wishes.value) return refuse(std::move(wishes.findings), texts);
    wishes_ = *wishes.value;
    ChangePlan plan = planned(set_, *wishes.value);
    if (has_error(plan.findings)) return refuse(std::move(plan.findings), texts);
    report_.changes = std::move(plan.changes);
    for (const NamedNumber& number : plan.already) tell_already(number);
    if (plan.files.empty()) return tell_nothing();

    const ProtocolSet before = checked_with(set_, {}), after = checked_with(set_, plan.files);
    texts = after.texts;
    show_changes();
    show_check(before, after, texts);
    report_.findings = after.findings;
    if (has_error(after.findings) && !options_.draft) return stop(exit_status_of(after.findings));
    if (std::optional<int> status = accept_proposals(texts)) return *status;

    std::vector<Replacement> files;
    for (ChangedFile& file : plan.files)
      files.push_back({set_.files[file.file].name, set_.files[file.file].bytes, std::move(file.bytes)});
    if (auto finding = replace_files(files)) {
      const bool written_by_others = finding->kind.is<ChangedMeanwhile>();
      refuse({std::move(*finding)}, texts);
      return written_by_others ? 1 : 2;
    }
    report_.written = true;
    show_written(files, before, after);
    return finish(0);
  }

 private:
  template <class... Texts>
  void tell(const std::string& lead, const Both& both, const Texts&... texts) {
    if (options_.json) return;
    for (const std::string& line : wrapped(lead, cleaned(say(both, language_, texts...)), kChangePage))
      out_ << line << '\n';
  }
  void tell_text(const std::string& lead, const std::string& text) { tell(lead, Both{"{1}", "{1}"}, text); }

  int finish(int status) {
    if (options_.json) out_ << json_from_changes(set_, report_) << '\n';
    return status;
  }
  int stop(int status) {
    if (!options_.json) err_ << say(threshold_words::kNothingWritten, language_) << '\n';
    return finish(status);
  }
  int refuse(std::vector<Finding> findings, const FileTexts& texts) {
    for (Finding& finding : findings) {
      for (const Wish& wish : wishes_) {
        if (wish.cell.empty() || !(wish.where == finding.where)) continue;
        finding = in_table(std::move(finding), wish.cell, wish.kept);
        break;
      }
    }
    const int status = exit_status_of(findings);
    if (!options_.json) print_findings(err_, findings, texts);
    report_.findings = std::move(findings);
    return stop(status);
  }

  void tell_already(const NamedNumber& number) {
    tell("", threshold_words::kAlready, number.name,
         value_shown(words_of(set_.draft(number.places.front()), number.band), language_));
  }
  int tell_nothing() {
    tell("", threshold_words::kNothing);
    return finish(0);
  }

  void show_changes() {
    for (const NumberChange& change : report_.changes) {
      const std::vector<NumberPlace>& places = change.number.places;
      const Threshold& threshold = set_.threshold(places.front());
      std::string label = sentence_case(plain_words(threshold.label, language_));
      if (has_bands(threshold)) label += ": " + band_shown(threshold.bands[change.number.band], language_);
      tell_text(change.number.name + "  ", label);
      tell_text("  ", value_shown(change.before.front(), language_) + "  ->  " +
                          value_shown(change.after.front(), language_));
      tell("  ", places.size() > 1 ? threshold_words::kInEach : threshold_words::kIn,
           protocols_shown(set_, places, language_));
      tell_others(change);
      tell_source(change);
      if (change.proposed) {
        const std::string unit(ucum(unit_of(*change.proposed)));
        tell("  ", threshold_words::kWorkedOut, unit, proposed_value(change));
      }
    }
  }

  /// Somebody who changes a number in one protocol is told where the same id stays.
  void tell_others(const NumberChange& change) {
    const std::string& id = set_.threshold(change.number.places.front()).name;
    std::vector<NumberPlace> others;
    for (const Number& number : set_.numbers) {
      for (const NumberPlace& place : number.places) {
        const auto& changed = change.number.places;
        const bool other =
            set_.threshold(place).name == id && std::find(changed.begin(), changed.end(), place) == changed.end();
        if (other && !is_changed(place)) others.push_back(place);
      }
    }
    if (!others.empty()) tell("  ", threshold_words::kStays, id, protocols_shown(set_, others, language_));
  }
  /// A printed source was named for the old value.
  void tell_source(const NumberChange& change) {
    Number printed{change.number.name, {}};
    for (const NumberPlace& place : change.number.places) {
      const Protocol& protocol = set_.files[place.file].protocol;
      if (!protocol[set_.threshold(place).source].common_practice) printed.places.push_back(place);
    }
    if (printed.places.empty()) return;
    tell("  ", threshold_words::kSourceStays, sources_shown(set_, printed, Citation::brief, language_));
  }
  bool is_changed(NumberPlace place) const {
    return std::any_of(report_.changes.begin(), report_.changes.end(), [&](const NumberChange& change) {
      const auto& places = change.number.places;
      return std::find(places.begin(), places.end(), place) != places.end();
    });
  }

  static std::string proposed_value(const NumberChange& change) {
    const ValueWords& words = change.after.front();
    return change.proposed == GlucoseUnit::mg_per_dl ? words.mg_dl + " mg/dL" : words.mmol_l + " mmol/L";
  }
  static std::string stated_value_of(const NumberChange& change) {
    const ValueWords& words = change.after.front();
    return change.proposed == GlucoseUnit::mg_per_dl ? words.mmol_l + " mmol/L" : words.mg_dl + " mg/dL";
  }

  void show_check(const ProtocolSet& before, const ProtocolSet& after, const FileTexts& texts) {
    const Counts earlier = counted(before.findings), now = counted(after.findings);
    std::vector<Finding> fresh;
    for (const Finding& finding : after.findings) {
      if (!is_among(finding, before.findings)) fresh.push_back(finding);
    }
    // What refuses the change stands before what only comes with it.
    std::stable_partition(fresh.begin(), fresh.end(),
                          [](const Finding& finding) { return finding.severity == Severity::error; });
    tell("", threshold_words::kChecked, std::to_string(now.errors), std::to_string(now.warnings));
    if (options_.json) return;
    if (!fresh.empty()) {
      tell("", threshold_words::kNewOnes);
      print_findings(out_, fresh, texts);
    }
    if (now.errors > 0 && earlier.errors > 0) {
      tell("", threshold_words::kHadErrors, std::to_string(earlier.errors));
      if (fresh.empty()) print_findings(out_, after.findings, texts);
    }
    // A file that cannot be read is no draft: it has to be there first.
    const bool readable = exit_status_of(after.findings) != 2;
    if (now.errors > 0 && readable && !options_.draft) tell("", threshold_words::kDraftHow);
  }

  /// What nobody stated is not written before somebody took it. Gives the exit status when it ends here.
  std::optional<int> accept_proposals(const FileTexts& texts) {
    std::vector<Finding> open;
    std::string last;
    for (const NumberChange& change : report_.changes) {
      if (!change.proposed || options_.yes) continue;
      last = proposed_value(change);
      open.push_back(
          {Severity::error, change.where, OtherUnitUnstated{change.number.name, stated_value_of(change), last}, {}});
    }
    if (open.empty()) return std::nullopt;
    if (asked_ == nullptr || options_.json) return refuse(std::move(open), texts);
    Interview interview(*asked_, out_, language_);
    const bool taken = open.size() == 1 ? interview.agrees(threshold_words::kTake, last)
                                        : interview.agrees(threshold_words::kTakeAll, std::to_string(open.size()));
    if (taken) return std::nullopt;
    return stop(1);
  }

  void show_written(const std::vector<Replacement>& files, const ProtocolSet& before, const ProtocolSet& after) {
    if (const std::size_t errors = counted(after.findings).errors; errors > 0)
      tell("", threshold_words::kDraft, std::to_string(errors));
    std::string names;
    for (const Replacement& file : files) names += (names.empty() ? "" : ", ") + file.path;
    tell("", threshold_words::kWritten, names);
    for (const Replacement& file : files) {
      std::error_code error;
      if (std::filesystem::is_symlink(file.path, error))
        tell("", threshold_words::kLink, file.path, file_behind(file.path).value_or(""));
    }
    for (const NumbersFile& file : set_.files) {
      const bool changed =
          std::any_of(files.begin(), files.end(), [&](const Replacement& one) { return one.path == file.name; });
      const std::optional<Approval>& approval = file.protocol.parts.front().approval;
      if (!changed || !approval) continue;
      report_.approvals_void.push_back(file.name);
      tell("", threshold_words::kVoid, file.name, approval->by, text_from_day(approval->until));
    }
    report_.undo = undoing(set_, report_.changes);
    tell("", threshold_words::kUndo);
    if (!options_.json) out_ << undo_command(has_error(before.findings)) << '\n';
    if (!has_error(after.findings)) tell("", threshold_words::kClinic);
  }

  /// One line for one change, otherwise a line each that a shell takes together.
  std::string undo_command(bool was_draft) const {
    const std::string set = set_.path.starts_with('-') ? "./" + set_.path : set_.path;
    std::string command = "  rushlight thresholds " + shell_word(set);
    if (was_draft) command += " --draft";
    for (const std::string& word : report_.undo)
      command += (report_.undo.size() > 1 ? " \\\n    --change " : " --change ") + shell_word(word);
    return command;
  }

  const NumbersSet& set_;
  const ThresholdsOptions& options_;
  Language language_;
  std::istream* asked_;
  std::ostream &out_, &err_;
  std::vector<Wish> wishes_;
  ChangeReport report_;
};

}  // namespace

int change_numbers(const NumbersSet& set, Read<std::vector<Wish>> wishes, const ThresholdsOptions& options,
                   Language language, std::istream* asked, std::ostream& out, std::ostream& err) {
  return Changing(set, options, language, asked, out, err).run(std::move(wishes));
}

}  // namespace rushlight
