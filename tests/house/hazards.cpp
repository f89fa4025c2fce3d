// hazards TABLE.md FOLDER [--left-out-elsewhere]: the last test of a run. Reads the hazard table and what every test of this
// run left in FOLDER.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

#include "house/hazard_table.hpp"

namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ostringstream bytes;
  bytes << std::ifstream(path, std::ios::binary).rdbuf();
  return bytes.str();
}

}  // namespace

int main(int count, char** arguments) {
  const bool elsewhere = count == 4 && std::string(arguments[3]) == "--left-out-elsewhere";
  if (count != 3 && !elsewhere) return 2;
  using namespace rushlight::house;
  Runs runs;
  std::error_code no_folder;
  for (const auto& entry : std::filesystem::directory_iterator(arguments[2], no_folder)) {
    if (entry.path().extension() == ".xml") add_runs(text_of(entry.path()), runs);
  }
  const std::vector<HazardRow> rows = hazard_rows(text_of(arguments[1]));
  const std::vector<std::string> missing = uncontrolled(rows, runs, elsewhere);
  for (const std::string& line : missing) std::cout << arguments[1] << ": " << line << '\n';
  std::cout << rows.size() << " hazards, " << runs.size() << " test names in this run, " << missing.size() << " missing\n";
  return missing.empty() ? 0 : 1;
}
