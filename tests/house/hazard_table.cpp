#include "house/hazard_table.hpp"

#include <regex>
#include <sstream>

namespace rushlight::house {
namespace {

std::string trimmed(const std::string& text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string::npos) return "";
  return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

/// The cells of "| a | b | c |"; empty for any other line.
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  const std::string row = trimmed(line);
  if (row.size() < 2 || row.front() != '|' || row.back() != '|') return cells;
  std::istringstream stream(row.substr(1));
  for (std::string cell; std::getline(stream, cell, '|');) cells.push_back(trimmed(cell));
  return cells;
}

void note(const std::string& name, Went went, Runs& runs) {
  const auto [place, is_new] = runs.emplace(name, went);
  if (is_new || went.left_out) return;
  if (place->second.left_out) {
    place->second = went;
    return;
  }
  place->second.passed = place->second.passed && went.passed;
  place->second.checked_something = place->second.checked_something && went.checked_something;
}

}  // namespace

std::vector<HazardRow> hazard_rows(const std::string& markdown) {
  static const std::regex name("`([^`]+)`");
  std::vector<HazardRow> rows;
  bool in_table = false;
  std::istringstream stream(markdown);
  for (std::string line; std::getline(stream, line);) {
    const std::vector<std::string> cells = cells_of(line);
    if (cells.size() != 3) {
      in_table = false;
    } else if (cells == std::vector<std::string>{"Hazard", "Control", "Test"}) {
      in_table = true;
    } else if (in_table && cells[0].find_first_not_of("-: ") != std::string::npos) {
      HazardRow row{cells[0], {}};
      const std::string& last = cells[2];
      for (auto found = std::sregex_iterator(last.begin(), last.end(), name); found != std::sregex_iterator(); ++found) {
        row.tests.push_back((*found)[1]);
      }
      rows.push_back(row);
    }
  }
  return rows;
}

void add_runs(const std::string& xml, Runs& runs) {
  static const std::regex head(R"re(<testcase ([^>]*)>)re");
  static const std::regex name(R"re(\bname="([^"]*)")re");
  static const std::regex suite(R"re(\bclassname="([^"]*)")re");
  static const std::string none = "assertions=\"0\"";
  for (auto found = std::sregex_iterator(xml.begin(), xml.end(), head); found != std::sregex_iterator(); ++found) {
    const auto begin = static_cast<std::size_t>(found->position() + found->length());
    const std::string body = xml.substr(begin, xml.find("</testcase>", begin) - begin);
    const std::string attributes = (*found)[1];
    const bool left_out = body.find("<skipped") != std::string::npos;
    const bool passed = body.find("<failure") == std::string::npos && body.find("<error") == std::string::npos && !left_out;
    const Went went{passed, attributes.find(none) == std::string::npos, left_out};
    std::smatch part;
    if (!std::regex_search(attributes, part, name)) continue;
    const std::string own = part[1];
    if (own.rfind('_', 0) != 0) {
      note(own, went, runs);
    } else if (std::regex_search(attributes, part, suite)) {  // "_3" is a row of the table that its suite is named for
      const std::string path = part[1];
      note(path.substr(path.rfind('.') + 1), went, runs);
    }
  }
}

std::vector<std::string> uncontrolled(const std::vector<HazardRow>& rows, const Runs& runs, bool elsewhere) {
  std::vector<std::string> missing;
  if (rows.empty()) missing.push_back("there is no table of Hazard, Control and Test");
  for (const HazardRow& row : rows) {
    if (row.tests.empty()) missing.push_back("\"" + row.hazard + "\" names no test");
    for (const std::string& test : row.tests) {
      const auto run = runs.find(test);
      const std::string named = "\"" + row.hazard + "\" names `" + test + "`, which ";
      if (run == runs.end()) {
        missing.push_back(named + "did not run or does not exist");
      } else if (run->second.left_out && elsewhere) {
        continue;
      } else if (!run->second.passed) {
        missing.push_back(named + "did not pass");
      } else if (!run->second.checked_something) {
        missing.push_back(named + "checked nothing");
      }
    }
  }
  return missing;
}

}  // namespace rushlight::house
