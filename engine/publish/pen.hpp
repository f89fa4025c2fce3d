#pragma once

#include <list>
#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace rushlight {

struct Letters {
  double size;  // points
  bool bold = false;
};

/// One line as it will stand on the page; two of them where the letters change within a line.
struct PenLine {
  std::string text;
  bool bold;
  double left;  // where it begins in its line
  double width;
  bool ends_line;       // the next one stands below
  double above, below;  // of the base line: the ink of this line, at least that of the font's own capitals
};

/// Measures texts and breaks them into lines. Text is text: no markup is read, and what has no letter in any font of
/// the machine is counted.
class Pen {
 public:
  Pen();
  ~Pen();
  Pen(const Pen&) = delete;
  Pen& operator=(const Pen&) = delete;

  /// Broken at blanks, and inside a word that is wider than a whole line. At least one line; trailing blanks are left
  /// out. The direction of the page is left to right whatever the letters are.
  const std::vector<PenLine>& lines(const std::string& text, const Letters& letters, double width) {
    return lines("", text, letters, width);
  }
  /// The same with a bold beginning.
  const std::vector<PenLine>& lines(const std::string& bold, const std::string& text, const Letters& letters,
                                    double width);

  /// Something was set that no font of this machine has a letter for.
  bool letters_missing() const { return missing_ > 0; }
  /// The wanted family is here.
  bool has_family() const;

 private:
  /// The lines of a text, and for which widths of the page (in Pango's units) they are broken like this: from their
  /// widest, since a line takes the words that have room, up to the width they were broken at; up to any when it is
  /// one.
  struct Setting {
    int from, to;
    std::vector<PenLine> lines;
  };

  PenLine measured(std::string text, const Letters& letters, double left);
  Setting broken(const std::string& bold, const std::string& text, const Letters& letters, int width);

  void* context_;  // PangoContext
  int missing_ = 0;
  std::map<std::tuple<std::string, std::string, double, bool>, std::list<Setting>> set_;
};

/// The family of every text. fonts-sil-andika: made for new readers; I, l and 1 all differ.
inline constexpr const char* kFamily = "Andika";

}  // namespace rushlight
