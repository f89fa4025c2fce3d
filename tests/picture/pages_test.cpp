#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <ostream>

#include "picture/decision_map.hpp"
#include "picture/flow.hpp"
#include "picture/names.hpp"
#include "picture/svg.hpp"
#include "raster/png_from_svg.hpp"
#include "tests/picture/shipped.hpp"

// The pictures that docs/clinic.md shows are drawn here; RUSHLIGHT_REWRITE=1 draws them anew.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

struct Page {
  const char* file;  // below docs/pictures
  const char* protocol;
  const char* step;  // of a map; empty: the flow
  const char* across = "";
  const char* down = "";
};
std::ostream& operator<<(std::ostream& out, const Page& page) { return out << page.file; }

const Page kPages[] = {
    {"still-low.svg", "protocols/reference/low.xml", "still-low", "glucose", "low-treatments"},
    {"not-low.svg", "protocols/reference/low.xml", "not-low", "glucose", "symptoms"},
    {"low-flow.svg", "protocols/reference/low.xml", ""},
    {"ketones-flow.svg", "protocols/reference/ketones.xml", ""},
    {"illness-flow.svg", "protocols/reference/illness.xml", ""},
};

std::string drawn(const Page& page) {
  const Protocol protocol = protocol_at(page.protocol);
  if (*page.step == '\0') return svg_from(*flow_picture(protocol));
  const Step& step = protocol[*protocol.step_named(page.step)];
  std::optional<Subject> across, down;
  for (const Subject& subject : read_by(protocol, step)) {
    if (name_of(protocol, subject) == page.across) across = subject;
    if (name_of(protocol, subject) == page.down) down = subject;
  }
  return svg_from(decision_map(protocol, step, *decisions_of(protocol, step, *across, down, {}), {}));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(pages)

BOOST_DATA_TEST_CASE(the_pictures_of_the_docs_are_what_the_program_draws, boost::unit_test::data::make(kPages), page) {
  const std::filesystem::path folder = std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/pictures";
  const std::string path = (folder / page.file).string();
  const std::string now = drawn(page);
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) {
    std::filesystem::create_directories(folder);
    std::ofstream(path, std::ios::binary) << now;
  }
  BOOST_TEST((text_of_file(path) == now), path << " differs: RUSHLIGHT_REWRITE=1 draws it anew");
  BOOST_TEST(png_from_svg(now, 72).substr(1, 3) == "PNG");
  BOOST_TEST(
      (text_of_file(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/clinic.md").find(page.file) != std::string::npos));
}

BOOST_DATA_TEST_CASE(each_shipped_protocol_fits_one_page, boost::unit_test::data::make(kShipped), file) {
  const auto flow = flow_picture(protocol_at(file));
  BOOST_TEST_REQUIRE(flow.has_value());
  BOOST_TEST(std::string(flow->paper.name) == kA2.name);  // a hundred steps
}

BOOST_AUTO_TEST_CASE(a_short_protocol_fits_one_page_of_a4) {
  const auto flow = flow_picture(protocol_at("tests/episode/small_low.xml"));
  BOOST_TEST_REQUIRE(flow.has_value());
  BOOST_TEST(std::string(flow->paper.name) == kA4.name);
}

BOOST_AUTO_TEST_SUITE_END()
