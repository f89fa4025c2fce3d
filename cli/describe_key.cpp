#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/key_command.hpp"
#include "cli/language.hpp"

namespace rushlight {

void describe_key(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<KeyWish>();
  wish->language = language_of_machine();
  CLI::App* key = app.add_subcommand("key", "The clinic's key, and the keys that this machine trusts");
  key->require_subcommand(1);
  say_exit_statuses(*key, "done", "refused, or the answer was no");
  const auto add = [&](const char* name, const char* words, const char* done, const char* refused,
                       int (*does)(const KeyWish&, std::ostream&, std::ostream&)) {
    CLI::App* command = key->add_subcommand(name, words);
    say_exit_statuses(*command, done, refused);
    commands.push_back({command, [wish, does] { return does(*wish, std::cout, std::cerr); }});
    return command;
  };

  CLI::App* make = add("new", "Make the clinic's key: a file under a passphrase", "the key is made",
                       "a key is there already, or the passphrase is too short", key_new);
  make->add_option("--out", wish->secret, "The file to write; nothing may be there yet")->type_name("FILE");
  make->add_option("--passphrase-file", wish->passphrase_file, "For scripts: a file whose first line is the passphrase")
      ->type_name("FILE");

  CLI::App* show = add("show", "Show the clinic's public key and its fingerprint", "shown",
                       "others may read the key, or the file to write is there already", key_show);
  show->add_option("--key", wish->secret, "The file of the secret key, when it is not the usual one")
      ->type_name("FILE");
  show->add_option("--out", wish->out, "Write the public key to this file, for families")->type_name("FILE");

  CLI::App* trust = add("trust", "Trust a clinic's public key at this machine", "the key is trusted",
                        "the answer was no, or this is no public key", key_trust);
  trust->add_option("key", wish->key, "The file from the clinic, or the key as 64 hexadecimal digits")
      ->required()
      ->type_name("FILE");
  trust->add_option("--name", wish->name, "What to call it here; otherwise the name of the file")->type_name("NAME");
  trust->add_flag("--yes", wish->yes, "For scripts only: do not ask to compare the fingerprint");

  CLI::App* list = add("list", "List the keys that this machine trusts", "listed", "cannot happen", key_list);
  list->add_flag("--json", wish->json, "Print one JSON document");

  CLI::App* forget =
      add("forget", "No longer trust a key", "the key is forgotten", "no such key, or the answer was no", key_forget);
  forget->add_option("key", wish->key, "Its name here, or the key as 64 hexadecimal digits")
      ->required()
      ->type_name("NAME");
  forget->add_flag("--yes", wish->yes, "For scripts only: do not ask");
}

}  // namespace rushlight
