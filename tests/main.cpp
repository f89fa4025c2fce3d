#define BOOST_TEST_MODULE Rushlight
#include <boost/test/tree/traverse.hpp>
#include <boost/test/tree/visitor.hpp>
#include <boost/test/unit_test.hpp>
#include <cstdlib>

namespace {

/// With RUSHLIGHT_EACH=3 every third case runs. For the build with the sanitizers: what they look for shows in a part
/// of the cases as well, and the plain build runs all of them.
class Part : public boost::unit_test::test_tree_visitor {
 public:
  Part() {
    const char* each = std::getenv("RUSHLIGHT_EACH");
    each_ = each != nullptr ? std::atoi(each) : 1;
    if (each_ > 1) boost::unit_test::traverse_test_tree(boost::unit_test::framework::master_test_suite(), *this);
  }

 private:
  void visit(const boost::unit_test::test_case& one) override {
    auto& status = const_cast<boost::unit_test::test_case&>(one).p_run_status;
    if (status.value != boost::unit_test::test_unit::RS_ENABLED) return;
    if (seen_++ % each_ != 0) status.value = boost::unit_test::test_unit::RS_DISABLED;
  }

  int each_ = 1, seen_ = 0;
};

}  // namespace

BOOST_TEST_GLOBAL_FIXTURE(Part);
