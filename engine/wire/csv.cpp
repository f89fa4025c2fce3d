#include "wire/csv.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "finding/byte_order_mark.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {


// Signs a formula begins with; the last four are the wide forms that spreadsheets of East Asia take for them.
constexpr std::array<std::string_view, 8> kFormulaSigns = {
    "=", "+", "-", "@", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};

bool begins_formula(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n\xC2\xA0");
  if (first == std::string_view::npos) return false;
  text.remove_prefix(first);
  return std::any_of(kFormulaSigns.begin(), kFormulaSigns.end(),
                     [&](std::string_view sign) { return text.starts_with(sign); });
}

std::string harmless(std::string_view cell) {
  std::string text;
  bool at_start = true;  // of what one spreadsheet or another takes for a cell
  for (std::size_t at = 0; at < cell.size(); ++at) {
    if (at_start && begins_formula(cell.substr(at))) text += '\'';
    at_start = cell[at] == ';' || cell[at] == '\t' || cell[at] == '\n' || cell[at] == '\r';
    text += cell[at];
  }
  return text;
}

char separator_of(std::string_view first_row) {
  std::array<std::pair<char, std::size_t>, 3> counts = {{{',', 0}, {';', 0}, {'\t', 0}}};
  bool quoted = false;
  for (const char c : first_row) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == '\n' || c == '\r')) break;
    for (auto& [sign, count] : counts) count += !quoted && c == sign ? 1 : 0;
  }
  const auto more = [](const auto& a, const auto& b) { return a.second < b.second; };
  return std::max_element(counts.begin(), counts.end(), more)->first;
}

class CsvReader {
 public:
  CsvReader(std::string_view bytes, const std::string& file) : rest_(bytes), file_(file) {}

  Read<CsvTable> table() {
    if (rest_.starts_with(kByteOrderMark)) rest_.remove_prefix(kByteOrderMark.size());
    take_separator();
    CsvTable table{{}, {}, separator_ != ','};
    while (!rest_.empty() && findings_.empty()) {
      CsvRow row = take_row();
      if (!findings_.empty()) break;
      if (std::all_of(row.begin(), row.end(), [](const CsvCell& cell) { return cell.text.empty(); })) continue;
      if (table.head.empty()) {
        table.head = std::move(row);
      } else if (!refuse_wide(row, table.head.size())) {
        table.rows.push_back(std::move(row));
      }
      if (table.rows.size() > kMostCsvRows) too_large("rows", table.rows.size(), kMostCsvRows);
    }
    if (findings_.empty() && table.head.empty())
      refuse(Where{file_, 0, 0, 0}, "it is empty", "make one with `rushlight thresholds SET --csv`");
    if (!findings_.empty()) return {std::nullopt, std::move(findings_)};
    return {std::move(table), {}};
  }

 private:
  void take_separator() {
    constexpr std::string_view kSays = "sep=";
    if (rest_.size() > kSays.size() && small_letters(rest_.substr(0, kSays.size())) == kSays) {
      separator_ = rest_[kSays.size()];
      const std::size_t end = std::min(rest_.find_first_of("\r\n"), rest_.size());
      take(end);
      take_line_end();
    } else {
      separator_ = separator_of(rest_);
    }
  }

  CsvRow take_row() {
    CsvRow row;
    bool more = true;
    while (more && findings_.empty()) {
      row.push_back(take_cell());
      more = !rest_.empty() && rest_.front() == separator_;
      if (more) take(1);
      if (row.size() > kMostCsvCells) too_large("cells of a row", row.size(), kMostCsvCells);
    }
    take_line_end();
    return row;
  }

  CsvCell take_cell() {
    const Where begin{file_, line_, column_, 1};
    std::string text = !rest_.empty() && rest_.front() == '"' ? take_quoted(begin) : take_bare();
    Where where = begin;
    // Of a cell of several lines the first one is underlined.
    where.length = line_ == begin.line && column_ > begin.column ? column_ - begin.column : 1;
    return {std::string(trimmed(text)), where};
  }

