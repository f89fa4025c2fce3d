#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/import_command.hpp"
#include "cli/page_command.hpp"

namespace rushlight {

void describe_page(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<PageOptions>();
  CLI::App* page = app.add_subcommand(
      "page", "Make the walk for a phone, or the clinic's numbers for a browser: it then works with no network");
  CLI::Option* child = page->add_option("--child", wish->child, "The child file (see: rushlight child new)");
  child->type_name("FILE");
  CLI::Option* demo = page->add_flag("--demo-child", wish->demo_child, "Practise with an invented child");
  demo->excludes(child);
  page->add_flag("--clinic", wish->clinic, "The page for the clinic: change numbers and see what follows")
      ->excludes(child)
      ->excludes(demo);
  page->add_option("--protocols", wish->protocols, "A folder with the clinic's protocols")->type_name("DIR");
  page->add_option("--set", wish->set, "One of the sets inside the program, such as reference")
      ->type_name("NAME-OF-SET");
  CLI::Option* out = page->add_option("--out", wish->out, "The folder to make, for a web server");
  out->type_name("DIR");
  CLI::Option* single = page->add_option("--single", wish->single, "The one file to make, to be opened from a disk");
  single->type_name("FILE")->excludes(out);
  page->add_flag("--serve", wish->serve, "Try it out in a browser on this machine")->excludes(out)->excludes(single);
  page->add_option("--lang", wish->language, "Language that the page begins in: en or es")
      ->check(CLI::IsMember({"en", "es"}));
  say_exit_statuses(*page, "made, or tried out",
                    "something is there already, or the set or the child file was refused");
  commands.push_back({page, [wish] { return page_command(*wish, std::cout, std::cerr); }});

  const auto night = std::make_shared<ImportOptions>();
  CLI::App* import =
      app.add_subcommand("import", "Take a night from the phone into the journal, and go on with it here");
  import->add_option("file", night->file, "The file that the page saved")->required()->type_name("FILE");
  import->add_option("--journal", night->journal, "The file that keeps every answer")->type_name("FILE");
  say_exit_statuses(*import, "taken, or there already", "it is no night of the page, or does not fit what is here");
  commands.push_back({import, [night] { return import_command(*night, std::cout, std::cerr); }});
}

}  // namespace rushlight
