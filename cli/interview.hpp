#pragma once

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "cli/say.hpp"

namespace rushlight {

/// Questions and answers, one line each, from a terminal or a pipe. An answer that cannot be understood is asked for
/// again, with the reason.
class Interview {
 public:
  Interview(std::istream& in, std::ostream& out, Language language) : in_(in), out_(out), language_(language) {}

  Language language() const { return language_; }
  void speak(Language language) { language_ = language; }
  /// The input ran out: every further answer is empty and nothing may be made of them.
  bool has_ended() const { return ended_; }

  void tell(const std::string& line);
  void tell(const Both& both, const std::string& one = "", const std::string& two = "");

  /// Reads answers until `take` is content with one. `take` gives an empty text then, and otherwise the reason for
  /// asking again. The answer comes without blanks around it.
  void ask(const Both& question, const std::function<std::string(const std::string&)>& take);

  /// A numbered list; the place of the line chosen, by its number or its words.
  std::size_t choose(const Both& question, const std::vector<Both>& lines);

  /// Yes or no, in either language.
  bool agrees(const Both& question, const std::string& one = "", const std::string& two = "");

 private:
  std::string answer();

  std::istream& in_;
  std::ostream& out_;
  Language language_;
  bool ended_ = false;
};

}  // namespace rushlight
