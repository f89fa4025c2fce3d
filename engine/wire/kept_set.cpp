#include "wire/kept_set.hpp"

#include "measure/decimal.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kFirstLine = "rushlight set\n";  // no protocol begins so

Finding damaged(const std::string& name) {
  return Finding{Severity::error, Where{name, 0, 0, 0}, JournalDamaged{"the files of the set cannot be told apart"}, {}};
}

/// "12 low.xml\n" and so many bytes, taken from the front of `rest`.
std::optional<KeptFile> next_file(std::string_view& rest) {
  const std::size_t blank = rest.find(' '), line = rest.find('\n');
  if (blank == std::string_view::npos || line == std::string_view::npos || blank > line) return std::nullopt;
  const auto read = decimal_from_text(rest.substr(0, blank));
  const auto* count = std::get_if<Decimal>(&read);
  if (count == nullptr || *count < Decimal{} || count->micros() % Decimal::kMicrosPerOne != 0) return std::nullopt;
  const auto size = static_cast<std::size_t>(count->micros() / Decimal::kMicrosPerOne);
  KeptFile file{std::string(rest.substr(blank + 1, line - blank - 1)), ""};
  rest.remove_prefix(line + 1);
  if (rest.size() < size) return std::nullopt;
  file.bytes = std::string(rest.substr(0, size));
  rest.remove_prefix(size);
  return file;
}

}  // namespace

std::string text_from_kept(const std::vector<KeptFile>& files) {
  if (files.size() == 1) return files.front().bytes;
  std::string text(kFirstLine);
  for (const KeptFile& file : files) text += std::to_string(file.bytes.size()) + " " + file.name + "\n" + file.bytes;
  return text;
}

Read<std::vector<KeptFile>> kept_from_text(const std::string& text, const std::string& name) {
  std::string_view rest = text;
  if (!rest.starts_with(kFirstLine)) return {std::vector<KeptFile>{KeptFile{name, text}}, {}};
  rest.remove_prefix(kFirstLine.size());
  std::vector<KeptFile> files;
  while (!rest.empty()) {
    std::optional<KeptFile> file = next_file(rest);
    if (!file) return {std::nullopt, {damaged(name)}};
    files.push_back(std::move(*file));
  }
  return {std::move(files), {}};
}

}  // namespace rushlight
