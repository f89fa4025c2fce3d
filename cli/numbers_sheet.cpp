#include "cli/numbers_sheet.hpp"

#include <algorithm>
#include <array>

#include "cli/number_words.hpp"
#include "cli/numbers_list.hpp"
#include "episode/words.hpp"
#include "finding/quoted.hpp"
#include "measure/written.hpp"
#include "protocol/band_name.hpp"
#include "wire/csv.hpp"

namespace rushlight {
namespace {

constexpr std::array<Both, kColumns> kHeadings = {{{"id", "id"},
                                                   {"protocols", "protocolos"},
                                                   {"band", "banda"},
                                                   {"label", "qué es"},
                                                   {"value", "valor"},
                                                   {"mmol/L", "mmol/L"},
                                                   {"least", "mínimo"},
                                                   {"most", "máximo"},
                                                   {"was", "antes"},
                                                   {"source", "fuente"},
                                                   {"where", "dónde"}}};

constexpr std::size_t kMostSheetFindings = 50;  // more say nothing new

/// Where the columns of this table stand.
struct Head {
  std::array<std::optional<std::size_t>, kColumns> at;
  bool has(Column column) const { return at[static_cast<std::size_t>(column)].has_value(); }
};

Read<Head> head_of(const CsvTable& table, const std::string& file) {
  Read<Head> read{Head{}, {}};
  const auto refuse = [&](const Where& where, Kind kind) {
    read.findings.push_back({Severity::error, where, std::move(kind), std::nullopt});
  };
  for (std::size_t i = 0; i < table.head.size(); ++i) {
    for (int column = 0; column < kColumns; ++column) {
      const std::string word = small_letters(table.head[i].text);
      const Both& known = kHeadings[static_cast<std::size_t>(column)];
      if (word != small_letters(known.en) && word != small_letters(known.es)) continue;
      std::optional<std::size_t>& at = read.value->at[static_cast<std::size_t>(column)];
      if (at) refuse(table.head[i].where, RepeatedKey{table.head[i].text});
      at = i;
    }
  }
  for (const Column column : {Column::id, Column::value}) {
    if (!read.value->has(column))
      refuse(Where{file, 1, 0, 0}, MissingKey{heading(column, Language::en), "the first row"});
  }
  if (!read.findings.empty()) read.value.reset();
  return read;
}

/// A, B, ... Z, AA: as a spreadsheet names its columns.
std::string letters_of(std::size_t column) {
  const std::string last(1, static_cast<char>('A' + column % 26));
  return column < 26 ? last : letters_of(column / 26 - 1) + last;
}

std::string column_named(Column column) { return "the column " + rushlight::quoted(heading(column, Language::en)); }

std::vector<std::string> protocols_named(const std::string& cell) {
  std::vector<std::string> names;
  for (std::size_t begin = 0; begin < cell.size();) {
    const std::size_t end = std::min(cell.find_first_of(",; ", begin), cell.size());
    if (end > begin) names.push_back(cell.substr(begin, end - begin));
    begin = end + 1;
  }
  return names;
}

class SheetReader {
 public:
  SheetReader(const NumbersSet& set, const CsvTable& table, const Head& head)
      : set_(set), table_(table), head_(head), style_(table.decimal_comma ? NumberStyle::comma : NumberStyle::point) {}

  void read(const CsvRow& row) {
    row_ = &row;
    const std::string value = text_of(Column::value), mmol = mmol_cell(), was = text_of(Column::was);
    const std::string stated = mmol.empty() ? value : value + (value.empty() ? "" : ", ") + mmol;
    if (head_.has(Column::was) && stated == was) return;
    const std::string id = text_of(Column::id);
    Wish wish{protocols_named(text_of(Column::protocols)),
              id,
              text_of(Column::band),
              stated,
              style_,
              where_of(Column::value),
              cell_of(Column::value)};
    // A table holds the id alone, and people write there what they type elsewhere.
    if (const auto typed = wish_from_text(id + "="); typed && wish.protocols.empty() && wish.band.empty()) {
      wish.protocols = typed->protocols;
      wish.id = typed->id;
      wish.band = typed->band;
    }
    auto named = named_number(set_, wish);
    if (auto* finding = std::get_if<Finding>(&named)) {
      finding->where = where_of(Column::id);
      return refuse(std::move(*finding), Column::id);
    }
    const NamedNumber& number = std::get<NamedNumber>(named);
    const NumberPlace first = number.places.front();
    const ThresholdKind kind = set_.threshold(first).kind;
    if (kind == ThresholdKind::glucose && head_.has(Column::mmol)) {
      const std::optional<ValueWords> then = words_in(kind, was);
      wish.value = glucose_stated(value, mmol, then ? *then : words_of(set_.draft(first), number.band));
      if (wish.value != stated) wish.kept = wish.value == value ? mmol : value;
    }
    if (wish.value.empty()) {
      return refuse({Severity::error, where_of(Column::value), BadNumber{"", "nothing is written"}, std::nullopt},
                    Column::value);
    }
    // A row that was not touched, or a table that is given a second time.
    if (is_there(number, wish.value)) return;
    if (head_.has(Column::was) && !is_fresh(number, was)) return;
    wishes.push_back(std::move(wish));
  }

