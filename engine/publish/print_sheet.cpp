#include "publish/print_sheet.hpp"

#include "publish/pdf.hpp"
#include "publish/record_layout.hpp"
#include "publish/sheet_layout.hpp"
#include "publish/svg_text.hpp"

namespace rushlight {

namespace {

void warn(Printed& printed, const Pen& pen) {
  if (!pen.has_family())
    printed.warnings.push_back(std::string("The font ") + kFamily +
                               " is not on this machine (Debian: fonts-sil-andika). Another one is used.");
  if (pen.letters_missing())
    printed.warnings.push_back("No font on this machine has some of the letters. They are printed as boxes.");
  if (printed.bytes.empty()) printed.warnings.push_back("The page could not be drawn.");
}

}  // namespace

Printed print_sheet(const Sheet& sheet, const PaperSize& paper, bool svg) {
  Pen pen;
  Printed printed;
  const Laid laid = laid_sheet(sheet, paper, pen);
  printed.bytes = svg ? svg_from_laid(laid) : pdf_from_laid(laid);
  warn(printed, pen);
  return printed;
}

Printed print_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper) {
  Pen pen;
  Printed printed;
  printed.bytes = pdf_from_laid(laid_records(nights, language, paper, pen));
  warn(printed, pen);
  return printed;
}

}  // namespace rushlight
