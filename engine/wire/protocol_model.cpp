#include "wire/protocol_model.hpp"

#include "wire/model_text.hpp"
#include "wire/protocol_parts.hpp"

namespace rushlight {
namespace {

// The first words of the text. A later format has another number, so that an older engine refuses it.
constexpr std::string_view kModelHead = "rushlight-model 1 ";

}  // namespace

std::string text_from_protocols(const std::vector<const Protocol*>& protocols) {
  std::vector<Protocol> copies;
  for (const Protocol* each : protocols) copies.push_back(*each);
  parts::ModelWriting<parts::Places::left_out> writing;
  writing(copies);
  return writing.text(kModelHead);
}

Read<std::vector<Protocol>> protocols_from_text(std::string_view text) {
  return parts::model_from_text<parts::Places::left_out, std::vector<Protocol>>(text, kModelHead);
}

}  // namespace rushlight
