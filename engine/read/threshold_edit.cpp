#include "read/threshold_edit.hpp"

#include <algorithm>
#include <utility>

#include "protocol/band_name.hpp"
#include "protocol/resolve.hpp"
#include "read/moved_places.hpp"
#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

/// A change with the number it is for.
struct Target {
  const ThresholdChange* change;
  std::size_t threshold;
  std::optional<std::size_t> band;
};

struct Editing {
  const Draft& draft;
  const Protocol& protocol;
  std::vector<Finding> findings{};

  void error(const ThresholdChange& change, Kind kind, std::optional<Because> because = std::nullopt) {
    findings.push_back({Severity::error, change.where, std::move(kind), std::move(because)});
  }
};

std::optional<Target> target_of(Editing& editing, const ThresholdChange& change) {
  const std::vector<Threshold>& all = editing.protocol.thresholds;
  const auto at = std::find_if(all.begin(), all.end(),
                               [&](const Threshold& threshold) { return threshold.name == change.threshold; });
  if (at == all.end()) {
    std::vector<std::string> known;
    for (const Threshold& threshold : all) known.push_back(threshold.name);
    editing.error(change, UnknownId{change.threshold, "threshold", known});
    return std::nullopt;
  }
  Target target{&change, static_cast<std::size_t>(at - all.begin()), std::nullopt};
  const bool written_as_bands = !editing.draft.thresholds[target.threshold].bands.empty();
  if (!written_as_bands && change.band.empty()) return target;
  std::vector<std::string> bands;
  if (written_as_bands) {
    for (const Band& band : at->bands) bands.push_back(name_of(band));
  }
  // The only band of a number is what its name alone stands for.
  target.band = change.band.empty() && bands.size() == 1 ? std::optional<std::size_t>{0} : band_named(*at, change.band);
  if (written_as_bands && target.band) return target;
  if (change.band.empty()) {
    editing.error(change, BandUnnamed{change.threshold, bands});
  } else {
    editing.error(change, UnknownId{change.band, "band of `" + change.threshold + "`", bands});
  }
  return std::nullopt;
}

void refuse_changed_twice(Editing& editing, const std::vector<Target>& targets) {
  for (std::size_t later = 1; later < targets.size(); ++later) {
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      const Target &a = targets[earlier], &b = targets[later];
      if (a.threshold != b.threshold || a.band != b.band) continue;
      const std::string band = b.change->band.empty() ? "" : ":" + b.change->band;
      editing.error(*b.change, RepeatedKey{b.change->threshold + band}, Because{"it is here too", a.change->where});
      break;
    }
  }
}

const Limit& value_of(const Protocol& protocol, const Target& target) {
  return protocol.thresholds[target.threshold].bands[target.band.value_or(0)].value;
}

/// The draft as it would be, each new word at the place where it was stated, or where the old one stands.
enum class At : bool { stated, old_place };
Draft changed_draft(Draft draft, const std::vector<Target>& targets, At at) {
  for (const Target& target : targets) {
    DraftThreshold& threshold = draft.thresholds[target.threshold];
    DraftBand* band = target.band ? &threshold.bands[*target.band] : nullptr;
    const ThresholdChange& change = *target.change;
    const auto put = [&](MaybeWord& word, const std::string& text) {
      if (word) word = Word{without_extra_blanks(text), at == At::stated ? change.where : word->where};
    };
    put(band ? band->value : threshold.value, change.words.value);
    put(band ? band->mg_dl : threshold.mg_dl, change.words.mg_dl);
    put(band ? band->mmol_l : threshold.mmol_l, change.words.mmol_l);
  }
  return draft;
}

/// A number of a kind that comes in several units stays in the one that its range and its users are written in.
bool refuse_other_unit(Editing& editing, const Target& target) {
  const auto* old = std::get_if<Quantity>(&value_of(editing.protocol, target));
  const auto read = quantity_from_text(target.change->words.value);
  const auto* now = std::get_if<Quantity>(&read);
  if (old == nullptr || now == nullptr || old->unit == now->unit) return false;
  editing.error(*target.change, WrongUnit{target.change->words.value, std::string(ucum(old->unit))});
  return true;
}

