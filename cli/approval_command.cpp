#include "cli/approval_command.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>

#include "cli/embedded.hpp"
#include "cli/language.hpp"
#include "cli/plain_text.hpp"
#include "cli/protocol_set.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"
#include "cli/say.hpp"
#include "cli/set_approval.hpp"
#include "cli/today.hpp"
#include "cli/trusted_keys.hpp"
#include "read/vetted_bytes.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

using Texts = std::map<std::string, std::string>;  // by name, without a folder

std::variant<Texts, Finding> texts_in_program(const std::string& set) {
  Texts texts;
  for (const EmbeddedFile& file : embedded_files()) {
    const fs::path path(file.path);
    if (path.parent_path() == set && path.extension() == ".xml") texts[path.filename().string()] = file.bytes;
  }
  if (texts.empty()) return whole_error(set, NotReadable{"it is neither a folder nor a set inside the program"});
  return texts;
}

std::variant<Texts, Finding> texts_of(const std::string& set) {
  std::error_code error;
  if (!fs::is_directory(set, error)) return texts_in_program(set);
  Texts texts;
  for (const std::string& file : files_of_set(set)) {
    FileBytes bytes = bytes_of_file(file, kMostBytes);
    if (auto* finding = std::get_if<Finding>(&bytes)) return std::move(*finding);
    texts[fs::path(file).filename().string()] = std::get<std::string>(std::move(bytes));
  }
  if (texts.empty()) return whole_error(set, NotReadable{"this folder holds no protocol (*.xml)"});
  return texts;
}

std::string id_of_state(Sealed::State state) {
  switch (state) {
    case Sealed::State::fits:
      return "as-approved";
    case Sealed::State::none:
      return "not-approved";
    case Sealed::State::changed:
      return "changed";
    case Sealed::State::missing:
      return "missing";
    case Sealed::State::other:
      return "other-approval";
    case Sealed::State::unknown:
      break;
  }
  return "added";
}

constexpr Both words_for(Sealed::State state) {
  switch (state) {
    case Sealed::State::fits:
      return {"as it was approved", "tal como se aprobó"};
    case Sealed::State::none:
      return {"not approved", "sin aprobar"};
    case Sealed::State::changed:
      return {"changed since it was approved", "cambió después de aprobarse"};
    case Sealed::State::missing:
      return {"was approved, and is gone", "se aprobó, y ya no está"};
    case Sealed::State::other:
      return {"holds another approval than the rest", "trae otra aprobación que el resto"};
    case Sealed::State::unknown:
      break;
  }
  return {"was not there when the set was approved", "no estaba cuando se aprobó"};
}

constexpr Both kBy{"  by           {1}", "  por          {1}"};
constexpr Both kDays{"  from, until  {1}, {2}", "  desde, hasta {1}, {2}"};
constexpr Both kKeyOf{"  key          {1} ({2})", "  clave        {1} ({2})"};
constexpr Both kTrustedHere{"trusted here", "aquí se confía en ella"};
constexpr Both kNotTrustedHere{"not trusted here", "aquí no se confía en ella"};

class Report {
 public:
  Report(const std::string& set, SealedSet sealed, std::vector<PublicKey> trusted, const Day& day)
      : set_(set), sealed_(std::move(sealed)), trusted_(std::move(trusted)), day_(day) {}

  int status() const { return state() == ApprovalState::approved ? 0 : 1; }

  void print(std::ostream& out, Language language) const {
    out << cleaned(set_) << ": " << cleaned(approval_text(approval_of_set(sealed_), day_, language)) << '\n';
    if (sealed_.approval) print_approval(out, *sealed_.approval, language);
    std::size_t widest = 0;
    for (const Sealed& file : sealed_.files) widest = std::max(widest, file.name.size());
    for (const Sealed& file : sealed_.files) {
      const std::string blanks(widest - file.name.size(), ' ');
      out << "  " << cleaned(file.name) << blanks << "  " << say(words_for(file.state), language) << '\n';
      const bool has_its_own = file.state == Sealed::State::other && file.approval;
      if (has_its_own) print_approval(out, *file.approval, language);
    }
  }

  void print_json(std::ostream& out) const {
    JsonWriter json;
    json.begin_object().key("set").text(set_).key("state").text(id_of(state()));
    json.key("text").text(approval_text(approval_of_set(sealed_), day_, Language::en));
    json.key("approval");
    write(json, sealed_.approval);
    json.key("files").begin_list();
    for (const Sealed& file : sealed_.files) {
      json.begin_object().key("name").text(file.name).key("state").text(id_of_state(file.state)).key("approval");
      write(json, file.approval);
      json.end_object();
    }
    out << json.end_list().end_object().json() << '\n';
  }

 private:
  ApprovalState state() const { return state_of_set(sealed_, day_); }

  bool is_trusted(const Approval& approval) const {
    const PublicKey key{approval.key};
    return std::find(trusted_.begin(), trusted_.end(), key) != trusted_.end();
  }

  void print_approval(std::ostream& out, const Approval& approval, Language language) const {
    out << say(kBy, language, cleaned(approval.by + " (" + approval.role + ")")) << '\n';
    out << say(kDays, language, text_from_day(approval.on), text_from_day(approval.until)) << '\n';
    const std::string trusted = say(is_trusted(approval) ? kTrustedHere : kNotTrustedHere, language);
    out << say(kKeyOf, language, fingerprint(PublicKey{approval.key}), trusted) << '\n';
  }

  void write(JsonWriter& json, const std::optional<Approval>& approval) const {
    if (!approval) {
      json.null();
      return;
    }
    json.begin_object().key("by").text(approval->by).key("role").text(approval->role);
    json.key("on").text(text_from_day(approval->on)).key("until").text(text_from_day(approval->until));
    json.key("key").text(approval->key).key("fingerprint").text(fingerprint(PublicKey{approval->key}));
    json.key("trusted").boolean(is_trusted(*approval)).end_object();
  }

  std::string set_;
  SealedSet sealed_;
  std::vector<PublicKey> trusted_;
  Day day_;
};

}  // namespace

int approval_command(const ApprovalWish& wish, std::ostream& out, std::ostream& err) {
  const auto read = texts_of(wish.set);
  if (const auto* finding = std::get_if<Finding>(&read)) return tell_refusal(err, *finding);
  std::vector<NamedBytes> files;
  for (const auto& [name, bytes] : std::get<Texts>(read)) files.push_back({name, bytes});
  const std::vector<PublicKey> trusted = trusted_keys();
  const Report report(wish.set, sealed_set(files, trusted), trusted, today());
  if (wish.json) {
    report.print_json(out);
  } else {
    report.print(out, language_of_machine());
  }
  return report.status();
}

}  // namespace rushlight
