#pragma once

#include <span>
#include <string_view>

namespace rushlight {

/// A file of the folder protocols/ that travels inside the program.
struct EmbeddedFile {
  std::string_view path;   // below protocols/: "reference/low.xml", "demo-child.json"
  std::string_view bytes;  // as on disk when the program was built
};

/// Every embedded file, by path. Written by the build from protocols/ (cli/embed.cmake).
std::span<const EmbeddedFile> embedded_files();

/// What the handheld page is made of, by name. `engine.js` is empty in a program that was built without emscripten.
/// Written by the build from cli/page.
std::span<const EmbeddedFile> page_parts();

}  // namespace rushlight
