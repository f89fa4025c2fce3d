#include "wire/kept_set.hpp"

#include "measure/decimal.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kFirstWords = "rushlight set ";  // then how many; no protocol begins so

Finding damaged(const std::string& name) {
  return Finding{
      Severity::error, Where{name, 0, 0, 0}, JournalDamaged{"the files of the set cannot be told apart"}, {}};
}

std::optional<std::size_t> whole_from(std::string_view text) {
  const auto read = decimal_from_text(text);
  const auto* number = std::get_if<Decimal>(&read);
  if (number == nullptr || *number < Decimal{} || number->micros() % Decimal::kMicrosPerOne != 0) return std::nullopt;
  return static_cast<std::size_t>(number->micros() / Decimal::kMicrosPerOne);
}

/// The front of `rest` up to `end`, which goes with it.
std::optional<std::string_view> taken_to(std::string_view& rest, char end) {
  const std::size_t at = rest.find(end);
  if (at == std::string_view::npos) return std::nullopt;
  const std::string_view taken = rest.substr(0, at);
  rest.remove_prefix(at + 1);
  return taken;
}

/// "12 low.xml\n" and so many bytes, taken from the front of `rest`.
std::optional<KeptFile> next_file(std::string_view& rest) {
  const auto number = taken_to(rest, ' ');
  const auto name = number ? taken_to(rest, '\n') : std::nullopt;
  const auto size = number ? whole_from(*number) : std::nullopt;
  if (!name || !size || rest.size() < *size) return std::nullopt;
  KeptFile file{std::string(*name), std::string(rest.substr(0, *size))};
  rest.remove_prefix(*size);
  return file;
}

}  // namespace

std::string text_from_kept(const std::vector<KeptFile>& files, bool with_name) {
  if (files.size() == 1 && !with_name) return files.front().bytes;
  std::string text = std::string(kFirstWords) + std::to_string(files.size()) + "\n";
  for (const KeptFile& file : files)
    text.append(std::to_string(file.bytes.size()) + " " + file.name + "\n").append(file.bytes);
  return text;
}

Read<std::vector<KeptFile>> kept_from_text(const std::string& text, const std::string& name) {
  std::string_view rest = text;
  if (!rest.starts_with(kFirstWords)) return {std::vector<KeptFile>{KeptFile{name, text}}, {}};
  rest.remove_prefix(kFirstWords.size());
  const auto line = taken_to(rest, '\n');
  const auto count = line ? whole_from(*line) : std::nullopt;
  std::vector<KeptFile> files;
  while (count && files.size() < *count) {
    std::optional<KeptFile> file = next_file(rest);
    if (!file) break;
    files.push_back(std::move(*file));
  }
  if (!count || files.size() != *count || !rest.empty()) return {std::nullopt, {damaged(name)}};
  return {std::move(files), {}};
}

}  // namespace rushlight
