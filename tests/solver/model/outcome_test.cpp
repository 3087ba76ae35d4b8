// An outcome is its value or its error, never both: laws of a sum type, no source.
#include "solver/model/outcome.h"

#include <memory>
#include <string>

#include "tests/catch.h"

namespace tubewright::outcome_test {

namespace {

Outcome<double, std::string> root_of(double x) {
  if (x < 0) return std::string("negative");
  return x / 2;
}

}  // namespace

TEST_CASE("an outcome has either a value or an error") {
  const auto good = root_of(4), bad = root_of(-1);
  CHECK(good);
  CHECK(good.has_value());
  CHECK(good.error() == nullptr);
  CHECK(*good == 2);
  CHECK(good.get() == &*good);
  CHECK_FALSE(bad);
  CHECK(bad.get() == nullptr);
  REQUIRE(bad.error() != nullptr);
  CHECK(*bad.error() == "negative");
}

TEST_CASE("a value that cannot be copied can be moved out of its outcome") {
  Outcome<std::unique_ptr<int>, std::string> outcome(std::make_unique<int>(7));
  REQUIRE(outcome);
  const std::unique_ptr<int> taken = *std::move(outcome);
  CHECK(*taken == 7);
}

TEST_CASE("what an outcome holds can be changed in place") {
  Outcome<std::string, int> outcome(std::string("a"));
  outcome->push_back('b');
  CHECK(*outcome == "ab");
  Outcome<std::string, int> failed(3);
  ++*failed.error();
  CHECK(*failed.error() == 4);
}

}  // namespace tubewright::outcome_test
