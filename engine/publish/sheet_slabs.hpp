#pragma once

#include <map>

#include "publish/slab.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// The pages on which boxes stand that are not on this one, by number.
using Elsewhere = std::map<int, int>;

// Each part of the sheet as one box of the page.

Slab heading_slab(Pen& pen, const Sheet& sheet, double width);
/// `right` is where the right column begins, under which the second answer stands.
Slab look_slab(Pen& pen, const SheetBox& box, const Sheet& sheet, double width, double right,
               const Elsewhere& elsewhere);
Slab box_slab(Pen& pen, const SheetBox& box, const Sheet& sheet, double width, const Elsewhere& elsewhere);
Slab calls_slab(Pen& pen, const Sheet& sheet, double width);
Slab cautions_slab(Pen& pen, const Sheet& sheet, double width);
/// Of a page behind the first.
Slab title_slab(Pen& pen, const std::string& title, double width);
/// Stands in the upper right corner, in the room that a title leaves free.
Slab number_slab(Pen& pen, const std::string& text);
inline constexpr double kPageNumber = 100;

}  // namespace rushlight
