#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/page/clinic_set.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// The clinic's page without its screen: JSON in, JSON out. It remembers the numbers that were typed last; what
/// changes, what is found and what is drawn is about those.
///
/// {"do":"form","language":"en"}                      every number of the set, and every step that can be drawn
/// {"do":"plan","language":"en","fields":[...]}       what was typed, worked out: each field is changed, the same or
/// refused
/// {"do":"check"}                                     the findings of the set with those numbers
/// {"do":"compare","protocol":"low"}                  what changes in decisions, in one protocol
/// {"do":"map","protocol":"low","map":"STEP:FACT"}    a decision map, of both versions where they differ
/// {"do":"csv","language":"en"}                       the table for `thresholds --from`
class ClinicPage {
 public:
  /// One file of the set, by its own name. Before `open`.
  void add_file(std::string name, std::string bytes);
  /// The set as it was read: text_from_drafts.
  std::string open(const std::string& drafts);
  std::string call(const std::string& request);

 private:
  std::string form(Language language) const;
  std::string plan(const JsonNode& request, Language language);
  std::string check();
  std::string compare(const std::string& protocol);
  std::string map(const std::string& protocol, const std::string& map);
  std::string csv(Language language) const;

  const ProtocolSet& now();
  std::optional<std::size_t> file_of(const std::string& protocol) const;
  const ChangedFile* change_in(std::size_t file) const;

  std::vector<KeptFile> files_;
  std::optional<ClinicSet> set_;
  std::vector<Finding> findings_before_;
  std::vector<ChangedFile> changed_;
  std::optional<ProtocolSet> now_;  // with what was typed; made when it is asked for
};

}  // namespace rushlight