  std::string take_bare() {
    std::size_t end = 0;
    while (end < rest_.size() && rest_[end] != separator_ && rest_[end] != '\r' && rest_[end] != '\n') ++end;
    const std::string text(rest_.substr(0, end));
    take(end);
    return text;
  }

  std::string take_quoted(const Where& begin) {
    std::string text;
    take(1);
    for (;;) {
      const std::size_t quote = rest_.find('"');
      if (quote == std::string_view::npos) {
        refuse(begin, "a quote sign here has no partner", "close the cell with a quote sign, or take this one out");
        take(rest_.size());
        return text;
      }
      text += rest_.substr(0, quote);
      take(quote + 1);
      if (rest_.empty() || rest_.front() != '"') break;
      text += '"';
      take(1);
    }
    const bool ends = rest_.empty() || rest_.front() == separator_ || rest_.front() == '\r' || rest_.front() == '\n';
    if (!ends)
      refuse(begin, "text stands behind the closing quote sign of this cell", "write a quote sign inside a cell twice");
    return text;
  }

  void take_line_end() {
    if (!rest_.empty() && rest_.front() == '\r')
      take(rest_.size() > 1 && rest_[1] == '\n' ? 2 : 1);
    else if (!rest_.empty() && rest_.front() == '\n')
      take(1);
  }

  // Lines and columns follow what is taken; a line ends at LF, CR LF or a lone CR.
  void take(std::size_t bytes) {
    for (std::size_t i = 0; i < bytes; ++i) {
      const char c = rest_[i];
      const bool ends = c == '\n' || (c == '\r' && (i + 1 == rest_.size() || rest_[i + 1] != '\n'));
      if (ends) {
        ++line_;
        column_ = 1;
      } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
        ++column_;
      }
    }
    rest_.remove_prefix(bytes);
  }

  bool refuse_wide(const CsvRow& row, std::size_t head) {
    for (std::size_t at = head; at < row.size(); ++at) {
      if (row[at].text.empty()) continue;
      refuse(row[at].where,
             "this row has " + std::to_string(row.size()) + " cells, and the first row has " + std::to_string(head),
             "put quote signs round a cell that holds a comma");
      return true;
    }
    return false;
  }

  void refuse(const Where& where, std::string what, std::string right) {
    findings_.push_back({Severity::error, where, NotATable{std::move(what), std::move(right)}, std::nullopt});
  }
  void too_large(const char* what, std::size_t found, std::size_t most) {
    findings_.push_back({Severity::error, Where{file_, line_, 0, 0},
                         TooLarge{what, static_cast<long long>(found), static_cast<long long>(most)}, std::nullopt});
  }

  std::string_view rest_;
  const std::string& file_;
  char separator_ = ',';
  std::uint32_t line_ = 1, column_ = 1;
  std::vector<Finding> findings_;
};

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) row += ',';
    const std::string text = harmless(cells[i]);
    const bool blank_edge = !text.empty() && (text.front() == ' ' || text.back() == ' ');
    if (!blank_edge && text.find_first_of(",;\t\"\r\n") == std::string::npos) {
      row += text;
      continue;
    }
    row += '"';
    for (const char c : text) row += c == '"' ? std::string("\"\"") : std::string(1, c);
    row += '"';
  }
  return row + "\r\n";
}

std::string cell_as_written(std::string_view cell) {
  if (cell.starts_with('\'') && begins_formula(cell.substr(1))) cell.remove_prefix(1);
  return std::string(cell);
}

Read<CsvTable> csv_table(std::string_view bytes, const std::string& file_name) {
  const Where whole{file_name, 0, 0, 0};
  if (bytes.size() > kMostCsvBytes) {
    return {std::nullopt,
            {{Severity::error, whole,
              TooLarge{"the size of the file in bytes", static_cast<long long>(bytes.size()),
                       static_cast<long long>(kMostCsvBytes)},
              std::nullopt}}};
  }
  const bool other_encoding =
      bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF") || bytes.find('\0') != std::string_view::npos;
  if (other_encoding) return {std::nullopt, {{Severity::error, whole, NotUtf8{}, std::nullopt}}};
  return CsvReader(bytes, file_name).table();
}

}  // namespace rushlight
