#include "io/summary/ranked_rows.h"

#include "tests/catch.h"

namespace tubewright::ranked_rows_test {

TEST_CASE("the most used comes first, equal ones as they stand, those not checked last") {
  const std::vector<double> used = {0.2, -1, 0.9, 0.2};
  CHECK(worst_first(used.size(), [&](std::size_t i) { return used[i]; }) ==
        std::vector<std::size_t>{2, 0, 3, 1});
}

TEST_CASE("what is not shown is counted") {
  CHECK(rest_line(5, 5).empty());
  CHECK(rest_line(8, 5) == "                          and 3 more, none of them nearer its limit\n");
}

}  // namespace tubewright::ranked_rows_test
