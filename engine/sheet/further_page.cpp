#include "sheet/further_page.hpp"

#include "episode/words.hpp"
#include "sheet/readings.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {

SheetPage further_page(const Protocol& protocol, const Child& child, Moment at) {
  SheetPage page;
  page.title = sheet_say(SheetWord::title, child.language, plain_words(protocol.title, child.language), child.name);
  (void)at;
  return page;
}

}  // namespace rushlight
