#include "read/root_values.hpp"

#include <algorithm>
#include <optional>

#include "read/vetted_bytes.hpp"

namespace rushlight {

Read<std::string> with_root_values(const std::string& bytes, const std::string& file,
                                   const std::vector<std::pair<std::string, std::string>>& values) {
  Read<VettedXml> vetted = vet_xml(bytes, file);
  if (!vetted.value) return {std::nullopt, std::move(vetted.findings)};
  const MappedElement& root = vetted.value->map.elements.front();
  std::vector<std::pair<Span, std::string>> changes;
  for (const auto& [name, value] : values) {
    const auto found =
        std::find_if(root.attributes.begin(), root.attributes.end(),
                     [&name = name](const MappedAttribute& attribute) { return attribute.name == name; });
    if (found == root.attributes.end()) {
      const Finding missing{Severity::error, where_of(root.name_place, file), MissingAttribute{name, root.name}, {}};
      return {std::nullopt, {missing}};
    }
    changes.emplace_back(found->value, value);
  }
  // From the last to the first, so that the places of the others stay right.
  std::sort(changes.begin(), changes.end(),
            [](const auto& one, const auto& two) { return one.first.begin > two.first.begin; });
  std::string text = bytes;
  for (const auto& [span, value] : changes) text.replace(span.begin, span.end - span.begin, value);
  return {std::move(text), {}};
}

std::string root_name(const std::string& bytes) {
  const Read<VettedXml> vetted = vet_xml(bytes, "");
  return vetted.value ? vetted.value->map.elements.front().name : "";
}

}  // namespace rushlight
