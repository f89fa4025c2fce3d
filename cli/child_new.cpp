#include "cli/child_new.hpp"

#include <sys/stat.h>

#include <istream>
#include <ostream>

#include "cli/child_questions.hpp"
#include "cli/child_words.hpp"
#include "cli/print_findings.hpp"
#include "cli/private_file.hpp"
#include "wire/child_from_json.hpp"

namespace rushlight {
namespace {

constexpr Both kWhichLanguage{"English or Spanish? / ¿Inglés o español?", "English or Spanish? / ¿Inglés o español?"};
constexpr Both kEnglish{"English", "English"};
constexpr Both kSpanish{"Español", "Español"};
constexpr Both kThere{"{1} is already there and stays as it is. Choose another name: --out FILE",
                      "{1} ya existe y queda como está. Elija otro nombre: --out ARCHIVO"};

bool is_taken(const std::string& path) {
  struct stat about {};
  return ::lstat(path.c_str(), &about) == 0;
}

}  // namespace

int child_new(std::istream& in, std::ostream& out, const ChildNew& wish) {
  Interview interview(in, out, wish.language.value_or(Language::en));
  // Told before the first question: nobody answers twenty questions for nothing.
  if (is_taken(wish.out)) {
    interview.tell(kThere, wish.out);
    return 1;
  }
  if (!wish.language) {
    interview.speak(interview.choose(kWhichLanguage, {kEnglish, kSpanish}) == 0 ? Language::en : Language::es);
  }
  interview.tell(child_words::kIntro);
  child_questions::Answers answers;
  answers.child.language = interview.language();
  answers.child.set = "reference";
  child_questions::ask_who(interview, answers, wish.today);
  child_questions::ask_weight(interview, answers, wish.today);
  child_questions::ask_insulin(interview, answers, wish.today);
  child_questions::ask_rescue(interview, answers);
  child_questions::ask_foods(interview, answers);
  child_questions::ask_contacts(interview, answers);
  if (!interview.has_ended()) child_questions::show_back(interview, answers);
  const bool agreed = interview.agrees(child_words::kRight);
  if (interview.has_ended() || !agreed) {
    interview.tell(child_words::kNothingWritten);
    return interview.has_ended() ? 2 : 1;
  }
  const std::string text = json_from_child(answers.child, answers.confirmed);
  // What is written here must be readable tonight: the same reader as at the start of a walk has the last word.
  const Read<Child> again = child_from_json(text, wish.out, wish.today);
  if (!again.value) {
    print_findings(out, again.findings, {{wish.out, text}});
    interview.tell(child_words::kNothingWritten);
    return 1;
  }
  if (const auto finding = write_private_file(wish.out, text)) {
    print_findings(out, {*finding}, {});
    interview.tell(child_words::kNothingWritten);
    return exit_status_of({*finding});
  }
  interview.tell(child_words::kWritten, wish.out);
  if (answers.child.contacts.emergency.empty()) interview.tell(kNoEmergencyNumber);
  interview.tell(child_words::kThen);
  return 0;
}

}  // namespace rushlight
