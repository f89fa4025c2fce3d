#include "cli/refusals.hpp"

#include "cli/print_findings.hpp"

namespace rushlight {

Finding whole_error(const std::string& where, Kind kind) {
  return Finding{Severity::error, Where{where, 0, 0, 0}, std::move(kind), {}};
}

Finding cannot_do(const std::string& where, const std::string& what, const std::string& right) {
  return whole_error(where, WrongUse{what, right});
}

int tell_refusal(std::ostream& err, const Finding& finding) { return tell_refusal(err, std::vector<Finding>{finding}); }

int tell_refusal(std::ostream& err, const std::vector<Finding>& findings) {
  print_findings(err, findings, {});
  return exit_status_of(findings);
}

int tell_no_use(std::ostream& err, const Finding& finding) {
  tell_refusal(err, finding);
  return 2;
}

}  // namespace rushlight
