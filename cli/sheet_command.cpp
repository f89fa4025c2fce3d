#include "cli/sheet_command.hpp"

#include <ostream>

#include "cli/child_file.hpp"
#include "cli/language.hpp"
#include "cli/paper_module.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/refusals.hpp"
#include "cli/set_in_use.hpp"
#include "cli/sheet_text.hpp"
#include "cli/today.hpp"
#include "cli/written_out.hpp"
#include "sheet/sheet_of.hpp"

namespace rushlight {
namespace {

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

}  // namespace

int sheet_command(const SheetWish& wish, std::ostream& out, std::ostream& err) {
  const bool pdf = !wish.text && !wish.svg;
  if (pdf && wish.out.empty())
    return tell_no_use(
        err, cannot_do("sheet", "a PDF needs a file to be written to", "write `--out FILE.pdf`, or `--text`"));
  std::optional<Day> day = today();
  if (!wish.on.empty()) day = day_from_text(wish.on);
  if (!day) return tell_no_use(err, whole_error("--on", BadNumber{wish.on, "a day is written as YYYY-MM-DD"}));
  const ChildFile file = wish.child.empty() ? demo_child(*day) : child_in(wish.child);
  if (!file.child) return tell_refusal(err, file.findings);
  Child child = as_printed(*file.child);
  child.language = language_named(wish.language).value_or(child.language);
  const ProtocolSet set = read_set(set_in_use(wish.protocols, wish.set, &child, wish.child));
  if (has_error(set.findings)) {
    print_findings(err, set.findings, set.texts);
    return exit_status_of(set.findings);
  }
  std::vector<std::string> known;
  for (const LoadedProtocol& loaded : set.protocols) known.push_back(loaded.checked.protocol().name);
  const LoadedProtocol* low = set.find("low");
  if (low == nullptr) return tell_refusal(err, whole_error("sheet", UnknownId{"low", "protocol", known}));
  std::vector<CheckedProtocol> further;
  for (const std::string& id : wish.also) {
    const LoadedProtocol* protocol = set.find(id);
    if (protocol == nullptr || protocol == low)
      return tell_no_use(err, whole_error("--also", UnknownId{id, "further protocol", known}));
    further.push_back(protocol->checked);
  }
  const std::optional<Sheet> sheet = sheet_of(low->checked, further, child, *day);
  if (!sheet)
    return tell_refusal(err, cannot_do(low->file, "protocol `low` holds no low that paper could follow",
                                       "ask the glucose after `awake`, and give a measured amount by mouth"));
  if (!sheet->valid_until) err << cleaned(sheet->validity) << '\n';
  if (wish.text) return put_out(wish.out, text_from_sheet(*sheet), out, err);
  return put_printed(printed_sheet(*sheet, wish.paper, wish.svg), "sheet", wish.out, out, err);
}

}  // namespace rushlight
