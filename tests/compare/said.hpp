#pragma once

#include <set>
#include <string>
#include <vector>

#include "drawn.hpp"
#include "episode/fold.hpp"
#include "verify/compare.hpp"

namespace rushlight::tests {

/// One version of one night.
struct Version {
  const Protocol& protocol;
  Episode episode;
};

/// What a version shows at that moment, but for words that name numbers.
std::string shown(const Version& version, const Child& child, Moment moment);

/// What was known on one occasion: before it, and what was told to either version then.
struct Occasion {
  const Version& before;
  const Child& child;
  Moment moment;
  const Values& values;
  const std::set<std::string>& told;
  bool all_told;    // nothing was known from before
  bool told_alone;  // a question that was not answered now is not known
};

/// What compare says of occasions, tested by its regions alone.
class Said {
 public:
  explicit Said(const Differences& said) : said_(said) {}

  bool is_said(const std::vector<Difference::Kind>& kinds, const std::string& occasion, const std::string& step,
               const Occasion& here) const;
  bool has(Difference::Kind kind) const;
  /// What is said of a step that holds: for whoever has to find out why.
  std::string everything(const std::string& step, const Occasion& here) const;

 private:
  std::optional<std::int64_t> value(const CaseLimit& limit, const Occasion& here, bool& unknown) const;
  bool holds(const Cases& cases, const Occasion& here) const;
  const std::vector<Cases>& cases_for(const Difference& difference, const Child& child) const;

  const Differences& said_;
};

}  // namespace rushlight::tests
