#include "record/summary.hpp"

#include "episode/phrases.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

class Summarizing {
 public:
  explicit Summarizing(const NightRecord& night) : night_(night) {}

  RecordSummary summary() const {
    RecordSummary summary;
    summary.title = word(RecordWord::title, night_.title, night_.child);
    summary.head = {word(RecordWord::gravest, shown_as(night_.gravest, night_.language)) + ". " + stands(),
                    night_.about + ". " +
                        word(RecordWord::from_to, day_and_wall_clock(night_.began), day_and_wall_clock(night_.last)) +
                        ". " + word(RecordWord::set_line, night_.set, night_.protocol, night_.version) + ". " +
                        night_.approval};
    add_totals(summary.totals);
    Day day = local_day_of(night_.began);
    for (const RecordCall& call : night_.calls) {
      const bool same_day = local_day_of(call.at) == day;
      day = local_day_of(call.at);
      summary.calls.push_back((same_day ? wall_clock(call.at) : day_and_wall_clock(call.at)) + " " + call.whom + ": " +
                              call.how);
    }
    if (summary.calls.empty()) summary.calls.push_back(word(RecordWord::no_calls));
    for (std::size_t at = 0; at < night_.sources.size(); ++at) summary.sources.push_back(source(at));
    summary.foot = phrase(Phrase::does_not_replace, night_.language);
    return summary;
  }

 private:
  std::string word(RecordWord word, const std::string& one = "", const std::string& two = "",
                   const std::string& three = "") const {
    return record_say(word, night_.language, one, two, three);
  }

  std::string stands() const {
    if (night_.abandoned) return word(RecordWord::left_off);
    if (night_.ended) return word(RecordWord::ended_at, wall_clock(night_.last)) + " " + night_.stands;
    return word(RecordWord::still_open) + " " + word(RecordWord::stands, wall_clock(night_.last), night_.stands);
  }

  void add_totals(std::vector<std::string>& lines) const {
    for (const RecordTotal& total : night_.totals)
      lines.push_back(
          word(RecordWord::total_line, total.label, total.text,
               total.times == 1 ? word(RecordWord::once) : word(RecordWord::times, std::to_string(total.times))));
    if (!night_.drinks.empty()) lines.push_back(word(RecordWord::drunk, night_.drinks));
    std::string vomits;
    for (const int count : night_.vomits) vomits += (vomits.empty() ? "" : ", ") + std::to_string(count);
    if (!vomits.empty()) lines.push_back(word(RecordWord::vomits, vomits));
    if (!night_.not_given.empty()) lines.push_back(word(RecordWord::not_given, night_.not_given));
  }

  std::string source(std::size_t at) const {
    const RecordSource& source = night_.sources[at];
    std::string text = "[" + std::to_string(at + 1) + "] " + source.citation;
    for (const std::string& number : source.numbers)
      text += (&number == &source.numbers.front() ? ": " : "; ") + number;
    return text;
  }

  const NightRecord& night_;
};

}  // namespace

RecordSummary summary_of(const NightRecord& night) { return Summarizing(night).summary(); }

}  // namespace rushlight
