#include "cli/check_junit.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "finding/markup.hpp"

namespace rushlight {
namespace {

// Written by hand: the house's XML library only reads, and it would let characters through that XML has no place for.
std::string escaped(const std::string& text) {
  std::string safe = escaped_for_markup(text);
  for (const char* no_character : {"\xEF\xBF\xBE", "\xEF\xBF\xBF"}) {  // the two that UTF-8 can write and XML cannot
    for (std::size_t at = safe.find(no_character); at != std::string::npos; at = safe.find(no_character))
      safe.replace(at, 3, "?");
  }
  return safe;
}

std::string attribute(const char* name, const std::string& value) {
  return std::string(" ") + name + "=\"" + escaped(cleaned(value)) + "\"";
}

struct Tally {
  std::size_t tests = 0, failures = 0, errors = 0, skipped = 0;

  void add(const Tally& other) {
    tests += other.tests;
    failures += other.failures;
    errors += other.errors;
    skipped += other.skipped;
  }
  std::string attributes() const {
    return attribute("tests", std::to_string(tests)) + attribute("failures", std::to_string(failures)) +
           attribute("errors", std::to_string(errors)) + attribute("skipped", std::to_string(skipped));
  }
};

// How bad the worst of a broken property is: it breaks by an error, or by an example that does not come out.
Severity worst_of(const Verdict& verdict) {
  const bool error = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                 [](const Finding* finding) { return finding->severity == Severity::error; });
  return error ? Severity::error : Severity::warning;
}

std::vector<Finding> findings_of(const Verdict& verdict, Severity severity) {
  std::vector<Finding> wanted;
  for (const Finding* finding : verdict.findings) {
    if (finding->severity == severity) wanted.push_back(*finding);
  }
  return wanted;
}

// The sentence of the first, and how many more there are: what a CI shows in its list.
std::string message_of(const std::vector<Finding>& broken) {
  const std::string first = sentence(broken.front().kind);
  return broken.size() == 1 ? first : first + " (and " + std::to_string(broken.size() - 1) + " more)";
}

std::string lines_of(const std::vector<Finding>& findings, const FileTexts& texts) {
  return escaped(text_from_findings(findings, texts));
}

std::string case_of(const std::string& file, const Verdict& verdict, const FileTexts& texts, Tally& tally) {
  ++tally.tests;
  std::string text = "    <testcase" + attribute("classname", file) + attribute("name", sentence(verdict.property));
  std::string inside;
  if (verdict.state == Verdict::State::broken) {
    const bool unreadable = verdict.property == Property::readable;
    ++(unreadable ? tally.errors : tally.failures);
    const std::string element = unreadable ? "error" : "failure";
    const std::vector<Finding> broken = findings_of(verdict, worst_of(verdict));
    inside += "      <" + element + attribute("message", message_of(broken)) +
              attribute("type", id_of(broken.front().kind)) + ">" + lines_of(broken, texts) + "</" + element + ">\n";
  } else if (verdict.state == Verdict::State::not_looked_at) {
    ++tally.skipped;
    inside += "      <skipped" + attribute("message", "mend what is wrong above first") + "/>\n";
  }
  const std::string warnings = lines_of(findings_of(verdict, Severity::warning), texts);
  const bool told = verdict.state == Verdict::State::broken && worst_of(verdict) == Severity::warning;
  if (!warnings.empty() && !told) inside += "      <system-out>" + warnings + "</system-out>\n";
  return text + (inside.empty() ? "/>\n" : ">\n" + inside + "    </testcase>\n");
}

std::string approval_of(const CheckedPath& each) {
  if (!each.approval) return "";
  return "    <properties>\n      <property" + attribute("name", "approval") + attribute("value", each.approval->text) +
         "/>\n    </properties>\n";
}

}  // namespace

std::string junit_from_checked(const std::vector<CheckedPath>& all) {
  std::string suites;
  Tally whole;
  for (const CheckedPath& each : all) {
    for (const CheckedFile& file : each.files) {
      std::string cases;
      Tally tally;
      for (const Verdict& verdict : file.verdicts()) cases += case_of(file.name, verdict, each.texts, tally);
      suites += "  <testsuite" + attribute("name", file.name) + tally.attributes() + ">\n" + approval_of(each) + cases +
                "  </testsuite>\n";
      whole.add(tally);
    }
  }
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites" + attribute("name", "rushlight check") +
         whole.attributes() + ">\n" + suites + "</testsuites>\n";
}

}  // namespace rushlight
