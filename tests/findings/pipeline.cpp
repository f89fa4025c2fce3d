#include "findings/pipeline.hpp"

#include <stdexcept>
#include <utility>

#include "findings/case_file.hpp"
#include "protocol/examples_of.hpp"
#include "protocol/safety_rules.hpp"
#include "read/examples_from_xml.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "verify/check.hpp"
#include "verify/laws.hpp"
#include "verify/worked_examples.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"

namespace rushlight::tests {

namespace {

std::vector<Finding> protocol_findings(const std::string& bytes, const std::string& name) {
  return resolved_from_xml(bytes, name).findings;
}

std::vector<Finding> sense_findings(const std::string& bytes, const std::string& name) {
  Read<Protocol> resolved = resolved_from_xml(bytes, name);
  if (!resolved.value) return resolved.findings;
  return check(std::move(*resolved.value)).findings;
}

/// What laws and examples are held against.
const CheckedProtocol& small_low() {
  static const CheckedProtocol protocol =
      check(resolved_from_xml(bytes_of(std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/good/sense/small-low.xml"),
                              "small-low.xml")
                .value.value())
          .protocol.value();
  return protocol;
}

std::vector<Finding> examples_file_findings(const std::string& bytes, const std::string& name) {
  Protocol protocol = small_low().protocol();
  Read<ExamplesDraft> draft = examples_from_xml(bytes, name);
  if (!draft.value || has_error(draft.findings)) return std::move(draft.findings);
  std::vector<Finding> findings = examples_findings(*draft.value, {protocol.name});
  Read<std::vector<WorkedExample>> examples = worked_examples_of(*draft.value, protocol);
  findings.insert(findings.end(), examples.findings.begin(), examples.findings.end());
  if (has_error(findings) || !examples.value) return findings;
  return walked_examples(protocol, *examples.value).findings;
}

// Laws are held against a protocol that breaks none of them.
std::vector<Finding> safety_file_findings(const std::string& bytes, const std::string& name) {
  const CheckedProtocol& protocol = small_low();
  Read<SafetyDraft> draft = safety_from_xml(bytes, name);
  if (!draft.value || has_error(draft.findings)) return std::move(draft.findings);
  std::vector<Finding> findings = safety_findings(*draft.value, {"low"});
  Read<SafetyRules> rules = safety_rules_of(*draft.value, protocol.protocol());
  findings.insert(findings.end(), rules.findings.begin(), rules.findings.end());
  if (rules.value) {
    for (Finding& finding : broken_laws(protocol, *rules.value)) findings.push_back(std::move(finding));
  }
  return findings;
}

constexpr Day kToday{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};

std::vector<Finding> child_findings(const std::string& bytes, const std::string& name) {
  return child_from_json(bytes, name, kToday).findings;
}

// An event is read against a protocol that has every kind of question, for a child whose meter shows mg/dL.
std::vector<Finding> event_findings(const std::string& bytes, const std::string& name) {
  static const Protocol protocol =
      resolved_from_xml(bytes_of(std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/good/protocol/every-word.xml"),
                        "every-word.xml")
          .value.value();
  Child child{};
  child.unit = GlucoseUnit::mg_per_dl;
  auto event = event_from_line(bytes, protocol, child, name);
  if (auto* findings = std::get_if<std::vector<Finding>>(&event)) return *findings;
  return {};
}

}  // namespace

std::vector<Finding> findings_of(const std::string& folder, const std::string& bytes, const std::string& name) {
  if (folder == "protocol") return protocol_findings(bytes, name);
  if (folder == "sense") return sense_findings(bytes, name);
  if (folder == "safety") return safety_file_findings(bytes, name);
  if (folder == "examples") return examples_file_findings(bytes, name);
  if (folder == "child") return child_findings(bytes, name);
  if (folder == "event") return event_findings(bytes, name);
  throw std::runtime_error("tests/findings/pipeline.cpp does not know the folder " + folder);
}

}  // namespace rushlight::tests
