#include "wire/draft_model.hpp"

#include "protocol/draft_members.hpp"
#include "wire/model_text.hpp"

namespace rushlight {

namespace parts {

template <class Way>
void go(Way& way, SetDrafts& drafts) {
  auto& [protocols, laws, examples] = drafts;
  way(protocols, laws, examples);
}

}  // namespace parts

namespace {

constexpr std::string_view kDraftsHead = "rushlight-drafts 1 ";

}  // namespace

std::string text_from_drafts(SetDrafts drafts) {
  parts::ModelWriting<parts::Places::kept> writing;
  writing(drafts);
  return writing.text(kDraftsHead);
}

Read<SetDrafts> drafts_from_text(std::string_view text) {
  return parts::model_from_text<parts::Places::kept, SetDrafts>(text, kDraftsHead);
}

}  // namespace rushlight
