#include "publish/print_sheet.hpp"

#include "publish/pdf.hpp"
#include "publish/sheet_layout.hpp"
#include "publish/svg_text.hpp"

namespace rushlight {

Printed print_sheet(const Sheet& sheet, const PaperSize& paper, bool svg) {
  Pen pen;
  Printed printed;
  if (!pen.has_family())
    printed.warnings.push_back(std::string("The font ") + kFamily +
                               " is not on this machine (Debian: fonts-sil-andika). Another one is used.");
  const Laid laid = laid_sheet(sheet, paper, pen);
  if (pen.letters_missing() > 0)
    printed.warnings.push_back("No font on this machine has " + std::to_string(pen.letters_missing()) +
                               " of the letters. They are printed as boxes.");
  printed.bytes = svg ? svg_from_laid(laid) : pdf_from_laid(laid);
  if (printed.bytes.empty()) printed.warnings.push_back("The page could not be drawn.");
  return printed;
}

}  // namespace rushlight
