#include "cli/page/clinic_page.hpp"

#include <algorithm>

#include "cli/fresh_findings.hpp"
#include "cli/map_named.hpp"
#include "cli/numbers_list.hpp"
#include "cli/page/clinic_form.hpp"
#include "cli/page/clinic_told.hpp"
#include "cli/page/refused_call.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/told_differences.hpp"
#include "episode/phrases.hpp"
#include "picture/svg.hpp"
#include "protocol/resolve.hpp"
#include "verify/compare.hpp"
#include "wire/json_from_finding.hpp"

namespace rushlight {
namespace {

constexpr JsonLimits kTypedLimits{1024 * 1024, 8};  // every field of a set fits many times over

std::string text_at(const JsonNode& node, std::string_view key) {
  const JsonNode* found = node.find(key);
  return found == nullptr ? "" : found->text;
}

/// All that was typed that can be taken, worked out together; a field that is refused holds back no other.
struct TakenPlan {
  ChangePlan plan;
  std::vector<Finding> refused;
};

TakenPlan taken(const NumbersSet& set, const std::vector<TypedField>& typed) {
  TakenPlan result;
  std::vector<Wish> wishes;
  for (const TypedField& field : typed) {
    auto wish = wish_of(set, field);
    if (auto* finding = std::get_if<Finding>(&wish)) {
      result.refused.push_back(std::move(*finding));
    } else {
      wishes.push_back(std::move(std::get<Wish>(wish)));
    }
  }
  for (;;) {
    result.plan = planned(set, wishes);
    if (!has_error(result.plan.findings)) return result;
    const std::size_t before = wishes.size();
    for (const Finding& finding : result.plan.findings) {
      if (finding.severity == Severity::error) result.refused.push_back(finding);
      wishes.erase(std::remove_if(wishes.begin(), wishes.end(),
                                  [&](const Wish& wish) { return wish.where.file == finding.where.file; }),
                   wishes.end());
    }
    if (wishes.size() == before) wishes.clear();  // refused as a whole, at a place that nobody typed into
  }
}

std::vector<ThresholdId> numbers_in(const ChangePlan& plan, std::size_t file) {
  std::vector<ThresholdId> numbers;
  for (const NumberChange& change : plan.changes) {
    for (const NumberPlace& place : change.number.places) {
      if (place.file == file) numbers.push_back(ThresholdId{static_cast<std::uint16_t>(place.threshold)});
    }
  }
  return numbers;
}

Or<Picture> map_beside(const Protocol& was, const Protocol& now, StepId step, const std::string& wanted) {
  Or<ComparisonMap> map = map_of(side_by_side(was, now), step, wanted, {});
  if (auto* kind = std::get_if<Kind>(&map)) return std::move(*kind);
  return std::move(std::get<ComparisonMap>(map).picture);
}

}  // namespace

void ClinicPage::add_file(std::string name, std::string bytes) {
  files_.push_back({std::move(name), std::move(bytes)});
}

std::string ClinicPage::open(const std::string& drafts) {
  Read<ClinicSet> read = clinic_set(drafts, files_);
  if (!read.value) return json_from_refusal(read.findings);
  set_ = std::move(*read.value);
  changed_.clear();
  now_.reset();
  findings_before_ = now().findings;
  return JsonWriter().begin_object().key("opened").boolean(true).end_object().json();
}

std::string ClinicPage::call(const std::string& text) {
  if (!set_) return refused_call("no set is open");
  const Read<JsonNode> read = json_from_text(text, "the page", kTypedLimits);
  if (!read.value) return json_from_refusal(read.findings);
  const JsonNode& request = *read.value;
  const std::string wanted = text_at(request, "do");
  const Language language = text_at(request, "language") == "es" ? Language::es : Language::en;
  if (wanted == "form") return form(language);
  if (wanted == "plan") return plan(request, language);
  if (wanted == "check") return check();
  if (wanted == "compare") return compare(text_at(request, "protocol"));
  if (wanted == "map") return map(text_at(request, "protocol"), text_at(request, "map"));
  if (wanted == "csv") return csv(language);
  return refused_call("`do` is nothing that the page can do");
}

const ProtocolSet& ClinicPage::now() {
  if (!now_) now_ = set_with(*set_, changed_);
  return *now_;
}

std::optional<std::size_t> ClinicPage::file_of(const std::string& protocol) const {
  for (std::size_t i = 0; i < set_->numbers.files.size(); ++i) {
    if (set_->numbers.files[i].protocol.name == protocol) return i;
  }
  return std::nullopt;
}

const ChangedFile* ClinicPage::change_in(std::size_t file) const {
  for (const ChangedFile& change : changed_) {
    if (change.file == file) return &change;
  }
  return nullptr;
}

std::string ClinicPage::form(Language language) const {
  JsonWriter json;
  json.begin_object().key("form");
  write_form(json, set_->numbers, language);
  json.key("protocols").begin_list();
  for (const NumbersFile& file : set_->numbers.files) write_steps(json, file.protocol, language);
  json.end_list().key("caution").text(phrase(Phrase::does_not_replace, language));
  return json.end_object().json();
}

std::string ClinicPage::plan(const JsonNode& request, Language language) {
  const TakenPlan result = taken(set_->numbers, typed_fields(request.find("fields")));
  changed_ = result.plan.files;
  now_.reset();
  JsonWriter json;
  json.begin_object().key("changes").begin_list();
  for (const NumberChange& change : result.plan.changes) {
    json.begin_object().key("field").text(change.where.file.text());
    json.key("before");
    write_parts(json, change.before.front(), language);
    json.key("parts");
    write_parts(json, change.after.front(), language);
    if (change.proposed) json.key("proposed").whole(*change.proposed == GlucoseUnit::mg_per_dl ? 0 : 1);
    json.end_object();
  }
  json.end_list().key("refused").begin_list();
  for (const Finding& finding : result.refused) {
    json.begin_object().key("field").text(finding.where.file.text()).key("told");
    write_finding(json, finding, {}, true);
    json.end_object();
  }
  // A low is what a night is most often about, and the quickest to compare: it comes first.
  std::vector<const ChangedFile*> in_turn;
  for (const ChangedFile& change : changed_) in_turn.push_back(&change);
  std::stable_partition(in_turn.begin(), in_turn.end(), [&](const ChangedFile* change) {
    return set_->numbers.files[change->file].protocol.name == "low";
  });
  json.end_list().key("protocols").begin_list();
  for (const ChangedFile* change : in_turn) json.text(set_->numbers.files[change->file].protocol.name);
  json.end_list();
  for (const ChangedFile* change : in_turn) {
    const Protocol& protocol = set_->numbers.files[change->file].protocol;
    const auto step = most_comparing(protocol, numbers_in(result.plan, change->file));
    if (!step) continue;
    json.key("shows").begin_object().key("protocol").text(protocol.name).key("step").text(step->step);
    json.key("across").text(step->subject).end_object();
    break;
  }
  return json.end_object().json();
}

std::string ClinicPage::check() {
  const ProtocolSet& set = now();
  const Counts counts = counted(set.findings);
  JsonWriter json;
  json.begin_object().key("errors").whole(static_cast<long long>(counts.errors));
  json.key("warnings").whole(static_cast<long long>(counts.warnings)).key("findings").begin_list();
  for (const Finding& finding : set.findings)
    write_finding(json, finding, line_at(set.texts, finding.where), !is_among(finding, findings_before_));
  return json.end_list().end_object().json();
}

std::string ClinicPage::compare(const std::string& protocol) {
  const auto file = file_of(protocol);
  if (!file) return refused_call("the set has no such protocol");
  if (has_error(findings_before_) || has_error(now().findings))
    return refused_call("a set with an error cannot be compared");
  const Protocol& was = set_->numbers.files[*file].protocol;
  const ChangedFile* change = change_in(*file);
  const Read<Protocol> read = change == nullptr ? Read<Protocol>{was, {}} : resolve(change->draft);
  if (!read.value) return json_from_refusal(read.findings);
  JsonWriter json;
  write_differences(json, rushlight::compare(was, *read.value, Detail::every_place));
  return json.json();
}

std::string ClinicPage::map(const std::string& protocol, const std::string& wanted) {
  const auto file = file_of(protocol);
  if (!file) return refused_call("the set has no such protocol");
  const Protocol& was = set_->numbers.files[*file].protocol;
  const ChangedFile* change = change_in(*file);
  const Read<Protocol> read = change == nullptr ? Read<Protocol>{was, {}} : resolve(change->draft);
  if (!read.value) return json_from_refusal(read.findings);
  const auto step = read.value->step_named(wanted.substr(0, wanted.find(':')));
  // With an error there is no comparison, and a hole in the rules is best looked at.
  const bool beside = change != nullptr && step && !has_error(findings_before_) && !has_error(now().findings);
  const Or<Picture> drawn = beside ? map_beside(was, *read.value, *step, wanted) : map_of(*read.value, wanted, {});
  if (const auto* kind = std::get_if<Kind>(&drawn))
    return json_from_refusal({Finding{Severity::error, Where{"the page", 0, 0, 0}, *kind, {}}});
  const Picture& picture = std::get<Picture>(drawn);
  JsonWriter json;
  json.begin_object().key("title").text(cleaned(picture.title)).key("told").text(cleaned(picture.told));
  return json.key("beside").boolean(beside).key("svg").text(svg_from(picture)).end_object().json();
}

std::string ClinicPage::csv(Language language) const {
  std::vector<Draft> drafts;
  for (const NumbersFile& file : set_->numbers.files) drafts.push_back(file.draft);
  for (const ChangedFile& change : changed_) drafts[change.file] = change.draft;
  JsonWriter json;
  json.begin_object().key("csv").text(csv_from_numbers(set_->numbers, drafts, language));
  return json.end_object().json();
}

}  // namespace rushlight
