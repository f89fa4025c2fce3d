#include "protocol/resolve_parts.hpp"

namespace rushlight {
namespace {

Day day_from_word(Resolver& resolver, const Word* word) {
  const std::optional<Day> day = word == nullptr ? std::nullopt : day_from_text(word->text);
  if (word != nullptr && !day) resolver.error(word->where, BadDate{"approval", word->text});
  return day.value_or(Day{});
}

Approval approval_from(Resolver& resolver, const DraftApproval& draft) {
  const auto word = [&](const MaybeWord& each, const char* name) {
    return needed(resolver, each, name, "approval", draft.where);
  };
  Approval approval{};
  if (const Word* by = word(draft.by, "by")) approval.by = by->text;
  if (const Word* role = word(draft.role, "role")) approval.role = role->text;
  approval.on = day_from_word(resolver, word(draft.on, "on"));
  approval.until = day_from_word(resolver, word(draft.until, "until"));
  if (approval.on.ok() && approval.until.ok() && approval.until < approval.on) {
    resolver.error(draft.until->where, WrongUse{"the approval ends on " + draft.until->text + ", before it begins on " +
                                                    draft.on->text,
                                                "let the clinic approve the file again"});
  }
  for (const DraftApprovedFile& file : draft.files) {
    const Word* name = needed(resolver, file.name, "name", "file", file.where);
    const Word* sha256 = needed(resolver, file.sha256, "sha256", "file", file.where);
    if (name != nullptr && sha256 != nullptr) approval.files.push_back(ApprovedFile{name->text, sha256->text});
  }
  if (const Word* key = word(draft.key, "key")) approval.key = key->text;
  if (const Word* signature = word(draft.signature, "signature")) approval.signature = signature->text;
  return approval;
}

}  // namespace

void resolve_marks(Resolver& resolver) {
  for (const DraftMark& draft : resolver.draft.marks) {
    Mark mark{};
    mark.name = draft.id ? draft.id->text : "";
    mark.where = draft.where;
    const auto place = needed_place_in(resolver, resolver.facts, draft.fact, "fact", "mark", draft.where);
    mark.fact = id_or_stand_in<FactId>(place);
    if (place) {
      const Fact& fact = resolver.protocol[mark.fact];
      const bool goes_up_and_down = fact.kind == FactKind::ketones || fact.kind == FactKind::ordered_choice ||
                                    fact.kind == FactKind::count;
      if (!goes_up_and_down || fact.from_child) {
        resolver.error(draft.fact->where, WrongUse{"`" + fact.name + "` neither falls nor rises",
                                                   "mark ketones, a count or an ordered choice that is asked"});
      }
    }
    mark.rise_over = threshold_from(resolver, draft.rise_over, {ThresholdKind::ketones});
    if (place && draft.rise_over && resolver.protocol[mark.fact].kind != FactKind::ketones) {
      resolver.error(draft.rise_over->where,
                     WrongUse{"`rise-over` is how far two ketone readings differ by chance, and `" +
                                  resolver.protocol[mark.fact].name + "` is no ketone reading",
                              "leave `rise-over` out, or mark blood ketones"});
    }
    resolver.protocol.marks.push_back(std::move(mark));
  }
}

void resolve_part(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  Protocol& protocol = resolver.protocol;
  Part part{};
  part.name = protocol.name;
  part.start = protocol.start;
  part.opening = protocol.opening;
  part.steps = static_cast<std::uint16_t>(protocol.steps.size());
  part.watches = static_cast<std::uint16_t>(protocol.watch.size());
  part.daily_dose_fresh = threshold_from(resolver, draft.daily_dose_fresh, {ThresholdKind::time});
  part.insulin_doses = is_yes(resolver, draft.insulin_doses, "insulin-doses");
  if (draft.approval) part.approval = approval_from(resolver, *draft.approval);
  if (draft.history) {
    const auto limit = [&](const MaybeWord& word, ThresholdKind kind, const char* name) {
      return needed_threshold(resolver, word, {kind}, name, "history", draft.history->where).value_or(ThresholdId{0});
    };
    part.past = PastLimits{limit(draft.history->low, ThresholdKind::glucose, "low"),
                           limit(draft.history->high, ThresholdKind::glucose, "high"),
                           limit(draft.history->near, ThresholdKind::time, "near")};
  }
  if (draft.fluids) {
    part.hourly_fluid = as_id<DoseId>(
        needed_place_in(resolver, resolver.doses, draft.fluids->hourly, "hourly", "fluids", draft.fluids->where));
    if (part.hourly_fluid && protocol[*part.hourly_fluid].unit != Unit::millilitre) {
      resolver.error(draft.fluids->hourly->where,
                     WrongUse{"drinks are counted in mL, and `" + draft.fluids->hourly->text + "` is not in mL",
                              "name a dose in mL"});
    }
  }
  // Insulin on a dose that nobody knows the age of would be insulin on a guess.
  if (part.insulin_doses && !draft.daily_dose_fresh)
    resolver.error(draft.insulin_doses->where, MissingAttribute{"daily-dose-fresh", "protocol"});
  protocol.parts.push_back(std::move(part));
}

}  // namespace rushlight
