#include "cli/page/page_files.hpp"

#include "cli/first_aid_card.hpp"
#include "cli/page/page_frame.hpp"
#include "cli/png_module.hpp"
#include "seal/sum.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

// In the order in which they are run; the data of the plan stands before them.
constexpr const char* kScripts[] = {"words.js", "drawings.js", "elements.js", "face.js",    "before.js",
                                    "back.js",  "panels.js",   "alarm.js",    "journal.js", "pad.js",
                                    "calls.js", "engine.js",   "page.js"};

std::string data_script(const PageData& data) { return "window.rushlightData = " + data.json + ";\n"; }

/// What the page may use, and from where; all else is refused (page.html).
struct Policy {
  std::string scripts, style, also;
};

/// The frame of the page. Until the engine runs, and when it cannot, the first-aid card stands there in both languages.
std::string page_html(const PageWish& wish, const Policy& policy, const std::string& head, const std::string& scripts) {
  const bool es = wish.language == Language::es;
  std::string html = page_part("page.html");
  html = filled_in(std::move(html), "@LANGUAGE@", es ? "es" : "en");
  html = filled_in(std::move(html), "@SCRIPTS_FROM@", policy.scripts);
  html = filled_in(std::move(html), "@STYLE_FROM@", policy.style);
  html = filled_in(std::move(html), "@ALSO_FROM@", policy.also);
  html = filled_in(std::move(html), "@HEAD@", head);
  html = filled_in(std::move(html), "@LOADING@",
                   es ? "Cargando. Si la página no arranca, esta tarjeta se queda."
                      : "Loading. This card stays if the page cannot start.");
  html = filled_in(std::move(html), "@CARD_EN@", html_text(first_aid_card(Language::en)));
  html = filled_in(std::move(html), "@CARD_ES@", html_text(first_aid_card(Language::es)));
  return filled_in(std::move(html), "@SCRIPTS@", scripts);
}

/// An icon as many dots wide, where the part of the program that draws PNG is there.
std::optional<std::string> icon_png(int dots) {
  constexpr int kDotsPerInch = 200, kCssPerInch = 96;  // as png_by_module draws, and as SVG counts
  const std::string width =
      text_from_decimal(quotient(Decimal::whole(dots * kCssPerInch), Decimal::whole(kDotsPerInch)));
  return png_by_module(
      filled_in(page_part("icon.svg"), "<svg ", "<svg width=\"" + width + "\" height=\"" + width + "\" "));
}

std::string manifest(const PageWish& wish, const std::vector<int>& icons) {
  JsonWriter json;
  json.begin_object().key("name").text("Rushlight").key("short_name").text("Rushlight").key("start_url").text("./");
  json.key("scope").text("./").key("display").text("standalone").key("background_color").text("#0d0f11");
  json.key("theme_color").text("#0d0f11").key("lang").text(wish.language == Language::es ? "es" : "en");
  json.key("icons").begin_list();
  json.begin_object()
      .key("src")
      .text("icon.svg")
      .key("sizes")
      .text("any")
      .key("type")
      .text("image/svg+xml")
      .end_object();
  for (const int dots : icons) {
    const std::string size = std::to_string(dots);
    json.begin_object().key("src").text("icon-" + size + ".png").key("sizes").text(size + "x" + size);
    json.key("type").text("image/png").end_object();
  }
  return json.end_list().end_object().json() + "\n";
}

}  // namespace

bool has_page() { return !page_part("engine.js").empty(); }

std::vector<PageFile> page_files(const PageWish& wish) {
  const PageData data = page_data(wish);
  std::vector<PageFile> files;
  const auto add = [&](const std::string& name, const char* type, std::string bytes) {
    files.push_back({name, type, std::move(bytes)});
  };
  std::string scripts = "<script src=\"data.js\" defer></script>\n";
  for (const char* name : kScripts) scripts += "<script src=\"" + std::string(name) + "\" defer></script>\n";
  add("page.css", "text/css; charset=utf-8", page_part("page.css"));
  add("data.js", kScriptType, data_script(data));
  for (const char* name : kScripts) add(name, kScriptType, page_part(name));
  add("icon.svg", "image/svg+xml", page_part("icon.svg"));
  std::vector<int> icons;
  for (const int dots : {192, 512}) {
    std::optional<std::string> png = icon_png(dots);
    if (!png) continue;
    add("icon-" + std::to_string(dots) + ".png", "image/png", std::move(*png));
    icons.push_back(dots);
  }
  add("manifest.webmanifest", "application/manifest+json", manifest(wish, icons));
  std::string head =
      "<link rel=\"stylesheet\" href=\"page.css\">\n<link rel=\"manifest\" href=\"manifest.webmanifest\">\n"
      "<link rel=\"icon\" href=\"icon.svg\" type=\"image/svg+xml\">";
  if (!icons.empty()) head += "\n<link rel=\"apple-touch-icon\" href=\"icon-192.png\">";
  const Policy policy{"'self'", "'self'", "img-src 'self'; manifest-src 'self'; worker-src 'self'; "};
  add("index.html", "text/html; charset=utf-8", page_html(wish, policy, head, scripts));

  // What the phone keeps. A page that was made anew has another sum, so that the phone fetches it as a whole.
  std::string all;
  JsonWriter names;
  names.begin_list().text("./");
  for (const PageFile& file : files) {
    all += file.name + "\n" + file.bytes;
    names.text(file.name);
  }
  std::string worker = filled_in(page_part("service-worker.js"), "@SUM@", sha256_of(all));
  add("service-worker.js", kScriptType, filled_in(std::move(worker), "@FILES@", names.end_list().json()));

  // For people, and for `rushlight check`: what the page was made from.
  for (const KeptFile& file : data.files) add("set/" + file.name, "application/xml", file.bytes);
  add("child.json", "application/json", wish.child_bytes);
  return files;
}

std::string single_page(const PageWish& wish) {
  const PageData data = page_data(wish);
  std::vector<std::string> scripts{data_script(data)};
  for (const char* name : kScripts) scripts.push_back(page_part(name));
  const InOneFile one = in_one_file(scripts, page_part("page.css"));
  return page_html(wish, Policy{one.script_sums, one.style_sum, ""}, one.style, one.scripts);
}

}  // namespace rushlight
