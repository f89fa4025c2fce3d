#include "sheet/validity.hpp"

#include <algorithm>

namespace rushlight {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

// Where a protocol does not say how long a weight stays fresh. Common practice, no source.
constexpr days kLookAgain{90};

days fresh_weight(const Protocol& protocol, const Child& child, const Day& today) {
  if (!protocol.weight_fresh) return kLookAgain;
  const Context context{age_on(child.birth, today), child.weight, ClockTime::of_minutes(12 * 60)};
  const auto* limit = std::get_if<Duration>(&value_in(protocol[*protocol.weight_fresh], context));
  return limit != nullptr ? std::chrono::floor<days>(*limit) : kLookAgain;
}

}  // namespace

std::vector<std::string> texts_of(const SheetPage& page) {
  std::vector<std::string> texts;
  const auto add = [&](const std::vector<SheetLine>& lines) {
    for (const SheetLine& line : lines) texts.push_back(line.text);
  };
  for (const SheetBox& box : page.boxes) {
    add(box.lines);
    add(box.trained);
    add(box.untrained);
    for (const SheetWay& way : box.ways) {
      texts.push_back(way.when);
      add(way.lines);
    }
  }
  return texts;
}

namespace {

/// The first day within `most` on which the page would say something else because the child is older.
std::optional<Day> older_day(const Protocol& protocol, const Child& child, const Day& today, days most,
                             const SheetPage& page) {
  const std::vector<std::string> now = texts_of(page);
  Child same = child;
  for (RescueMedicine& medicine : same.rescue) medicine.expires.reset();  // told apart by its own date
  const std::optional<LowPage> as_is = low_page(protocol, same, noon_of(today));
  if (!as_is) return std::nullopt;
  const std::vector<std::string> expected = texts_of(as_is->page);
  const int months = age_on(child.birth, today).months();
  for (sys_days day = sys_days(today); day <= sys_days(today) + most; day += days{1}) {
    if (age_on(child.birth, Day{day}).months() == months) continue;
    const int then = age_on(child.birth, Day{day}).months();
    if (age_on(child.birth, Day{day - days{1}}).months() == then) continue;
    const std::optional<LowPage> older = low_page(protocol, same, noon_of(Day{day}));
    if (!older || texts_of(older->page) != expected) return Day{day};
  }
  return std::nullopt;
}

}  // namespace

Moment noon_of(const Day& day) { return Moment{sys_days(day) + std::chrono::hours{12}, std::chrono::minutes{0}}; }

Validity validity_of(const Protocol& protocol, const Child& child, const Day& today, const SheetPage& page) {
  const days fresh = fresh_weight(protocol, child, today);
  Validity valid{Day{sys_days(today) + fresh}, Validity::Ends::look_again};
  const auto consider = [&](const Day& until, Validity::Ends ends) {
    if (sys_days(until) < sys_days(valid.until) || (until == valid.until && ends < valid.ends)) valid = {until, ends};
  };
  for (const Part& part : protocol.parts) {
    if (part.approval && part.approval->standing == Standing::good)
      consider(part.approval->until, Validity::Ends::approval);
  }
  if (child.weight && child.weighed) consider(Day{sys_days(*child.weighed) + fresh}, Validity::Ends::weight);
  // The medicine that counts today; one that is out of date already is none, and the page says so.
  const std::uint16_t rescue = rescue_option(protocol, child, noon_of(today));
  std::optional<Day> last;
  bool for_ever = false;
  for (const RescueMedicine& medicine : child.rescue) {
    if (static_cast<std::uint16_t>(medicine.kind) != rescue) continue;
    if (!medicine.expires) for_ever = true;
    if (medicine.expires && (!last || sys_days(*last) < sys_days(*medicine.expires))) last = medicine.expires;
  }
  if (last && !for_ever) consider(*last, Validity::Ends::rescue);
  const days left = std::max(days{0}, sys_days(valid.until) - sys_days(today));
  if (const auto older = older_day(protocol, child, today, left, page))
    consider(Day{sys_days(*older) - days{1}}, Validity::Ends::age);
  return valid;
}

}  // namespace rushlight
