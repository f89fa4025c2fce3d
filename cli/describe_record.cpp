#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/plan_command.hpp"
#include "cli/record_command.hpp"

namespace rushlight {

void describe_record(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<RecordWish>();
  CLI::App* record = app.add_subcommand("record", "Write an episode from the journal for the clinic");
  record->add_option("--out", wish->out, "The file to write; a PDF needs one")->type_name("FILE");
  CLI::Option* text = record->add_flag("--text", wish->text, "Plain text, 80 columns wide");
  record->add_flag("--fhir", wish->fhir, "An HL7 FHIR R4 Bundle of the readings")->excludes(text);
  record->add_option("--days", wish->days, "All episodes of the last days, and what they show")->type_name("NUMBER");
  record->add_option("--paper", wish->paper, "The paper")->check(CLI::IsMember({"A4", "Letter"}));
  record->add_option("--child", wish->child, "The child file")->type_name("FILE");
  record->add_option("--journal", wish->journal, "The file that keeps every answer")->type_name("FILE");
  record->add_option("--lang", wish->language, "Language of the record: en or es")->check(CLI::IsMember({"en", "es"}));
  say_exit_statuses(*record, "the record is made", "there is no episode, or it cannot be walked any more");
  commands.push_back({record, [wish] { return record_command(*wish, std::cout, std::cerr); }});
}

void describe_plan(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<PlanWish>();
  CLI::App* plan = app.add_subcommand("plan", "Write the coming checks for the phone's calendar, with alarms");
  plan->add_option("--out", wish->out, "The file to write, like checks.ics; otherwise it is printed")
      ->type_name("FILE");
  plan->add_option("--child", wish->child, "The child file")->type_name("FILE");
  plan->add_option("--journal", wish->journal, "The file that keeps every answer")->type_name("FILE");
  plan->add_option("--lang", wish->language, "Language of the alarms: en or es")->check(CLI::IsMember({"en", "es"}));
  say_exit_statuses(*plan, "the file is made", "no episode is open, or no check is coming");
  commands.push_back({plan, [wish] { return plan_command(*wish, std::cout, std::cerr); }});
}

}  // namespace rushlight
