#include "cli/interview.hpp"

#include <istream>
#include <ostream>

#include "cli/event_lines.hpp"
#include "cli/keys.hpp"
#include "cli/plain_text.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

constexpr Both kTypeANumber{"Type one of the numbers.", "Escriba uno de los números."};
constexpr std::size_t kLongestAnswer = 4000;

}  // namespace

std::string Interview::answer() {
  out_ << "> " << std::flush;
  const auto line = EventLines(in_, kLongestAnswer).next();
  if (!line) {
    ended_ = true;
    out_ << '\n';
    return {};
  }
  return std::string(trimmed(cleaned(*line)));
}

void Interview::tell(const std::string& line) { out_ << line << '\n'; }

void Interview::tell(const Both& both, const std::string& one, const std::string& two) {
  tell(say(both, language_, one, two));
}

void Interview::ask(const Both& question, const std::function<std::string(const std::string&)>& take) {
  if (ended_) return;
  out_ << '\n';
  tell(question);
  while (!ended_) {
    const std::string typed = answer();
    if (ended_) return;
    const std::string reason = take(typed);
    if (reason.empty()) return;
    tell(reason);
  }
}

std::size_t Interview::choose(const Both& question, const std::vector<Both>& lines) {
  std::size_t chosen = 0;
  if (ended_) return chosen;
  out_ << '\n';
  tell(question);
  for (std::size_t i = 0; i < lines.size(); ++i) tell("  " + std::to_string(i + 1) + "  " + say(lines[i], language_));
  while (!ended_) {
    const std::string typed = folded_letters(answer());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const bool is_it = typed == std::to_string(i + 1) || typed == folded_letters(say(lines[i], language_));
      if (is_it) return i;
    }
    if (!ended_) tell(kTypeANumber);
  }
  return chosen;
}

bool Interview::agrees(const Both& question, const std::string& one, const std::string& two) {
  if (ended_) return false;
  out_ << '\n';
  tell(question, one, two);
  while (!ended_) {
    if (const std::optional<bool> yes = yes_no_from_text(answer())) return *yes;
    if (!ended_) tell(kTypeYesOrNo);
  }
  return false;
}

}  // namespace rushlight
