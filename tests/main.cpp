#define BOOST_TEST_MODULE Rushlight
#include <boost/test/unit_test.hpp>
