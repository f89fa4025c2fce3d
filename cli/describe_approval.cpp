#include <iostream>
#include <memory>

#include "cli/approval_command.hpp"
#include "cli/describe.hpp"

namespace rushlight {

void describe_approval(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<ApprovalWish>();
  CLI::App* approval = app.add_subcommand("approval", "Say who approved a set, until when, and whether that holds");
  approval->add_option("set", wish->set, "The folder of the set, or a set inside the program")
      ->required()
      ->type_name("SET");
  approval->add_flag("--json", wish->json, "Print one JSON document");
  say_exit_statuses(*approval, "approved, in date, by a key that is trusted here",
                    "not approved, changed since, ended, not begun, or by a key that is not trusted here");
  commands.push_back({approval, [wish] { return approval_command(*wish, std::cout, std::cerr); }});
}

}  // namespace rushlight
