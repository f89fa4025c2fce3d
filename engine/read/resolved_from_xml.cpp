#include "read/resolved_from_xml.hpp"

#include <utility>

#include "read/protocol_from_xml.hpp"

namespace rushlight {

Read<Protocol> resolved_from_xml(std::string_view bytes, std::string file_name) {
  return resolved_draft(protocol_from_xml(bytes, std::move(file_name)));
}

}  // namespace rushlight
