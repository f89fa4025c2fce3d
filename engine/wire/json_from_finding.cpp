#include "wire/json_from_finding.hpp"

#include <algorithm>

#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

void write_place(JsonWriter& out, const Where& where) {
  out.key("file").text(where.file.text());
  if (where.line == 0) return;
  out.key("line").whole(where.line).key("column").whole(where.column).key("length").whole(where.length);
}

void write_fields(JsonWriter& out, const Finding& finding) {
  out.key("severity").text(finding.severity == Severity::error ? "error" : "warning");
  out.key("kind").text(id_of(finding.kind));
  write_place(out, finding.where);
  out.key("sentence").text(sentence(finding.kind));
  const std::string right = remedy(finding.kind);
  if (!right.empty()) out.key("try").text(right);
  if (finding.because) {
    out.key("because").begin_object().key("text").text(finding.because->text);
    if (finding.because->where) write_place(out, *finding.because->where);
    out.end_object();
  }
}

}  // namespace

std::string json_from_finding(const Finding& finding) {
  JsonWriter out;
  out.begin_object();
  write_fields(out, finding);
  out.end_object();
  return out.json();
}

std::string json_from_refusal(const std::vector<Finding>& findings) {
  JsonWriter out;
  const auto is_error = [](const Finding& finding) { return finding.severity == Severity::error; };
  const auto first = std::find_if(findings.begin(), findings.end(), is_error);
  out.begin_object().key("error").begin_object();
  if (first != findings.end()) write_fields(out, *first);
  if (findings.size() > 1) {
    out.key("also").begin_list();
    for (auto other = findings.begin(); other != findings.end(); ++other) {
      if (other != first) out.raw(json_from_finding(*other));
    }
    out.end_list();
  }
  out.end_object().end_object();
  return out.json();
}

}  // namespace rushlight
