#include "episode/telephone.hpp"

#include <algorithm>

#include "episode/drinks.hpp"
#include "episode/phrases.hpp"
#include "episode/telephone_words.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostReadings = 4;  // a line somebody can read aloud; the latest count
constexpr std::size_t kMostDeeds = 6;

class Telephone {
 public:
  Telephone(const Scene& scene, Language language) : scene_(scene), language_(language) {}

  std::vector<std::string> lines() const {
    std::vector<std::string> lines{why_somebody_calls(scene_, language_), child_in_one_line(scene_, language_)};
    add_readings(lines, "glucose", Phrase::phone_glucose);
    add_readings(lines, "ketones", Phrase::phone_ketones);
    add_readings(lines, "urine-ketones", Phrase::phone_urine);
    lines.push_back(phrase(Phrase::phone_insulin, language_, insulin()));
    const std::string fluids = drunk_and_vomited();
    if (!fluids.empty()) lines.push_back(fluids);
    lines.push_back(phrase(Phrase::phone_done, language_, done()));
    const std::string answers = answers_in_one_line(scene_, language_);
    if (!answers.empty()) lines.push_back(phrase(Phrase::phone_answers, language_, answers));
    return lines;
  }

 private:
  /// A second sick day has each time of the day twice; within half a day the time alone is plain.
  std::string clock(Instant when) const {
    const Moment then = wall(scene_.episode.clock, when);
    const std::string time = text_from_clock_time(clock_time_of(then));
    const auto days = std::chrono::sys_days{local_day_of(wall(scene_.episode.clock, scene_.now))} -
                      std::chrono::sys_days{local_day_of(then)};
    if (scene_.now - when <= std::chrono::hours{12} || days.count() == 0) return time;
    if (days.count() == 1) return phrase(Phrase::phone_yesterday, language_, time);
    return phrase(Phrase::phone_days_ago, language_, time, std::to_string(days.count()));
  }
  std::string at(const std::string& what, Instant when) const {
    return phrase(Phrase::phone_at, language_, what, clock(when));
  }

  std::string shown(const ToldReading& reading) const {
    if (const auto* glucose = std::get_if<Glucose>(&reading.value)) return said(*glucose, language_);
    if (const auto* ketones = std::get_if<KetoneReading>(&reading.value)) return text_from_ketones(*ketones);
    const auto* chosen = std::get_if<Chosen>(&reading.value);
    const Fact& fact = scene_.protocol[reading.fact];
    if (chosen == nullptr || chosen->option >= fact.options.size()) return phrase(Phrase::phone_not_known, language_);
    return plain_words(fact.options[chosen->option].text, language_);
  }

  // What the protocol never asks is not spoken of; what it asks and nobody measured is.
  void add_readings(std::vector<std::string>& lines, const char* name, Phrase what) const {
    const std::optional<FactId> fact = scene_.protocol.fact_named(name);
    if (!fact) return;
    std::vector<std::string> told;
    for (const ToldReading& reading : scene_.episode.readings) {
      if (reading.fact == *fact) told.push_back(at(shown(reading), reading.when));
    }
    const bool is_glucose = what == Phrase::phone_glucose;
    if (told.empty() && !is_glucose) return;
    lines.push_back(phrase(what, language_,
                           told.empty() ? phrase(Phrase::phone_not_asked, language_) : joined(told, kMostReadings)));
  }

  static std::string joined(const std::vector<std::string>& all, std::size_t most) {
    std::string text = all.size() > most ? "... " : "";
    for (std::size_t i = all.size() > most ? all.size() - most : 0; i < all.size(); ++i) {
      text += all[i] + (i + 1 < all.size() ? ", " : "");
    }
    return text;
  }

  bool is_insulin(const Given& given) const { return scene_.protocol[given.action].kind == ActionKind::insulin; }

  std::string insulin() const {
    std::vector<std::string> parts;
    for (const Given& given : scene_.episode.given) {
      if (is_insulin(given) && given.amount) parts.push_back(at(said(*given.amount, language_), given.when));
    }
    const std::optional<FactId> fact = scene_.protocol.fact_named("last-rapid-insulin");
    const std::optional<Value> told = fact ? value_of(scene_, *fact) : std::nullopt;
    if (const auto* ago = told ? std::get_if<Ago>(&*told) : nullptr) {
      parts.push_back(phrase(Phrase::phone_rapid_ago, language_, clock(scene_.now - ago->time)));
    } else if (told && std::holds_alternative<NotLately>(*told)) {
      parts.push_back(phrase(Phrase::phone_not_in_a_day, language_));
    } else if (parts.empty()) {
      parts.push_back(phrase(told ? Phrase::phone_not_known : Phrase::phone_nobody_asked, language_));
    }
    return joined(parts, kMostReadings);
  }

  // What went in and what came up again stand together.
  std::string drunk_and_vomited() const {
    std::string line;
    const std::optional<ShownDrinks> drinks = drinks_of(scene_);
    if (drinks && (drinks->goal.value > Decimal{} || drinks->drunk.value > Decimal{})) {
      line =
          phrase(Phrase::phone_drinks, language_,
                 phrase(drinks->told ? Phrase::phone_of_goal : Phrase::phone_goal_alone, language_,
                        said(drinks->told ? drinks->drunk : drinks->goal, language_), said(drinks->goal, language_)));
    }
    const std::optional<FactId> fact = scene_.protocol.fact_named("vomits");
    const std::optional<Value> told = fact ? value_of(scene_, *fact) : std::nullopt;
    if (!told) return line;
    const auto* count = std::get_if<Count>(&*told);
    const std::string times =
        count != nullptr ? std::to_string(count->number) : phrase(Phrase::phone_not_known, language_);
    return line + (line.empty() ? "" : ". ") + phrase(Phrase::phone_vomits, language_, times);
  }

  // Each deed with its time and, unless all of it went in, how it went. A vomited drink is fluid, and has its own line.
  std::string done() const {
    std::vector<std::string> deeds;
    for (const Given& given : scene_.episode.given) {
      const Action& action = scene_.protocol[given.action];
      const bool nothing = given.outcome == Outcome::none_here;
      if (nothing || is_insulin(given) || !action.dose || action.kind == ActionKind::fluid) continue;
      std::string what = plain_words(scene_.protocol[*action.dose].label, language_);
      if (given.amount) what += " " + said(*given.amount, language_);
      deeds.push_back(how_it_went(given.outcome, at(what, given.when)));
    }
    if (!deeds.empty()) return joined(deeds, kMostDeeds);
    const bool insulin = std::any_of(scene_.episode.given.begin(), scene_.episode.given.end(),
                                     [&](const Given& given) { return is_insulin(given) && given.amount; });
    return phrase(insulin ? Phrase::phone_nothing_else : Phrase::phone_nothing, language_);
  }

  std::string how_it_went(Outcome outcome, const std::string& deed) const {
    switch (outcome) {
      case Outcome::part:
        return phrase(Phrase::phone_part, language_, deed);
      case Outcome::refused:
        return phrase(Phrase::phone_refused, language_, deed);
      case Outcome::vomited:
        return phrase(Phrase::phone_vomited, language_, deed);
      case Outcome::wrong:
        return phrase(Phrase::phone_wrong, language_, deed);
      default:
        return deed;
    }
  }

  const Scene& scene_;
  Language language_;
};

}  // namespace

std::vector<std::string> for_the_telephone(const Scene& scene, Language language) {
  return Telephone(scene, language).lines();
}

}  // namespace rushlight
