#include "cli/numbers_set.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "episode/words.hpp"
#include "protocol/resolve.hpp"
#include "read/protocol_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "read/examples_from_xml.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

bool is_laws(const std::string& file) { return fs::path(file).filename() == "safety.xml"; }
bool is_examples(const std::string& file) { return fs::path(file).filename() == "examples.xml"; }

void add_file(NumbersSet& set, const std::string& file, const std::string& bytes) {
  set.texts[file] = bytes;
  if (is_laws(file) || is_examples(file)) {
    set.beside.push_back({file, bytes});
    return;
  }
  Read<Draft> draft = protocol_from_xml(bytes, file);
  Read<Protocol> protocol;
  if (draft.value && !has_error(draft.findings)) {
    protocol = resolve(*draft.value);
    draft.findings.insert(draft.findings.end(), protocol.findings.begin(), protocol.findings.end());
  }
  if (protocol.value) {
    set.files.push_back({file, bytes, std::move(*draft.value), std::move(*protocol.value)});
  } else {
    set.beside.push_back({file, bytes});
    set.findings.insert(set.findings.end(), draft.findings.begin(), draft.findings.end());
  }
}

/// What set a file says it belongs to; empty when it cannot be read.
std::string set_of(const std::string& file, const std::string& bytes) {
  const auto text = [](const MaybeWord& word) { return word ? word->text : std::string(); };
  if (is_laws(file)) {
    const Read<SafetyDraft> laws = safety_from_xml(bytes, file);
    return laws.value ? text(laws.value->set) : "";
  }
  if (is_examples(file)) {
    const Read<ExamplesDraft> examples = examples_from_xml(bytes, file);
    return examples.value ? text(examples.value->set) : "";
  }
  const Read<Draft> draft = protocol_from_xml(bytes, file);
  return draft.value ? text(draft.value->set) : "";
}

void add_rest_of_set(NumbersSet& set) {
  if (set.files.empty()) return;
  const fs::path own(set.files.front().name), folder = own.parent_path();
  std::error_code error;
  std::vector<std::string> others;
  for (fs::directory_iterator entry(folder.empty() ? "." : folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const fs::path other = entry->path().filename();
    if (other.extension() == ".xml" && other != own.filename()) others.push_back((folder / other).string());
  }
  std::sort(others.begin(), others.end());
  for (const std::string& other : others) {
    const FileBytes bytes = bytes_of_file(other, kMostBytes);
    const auto* text = std::get_if<std::string>(&bytes);
    if (text == nullptr || set_of(other, *text) != set.files.front().protocol.set) continue;
    set.beside.push_back({other, *text});
    set.texts[other] = *text;
  }
}

void add_single_file(NumbersSet& set) {
  FileBytes bytes = bytes_of_file(set.path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    set.findings.push_back(std::move(*finding));
    return;
  }
  add_file(set, set.path, std::get<std::string>(bytes));
  add_rest_of_set(set);
}

void add_folder(NumbersSet& set) {
  const ProtocolSet read = set_in_folder(set.path, "");
  for (const auto& [file, bytes] : read.texts) add_file(set, file, bytes);
  for (const Finding& finding : read.findings) {
    const bool unread = !read.texts.contains(finding.where.file);
    if (unread) set.findings.push_back(finding);
  }
}

void add_embedded(NumbersSet& set) {
  for (const EmbeddedFile& file : embedded_files()) {
    const std::string path(file.path);
    if (path.starts_with(set.path + "/") && path.ends_with(".xml")) add_file(set, path, std::string(file.bytes));
  }
  set.inside_program = !set.files.empty();
  if (set.inside_program) return;
  std::vector<std::string> known;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::string folder(file.path.substr(0, file.path.find('/')));
    const bool in_folder = file.path.find('/') != std::string_view::npos;
    if (in_folder && (known.empty() || known.back() != folder)) known.push_back(folder);
  }
  const std::optional<std::string> near = near_word(set.path, known);
  const std::string meant = near ? "; the program itself has a set `" + *near + "`" : "";
  set.findings.push_back(Finding{
      Severity::error, Where{set.path, 0, 0, 0}, NotReadable{"there is no such folder, file or set" + meant}, {}});
}

bool same_value(const Band& a, const Band& b) {
  return a.age_from == b.age_from && a.age_up_to == b.age_up_to && a.weight_from == b.weight_from &&
         a.weight_up_to == b.weight_up_to && a.clock_from == b.clock_from && a.clock_up_to == b.clock_up_to &&
         a.value == b.value;
}

bool same_number(const Threshold& a, const Threshold& b) {
  if (a.name != b.name || a.kind != b.kind) return false;
  for (const Language language : {Language::en, Language::es}) {
    if (plain_words(a.label, language) != plain_words(b.label, language)) return false;
  }
  return std::equal(a.bands.begin(), a.bands.end(), b.bands.begin(), b.bands.end(), same_value);
}

void collect_numbers(NumbersSet& set) {
  std::vector<Number>& all = set.numbers;
  for (std::size_t file = 0; file < set.files.size(); ++file) {
    for (std::size_t i = 0; i < set.files[file].protocol.thresholds.size(); ++i) {
      const NumberPlace place{file, i};
      const auto at = std::find_if(all.begin(), all.end(), [&](const Number& number) {
        return same_number(set.threshold(number.places.front()), set.threshold(place));
      });
      if (at == all.end()) {
        all.push_back({"", {place}});
      } else {
        at->places.push_back(place);
      }
    }
  }
  const auto meanings = [&](const std::string& id) {
    return std::count_if(all.begin(), all.end(),
                         [&](const Number& number) { return set.threshold(number.places.front()).name == id; });
  };
  for (Number& number : all) {
    const std::string& id = set.threshold(number.places.front()).name;
    number.name = meanings(id) == 1 ? id : protocols_of(set, number.places, ",") + "/" + id;
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Number& a, const Number& b) { return a.places.size() > b.places.size(); });
}

}  // namespace

NumbersSet numbers_set(const std::string& name) {
  NumbersSet set;
  set.path = name;
  std::error_code error;
  if (fs::is_directory(name, error)) {
    add_folder(set);
  } else if (fs::exists(fs::symlink_status(name, error))) {
    add_single_file(set);
  } else {
    add_embedded(set);
  }
  collect_numbers(set);
  return set;
}

ValueWords words_of(const DraftThreshold& threshold, std::size_t band) {
  const auto text = [](const MaybeWord& word) { return word ? word->text : std::string(); };
  if (threshold.bands.empty()) return {text(threshold.value), text(threshold.mg_dl), text(threshold.mmol_l)};
  const DraftBand& one = threshold.bands[band];
  return {text(one.value), text(one.mg_dl), text(one.mmol_l)};
}

std::string protocols_of(const NumbersSet& set, const std::vector<NumberPlace>& places, const std::string& between) {
  std::string names;
  for (const NumberPlace& place : places) names += (names.empty() ? "" : between) + set.protocol(place);
  return names;
}

}  // namespace rushlight
