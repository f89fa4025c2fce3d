#include "sheet/sheet_of.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "sheet/further_page.hpp"
#include "sheet/hours.hpp"
#include "sheet/sheet_words.hpp"
#include "sheet/validity.hpp"

namespace rushlight {
namespace {

std::string about(const Child& child, const Day& today) {
  // From two years on in years, as people say it.
  const Age at = age_on(child.birth, today);
  const std::string age = at.completed_years() >= 2
                              ? said(Quantity{Decimal::whole(at.completed_years()), Unit::year}, child.language)
                              : said(Quantity{Decimal::whole(at.months()), Unit::month}, child.language);
  if (!child.weight) return age;
  return sheet_say(SheetWord::age_and_weight, child.language, age, said(child.weight->quantity(), child.language));
}

constexpr std::size_t kShortName = 20;  // letters that stand in a line of a column beside other words

/// A name as the steps say it: a long one by its first word, one endless word cut.
std::string called(const std::string& name) {
  const auto begins_letter = [](char each) { return (static_cast<unsigned char>(each) & 0xC0U) != 0x80U; };
  const auto letters = [&](const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_letter));
  };
  if (letters(name) <= kShortName) return name;
  const std::string first = name.substr(0, name.find(' '));
  if (letters(first) <= kShortName && first.size() > 1) return first;
  std::size_t end = 0;
  for (std::size_t taken = 0; end < name.size(); ++end) {
    if (begins_letter(name[end]) && ++taken > kShortName) break;
  }
  return name.substr(0, end) + "\u2026";
}

std::string title_of(const Protocol& protocol, const Child& child) {
  return sheet_say(SheetWord::title, child.language, plain_words(protocol.title, child.language), child.name);
}

void set_validity(Sheet& sheet, const Validity& valid, const Day& today) {
  const auto why = [&] {
    switch (valid.ends) {
      case Validity::Ends::approval:
        return SheetWord::valid_approval;
      case Validity::Ends::weight:
        return SheetWord::valid_weight;
      case Validity::Ends::rescue:
        return SheetWord::valid_rescue;
      case Validity::Ends::age:
        return SheetWord::valid_age;
      case Validity::Ends::look_again:
        break;
    }
    return SheetWord::valid_look_again;
  }();
  const std::string until = sheet_say(SheetWord::valid_until, sheet.language, text_from_day(valid.until)) + ", " +
                            sheet_say(why, sheet.language);
  if (std::chrono::sys_days(valid.until) < std::chrono::sys_days(today)) {
    sheet.validity = sheet_say(SheetWord::not_valid, sheet.language, until);
    return;
  }
  sheet.valid_until = valid.until;
  sheet.validity = until + ".";
}

SheetWord line_of(Contact contact) {
  switch (contact) {
    case Contact::emergency:
      return SheetWord::line_emergency;
    case Contact::clinic:
      return SheetWord::line_clinic;
    case Contact::on_call:
      break;
  }
  return SheetWord::line_on_call;
}

void set_contacts(Sheet& sheet, const Child& child) {
  const Language language = child.language;
  for (const Contact contact : {Contact::emergency, Contact::clinic, Contact::on_call}) {
    const std::string& number = contact == Contact::emergency ? child.contacts.emergency
                                : contact == Contact::clinic  ? child.contacts.clinic
                                                              : child.contacts.on_call;
    // A clinic with one line for both is named once.
    if (contact == Contact::on_call && number.empty() && !child.contacts.clinic.empty()) continue;
    sheet.contacts.push_back({sheet_say(line_of(contact), language), number});
  }
  const Contacts& contacts = child.contacts;
  if (!contacts.second_adult.empty() || !contacts.second_adult_name.empty())
    sheet.contacts.push_back(
        {contacts.second_adult_name.empty() ? phrase(Phrase::second_adult, language) : contacts.second_adult_name,
         contacts.second_adult});
  sheet.address = contacts.address.empty() ? "____________________" : contacts.address;  // to write on
}

/// Where a number or a rule hangs on the hour, each other stretch of the day has a page of its own.
void add_other_hours(Sheet& sheet, const Protocol& protocol, const Child& child, const Day& today) {
  const Context context{age_on(child.birth, today), child.weight, ClockTime::of_minutes(12 * 60)};
  const std::vector<Hours> hours = hours_of(protocol, context);
  const auto title = [&](const Hours& each) {
    return sheet.low.title + ". " +
           sheet_say(SheetWord::by_hours, sheet.language, text_from_clock_time(each.from),
                     text_from_clock_time(each.up_to));
  };
  for (std::size_t at = 1; at < hours.size(); ++at) {
    const Moment moment{std::chrono::sys_days(today) + std::chrono::minutes{hours[at].from.minutes()},
                        std::chrono::minutes{0}};
    std::optional<LowPage> page = low_page(protocol, child, moment);
    if (!page || texts_of(page->page) == texts_of(sheet.low)) continue;
    page->page.title = title(hours[at]);
    sheet.further.push_back(std::move(page->page));
  }
  if (!sheet.further.empty()) sheet.low.title = title(hours.front());
}

}  // namespace

Child as_called(Child child) {
  child.name = called(child.name);
  child.contacts.second_adult_name = called(child.contacts.second_adult_name);
  return child;
}

std::optional<Sheet> sheet_of(const CheckedProtocol& low, const std::vector<CheckedProtocol>& further,
                              const Child& whole, const Day& today) {
  const Child child = as_called(whole);
  const Protocol& protocol = low.protocol();
  const Moment at = noon_of(today);
  std::optional<LowPage> page = low_page(protocol, child, at);
  if (!page) return std::nullopt;
  Sheet sheet{};
  sheet.language = child.language;
  sheet.child = whole.name;
  sheet.about = about(child, today);
  sheet.printed = today;
  set_validity(sheet, validity_of(protocol, child, today, page->page), today);
  set_contacts(sheet, whole);
  sheet.nobody_answers = std::move(page->nobody_answers);
  sheet.low = std::move(page->page);
  sheet.low.title = title_of(protocol, whole);
  sheet.continued = title_of(protocol, child);
  sheet.any_time = std::move(page->any_time);
  sheet.anything_else = std::move(page->anything_else);
  sheet.say.push_back(sheet_say(SheetWord::say_child, child.language, whole.name, sheet.about));
  const View first = view_of(protocol, child, begun(protocol, child, at), at);
  sheet.approval = first.approval.text;
  sheet.approved = first.approval.state == ApprovalState::approved;
  sheet.cautions.push_back(sheet_say(SheetWord::no_insulin, child.language));
  for (const std::string& caution : first.caution) {
    if (caution != sheet.approval) sheet.cautions.push_back(caution);
  }
  add_other_hours(sheet, protocol, child, today);
  for (const CheckedProtocol& other : further) {
    sheet.further.push_back(further_page(other.protocol(), child, at));
    sheet.further.back().title = title_of(other.protocol(), whole);
  }
  return sheet;
}

}  // namespace rushlight
