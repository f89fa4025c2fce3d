#pragma once

#include "cli/protocol_set.hpp"

namespace rushlight {

// A set put together from what was read of its files, wherever that was: on a disk, or by the program that made a page.
// Each file is added, in the order of the set, and then it is finished. Needs no reader of XML and no keys.

bool is_laws_file(const std::string& path);
bool is_examples_file(const std::string& path);

/// Checks a protocol alone and adds it, or what refuses it.
void add_resolved(ProtocolSet& set, const std::string& file, const std::string& bytes, Read<Protocol> read);
void add_laws(ProtocolSet& set, const std::string& file, Read<SafetyDraft> read);
void add_examples(ProtocolSet& set, const std::string& file, Read<ExamplesDraft> read);

/// Holds the protocols against the laws, links each with the others and walks its examples. Sorts the findings.
void finish(ProtocolSet& set);

}  // namespace rushlight