constexpr Decimal kLastDigit = Decimal::of_micros(100'000);

/// The file lets this pair be uneven, because its source prints it so. A slip of the finger is none of that.
void refuse_slip_in_exception(Editing& editing, const Target& target) {
  if (!editing.draft.thresholds[target.threshold].pair_exception) return;
  const auto mg = decimal_from_text(target.change->words.mg_dl), mmol = decimal_from_text(target.change->words.mmol_l);
  if (!std::holds_alternative<Decimal>(mg) || !std::holds_alternative<Decimal>(mmol)) return;
  const GlucoseLimit limit{std::get<Decimal>(mg), std::get<Decimal>(mmol)};
  const Decimal expected = other_value(limit.mg_per_dl, GlucoseUnit::mg_per_dl);
  if (agree(limit)) return;
  if (limit.mmol_per_l <= expected + kLastDigit && expected <= limit.mmol_per_l + kLastDigit) return;
  editing.error(*target.change,
                ValuesDisagree{target.change->threshold, text_from_decimal(limit.mg_per_dl),
                               text_from_decimal(limit.mmol_per_l), text_from_decimal(expected),
                               text_from_decimal(other_value(limit.mmol_per_l, GlucoseUnit::mmol_per_l))});
}

/// What the reader of protocols says to the new values.
void add_findings_of_reader(Editing& editing, const std::vector<Target>& targets) {
  for (Finding& finding : resolve(changed_draft(editing.draft, targets, At::stated)).findings) {
    for (const Target& target : targets) {
      if (finding.where == target.change->where && finding.kind.is<OutOfRange>())
        finding.because = Because{"its range is written here", editing.protocol.thresholds[target.threshold].where};
    }
    editing.findings.push_back(std::move(finding));
  }
}

/// What stands between the quote signs, without the blanks at its ends, which stay. A word is where its value begins;
/// how long it is in the file can be read there only, since a place ends with its line.
Span span_of(std::string_view bytes, const Lines& lines, const Word& word) {
  Span span{lines.byte_at(word.where.line, word.where.column), bytes.size()};
  std::size_t sign = span.begin;
  while (sign > 0 && is_blank(bytes[sign - 1])) --sign;
  if (sign > 0) span.end = std::min(bytes.find(bytes[sign - 1], span.begin), bytes.size());
  while (span.end > span.begin && is_blank(bytes[span.end - 1])) --span.end;
  return span;
}

/// The old word as it can be stated again. Character references and line ends come out as what they stand for.
std::string stated_again(std::string_view raw, const MaybeWord& word) {
  return raw.find_first_of("&\r\n\t") == std::string_view::npos || !word ? std::string(raw) : word->text;
}

EditedProtocol edited_with(std::string_view bytes, const Draft& draft, const std::vector<Target>& targets) {
  EditedProtocol edited{"", changed_draft(draft, targets, At::old_place), {}};
  const Lines lines(bytes);
  std::vector<Splice> splices;
  for (const Target& target : targets) {
    const DraftThreshold& threshold = draft.thresholds[target.threshold];
    const DraftBand* band = target.band ? &threshold.bands[*target.band] : nullptr;
    ReplacedValue replaced{{}, band ? band->where : threshold.where};
    const auto replace = [&](const MaybeWord& word, const std::string& text, std::string& before) {
      if (!word) return;
      const Span span = span_of(bytes, lines, *word);
      const std::string_view raw = bytes.substr(span.begin, span.end - span.begin);
      before = stated_again(raw, word);
      replaced.as_written = replaced.as_written && before == raw;
      splices.push_back({span, text});
    };
    const ValueWords& words = target.change->words;
    replace(band ? band->value : threshold.value, words.value, replaced.before.value);
    replace(band ? band->mg_dl : threshold.mg_dl, words.mg_dl, replaced.before.mg_dl);
    replace(band ? band->mmol_l : threshold.mmol_l, words.mmol_l, replaced.before.mmol_l);
    edited.replaced.push_back(std::move(replaced));
  }
  edited.bytes = spliced(std::string(bytes), splices);
  move_places(edited.draft, bytes, splices, edited.bytes);
  return edited;
}

void tell_as_stated(std::vector<Finding>& findings, const std::string& file_name) {
  for (Finding& finding : findings) {
    const auto* disagree = finding.kind.as<ValuesDisagree>();
    if (disagree == nullptr) continue;
    ValuesDisagree as_stated = *disagree;
    as_stated.stated = finding.where.file != file_name;
    finding.kind = std::move(as_stated);
  }
}

}  // namespace

Read<EditedProtocol> threshold_edit(std::string_view bytes, const Draft& draft, const Protocol& protocol,
                                    const std::vector<ThresholdChange>& changes) {
  Editing editing{draft, protocol};
  std::vector<Target> targets;
  for (const ThresholdChange& change : changes) {
    if (const std::optional<Target> target = target_of(editing, change)) targets.push_back(*target);
  }
  refuse_changed_twice(editing, targets);
  std::vector<Target> sound;
  for (const Target& target : targets) {
    if (refuse_other_unit(editing, target)) continue;
    refuse_slip_in_exception(editing, target);
    sound.push_back(target);
  }
  add_findings_of_reader(editing, sound);
  tell_as_stated(editing.findings, draft.where.file);
  if (has_error(editing.findings)) return {std::nullopt, std::move(editing.findings)};
  return {edited_with(bytes, draft, targets), std::move(editing.findings)};
}

}  // namespace rushlight
