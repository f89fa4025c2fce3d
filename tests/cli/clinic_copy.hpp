#pragma once

#include <string>
#include <vector>

#include "cli/program.hpp"

namespace rushlight::tests {

/// A clinic's own copy of the shipped set, in a folder of the test's own.
class ClinicCopy {
 public:
  ClinicCopy();
  std::string path(const std::string& name = "") const {
    return folder_.path("clinic") + (name.empty() ? "" : "/" + name);
  }
  std::string beside(const std::string& name) const { return folder_.path(name); }
  std::string read(const std::string& name) const { return folder_.read("clinic/" + name); }
  void write(const std::string& name, const std::string& bytes) const { folder_.write(name, bytes); }
  /// One text in a file for another.
  void edit(const std::string& name, const std::string& old, const std::string& put) const;
  /// The names of the files that are not what they were at the beginning; anything new too.
  std::vector<std::string> changed() const;

  /// `rushlight thresholds` of this copy.
  Run run(const std::vector<std::string>& words, const std::string& input = "") const;

 private:
  Folder folder_;
};

}  // namespace rushlight::tests
