#include "cli/page/clinic_set.hpp"

#include "cli/assembled_set.hpp"
#include "read/resolved_from_xml.hpp"
#include "wire/draft_model.hpp"

namespace rushlight {

Read<ClinicSet> clinic_set(const std::string& drafts, const std::vector<KeptFile>& files) {
  Read<SetDrafts> read = drafts_from_text(drafts);
  if (!read.value) return {std::nullopt, std::move(read.findings)};
  ClinicSet set;
  for (const KeptFile& file : files) set.numbers.texts[file.name] = file.bytes;
  for (Draft& draft : read.value->protocols) {
    const std::string file = draft.where.file;
    std::vector<Finding> refusal = add_draft(set.numbers, file, set.numbers.texts[file], {std::move(draft), {}});
    if (!refusal.empty()) return {std::nullopt, std::move(refusal)};
  }
  collect_numbers(set.numbers);
  set.laws = std::move(read.value->laws);
  set.examples = std::move(read.value->examples);
  return {std::move(set), {}};
}

ProtocolSet set_with(const ClinicSet& set, const std::vector<ChangedFile>& changed) {
  ProtocolSet whole;
  whole.texts = set.numbers.texts;
  const auto protocol_of = [&](std::size_t place) {
    const NumbersFile& file = set.numbers.files[place];
    for (const ChangedFile& change : changed) {
      if (change.file == place) {
        whole.texts[file.name] = change.bytes;
        return resolved_draft({change.draft, {}});
      }
    }
    return resolved_draft({file.draft, {}});
  };
  for (std::size_t place = 0; place < set.numbers.files.size(); ++place) {
    const std::string& name = set.numbers.files[place].name;
    Read<Protocol> protocol = protocol_of(place);
    add_resolved(whole, name, whole.texts[name], std::move(protocol));
  }
  if (set.laws) add_laws(whole, set.laws->where.file, {set.laws, {}});
  if (set.examples) add_examples(whole, set.examples->where.file, {set.examples, {}});
  finish(whole);
  return whole;
}

}  // namespace rushlight
