#include "cli/approval_list.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <ostream>

#include "cli/number_words.hpp"
#include "cli/plain_text.hpp"
#include "finding/property.hpp"
#include "picture/names.hpp"
#include "read/resolved_from_xml.hpp"
#include "verify/dose_envelope.hpp"

namespace rushlight {
namespace {

constexpr int kListWidth = 110;

void list_line(std::ostream& out, const std::string& lead, const std::string& text) {
  for (const std::string& line : wrapped(lead, cleaned(text), kListWidth)) out << line << '\n';
}

// As `thresholds` shows it: the codes of a file are no words.
std::string amount_of(const Limit& limit) {
  if (const auto* time = std::get_if<Duration>(&limit); time != nullptr && time->count() == 0) return "0 min";
  const std::string text = amount_shown(text_from_limit(limit, GlucoseUnit::mg_per_dl), Language::en);
  if (!std::holds_alternative<GlucoseLimit>(limit)) return text;
  return text + " = " + text_from_limit(limit, GlucoseUnit::mmol_per_l);
}

std::string values_shown(const Threshold& threshold) {
  if (threshold.bands.size() == 1) return amount_of(threshold.bands.front().value);
  std::string words;
  for (const Band& band : threshold.bands)
    words += (words.empty() ? "" : "; ") + amount_of(band.value) + " " + band_shown(band, Language::en);
  return words;
}

void list_numbers(const Protocol& protocol, std::ostream& out) {
  out << "  numbers\n";
  for (const Threshold& threshold : protocol.thresholds) {
    const Source& source = protocol[threshold.source];
    const char* origin = source.from_memory       ? "  (from memory)"
                         : source.common_practice ? "  (common practice, no source)"
                                                  : "";
    list_line(
        out, "    ",
        as_written(protocol, threshold.label) + " (`" + threshold.name + "`): " + values_shown(threshold) + origin);
  }
}

void list_doses(const Protocol& protocol, std::ostream& out) {
  if (protocol.doses.empty()) return;
  out << "  doses, from the least to the greatest that any child gets\n";
  for (const DoseEnvelope& envelope : dose_envelopes(protocol))
    list_line(out, "    ", text_from_envelope(protocol, envelope));
}

void list_shown(const std::vector<Shown>& all, std::ostream& out) {
  const auto is_call = [](const Shown& shown) { return std::holds_alternative<ComesInTime>(shown); };
  const bool any_call = std::any_of(all.begin(), all.end(), is_call);
  out << (any_call ? "  calls, at the latest\n" : "  calls: no law of safety.xml says how late one may be\n");
  for (const Shown& shown : all) {
    if (is_call(shown)) list_line(out, "    ", sentence(shown));
  }
  out << "  what no check shows\n";
  for (const Shown& shown : all) {
    if (std::holds_alternative<NotShown>(shown)) list_line(out, "    ", sentence(shown));
  }
}

/// Those first: whoever signs has to know what the clinic once wanted otherwise.
void list_examples(const ProtocolSet& set, std::ostream& out) {
  std::vector<Finding> otherwise;
  std::copy_if(set.findings.begin(), set.findings.end(), std::back_inserter(otherwise),
               [](const Finding& finding) { return property_of(finding.kind) == Property::examples_come_out; });
  if (otherwise.empty()) return;
  out << "worked examples of the clinic that do not come out\n";
  for (const Finding& finding : otherwise)
    list_line(out, "  line " + std::to_string(finding.where.line) + "  ", sentence(finding.kind));
  out << '\n';
}

}  // namespace

void print_what_is_approved(const ProtocolSet& set, std::ostream& out) {
  list_examples(set, out);
  for (const FileOfSet& file : set.files) {
    const std::string name = std::filesystem::path(file.name).filename().string();
    // Each file by itself: in the set it holds the numbers of the others too.
    const Read<Protocol> read = resolved_from_xml(set.texts.at(file.name), file.name);
    if (!read.value) {
      if (name == "examples.xml") {
        const std::size_t examples = set.examples ? set.examples->examples.size() : 0;
        out << name << ": " << examples << (examples == 1 ? " worked example\n\n" : " worked examples\n\n");
        continue;
      }
      const std::size_t laws = set.laws ? set.laws->never.size() + set.laws->within.size() + set.laws->look.size() +
                                              set.laws->monotone.size() + set.laws->reading.size()
                                        : 0;
      out << cleaned(name) << ": " << laws << (laws == 1 ? " law of the clinic\n\n" : " laws of the clinic\n\n");
      continue;
    }
    const Protocol& protocol = *read.value;
    out << cleaned(name + ": " + as_written(protocol, protocol.title) + " (`" + protocol.name + "`, version " +
                   protocol.version)
        << ")\n  insulin doses: " << (protocol.parts.front().insulin_doses ? "ON" : "off") << '\n';
    list_numbers(protocol, out);
    list_doses(protocol, out);
    list_shown(file.shown, out);
    out << '\n';
  }
}

}  // namespace rushlight
