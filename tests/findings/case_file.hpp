#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight::tests {

// A case is one file: the input with its mistake, and what is expected of it in its last comment, so that no line
// moves:
//
//     <!-- expect: unknown-attribute "sorce"
//          expect: missing-unit "15" -->
//
// the kind's id and the text that must be underlined (nothing for the file as a whole). Where the file cannot hold
// a comment, the lines stand in a file of the same name that ends in .expect, without `expect:`.

/// A finding as a case names it: `unknown-attribute "sorce"`, `warning border-taken-twice "if"`.
std::string named(const Finding& finding, const std::string& bytes);

struct CaseFile {
  std::string name;  // for messages: the path below tests/findings
  std::string bytes;
  std::vector<std::string> expected;
};

/// Reads the whole file; an expectation that cannot be found is an empty list.
CaseFile case_file(const std::string& path);

/// All files below this folder of tests/findings that are cases, by name. Never empty: a wrong folder fails the test.
std::vector<std::string> case_paths(const std::string& folder);

std::string bytes_of(const std::string& path);

}  // namespace rushlight::tests
