#include "cli/sheet_command.hpp"

#include <fstream>
#include <ostream>

#include "cli/embedded.hpp"
#include "cli/language.hpp"
#include "cli/paper_module.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "cli/set_in_use.hpp"
#include "cli/sheet_text.hpp"
#include "cli/today.hpp"
#include "sheet/sheet_of.hpp"
#include "wire/child_from_json.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kInventedChild = "demo-child.json";

int refuse_sheet(std::ostream& err, const std::string& where, Kind kind, int status) {
  print_findings(err, {Finding{Severity::error, Where{where, 0, 0, 0}, std::move(kind), {}}}, {});
  return status;
}

Read<Child> child_for(const SheetWish& wish, std::vector<Finding>& unreadable) {
  if (wish.child.empty()) {
    for (const EmbeddedFile& file : embedded_files()) {
      if (file.path == kInventedChild) return child_from_json(file.bytes, std::string(kInventedChild), today());
    }
  }
  FileBytes bytes = bytes_of_file(wish.child, kChildLimits.bytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    unreadable.push_back(std::move(*finding));
    return {};
  }
  return child_from_json(std::get<std::string>(bytes), wish.child, today());
}

/// What a person typed, as text that a page may get: nothing in it that steers a page or hides.
Child as_printed(Child child) {
  Contacts& contacts = child.contacts;
  for (std::string* text : {&child.name, &contacts.clinic, &contacts.on_call, &contacts.second_adult_name,
                            &contacts.second_adult, &contacts.emergency, &contacts.address})
    *text = cleaned(*text);
  for (RescueMedicine& medicine : child.rescue) medicine.place = cleaned(medicine.place);
  for (ChildFood& food : child.foods) {
    for (std::string& name : food.name) name = cleaned(name);
    if (!food.measure) continue;
    for (std::string& name : food.measure->name) name = cleaned(name);
  }
  return child;
}

int put_sheet(const SheetWish& wish, const std::string& bytes, std::ostream& out, std::ostream& err) {
  if (wish.out.empty()) {
    out << bytes;
    return 0;
  }
  std::ofstream file(wish.out, std::ios::binary | std::ios::trunc);
  file << bytes;
  file.close();
  if (!file) return refuse_sheet(err, wish.out, NotWritten{"nothing can be put there", ""}, 2);
  return 0;
}

}  // namespace

int sheet_command(const SheetWish& wish, std::ostream& out, std::ostream& err) {
  const bool pdf = !wish.text && !wish.svg;
  if (pdf && wish.out.empty())
    return refuse_sheet(err, "sheet",
                        WrongUse{"a PDF needs a file to be written to", "write `--out FILE.pdf`, or `--text`"}, 2);
  std::optional<Day> day = today();
  if (!wish.on.empty()) day = day_from_text(wish.on);
  if (!day) return refuse_sheet(err, "--on", BadNumber{wish.on, "a day is written as YYYY-MM-DD"}, 2);
  std::vector<Finding> unreadable;
  Read<Child> read = child_for(wish, unreadable);
  if (!read.value) {
    const std::vector<Finding>& findings = unreadable.empty() ? read.findings : unreadable;
    print_findings(err, findings, {});
    return exit_status_of(findings);
  }
  Child child = as_printed(std::move(*read.value));
  child.language = language_named(wish.language).value_or(child.language);
  const ProtocolSet set = read_set(set_in_use(wish.protocols, wish.set, &child, wish.child));
  if (has_error(set.findings)) {
    print_findings(err, set.findings, set.texts);
    return exit_status_of(set.findings);
  }
  std::vector<std::string> known;
  for (const LoadedProtocol& loaded : set.protocols) known.push_back(loaded.checked.protocol().name);
  const LoadedProtocol* low = set.find("low");
  if (low == nullptr) return refuse_sheet(err, "sheet", UnknownId{"low", "protocol", known}, 1);
  std::vector<CheckedProtocol> further;
  for (const std::string& id : wish.also) {
    const LoadedProtocol* protocol = set.find(id);
    if (protocol == nullptr || protocol == low)
      return refuse_sheet(err, "--also", UnknownId{id, "further protocol", known}, 2);
    further.push_back(protocol->checked);
  }
  const std::optional<Sheet> sheet = sheet_of(low->checked, further, child, *day);
  if (!sheet)
    return refuse_sheet(err, low->file,
                        WrongUse{"protocol `low` holds no low that paper could follow",
                                 "ask the glucose after `awake`, and give a measured amount by mouth"},
                        1);
  if (!sheet->valid_until) err << cleaned(sheet->validity) << '\n';
  if (wish.text) return put_sheet(wish, text_from_sheet(*sheet), out, err);
  const std::optional<Printed> printed = printed_sheet(*sheet, wish.paper, wish.svg);
  if (!printed)
    return refuse_sheet(err, "sheet",
                        WrongUse{"`rushlight-paper.so` is not beside the program, or does not work here",
                                 "write the plain text with `--text`"},
                        2);
  for (const std::string& warning : printed->warnings) err << cleaned(warning) << '\n';
  return printed->bytes.empty() ? 2 : put_sheet(wish, printed->bytes, out, err);
}

}  // namespace rushlight
