#include "cli/page/clinic_files.hpp"

#include "seal/sum.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

// In the order in which they are run; the data of the set and the engine stand before them.
constexpr const char* kClinicScripts[] = {"elements.js",    "clinic-words.js", "clinic-form.js",
                                          "clinic-told.js", "clinic-map.js",   "clinic.js"};

std::string data_script_of(const ClinicWish& wish, const ClinicData& data) {
  return "window.rushlightClinic = " + json_from_clinic(wish, data) + ";\n";
}

/// The engine runs beside the page, in a worker. Its script is made from this text, in the folder too: only then does
/// the page's own policy hold for it.
std::string engine_script() {
  JsonWriter text;
  text.text(page_part("clinic-engine.js") + "\n" + page_part("clinic-worker.js"));
  return "window.rushlightClinicEngine = " + in_script(text.json()) + ";\n";
}

std::string clinic_html(const ClinicWish& wish, const std::string& scripts_from, const std::string& style_from,
                        const std::string& also_from, const std::string& head, const std::string& scripts) {
  const bool es = wish.language == Language::es;
  std::string html = page_part("clinic.html");
  html = filled_in(std::move(html), "@LANGUAGE@", es ? "es" : "en");
  html = filled_in(std::move(html), "@SCRIPTS_FROM@", scripts_from);
  html = filled_in(std::move(html), "@STYLE_FROM@", style_from);
  html = filled_in(std::move(html), "@ALSO_FROM@", also_from);
  html = filled_in(std::move(html), "@HEAD@", head);
  html = filled_in(
      std::move(html), "@LOADING@",
      es ? "Cargando. Si esto no cambia, este navegador no puede mostrar los números: use rushlight thresholds."
         : "Loading. If this stays, this browser cannot show the numbers: use rushlight thresholds.");
  return filled_in(std::move(html), "@SCRIPTS@", scripts);
}

}  // namespace

std::vector<PageFile> clinic_files(const ClinicWish& wish, const ClinicData& data) {
  std::vector<PageFile> files;
  std::string scripts;
  const auto add_script = [&](const std::string& name, std::string bytes) {
    scripts += "<script src=\"" + name + "\" defer></script>\n";
    files.push_back({name, kScriptType, std::move(bytes)});
  };
  add_script("clinic-data.js", data_script_of(wish, data));
  add_script("clinic-engine.js", engine_script());
  for (const char* name : kClinicScripts) add_script(name, page_part(name));
  files.push_back({"clinic.css", "text/css; charset=utf-8", page_part("clinic.css")});
  files.push_back({"icon.svg", "image/svg+xml", page_part("icon.svg")});
  const std::string head =
      "<link rel=\"stylesheet\" href=\"clinic.css\">\n<link rel=\"icon\" href=\"icon.svg\" type=\"image/svg+xml\">";
  files.push_back(
      {"index.html", "text/html; charset=utf-8", clinic_html(wish, "'self'", "'self'", "'self'", head, scripts)});
  // For people, and for `rushlight check`: what the page was made from.
  for (const KeptFile& file : data.files) files.push_back({"set/" + file.name, "application/xml", file.bytes});
  return files;
}

std::string single_clinic_page(const ClinicWish& wish, const ClinicData& data) {
  std::vector<std::string> scripts{data_script_of(wish, data), engine_script()};
  for (const char* name : kClinicScripts) scripts.push_back(page_part(name));
  const InOneFile one = in_one_file(scripts, page_part("clinic.css"));
  return clinic_html(wish, one.script_sums, one.style_sum, "", one.style, one.scripts);
}

}  // namespace rushlight
