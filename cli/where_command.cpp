#include "cli/where_command.hpp"

#include <filesystem>
#include <ostream>

#include "cli/child_file.hpp"
#include "cli/data_folder.hpp"
#include "cli/plain_text.hpp"
#include "cli/set_approval.hpp"
#include "cli/set_in_use.hpp"
#include "cli/settings_folder.hpp"
#include "cli/today.hpp"
#include "cli/trusted_keys.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

struct UsedPlace {
  const char* id;
  const char* words;
  std::string path;
  bool there;
};

bool is_there(const std::string& path) {
  std::error_code error;
  return !path.empty() && std::filesystem::exists(path, error);
}

std::string because(SetInUse::Why why) {
  switch (why) {
    case SetInUse::Why::option_protocols:
      return "--protocols names it";
    case SetInUse::Why::option_set:
      return "--set names it";
    case SetInUse::Why::child_protocols:
      return "`protocols` of the child file names it";
    case SetInUse::Why::child_set:
      return "`set` of the child file names it, or it names none";
    case SetInUse::Why::nothing_said:
      break;
  }
  return "nothing names another, and there is no child file that can be read";
}

constexpr const char* kOrder[] = {"--protocols DIR", "--set NAME", "`protocols` of the child file: a folder",
                                  "`set` of the child file: a set inside the program",
                                  "the set `reference` inside the program"};

}  // namespace

int where_command(const WhereWish& wish, std::ostream& out) {
  const std::string child_file = wish.child.empty() ? usual_child_file() : wish.child;
  const std::optional<Child> child = child_in(child_file).child;
  const SetInUse use = set_in_use(wish.protocols, wish.set, child ? &*child : nullptr, child_file);
  const ProtocolSet set = read_set(use);
  const std::string set_text = use.folder.empty() ? "`" + use.name + "`, inside the program" : use.folder;
  const bool readable = !has_error(set.findings);
  const std::optional<Approval> approval = set.sealed ? approval_of_set(*set.sealed) : std::nullopt;
  const bool is_missing = !use.folder.empty() && !is_there(use.folder);
  const std::string approved =
      is_missing
          ? "There is no such folder. Look at how it is spelled, and from where: a name alone is looked for here."
      : readable ? approval_text(approval, today(), Language::en)
                 : "It cannot be walked: rushlight check tells why.";

  std::vector<UsedPlace> places = {{"settings", "settings", settings_folder(), false},
                                   {"keys", "trusted keys", trusted_keys_folder(), false},
                                   {"secret_key", "clinic's secret key", usual_secret_key_file(), false},
                                   {"data", "data", data_folder(), false},
                                   {"child", "child file", child_file, false},
                                   {"journal", "journal", usual_journal_file(), false}};
  for (UsedPlace& place : places) place.there = is_there(place.path);
  const std::size_t keys = trusted_keys().size();

  if (wish.json) {
    JsonWriter json;
    json.begin_object();
    for (const UsedPlace& place : places)
      json.key(place.id).begin_object().key("path").text(place.path).key("there").boolean(place.there).end_object();
    json.key("trusted_keys").whole(static_cast<long long>(keys)).key("set").begin_object();
    json.key("folder").text(use.folder).key("name").text(use.name).key("why").text(because(use.why));
    json.key("can_be_walked").boolean(readable).key("approval").text(id_of(approval_state(approval, today())));
    json.end_object().key("search_order").begin_list();
    for (const char* step : kOrder) json.text(step);
    out << json.end_list().end_object().json() << '\n';
    return readable ? 0 : 1;
  }
  constexpr std::size_t kWide = 21;
  const auto line = [&](const std::string& words, const std::string& what) {
    out << words << std::string(kWide - words.size(), ' ') << cleaned(what) << '\n';
  };
  for (const UsedPlace& place : places) {
    const std::string path = place.path.empty() ? "no home folder" : place.path;
    line(place.words, path + (place.there || place.path.empty() ? "" : "  (not there)"));
  }
  line("trusted keys in all", std::to_string(keys));
  line("set in use", set_text);
  line("", "because " + because(use.why));
  line("", approved);
  out << "The set is looked for in this order; the first that is named counts:\n";
  int number = 0;
  for (const char* step : kOrder) out << "  " << ++number << ". " << step << '\n';
  return readable ? 0 : 1;
}

}  // namespace rushlight
