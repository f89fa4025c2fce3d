#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/where_command.hpp"

namespace rushlight {

void describe_where(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<WhereWish>();
  CLI::App* where = app.add_subcommand("where", "Say which folders, files and set are used, and why");
  where->add_option("--child", wish->child, "As if this were the child file")->type_name("FILE");
  where->add_option("--protocols", wish->protocols, "As if --protocols were given")->type_name("DIR");
  where->add_option("--set", wish->set, "As if --set were given")->type_name("NAME-OF-SET");
  where->add_flag("--json", wish->json, "Print one JSON document");
  say_exit_statuses(*where, "shown, and the set can be walked", "shown, and the set in use cannot be walked");
  commands.push_back({where, [wish] { return where_command(*wish, std::cout); }});
}

}  // namespace rushlight
