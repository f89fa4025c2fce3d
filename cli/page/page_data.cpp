#include "cli/page/page_data.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/page/page_frame.hpp"
#include "seal/sum.hpp"
#include "wire/json_writer.hpp"
#include "wire/protocol_model.hpp"

namespace rushlight {
namespace {

/// The files that an episode of this protocol keeps, by their own names.
std::vector<KeptFile> files_of(const LoadedProtocol& loaded) {
  const std::string own = std::filesystem::path(loaded.file).filename().string();
  std::vector<KeptFile> files = *kept_from_text(loaded.bytes, own).value;
  for (KeptFile& file : files) file.name = std::filesystem::path(file.name).filename().string();
  return files;
}

/// The text that a journal keeps, cut where a file begins and ends: texts, and the places of the files among `all`.
void write_kept(JsonWriter& json, const LoadedProtocol& loaded, const std::vector<KeptFile>& all) {
  const bool named = files_of(loaded).size() != 1 || text_from_kept(files_of(loaded)) != loaded.bytes;
  const std::string kept = text_from_kept(files_of(loaded), named);
  std::size_t from = 0;
  json.begin_list();
  for (const KeptFile& file : files_of(loaded)) {
    const std::size_t at = kept.find(file.bytes, from);
    if (at > from) json.text(kept.substr(from, at - from));
    const auto place =
        std::find_if(all.begin(), all.end(), [&](const KeptFile& each) { return each.name == file.name; });
    json.whole(place - all.begin());
    from = at + file.bytes.size();
  }
  if (from < kept.size()) json.text(kept.substr(from));
  json.end_list();
}

}  // namespace

PageData page_data(const PageWish& wish) {
  PageData data;
  std::vector<const Protocol*> protocols;
  // A low is what a night is most often about: it stands first, as in the terminal.
  std::vector<const LoadedProtocol*> loaded;
  for (const LoadedProtocol& each : wish.set.protocols) loaded.push_back(&each);
  std::stable_partition(loaded.begin(), loaded.end(),
                        [](const LoadedProtocol* each) { return each->checked.protocol().name == "low"; });
  for (const LoadedProtocol* each : loaded) {
    protocols.push_back(&each->checked.protocol());
    for (KeptFile& file : files_of(*each)) {
      const bool known = std::any_of(data.files.begin(), data.files.end(),
                                     [&](const KeptFile& other) { return other.name == file.name; });
      if (!known) data.files.push_back(std::move(file));
    }
  }
  const std::string model = text_from_protocols(protocols);
  std::string all = model + wish.child_bytes;
  for (const KeptFile& file : data.files) all += file.name + "\n" + file.bytes;
  data.sum = sha256_of(all);
  JsonWriter json;
  json.begin_object().key("sum").text(data.sum).key("made").text(wish.made).key("model").text(model);
  json.key("child").text(wish.child_bytes).key("files").begin_list();
  for (const KeptFile& file : data.files) {
    json.begin_object().key("name").text(file.name).key("sha256").text(sha256_of(file.bytes));
    json.key("bytes").text(file.bytes).end_object();
  }
  json.end_list().key("kept").begin_object();
  for (const LoadedProtocol* each : loaded) {
    json.key(each->checked.protocol().name);
    write_kept(json, *each, data.files);
  }
  data.json = in_script(json.end_object().end_object().json());
  return data;
}

}  // namespace rushlight
