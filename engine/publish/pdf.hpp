#pragma once

#include <string>

#include "publish/laid.hpp"

namespace rushlight {

/// A tagged PDF: title, language, fonts embedded, text to select. The same pages give the same bytes. Empty when cairo
/// cannot draw.
std::string pdf_from_laid(const Laid& laid);

/// A PDF of cairo's with the language of its text in the catalog, which cairo 1.16 cannot write: added behind its end
/// as an update, as the format provides. Given back as it is when it has no catalog to be found.
std::string with_language(std::string pdf, const std::string& language);

}  // namespace rushlight
