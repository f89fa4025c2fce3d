#include "cli/page/page_frame.hpp"

#include "cli/embedded.hpp"
#include "seal/sum.hpp"

namespace rushlight {

std::string page_part(std::string_view name) {
  for (const EmbeddedFile& file : page_parts()) {
    if (file.path == name) return std::string(file.bytes);
  }
  return "";
}

std::string filled_in(std::string text, const std::string& blank, const std::string& with) {
  for (std::size_t at = 0; (at = text.find(blank, at)) != std::string::npos; at += with.size())
    text.replace(at, blank.size(), with);
  return text;
}

std::string html_text(const std::string& text) {
  std::string html = filled_in(text, "&", "&amp;");
  html = filled_in(std::move(html), "<", "&lt;");
  html = filled_in(std::move(html), ">", "&gt;");
  return filled_in(std::move(html), "\"", "&quot;");
}

std::string in_script(std::string json) {
  json = filled_in(std::move(json), "<", "\\u003c");
  json = filled_in(std::move(json), "\u2028", "\\u2028");
  return filled_in(std::move(json), "\u2029", "\\u2029");
}

InOneFile in_one_file(const std::vector<std::string>& scripts, const std::string& style) {
  InOneFile one;
  for (const std::string& script : scripts) {
    one.scripts += "<script>" + script + "</script>\n";
    one.script_sums += (one.script_sums.empty() ? "'sha256-" : " 'sha256-") + sha256_in_base64(script) + "'";
  }
  one.style = "<style>" + style + "</style>";
  one.style_sum = "'sha256-" + sha256_in_base64(style) + "'";
  return one;
}

}  // namespace rushlight
