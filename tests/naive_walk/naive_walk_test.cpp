#include <boost/test/unit_test.hpp>

#include <cstdlib>
#include <iostream>

#include "compare.hpp"

using namespace rushlight;
using namespace rushlight::naive;

BOOST_AUTO_TEST_SUITE(naive_walk)

BOOST_AUTO_TEST_CASE(the_judge_and_the_engine_agree_on_drawn_protocols) {
  const char* only = std::getenv("ONLY");
  int shown = 0, bad = 0;
  for (const bool valid : {true, false}) {
    Compared compared;
    long redrawn = 0;
    for (std::uint64_t seed = 1; seed <= (std::getenv("SEEDS") ? std::stoul(std::getenv("SEEDS")) : 300); ++seed) {
      if (only && std::stoul(only) != seed) continue;
      const Drawn drawn = drawn_from(seed, valid);
      redrawn += drawn.redrawn;
      for (std::uint64_t night = 0; night < 3; ++night) {
        const std::string text = disagreement(drawn, seed * 1000 + night, Variant::as_agreed, compared);
        if (!text.empty()) { ++bad; if (text.size() < 3000 && ++shown <= 5) BOOST_ERROR((valid ? "valid seed " : "wild seed ") << seed << " night " << night << "\n" << text); break; }
      }
    }
    std::cout << (valid ? "valid" : "wild") << " nights " << compared.nights << " events " << compared.events << " moments " << compared.moments << " circles " << compared.in_circles << " redrawn " << redrawn << " bad " << bad << "\n";
  }
}

BOOST_AUTO_TEST_SUITE_END()
