#include <array>
#include <boost/test/unit_test.hpp>
#include <cstdio>
#include <regex>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

struct Typed {
  std::string command;
  std::vector<std::string> lines;  // below it in the page; "[...]" for what the page leaves out
};

/// The commands of the page, each with what the page says it prints.
std::vector<Typed> typed_in(const std::string& page) {
  std::vector<Typed> all;
  bool below = false;
  for (const std::string& line : lines_of(page)) {
    if (line.rfind("    $ rushlight ", 0) == 0) {
      all.push_back({line.substr(16), {}});
      below = true;
    } else if (line.rfind("    ", 0) == 0 && below) {
      all.back().lines.push_back(line.substr(4));
    } else {
      below = false;
    }
  }
  return all;
}

/// Keys, fingerprints, days and homes are others each time.
std::string without_what_changes(std::string text) {
  text = std::regex_replace(text, std::regex("[0-9a-f]{64}"), "KEY");
  text = std::regex_replace(text, std::regex("([0-9]{5} ){5}[0-9]{5}"), "FINGERPRINT");
  text = std::regex_replace(text, std::regex("20[0-9]{2}-[0-9]{2}-[0-9]{2}"), "DAY");
  text = std::regex_replace(text, std::regex("/[a-zA-Z0-9/._-]*(harbour-clinic|clinic.secret-key)"), "PATH");
  return text.substr(0, text.find_last_not_of(' ') + 1);
}

std::string output_of(const Machine& machine, const std::string& command, const std::string& input) {
  machine.write("typed", input);
  const std::string line = "cd " + machine.path("") +
                           " && env -i PATH=/usr/bin:/bin XDG_CONFIG_HOME=" + machine.path(".config") + " " +
                           RUSHLIGHT_PROGRAM + " " + command + " <typed 2>&1";
  std::string text;
  FILE* pipe = popen(line.c_str(), "r");
  std::array<char, 4096> part{};
  for (std::size_t count; (count = std::fread(part.data(), 1, part.size(), pipe)) > 0;) text.append(part.data(), count);
  BOOST_TEST(pclose(pipe) == 0, text);
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(clinic_page)

BOOST_AUTO_TEST_CASE(commands_of_the_clinics_page_print_what_it_says) {
  const std::vector<Typed> all = typed_in(file_in_tree("docs/clinic.md"));
  BOOST_TEST(all.size() >= 6U);
  const Machine machine;
  for (const Typed& typed : all) {
    std::string command = typed.command, input = "y\n";
    if (command.rfind("key new", 0) == 0) input = std::string(kPassphrase) + "\n";
    if (command.rfind("approve ", 0) == 0) input = std::string("approve\n") + kPassphrase + "\n";
    command = std::regex_replace(command, std::regex("20[0-9]{2}-[0-9]{2}-[0-9]{2}"), day_from_today(200));
    // The page shows the clinic's own machine, which trusts its key already.
    if (command.rfind("approval ", 0) == 0) {
      output_of(machine, "key show --out own.key", "");
      output_of(machine, "key trust own.key --yes", "");
    }
    const std::string printed = output_of(machine, command, input);
    if (command.rfind("approval ", 0) == 0) output_of(machine, "key forget own --yes", "");
    std::vector<std::string> lines;
    for (const std::string& line : lines_of(printed)) lines.push_back(without_what_changes(line));
    std::size_t from = 0;
    bool left_out = false;
    for (const std::string& line : typed.lines) {
      if (line == "[...]") {
        left_out = true;
        continue;
      }
      const auto found =
          std::find(lines.begin() + static_cast<std::ptrdiff_t>(from), lines.end(), without_what_changes(line));
      BOOST_REQUIRE_MESSAGE(found != lines.end(), typed.command << " does not print: " << line << "\n" << printed);
      const auto at = static_cast<std::size_t>(found - lines.begin());
      BOOST_TEST((left_out || at == from), "between lies more than the page shows: " << line << "\n" << printed);
      from = at + 1;
      left_out = false;
    }
    BOOST_TEST((left_out || from == lines.size()), typed.command << " prints more than the page shows\n" << printed);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
