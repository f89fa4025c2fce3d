#include "cli/check_command.hpp"

#include <algorithm>
#include <fstream>
#include <ostream>

#include "cli/check_files.hpp"
#include "cli/check_json.hpp"
#include "cli/check_junit.hpp"
#include "cli/explain_command.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"

namespace rushlight {
namespace {

std::string in_words(const Counts& counts) {
  const auto number_of = [](std::size_t number, const char* one, const char* many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
  };
  std::string words = number_of(counts.errors, "error", "errors");
  if (counts.warnings > 0) words += ", " + number_of(counts.warnings, "warning", "warnings");
  return words;
}

constexpr int kWidth = 110;

// Short: one paragraph for what holds, one for what nobody should take for shown.
void print_shown(const CheckedFile& file, std::ostream& out) {
  std::string holds, not_shown;
  for (const Shown& shown : file.shown) {
    std::string& text = std::holds_alternative<NotShown>(shown) ? not_shown : holds;
    text += (text.empty() ? "" : "; ") + sentence(shown);
  }
  const auto print = [&](const char* lead, const std::string& text) {
    if (text.empty()) return;
    for (const std::string& line : wrapped(lead, cleaned(text), kWidth)) out << line << '\n';
  };
  if (!file.shown.empty()) out << cleaned(file.name) << ":\n";
  print("  holds      ", holds);
  print("  not shown  ", not_shown);
}

constexpr std::size_t kFewExamples = 8, kExamplesShown = 5;

/// One number that was changed makes dozens of examples come out otherwise: the first of them show how.
std::size_t take_out_most_examples(std::vector<Finding>& findings) {
  const auto is_example = [](const Finding& finding) {
    return finding.kind.is<ExampleDiffers>() || finding.kind.is<ExampleStuck>();
  };
  const auto all = static_cast<std::size_t>(std::count_if(findings.begin(), findings.end(), is_example));
  if (all <= kFewExamples) return 0;
  std::size_t seen = 0;
  std::erase_if(findings, [&](const Finding& finding) { return is_example(finding) && ++seen > kExamplesShown; });
  return all - kExamplesShown;
}

void print_for_people(const std::vector<CheckedPath>& all, std::ostream& out) {
  for (const CheckedPath& each : all) {
    const std::vector<Finding> findings = each.findings();
    if (each.approval) out << cleaned(each.path) << ": " << cleaned(each.approval->text) << '\n';
    std::vector<Finding> told = findings;
    const std::size_t left_out = take_out_most_examples(told);
    print_findings(out, told, each.texts);
    if (left_out > 0)
      out << cleaned(each.path) << ": " << left_out
          << " more lines of the examples come out otherwise; --json tells them\n";
    if (!has_error(findings)) {
      for (const CheckedFile& file : each.files) print_shown(file, out);
    }
    out << cleaned(each.path) << ": " << in_words(counted(findings));
    if (!each.to_the_end()) out << "; more can show once these are mended";
    out << '\n';
  }
  if (all.size() > 1) out << "in all: " << in_words(counted(findings_of(all))) << '\n';
}

bool write_file(const std::string& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  return !file.fail();
}

}  // namespace

int check_command(const CheckOptions& options, std::ostream& out, std::ostream& err) {
  if (!options.explain.empty()) return explain_command(options.explain, options.paths, out);
  if (options.paths.empty()) {
    err << "rushlight check: name a protocol, a child file or a folder.\n";
    return 2;
  }
  const bool junit_to_out = options.junit == "-";
  if (options.json && junit_to_out) {
    err << "rushlight check: --json and --junit - both want the standard output. Name a file for --junit.\n";
    return 2;
  }
  std::vector<CheckedPath> all;
  for (const std::string& path : options.paths) all.push_back(checked_path(path));
  if (junit_to_out) {
    out << junit_from_checked(all);
  } else if (options.json) {
    out << json_from_checked(all) << '\n';
  } else {
    print_for_people(all, out);
  }
  if (!options.junit.empty() && !junit_to_out && !write_file(options.junit, junit_from_checked(all))) {
    err << "rushlight check: " << cleaned(options.junit) << " cannot be written.\n";
    return 2;
  }
  return exit_status_of(findings_of(all));
}

}  // namespace rushlight
