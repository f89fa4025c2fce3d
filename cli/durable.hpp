#pragma once

#include <string>

namespace rushlight {

/// All of the bytes. False, with errno, when not.
bool write_all(int descriptor, const std::string& bytes);

/// The same, and durable.
bool write_durably(int descriptor, const std::string& bytes);

/// Makes the names in a folder durable. A folder that cannot be opened is passed over: its files are.
void sync_folder(const std::string& folder);

}  // namespace rushlight
