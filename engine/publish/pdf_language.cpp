#include "publish/pdf.hpp"

namespace rushlight {
namespace {

/// The digits behind a word: "/Root 12 0 R" gives "12".
std::string number_behind(const std::string& pdf, const std::string& word) {
  std::size_t at = pdf.rfind(word);
  if (at == std::string::npos) return "";
  at = pdf.find_first_of("0123456789", at + word.size());
  const std::size_t end = at == std::string::npos ? at : pdf.find_first_not_of("0123456789", at);
  return end == std::string::npos ? "" : pdf.substr(at, end - at);
}

std::string padded(std::size_t offset) {
  const std::string digits = std::to_string(offset);
  return std::string(10 - std::min<std::size_t>(10, digits.size()), '0') + digits;
}

}  // namespace

std::string with_language(std::string pdf, const std::string& language) {
  const std::string root = number_behind(pdf, "/Root"), size = number_behind(pdf, "/Size"),
                    info = number_behind(pdf, "/Info"), start = number_behind(pdf, "startxref");
  const std::string head = "\n" + root + " 0 obj\n";
  const std::size_t object = root.empty() ? std::string::npos : pdf.find(head);
  const std::size_t open = object == std::string::npos ? object : pdf.find("<<", object);
  const std::size_t close = open == std::string::npos ? open : pdf.find("endobj", open);
  if (close == std::string::npos || size.empty() || start.empty()) return pdf;
  // The catalog once more, with two entries more.
  std::string catalog = pdf.substr(open + 2, close - open - 2);
  const std::size_t offset = pdf.size();
  pdf += root + " 0 obj\n<< /Lang (" + language + ") /ViewerPreferences << /DisplayDocTitle true >>" + catalog +
         "endobj\n";
  const std::size_t table = pdf.size();
  pdf += "xref\n" + root + " 1\n" + padded(offset) + " 00000 n \n";
  pdf += "trailer\n<< /Size " + size + " /Root " + root + " 0 R";
  if (!info.empty()) pdf += " /Info " + info + " 0 R";
  pdf += " /Prev " + start + " >>\nstartxref\n" + std::to_string(table) + "\n%%EOF\n";
  return pdf;
}

}  // namespace rushlight
