#include "house/breaches.hpp"

#include <map>
#include <regex>
#include <set>

#include "house/source_text.hpp"

namespace rushlight::house {
namespace {

using Names = std::set<std::string>;

/// The table of docs/architecture.md: what each folder may include of the house, and which foreign library is its own.
struct Place {
  Names may_include;
  Names foreign;  // the beginnings of the headers' names
  bool pure;
};

const std::map<std::string, Place>& places() {
  static const std::map<std::string, Place> table = {
      {"measure", {{"measure"}, {}, true}},
      {"finding", {{"measure", "finding"}, {}, true}},
      {"protocol", {{"measure", "finding", "protocol"}, {}, true}},
      {"episode", {{"measure", "finding", "protocol", "episode"}, {}, true}},
      {"verify", {{"measure", "finding", "protocol", "episode", "verify"}, {}, true}},
      {"picture", {{"measure", "finding", "protocol", "episode", "verify", "picture"}, {}, true}},
      {"sheet", {{"measure", "finding", "protocol", "episode", "verify", "sheet"}, {}, true}},
      {"publish", {{"measure", "finding", "protocol", "episode", "verify", "sheet", "record", "publish"}, {"pango"}, false}},
      {"record", {{"measure", "finding", "protocol", "episode", "record"}, {}, true}},
      {"raster", {{"raster"}, {"librsvg/"}, false}},
      {"read", {{"measure", "finding", "protocol", "read"}, {"tinyxml2.h"}, false}},
      {"wire", {{"measure", "finding", "protocol", "episode", "wire"}, {"nlohmann/"}, false}},
      {"journal", {{"measure", "finding", "protocol", "episode", "wire", "journal"}, {"sqlite3.h"}, false}},
      {"seal", {{"measure", "finding", "protocol", "seal"}, {"sodium"}, false}},
      {"cli",
       {{"measure", "finding", "protocol", "episode", "verify", "picture", "sheet", "record", "publish", "raster", "read", "wire", "journal", "seal", "cli"},
        {"CLI/", "mimalloc"},
        false}},
  };
  return table;
}

struct Ban {
  std::regex call;
  std::string why;
};

/// Everywhere but in the one number reader: library conversions that take "70mg" for 70 or "3,9" for 3.
const std::vector<Ban>& number_bans() {
  static const std::vector<Ban> bans = {
      {std::regex(R"(\b(stod|stof|stold|stoi|stol|stoll|stoul|stoull|atof|atoi|atol|atoll|strtod|strtof|strtol|strtoll|strtoul|strtoull|sscanf|from_chars)\s*\()"),
       "numbers are read by measure/decimal only"},
      {std::regex(R"(\bQuery\w*(Attribute|Text|Value)\s*\()"), "attributes are taken as text and read by measure/decimal"},
      {std::regex(R"((\.|->)(Int|Unsigned|Int64|Double|Float)(Attribute|Value|Text)\s*\()"),
       "attributes are taken as text and read by measure/decimal"},
      {std::regex(R"(\bget(_to)?\s*<\s*(double|float|long double)\s*>)"), "a JSON number is taken as its text"},
      {std::regex(R"(\bstd\s*::\s*(format|print)\s*\()"), "not in the compilers that this builds with"},
  };
  return bans;
}

/// In the pure core: whatever asks the machine instead of the arguments.
const std::vector<Ban>& core_bans() {
  static const std::vector<Ban> bans = {
      {std::regex(R"(::\s*now\s*\()"), "the core reads no clock: `now` is an argument"},
      {std::regex(R"(\b(time\s*\(\s*(nullptr|NULL|0|&)|(gettimeofday|clock_gettime|localtime(_r)?|gmtime(_r)?|mktime)\b))"),
       "the core reads no clock: `now` is an argument"},
      {std::regex(R"(\b(secure_)?getenv\s*\()"), "the core reads no environment"},
      {std::regex(R"(\b(fopen|ifstream|ofstream|fstream|filesystem|open)\s*(\(|::|\s\w))"), "the core reads no file"},
      {std::regex(R"(\b(cout|cerr|cin|printf|puts|fprintf)\b)"), "the core has no screen"},
      {std::regex(R"(\b(setlocale|std\s*::\s*locale|imbue|toupper|tolower|isalpha|isspace|isdigit)\b)"),
       "the core knows no locale"},
      {std::regex(R"(\b(throw|catch)\b)"), "the core answers with values, not exceptions"},
      {std::regex(R"(\bstd\s*::\s*(ranges|views)\s*::)"), "not in the library that the browser build has"},
      {std::regex(R"(\b(thread|mutex|atomic|jthread)\s*(<|\b\w+\s*[;({]))"), "the core runs on one thread"},
      {std::regex(R"(\b(rand|srand|random_device)\b)"), "the core rolls no dice"},
  };
  return bans;
}

const Names& headers_banned_in_core() {
  static const Names headers = {"iostream", "istream", "ostream", "fstream", "sstream", "iomanip", "cstdio", "clocale",
                                "locale",   "ctime",   "cctype",  "cstdlib", "filesystem", "thread", "mutex", "atomic",
                                "random",   "regex",   "format",  "ranges",  "stdexcept", "exception", "future"};
  return headers;
}

std::string folder_of(const std::string& path) {
  const std::size_t first = path.find('/');
  if (path.rfind("cli/", 0) == 0) return "cli";
  return path.substr(first + 1, path.find('/', first + 1) - first - 1);
}

std::string include_breach(const Place& place, const std::string& header, bool quoted) {
  if (quoted) {
    const std::size_t slash = header.find('/');
    if (slash == std::string::npos) return "includes \"" + header + "\", which is not written from the root";
    const std::string folder = header.substr(0, slash);
    return place.may_include.contains(folder) ? "" : "includes upward: \"" + header + "\"";
  }
  static const Names foreign = {"tinyxml2.h", "nlohmann/", "sqlite3.h", "CLI/", "boost/", "sodium", "librsvg/", "pango", "fmt/", "mimalloc"};
  for (const std::string& library : foreign) {
    if (header.rfind(library, 0) == 0 && !place.foreign.contains(library)) return "includes the library of another folder: <" + header + ">";
  }
  if (!place.pure) return "";
  if (header.find_first_of("./") != std::string::npos) return "the core includes the standard library only, not <" + header + ">";
  return headers_banned_in_core().contains(header) ? "the core must do without <" + header + ">" : "";
}

void add_bans(const std::vector<Ban>& bans, const std::string& line, const std::string& where,
              std::vector<std::string>& breaches) {
  for (const Ban& ban : bans) {
    std::smatch found;
    if (std::regex_search(line, found, ban.call)) breaches.push_back(where + "`" + found.str() + "`: " + ban.why);
  }
}

}  // namespace

std::vector<std::string> breaches_in(const std::string& path, const std::string& text) {
  std::vector<std::string> breaches;
  const auto place = places().find(folder_of(path));
  if (place == places().end()) return {"lies in a folder that the table of who may include whom does not know"};
  const bool number_reader = path == "engine/measure/decimal.cpp";
  static const std::regex include(R"(^\s*#\s*include\s*(["<])([^">]+)[">])");
  int number = 0;
  for (const std::string& line : lines_of(taken_apart(text).code)) {
    const std::string where = "line " + std::to_string(++number) + ": ";
    std::smatch found;
    if (std::regex_search(line, found, include)) {
      const std::string breach = include_breach(place->second, found[2], found[1] == "\"");
      if (!breach.empty()) breaches.push_back(where + breach);
      continue;
    }
    if (!number_reader) add_bans(number_bans(), line, where, breaches);
    if (place->second.pure) add_bans(core_bans(), line, where, breaches);
  }
  if (number > 400) breaches.push_back("has " + std::to_string(number) + " lines; a file is one page, 400 at most");
  return breaches;
}

}  // namespace rushlight::house
