#include "cases/changes/nine_digits.h"

#include <limits>

#include "tests/catch.h"

namespace tubewright::nine_digits_tests {

TEST_CASE("what differs by rounding alone is equal to nine digits, and nothing else is") {
  CHECK(nine_digits(0.99112345678901) == nine_digits(0.99112345678902));
  CHECK(nine_digits(-2.6e5 * (1 + 1e-14)) == nine_digits(-2.6e5));
  CHECK(nine_digits(1) < nine_digits(1 + 1e-8));
  CHECK(nine_digits(3e-17) == nine_digits(-2e-16));
  CHECK(std::isinf(nine_digits(std::numeric_limits<double>::infinity())));
}

}  // namespace tubewright::nine_digits_tests
