#include "cli/compare_json.hpp"

#include "cli/told_differences.hpp"
#include "protocol/words.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

const char* name_of(Difference::Kind kind) {
  switch (kind) {
    case Difference::Kind::leads:
      return "leads";
    case Difference::Kind::urgency:
      return "urgency";
    case Difference::Kind::action:
      return "action";
    case Difference::Kind::order:
      return "order";
    case Difference::Kind::wait:
      return "wait";
    case Difference::Kind::call:
      return "call";
    case Difference::Kind::dose:
      return "dose";
    case Difference::Kind::count:
      return "count";
    case Difference::Kind::question:
      return "question";
    case Difference::Kind::put_in:
      return "step-put-in";
    case Difference::Kind::words:
      return "words";
    case Difference::Kind::number:
      return "number";
    case Difference::Kind::other:
      break;
  }
  return "other";
}

class Regions {
 public:
  Regions(JsonWriter& out, const Protocol& protocol) : out_(out), protocol_(protocol) {}

  void write(const std::vector<Cases>& regions) {
    out_.begin_list();
    for (const Cases& region : regions) write(region);
    out_.end_list();
  }

 private:
  void write(const Cases& region) {
    out_.begin_list();
    for (const CaseLimit& limit : region.limits) write(limit, region.unit);
    out_.end_list();
  }

  const Fact* fact_of(const CaseLimit& limit) const {
    return limit.subject.kind == Subject::Kind::fact ? &protocol_.facts[limit.subject.index] : nullptr;
  }

  void write_subject(const CaseLimit& limit) {
    const std::uint16_t index = limit.subject.index;
    switch (limit.subject.kind) {
      case Subject::Kind::fact:
        out_.key("fact").text(protocol_.facts[index].name);
        break;
      case Subject::Kind::counter:
        out_.key("counter").text(protocol_.counters[index].name);
        break;
      case Subject::Kind::done:
        out_.key("done").text(protocol_.actions[index].name);
        break;
      case Subject::Kind::change:
        out_.key("change").text(protocol_.marks[index].name);
        break;
      case Subject::Kind::clock:
        out_.key("clock").boolean(true);
        break;
    }
  }

  // As a program compares it, in the unit named beside it: years are 12 months, hours 3600 seconds.
  void write_number(const CaseLimit& limit, std::int64_t value) {
    const Fact* fact = fact_of(limit);
    const bool decimal = fact != nullptr && (fact->kind == FactKind::glucose || fact->kind == FactKind::ketones ||
                                             fact->kind == FactKind::weight || fact->kind == FactKind::insulin);
    if (decimal) {
      out_.number(Decimal::of_micros(value));
    } else {
      out_.whole(value);
    }
  }

  static std::string ucum_of(Unit unit) {
    const std::string text = text_from_quantity(Quantity{Decimal::whole(1), unit});
    return text.substr(text.find(' ') + 1);
  }

  std::string unit_of_limit(const CaseLimit& limit, GlucoseUnit unit) const {
    if (limit.subject.kind == Subject::Kind::clock) return "min";
    const Fact* fact = fact_of(limit);
    if (fact == nullptr) return "1";
    switch (fact->kind) {
      case FactKind::glucose:
        return unit == GlucoseUnit::mg_per_dl ? "mg/dL" : "mmol/L";
      case FactKind::ketones:
        return "mmol/L";
      case FactKind::weight:
        return "kg";
      case FactKind::insulin:
        return ucum_of(Unit::insulin_unit);
      case FactKind::age:
        return "mo";
      case FactKind::time_since:
        return "s";
      case FactKind::choice:
      case FactKind::ordered_choice:
      case FactKind::count:
        break;
    }
    return "1";
  }

  void write(const CaseLimit& limit, GlucoseUnit unit) {
    out_.begin_object();
    write_subject(limit);
    if (!limit.intervals.empty()) {
      out_.key("unit").text(unit_of_limit(limit, unit)).key("numbers").begin_list();
      for (const Interval& interval : limit.intervals) {
        out_.begin_object();
        if (interval.from) write_number_at(interval.with_from ? "at_least" : "above", limit, *interval.from);
        if (interval.up_to) write_number_at(interval.with_up_to ? "at_most" : "below", limit, *interval.up_to);
        out_.end_object();
      }
      out_.end_list();
    }
    if (!limit.options.empty()) {
      out_.key("is").begin_list();
      for (const std::uint16_t option : limit.options) out_.text(option_name(limit, option));
      out_.end_list();
    }
    if (limit.cant_tell) out_.key("unknown").boolean(true);
    out_.end_object();
  }

  void write_number_at(const char* key, const CaseLimit& limit, std::int64_t value) {
    out_.key(key);
    write_number(limit, value);
  }

  std::string option_name(const CaseLimit& limit, std::uint16_t option) const {
    if (limit.subject.kind == Subject::Kind::done) return option == 1 ? "yes" : "no";
    if (limit.subject.kind == Subject::Kind::change) return std::string(words::kChanges[option]);
    return protocol_.facts[limit.subject.index].options[option].name;
  }

  JsonWriter& out_;
  const Protocol& protocol_;
};

void write(JsonWriter& out, const Differences& all, const Difference& difference) {
  out.begin_object().key("kind").text(name_of(difference.kind)).key("turn").text(name_of(difference.turn));
  out.key("at").begin_list();
  for (const Difference::Place& place : difference.at) {
    out.begin_object().key("occasion").text(place.occasion);
    if (!place.step.empty()) out.key("step").text(place.step);
    out.end_object();
  }
  out.end_list().key("for").begin_list();
  for (const std::string& text : texts_from_regions(all, difference)) out.text(text);
  out.end_list();
  Regions regions(out, all.sides.both);
  out.key("regions");
  regions.write(difference.regions);
  if (!difference.regions_mmol.empty()) {
    out.key("regions_mmol");
    regions.write(difference.regions_mmol);
  }
  out.key("all_regions").boolean(!difference.too_many);
  if (difference.language) out.key("language").text(words::kLanguages[static_cast<std::size_t>(*difference.language)]);
  out.key("was").text(difference.was).key("now").text(difference.now);
  if (!difference.left_out.empty()) out.key("left_out").text(difference.left_out);
  out.end_object();
}

void write(JsonWriter& out, const Compared& compared) {
  out.begin_object().key("protocol").text(compared.protocol);
  if (!compared.both) {
    out.key("only_in").text(compared.only_was ? "was" : "now").end_object();
    return;
  }
  const Differences& all = *compared.both;
  out.key("to_the_end").boolean(!all.gave_up);
  out.key("steps").whole(static_cast<long long>(all.steps));
  out.key("steps_changed").whole(static_cast<long long>(all.steps_changed));
  out.key("ways").whole(static_cast<long long>(all.ways));
  out.key("ways_changed").whole(static_cast<long long>(all.ways_changed));
  out.key("changes").begin_list();
  for (const Difference& difference : all.changes) write(out, all, difference);
  out.end_list().end_object();
}

}  // namespace

std::string json_from_compared(const std::vector<Compared>& all, bool laws_differ, const DraftErrors& errors) {
  JsonWriter out;
  out.begin_object().key("protocols").begin_list();
  for (const Compared& compared : all) write(out, compared);
  out.end_list().key("laws_differ").boolean(laws_differ);
  out.key("errors").begin_object().key("was").whole(static_cast<long long>(errors.was));
  out.key("now").whole(static_cast<long long>(errors.now)).end_object().end_object();
  return out.json();
}

}  // namespace rushlight
