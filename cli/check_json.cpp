#include "cli/check_json.hpp"

#include "wire/json_from_finding.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

const char* name_of(CheckedFile::Kind kind) {
  switch (kind) {
    case CheckedFile::Kind::protocol:
      return "protocol";
    case CheckedFile::Kind::child:
      return "child";
    case CheckedFile::Kind::folder:
      break;
  }
  return "folder";
}

const char* name_of(Verdict::State state) {
  switch (state) {
    case Verdict::State::holds:
      return "holds";
    case Verdict::State::broken:
      return "broken";
    case Verdict::State::not_looked_at:
      break;
  }
  return "not-looked-at";
}

void write(JsonWriter& out, const CheckedFile& file) {
  out.begin_object().key("file").text(file.name).key("kind").text(name_of(file.kind));
  out.key("to_the_end").boolean(file.to_the_end);
  out.key("properties").begin_list();
  for (const Verdict& verdict : file.verdicts()) {
    out.begin_object().key("id").text(id_of(verdict.property)).key("state").text(name_of(verdict.state));
    out.key("sentence").text(sentence(verdict.property)).end_object();
  }
  out.end_list().key("findings").begin_list();
  for (const Finding& finding : file.findings) out.raw(json_from_finding(finding));
  out.end_list().key("shown").begin_list();
  for (const Shown& shown : file.shown) {
    out.begin_object().key("kind").text(std::holds_alternative<NotShown>(shown) ? "not-shown" : "holds");
    out.key("sentence").text(sentence(shown)).end_object();
  }
  out.end_list().end_object();
}

}  // namespace

std::string json_from_checked(const std::vector<CheckedPath>& all) {
  const Counts counts = counted(findings_of(all));
  JsonWriter out;
  out.begin_object();
  out.key("errors").whole(static_cast<long long>(counts.errors));
  out.key("warnings").whole(static_cast<long long>(counts.warnings));
  out.key("approvals").begin_list();
  for (const CheckedPath& each : all) {
    if (!each.approval) continue;
    out.begin_object().key("path").text(each.path).key("state").text(id_of(each.approval->state));
    if (const auto& approval = each.approval->approval) {
      out.key("by").text(approval->by).key("role").text(approval->role);
      out.key("on").text(text_from_day(approval->on)).key("until").text(text_from_day(approval->until));
    }
    out.key("text").text(each.approval->text).end_object();
  }
  out.end_list();
  out.key("files").begin_list();
  for (const CheckedPath& each : all) {
    for (const CheckedFile& file : each.files) write(out, file);
  }
  out.end_list().end_object();
  return out.json();
}

}  // namespace rushlight
