#include "sheet/calls.hpp"

#include <algorithm>

#include "episode/words.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {

const ShownAction* by_mouth_in(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind == ActionKind::by_mouth && action.dose && !action.outcome) return &action;
  }
  return nullptr;
}

bool says(const std::vector<SheetLine>& lines, const std::string& text) {
  return std::any_of(lines.begin(), lines.end(), [&](const SheetLine& line) { return line.text == text; });
}

std::optional<SheetWay> call_without_readings(const ReadingGroup& group, const PaperWalk& giving,
                                              const std::set<std::string>& also, int give, Language language) {
  PaperWalk walk = group.landing.walk;
  for (int rounds = 1; rounds <= kMostRounds; ++rounds) {
    walk.all_done();
    walk.wait_over();
    walk = landing_after(walk, group.reading, SheetSight::Looks::unwell).walk;
    const View here = walk.view();
    if (!here.call) continue;
    SheetWay way{sheet_say(SheetWord::blind_round, language, std::to_string(rounds)), {}, 0, here.urgency, {}};
    for (SheetLine& line : walk.lines()) {
      if (!says(giving.lines(), line.text) && also.count(line.text) == 0) way.lines.push_back(std::move(line));
    }
    if (const ShownAction* sugar = by_mouth_in(here); sugar != nullptr && says(giving.lines(), sugar->text))
      way.go = give;
    return way;
  }
  return std::nullopt;
}

std::vector<std::string> when_nobody_answers(PaperWalk walk, Language language) {
  std::vector<std::string> said;
  for (int silent = 0; silent < 2; ++silent) {
    const View here = walk.view();
    if (!here.call || here.call->contact == Contact::emergency) return said;
    const Duration within = here.call->answer_by ? here.call->answer_by->utc - walk.now().utc : Duration{0};
    walk.called(here.call->contact, Outcome::no_answer);
    const View then = walk.view();
    if (!then.call) return said;
    const Duration minutes = std::chrono::floor<std::chrono::minutes>(within + Duration{30});
    said.push_back(sheet_say(silent == 0 ? SheetWord::nobody_answers : SheetWord::still_nobody, language,
                             text_from_duration(minutes), then.call->number));
  }
  return said;
}

}  // namespace rushlight
