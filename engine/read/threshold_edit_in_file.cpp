#include "protocol/resolve.hpp"
#include "read/protocol_from_xml.hpp"
#include "read/threshold_edit.hpp"

namespace rushlight {

Read<EditedProtocol> threshold_edit(std::string_view bytes, const std::string& file_name,
                                    const std::vector<ThresholdChange>& changes) {
  const Read<Draft> draft = protocol_from_xml(bytes, file_name);
  if (!draft.value || has_error(draft.findings)) return {std::nullopt, draft.findings};
  const Read<Protocol> protocol = resolve(*draft.value);
  if (!protocol.value) return {std::nullopt, protocol.findings};
  return threshold_edit(bytes, *draft.value, *protocol.value, changes);
}

}  // namespace rushlight
