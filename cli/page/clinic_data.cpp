#include "cli/page/clinic_data.hpp"

#include <filesystem>

#include "cli/assembled_set.hpp"
#include "cli/page/page_frame.hpp"
#include "cli/plain_text.hpp"
#include "cli/set_approval.hpp"
#include "cli/shell_word.hpp"
#include "protocol/resolve.hpp"
#include "read/examples_from_xml.hpp"
#include "read/protocol_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {

Read<ClinicData> clinic_data(const ProtocolSet& set) {
  Read<ClinicData> read{ClinicData{}, {}};
  const auto keep = [&](auto draft, auto& place) {
    read.findings.insert(read.findings.end(), draft.findings.begin(), draft.findings.end());
    if (draft.value && !has_error(draft.findings)) place = std::move(*draft.value);
  };
  for (const auto& [path, bytes] : set.texts) {
    const std::string name = std::filesystem::path(path).filename().string();
    read.value->files.push_back({name, bytes});
    if (is_laws_file(path)) {
      keep(safety_from_xml(bytes, name), read.value->drafts.laws);
    } else if (is_examples_file(path)) {
      keep(examples_from_xml(bytes, name), read.value->drafts.examples);
    } else {
      std::optional<Draft> draft;
      keep(protocol_from_xml(bytes, name), draft);
      if (!draft) continue;
      const std::vector<Finding> findings = resolve(*draft).findings;
      read.findings.insert(read.findings.end(), findings.begin(), findings.end());
      read.value->drafts.protocols.push_back(std::move(*draft));
    }
  }
  // A file that could not even be opened is not among the texts.
  for (const Finding& finding : set.findings) {
    if (finding.severity == Severity::error && !set.texts.contains(finding.where.file))
      read.findings.push_back(finding);
  }
  if (has_error(read.findings)) read.value.reset();
  return read;
}

std::string json_from_clinic(const ClinicWish& wish, const ClinicData& data) {
  JsonWriter json;
  json.begin_object()
      .key("set")
      .text(wish.name)
      .key("shell")
      .text(shell_word(wish.name))
      .key("inside")
      .boolean(wish.inside_program);
  json.key("made").text(text_from_day(wish.today)).key("language").text(wish.language == Language::es ? "es" : "en");
  json.key("approval").begin_object();
  const std::optional<Approval> approval = wish.set.sealed ? approval_of_set(*wish.set.sealed) : std::nullopt;
  for (const Language language : {Language::en, Language::es}) {
    json.key(language == Language::es ? "es" : "en").text(cleaned(approval_text(approval, wish.today, language)));
  }
  json.end_object().key("drafts").text(text_from_drafts(data.drafts)).key("files").begin_list();
  for (const KeptFile& file : data.files)
    json.begin_object().key("name").text(file.name).key("bytes").text(file.bytes).end_object();
  return in_script(json.end_list().end_object().json());
}

}  // namespace rushlight