  std::vector<Wish> wishes;
  std::vector<Finding> findings;

 private:
  const CsvCell* cell(Column column) const {
    const auto& at = head_.at[static_cast<std::size_t>(column)];
    return at && *at < row_->size() ? &(*row_)[*at] : nullptr;
  }
  std::string text_of(Column column) const {
    const CsvCell* found = cell(column);
    return found == nullptr ? "" : std::string(trimmed(cell_as_written(found->text)));
  }
  Where where_of(Column column) const {
    const CsvCell* found = cell(column);
    return found == nullptr ? row_->front().where : found->where;
  }
  /// "line 2 of the table, column `value` (E)"
  std::string cell_of(Column column) const {
    const auto& at = head_.at[static_cast<std::size_t>(column)];
    const std::string line = "line " + std::to_string(where_of(column).line) + " of the table";
    return at ? line + ", column " + rushlight::quoted(table_.head[*at].text) + " (" + letters_of(*at) + ")" : line;
  }
  void refuse(Finding finding, Column column) { findings.push_back(in_table(std::move(finding), cell_of(column))); }

  /// Above this column the unit is said already.
  std::string mmol_cell() const {
    const std::string text = text_of(Column::mmol);
    const bool bare = !text.empty() && text.find_first_not_of("0123456789.,") == std::string::npos;
    return bare ? text + " mmol/L" : text;
  }

  std::optional<ValueWords> words_in(ThresholdKind kind, const std::string& text) const {
    const Read<StatedValue> stated = stated_value(kind, text, Where{"", 0, 0, 0}, style_);
    if (!stated.value || stated.value->proposed) return std::nullopt;
    return stated.value->words;
  }

  bool is_there(const NamedNumber& number, const std::string& value) const {
    return std::all_of(number.places.begin(), number.places.end(), [&](NumberPlace place) {
      const ThresholdKind kind = set_.threshold(place).kind;
      const Read<StatedValue> stated = stated_value(kind, value, Where{"", 0, 0, 0}, style_);
      return stated.value && same_words(kind, stated.value->words, words_of(set_.draft(place), number.band));
    });
  }

  /// The value that the table was made with is still the one of every file.
  bool is_fresh(const NamedNumber& number, const std::string& was) {
    for (const NumberPlace& place : number.places) {
      const ThresholdKind kind = set_.threshold(place).kind;
      const ValueWords now = words_of(set_.draft(place), number.band);
      const std::optional<ValueWords> then = words_in(kind, was);
      if (then && same_words(kind, *then, now)) continue;
      refuse({Severity::error, where_of(Column::was), StaleRow{number.name, was, value_shown(now, Language::en)},
              std::nullopt},
             Column::was);
      return false;
    }
    return true;
  }

  /// Of two cells the one that was changed counts; the other one too, when both are still one glucose.
  std::string glucose_stated(const std::string& value, const std::string& mmol, const ValueWords& before) const {
    const std::string both = value + (value.empty() || mmol.empty() ? "" : ", ") + mmol;
    if (value.empty() || mmol.empty()) return both;
    const bool mg_kept = is_glucose(value, before.mg_dl, GlucoseUnit::mg_per_dl);
    const bool mmol_kept = is_glucose(mmol, before.mmol_l, GlucoseUnit::mmol_per_l);
    if (mg_kept == mmol_kept) return both;
    if (const auto words = words_in(ThresholdKind::glucose, both)) {
      const auto mg = decimal_from_text(words->mg_dl), other = decimal_from_text(words->mmol_l);
      const auto *a = std::get_if<Decimal>(&mg), *b = std::get_if<Decimal>(&other);
      if (a && b && agree(GlucoseLimit{*a, *b})) return both;
    }
    return mg_kept ? mmol : value;
  }

