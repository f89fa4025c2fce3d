#include "cli/numbers_json.hpp"

#include <algorithm>

#include "cli/number_words.hpp"
#include "cli/numbers_list.hpp"
#include "episode/words.hpp"
#include "protocol/band_name.hpp"
#include "wire/json_from_finding.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

void write_words(JsonWriter& out, const ValueWords& words) {
  if (words.mg_dl.empty()) {
    out.key("value").text(words.value);
  } else {
    out.key("mg_per_dl").text(words.mg_dl).key("mmol_per_l").text(words.mmol_l);
  }
}

void write_places(JsonWriter& out, const NumbersSet& set, const std::vector<NumberPlace>& places, std::size_t band) {
  out.key("places").begin_list();
  for (const NumberPlace& place : places) {
    const DraftThreshold& draft = set.draft(place);
    const Where& where = draft.bands.empty() ? draft.where : draft.bands[band].where;
    out.begin_object().key("protocol").text(set.protocol(place)).key("file").text(where.file.text());
    out.key("line").whole(where.line).end_object();
  }
  out.end_list();
}

void write_number(JsonWriter& out, const NumbersSet& set, const Number& number, Language language) {
  const NumberPlace first = number.places.front();
  const Threshold& threshold = set.threshold(first);
  out.begin_object().key("id").text(threshold.name).key("name").text(number.name);
  out.key("kind").text(name_of(threshold.kind)).key("label").text(plain_words(threshold.label, language));
  out.key("values").begin_list();
  for (std::size_t band = 0; band < threshold.bands.size(); ++band) {
    out.begin_object();
    if (has_bands(threshold)) out.key("band").text(name_of(threshold.bands[band]));
    write_words(out, words_of(set.draft(first), band));
    write_places(out, set, number.places, band);
    out.end_object();
  }
  out.end_list();
  const Narrowest range = narrowest(set, number);
  out.key("least").text(range.least->least).key("most").text(range.most->most);
  out.key("source").text(sources_shown(set, number, Citation::whole, language)).end_object();
}

void write_findings(JsonWriter& out, const std::vector<Finding>& findings) {
  out.key("findings").begin_list();
  for (const Finding& finding : findings) out.raw(json_from_finding(finding));
  out.end_list();
}

}  // namespace

std::string json_from_numbers(const NumbersSet& set, Language language) {
  JsonWriter out(JsonWriter::Form::indented);
  out.begin_object().key("set").text(set.path).key("inside_program").boolean(set.inside_program);
  out.key("numbers").begin_list();
  for (const Number& number : set.numbers) write_number(out, set, number, language);
  out.end_list();
  write_findings(out, set.findings);
  out.end_object();
  return out.json();
}

std::string json_from_changes(const NumbersSet& set, const ChangeReport& report) {
  JsonWriter out(JsonWriter::Form::indented);
  out.begin_object().key("set").text(set.path).key("written").boolean(report.written);
  out.key("changes").begin_list();
  for (const NumberChange& change : report.changes) {
    out.begin_object().key("name").text(change.number.name);
    out.key("before").begin_object();
    write_words(out, change.before.front());
    out.end_object().key("after").begin_object();
    write_words(out, change.after.front());
    out.end_object();
    if (change.proposed) out.key("worked_out").text(ucum(unit_of(*change.proposed)));
    write_places(out, set, change.number.places, change.number.band);
    out.end_object();
  }
  out.end_list().key("undo").begin_list();
  for (const std::string& word : report.undo) out.text(word);
  out.end_list().key("approvals_void").begin_list();
  for (const std::string& file : report.approvals_void) out.text(file);
  out.end_list();
  write_findings(out, report.findings);
  out.end_object();
  return out.json();
}

}  // namespace rushlight
