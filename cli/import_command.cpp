#include "cli/import_command.hpp"

#include <algorithm>
#include <ostream>

#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/night_file.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"
#include "cli/resumed.hpp"
#include "cli/shell_word.hpp"
#include "cli/situation.hpp"

namespace rushlight {
namespace {

/// The episode of the journal that this night is; nothing when it has none.
struct There {
  EpisodeRecord record;
  std::vector<std::string> lines;
};

class Import {
 public:
  Import(const NightFile& night, const std::string& file, Journal journal, std::ostream& out, std::ostream& err)
      : night_(night), file_(file), journal_(std::move(journal)), out_(out), err_(err) {}

  int run() {
    const Read<std::vector<EpisodeRecord>> episodes = journal_.episodes_of(night_.start.child);
    if (!episodes.value) return refuse(episodes.findings);
    std::optional<There> there;
    for (const EpisodeRecord& record : *episodes.value) {
      const bool same = record.start.began == night_.start.began && record.start.protocol == night_.start.protocol;
      if (same) {
        const Read<std::vector<std::string>> lines = journal_.lines_of(record.number);
        if (!lines.value) return refuse(lines.findings);
        there = There{record, *lines.value};
      } else if (!record.ended) {
        return refuse_use("another episode of this child is open here, from " + text_from_moment(record.start.began),
                          "end that one first: rushlight walk");
      }
    }
    if (there && !begins_with(night_.lines, there->lines))
      return refuse_use("this night went on otherwise here", "go on with the one in the journal: rushlight walk");
    if (there && there->lines.size() == night_.lines.size()) return said("It is in the journal already.");
    if (there && there->record.ended) return refuse_use("this night has ended here", "begin a new one: rushlight walk");
    return write(there);
  }

 private:
  static bool begins_with(const std::vector<std::string>& all, const std::vector<std::string>& front) {
    return front.size() <= all.size() && std::equal(front.begin(), front.end(), all.begin());
  }

  int write(const std::optional<There>& there) {
    const auto answer = journal_.claim(night_.start.child, this_walker(RealClock().now(), "import"));
    if (std::holds_alternative<HeldBy>(answer))
      return refuse_use("a walk of this child is going on", "end that one first");
    const auto* claimed = std::get_if<Claimed>(&answer);
    if (claimed == nullptr) return not_written(std::get<SaveFailed>(answer));
    const Claim& claim = claimed->claim;
    std::optional<SaveFailed> failed = write_lines(claim, there);
    journal_.release(claim);
    if (failed) return not_written(*failed);
    const std::string count = std::to_string(night_.lines.size());
    return said(night_.ended ? count + " events are in the journal. The night has ended."
                             : count + " events are in the journal. To go on: rushlight walk");
  }

  std::optional<SaveFailed> write_lines(const Claim& claim, const std::optional<There>& there) {
    std::optional<EpisodeNumber> number;
    std::size_t next = 0;
    if (there) {
      number = there->record.number;
      next = there->lines.size();
    } else {
      const auto begun = journal_.begin_episode(claim, night_.start);
      if (const auto* failed = std::get_if<SaveFailed>(&begun)) return *failed;
      number = std::get<EpisodeNumber>(begun);
    }
    for (; next < night_.lines.size(); ++next) {
      if (auto failed = journal_.append(claim, *number, static_cast<std::int64_t>(next), night_.lines[next]))
        return failed;
    }
    return night_.ended ? journal_.close_episode(claim, *number, *night_.ended) : std::nullopt;
  }

  int said(const std::string& sentence) {
    out_ << cleaned(night_.start.child) << ", " << text_from_day(local_day_of(night_.start.began)) << " "
         << clock_text(night_.start.began) << ": " << sentence << '\n';
    return 0;
  }
  int refuse(const std::vector<Finding>& findings) {
    print_findings(err_, findings, {});
    return exit_status_of(findings);
  }
  int refuse_use(const std::string& what, const std::string& right) {
    return refuse({whole_error(file_, WrongUse{what, right})});
  }
  int not_written(const SaveFailed& failed) {
    return refuse(
        {whole_error(file_, NotWritten{failed.detail.empty() ? "the journal cannot be written" : failed.detail, ""})});
  }

  const NightFile& night_;
  const std::string& file_;
  Journal journal_;
  std::ostream& out_;
  std::ostream& err_;
};

}  // namespace

int import_command(const ImportOptions& options, std::ostream& out, std::ostream& err) {
  const auto refuse = [&](const std::vector<Finding>& findings) {
    print_findings(err, findings, {});
    return exit_status_of(findings);
  };
  const FileBytes bytes = bytes_of_file(options.file, kMostNightBytes);
  if (const auto* finding = std::get_if<Finding>(&bytes)) return refuse({*finding});
  const Read<NightFile> night = night_from_bytes(std::get<std::string>(bytes), options.file);
  if (!night.value) return refuse(night.findings);
  const EpisodeRecord record{EpisodeNumber{0}, night.value->start, night.value->ended,
                             static_cast<std::int64_t>(night.value->lines.size())};
  const auto resumed = resumed_from(record, night.value->lines);
  if (const auto* findings = std::get_if<std::vector<Finding>>(&resumed)) return refuse(*findings);
  if (std::get<Resumed>(resumed).child.name != night.value->start.child)
    return refuse({whole_error(
        options.file, WrongUse{"the child file in it is of another child", "save the night on the page again"})});
  const std::string path = options.journal.empty() ? usual_journal_file() : options.journal;
  Read<Journal> journal = Journal::open(path);
  if (!journal.value) return refuse(journal.findings);
  return Import(*night.value, options.file, std::move(*journal.value), out, err).run();
}

}  // namespace rushlight
