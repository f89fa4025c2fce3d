#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>

#include "tests/verify/shipped_files.hpp"
#include "tests/verify/small_checks.hpp"

// docs/source-rows.md: from a source back to what rests on it. docs/sources.md, written by hand, says how far each was
// read.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The rows of one source, by their kind. Rules and actions are named where their source is not the step's.
class RowsOfSources {
 public:
  explicit RowsOfSources(const Protocol& protocol) : rows_(protocol.sources.size()) {
    for (const Threshold& threshold : protocol.thresholds) add(threshold.source, "numbers", threshold.name);
    for (const Food& food : protocol.foods) add(food.source, "foods", std::string(name_of(food.kind)));
    for (const Dose& dose : protocol.doses) {
      for (std::size_t i = 0; i < dose.rows.size(); ++i)
        add(dose.rows[i].source, "dose rows", dose.name + "/" + std::to_string(i + 1));
    }
    for (const Watch& watch : protocol.watch) add(watch.source, "watch", watch.name);
    for (const Step& step : protocol.steps) {
      add(step.source, "steps", step.name);
      for (const Rule& rule : step.rules) {
        if (rule.source.index != step.source.index) add(rule.source, "rules", rule.name);
      }
      for (const ActionId id : step.actions) {
        const Action& action = protocol[id];
        if (action.source.index != step.source.index) add(action.source, "actions", action.name);
      }
    }
  }
  std::string of(std::size_t source) const {
    std::string text;
    for (const char* kind : {"numbers", "foods", "dose rows", "watch", "steps", "rules", "actions"}) {
      const auto found = rows_[source].find(kind);
      if (found != rows_[source].end()) text += (text.empty() ? "" : "; ") + std::string(kind) + " " + found->second;
    }
    return text;
  }

 private:
  void add(SourceId source, const char* kind, const std::string& name) {
    std::string& names = rows_[source.index][kind];
    names += (names.empty() ? "`" : ", `") + name + "`";
  }
  std::vector<std::map<std::string, std::string>> rows_;
};

std::string counted(const Protocol& protocol) {
  int memory = 0;
  int practice = 0;
  int program = 0;
  for (const Threshold& threshold : protocol.thresholds) {
    const Source& source = protocol[threshold.source];
    if (source.from_memory) ++memory;
    if (source.common_practice) ++(source.publisher.empty() ? practice : program);
  }
  const int all = static_cast<int>(protocol.thresholds.size());
  return std::to_string(all) + " numbers: " + std::to_string(all - memory - practice - program) + " published, " +
         std::to_string(memory) + " from memory, " + std::to_string(practice) + " common practice, " +
         std::to_string(program) + " the program's own.\n\n";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(source_rows)

BOOST_AUTO_TEST_CASE(the_page_of_the_rows_is_what_the_files_say) {
  const std::string page = text_of("/docs/source-rows.md");
  std::string now = page.substr(0, page.find("## "));
  for (const char* name : kShippedFiles) {
    const Protocol protocol = resolved(text_of("/protocols/" + std::string(name)));
    const RowsOfSources rows(protocol);
    now += "## " + std::string(name) + "\n" + counted(protocol);
    for (std::size_t i = 0; i < protocol.sources.size(); ++i)
      now += "- `" + protocol.sources[i].name + "`, " + citation(protocol.sources[i]) + ": " + rows.of(i) + "\n";
    now += "\n";
  }
  now.pop_back();
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr)
    std::ofstream(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/source-rows.md", std::ios::binary) << now;
  BOOST_TEST((page == now), "docs/source-rows.md differs: RUSHLIGHT_REWRITE=1 writes it anew");
}

BOOST_AUTO_TEST_CASE(every_source_of_a_shipped_set_backs_something_and_stands_on_the_page_of_sources) {
  const std::string page = text_of("/docs/sources.md");
  for (const char* name : kShippedFiles) {
    const Protocol protocol = resolved(text_of("/protocols/" + std::string(name)));
    const RowsOfSources rows(protocol);
    for (std::size_t i = 0; i < protocol.sources.size(); ++i) {
      const std::string& id = protocol.sources[i].name;
      BOOST_TEST(!rows.of(i).empty(), name << ": nothing rests on " << id);
      BOOST_TEST((page.find("\n- `" + id + "`: ") != std::string::npos), "docs/sources.md says nothing of " << id);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
