#include "cli/page_command.hpp"

#include <filesystem>
#include <functional>
#include <ostream>

#include "cli/child_file.hpp"
#include "cli/data_folder.hpp"
#include "cli/language.hpp"
#include "cli/page/clinic_files.hpp"
#include "cli/page/page_files.hpp"
#include "cli/page_server.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/private_file.hpp"
#include "cli/refusals.hpp"
#include "cli/set_in_use.hpp"
#include "cli/shell_word.hpp"
#include "cli/today.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

constexpr const char* kWhoseEyes =
    "It holds the child's name, weight and telephone numbers. Whoever has the file or the address can read them.\n";
constexpr const char* kForPhones = "A phone keeps it only from an https address.\n";

int refuse(std::ostream& err, const std::vector<Finding>& findings, const FileTexts& texts) {
  print_findings(err, findings, texts);
  return exit_status_of(findings);
}

constexpr const char* kNobodysData =
    "It holds the set's numbers and no child's data. Nothing changes in the set until its table is taken in:\n"
    "  rushlight thresholds SET --from FILE.csv\n";

/// What is to be made, whichever page it is: only what was asked for is put together.
struct Made {
  std::function<std::vector<PageFile>()> files;
  std::function<std::string()> single;
  const char* told;            // behind its size
  const char* of_folder = "";  // behind the folder's rights
};

int tell_size(std::ostream& out, const std::string& where, std::size_t bytes, const Made& made) {
  out << "Made: " << cleaned(where) << " (" << bytes / 1000 << " kB).\n" << made.told;
  return 0;
}

/// The folder is new, or empty: a page that is half old and half new would be worse than none.
int write_folder(const std::string& folder, const Made& made, std::ostream& out, std::ostream& err) {
  std::error_code error;
  if (fs::exists(folder, error) && !(fs::is_directory(folder, error) && fs::is_empty(folder, error)))
    return tell_refusal(err, cannot_do(folder, "`" + folder + "` is already there and stays as it is",
                                       "move it away first, or give another name with --out"));
  std::size_t bytes = 0;
  for (const PageFile& file : made.files()) {
    bytes += file.bytes.size();
    if (const auto failed = write_private_file((fs::path(folder) / file.name).string(), file.bytes))
      return tell_refusal(err, *failed);
  }
  tell_size(out, folder, bytes, made);
  out << "Only you can read the folder. For a web server that runs as somebody else: chmod -R a+rX "
      << cleaned(shell_word(folder)) << '\n'
      << made.of_folder;
  return 0;
}

int write_single(const std::string& path, const Made& made, std::ostream& out, std::ostream& err) {
  const std::string page = made.single();
  if (const auto failed = write_private_file(path, page)) return tell_refusal(err, *failed);
  return tell_size(out, path, page.size(), made);
}

int give_out(const PageOptions& options, const Made& made, std::ostream& out, std::ostream& err) {
  if (!options.out.empty()) return write_folder(options.out, made, out, err);
  if (!options.single.empty()) return write_single(options.single, made, out, err);
  return serve_page(made.files(), out, err);
}

/// As somebody who stands in the folder above would call it. No way on this machine travels in a page.
std::string name_of_set(const ProtocolSet& set, const SetInUse& use) {
  if (use.folder.empty() || set.texts.empty()) return use.name;
  std::error_code error;
  return fs::weakly_canonical(set.texts.begin()->first, error).parent_path().filename().string();
}

int make_clinic_page(const PageOptions& options, std::ostream& out, std::ostream& err) {
  const SetInUse use = set_in_use(options.protocols, options.set, nullptr, "");
  const ProtocolSet set = read_set(use);
  const Read<ClinicData> data = clinic_data(set);
  if (!data.value) return refuse(err, data.findings, set.texts);
  const Language language = language_named(options.language).value_or(language_of_machine());
  const ClinicWish wish{set, name_of_set(set, use), use.folder.empty(), language, today()};
  return give_out(options,
                  {[&] { return clinic_files(wish, *data.value); },
                   [&] { return single_clinic_page(wish, *data.value); }, kNobodysData},
                  out, err);
}

}  // namespace

int page_command(const PageOptions& options, std::ostream& out, std::ostream& err) {
  const int wishes = (options.out.empty() ? 0 : 1) + (options.single.empty() ? 0 : 1) + (options.serve ? 1 : 0);
  if (wishes != 1)
    return tell_no_use(err, cannot_do("page", "where the page is to go is not said once",
                                      "give one of --out DIR, --single FILE and --serve"));
  if (!has_page())
    return tell_no_use(
        err, cannot_do("page", "this program was built without the page", "install emscripten, and build it again"));
  if (options.clinic) return make_clinic_page(options, out, err);
  const std::string child_path = options.child.empty() ? usual_child_file() : options.child;
  const ChildFile child = options.demo_child ? demo_child(today()) : child_in(child_path);
  if (!child.child) return refuse(err, child.findings, {{child_path, child.bytes}});
  const SetInUse use = set_in_use(options.protocols, options.set, &*child.child, child_path);
  const ProtocolSet set = read_set(use);
  if (has_error(set.findings)) return refuse(err, set.findings, set.texts);
  const Language language = language_named(options.language).value_or(child.child->language);
  const PageWish wish{set, child.bytes, language, text_from_day(today())};
  return give_out(
      options, {[&] { return page_files(wish); }, [&] { return single_page(wish); }, kWhoseEyes, kForPhones}, out, err);
}

}  // namespace rushlight
