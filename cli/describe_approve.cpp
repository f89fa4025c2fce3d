#include <iostream>
#include <memory>

#include "cli/approve_command.hpp"
#include "cli/describe.hpp"

namespace rushlight {

void describe_approve(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<ApproveWish>();
  CLI::App* approve =
      app.add_subcommand("approve", "Sign every file of a clinic's set, after showing what is approved");
  approve->add_option("set", wish->set, "The folder of the set")->required()->type_name("DIR");
  approve->add_option("--as", wish->by, "Who approves it, as it stands on every screen")->required()->type_name("NAME");
  approve->add_option("--role", wish->role, "As what, like: pediatric endocrinologist")->required()->type_name("ROLE");
  approve->add_option("--until", wish->until, "The last day it counts, like 2027-03-01; at most 3 years away")
      ->required()
      ->type_name("DATE");
  approve->add_option("--key", wish->key, "The file of the clinic's secret key, when it is not the usual one")
      ->type_name("FILE");
  approve
      ->add_option("--passphrase-file", wish->passphrase_file, "For scripts: a file whose first line is the passphrase")
      ->type_name("FILE");
  approve->add_flag("--yes", wish->yes, "For scripts only: do not ask for the word approve");
  say_exit_statuses(*approve, "the set is approved",
                    "nothing was signed: the check finds an error, the passphrase is wrong, or the answer was no");
  commands.push_back({approve, [wish] { return approve_command(*wish, std::cout, std::cerr); }});
}

}  // namespace rushlight
