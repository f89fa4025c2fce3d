#include "sheet/printed.hpp"

#include <map>
#include <stdexcept>

namespace rushlight::test {

const ProtocolSet& shipped(const std::string& name) {
  static std::map<std::string, ProtocolSet> known;
  const auto found = known.find(name);
  return found != known.end() ? found->second : known.emplace(name, embedded_set(name)).first->second;
}

const Protocol& protocol_of(const std::string& set, const std::string& id) {
  return shipped(set).find(id)->checked.protocol();
}

Sheet whole_sheet(const std::string& set, const Child& child, const Day& today) {
  const ProtocolSet& all = shipped(set);
  std::optional<Sheet> sheet =
      sheet_of(all.find("low")->checked, {all.find("ketones")->checked, all.find("illness")->checked}, child, today);
  if (!sheet) throw std::runtime_error("no sheet of " + set);
  return std::move(*sheet);
}

std::vector<const SheetLine*> lines_of(const Sheet& sheet) {
  std::vector<const SheetLine*> lines;
  const auto add = [&](const std::vector<SheetLine>& more) {
    for (const SheetLine& line : more) lines.push_back(&line);
  };
  const auto add_page = [&](const SheetPage& page) {
    for (const SheetBox& box : page.boxes) {
      add(box.lines);
      add(box.trained);
      add(box.untrained);
      for (const SheetWay& way : box.ways) add(way.lines);
    }
  };
  add_page(sheet.low);
  for (const SheetPage& page : sheet.further) add_page(page);
  add(sheet.anything_else);
  return lines;
}

const SheetBox& box_of(const Sheet& sheet, SheetPart part) {
  for (const SheetBox& box : sheet.low.boxes) {
    if (box.part == part) return box;
  }
  throw std::runtime_error("the sheet has no such box");
}

}  // namespace rushlight::test
