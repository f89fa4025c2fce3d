#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

struct PageFile {
  std::string name;  // below the folder: "index.html", "set/low.xml"
  std::string type;  // as a web server says it
  std::string bytes;
};

inline constexpr const char* kScriptType = "text/javascript; charset=utf-8";

// What the walk's page and the clinic's are put together with.

/// A part of a page as it travels inside the program; empty when the program was built without it.
std::string page_part(std::string_view name);

/// The text with every `blank` filled in.
std::string filled_in(std::string text, const std::string& blank, const std::string& with);

/// The text with everything that HTML would take for markup written as a reference.
std::string html_text(const std::string& text);

/// JSON with no letter that ends a script or begins a comment in HTML.
std::string in_script(std::string json);

/// The scripts and the style of a page as one file holds them, with the SHA-256 of each for its policy.
struct InOneFile {
  std::string scripts, style;          // elements
  std::string script_sums, style_sum;  // "'sha256-...' 'sha256-...'"
};
InOneFile in_one_file(const std::vector<std::string>& scripts, const std::string& style);

}  // namespace rushlight