  bool is_glucose(const std::string& cell_text, const std::string& number, GlucoseUnit unit) const {
    const Read<StatedValue> stated = stated_value(ThresholdKind::glucose, cell_text, Where{"", 0, 0, 0}, style_);
    const bool in_mg = unit == GlucoseUnit::mg_per_dl;
    if (!stated.value || stated.value->proposed != (in_mg ? GlucoseUnit::mmol_per_l : GlucoseUnit::mg_per_dl))
      return false;
    return decimal_from_text(in_mg ? stated.value->words.mg_dl : stated.value->words.mmol_l) ==
           decimal_from_text(number);
  }

  const NumbersSet& set_;
  const CsvTable& table_;
  const Head& head_;
  const CsvRow* row_ = nullptr;
  NumberStyle style_;
};

}  // namespace

std::string heading(Column column, Language language) {
  return say(kHeadings[static_cast<std::size_t>(column)], language);
}

Finding in_table(Finding finding, const std::string& cell, const std::string& kept) {
  finding.because = Because{finding.because ? cell + ": " + finding.because->text : cell,
                            finding.because ? finding.because->where : std::nullopt};
  std::string what = sentence(finding.kind);
  std::string right;
  if (const auto* several = finding.kind.as<SeveralNumbers>()) {
    for (const std::string& name : several->names)
      right += (right.empty() ? "write " : " or ") + rushlight::quoted(name.substr(0, name.find('/')));
    right += " into " + column_named(Column::protocols);
  } else if (const auto* banded = finding.kind.as<BandUnnamed>()) {
    for (const std::string& band : banded->bands)
      right += (right.empty() ? "write " : " or ") + rushlight::quoted(band);
    right += " into " + column_named(Column::band);
  } else if (const auto* other = finding.kind.as<OtherUnitUnstated>()) {
    const bool mmol = other->proposed.ends_with("mmol/L");
    if (!kept.empty())
      what = rushlight::quoted(other->threshold) + " has two values: " + other->stated + " is new, and " + kept +
             " beside it is still the old one";
    right = "write " + rushlight::quoted(other->proposed) + " into " +
            column_named(mmol ? Column::mmol : Column::value) + ", or take it with `--yes`";
  }
  if (!right.empty()) finding.kind = WrongUse{what, std::move(right)};
  return finding;
}

std::string csv_from_numbers(const NumbersSet& set, const std::vector<Draft>& changed, Language language) {
  std::vector<std::string> head;
  for (int column = 0; column < kColumns; ++column) head.push_back(heading(static_cast<Column>(column), language));
  std::string csv = csv_row(head);
  for (const Number& number : set.numbers) {
    const NumberPlace first = number.places.front();
    const Threshold& threshold = set.threshold(first);
    const std::string label = plain_words(threshold.label, language);
    const Border border = border_of(set, number, language);
    for (std::size_t band = 0; band < threshold.bands.size(); ++band) {
      const ValueWords words = words_of(set.draft(first), band);
      const ValueWords now = words_of(changed[first.file].thresholds[first.threshold], band);
      const std::vector<std::string> lines = value_lines(now, language);
      const bool banded = has_bands(threshold);
      csv += csv_row(
          {threshold.name, protocols_of(set, number.places, ", "), banded ? name_of(threshold.bands[band]) : "",
           banded ? label + ": " + band_shown(threshold.bands[band], language) : label, lines.front(),
           lines.size() > 1 ? lines.back() : "", border.least, border.most, value_shown(words, language),
           sources_shown(set, number, Citation::whole, language), places_shown(set, number.places, band, true)});
    }
  }
  return csv;
}

std::string csv_from_numbers(const NumbersSet& set, Language language) {
  std::vector<Draft> drafts;
  for (const NumbersFile& file : set.files) drafts.push_back(file.draft);
  return csv_from_numbers(set, drafts, language);
}

Read<std::vector<Wish>> wishes_from_csv(const NumbersSet& set, const std::string& bytes, const std::string& file) {
  Read<CsvTable> table = csv_table(bytes, file);
  if (!table.value) return {std::nullopt, std::move(table.findings)};
  Read<Head> head = head_of(*table.value, file);
  if (!head.value) return {std::nullopt, std::move(head.findings)};
  SheetReader reader(set, *table.value, *head.value);
  for (const CsvRow& row : table.value->rows) {
    if (reader.findings.size() < kMostSheetFindings) reader.read(row);
  }
  if (!reader.findings.empty()) return {std::nullopt, std::move(reader.findings)};
  return {std::move(reader.wishes), {}};
}

}  // namespace rushlight
