#include "io/command/report_date.h"

#include <cstdlib>

#include "tests/catch.h"

namespace tubewright::report_date_test {

TEST_CASE("a report bears the date that SOURCE_DATE_EPOCH gives, else that of the day") {
  ::setenv("SOURCE_DATE_EPOCH", "1769817600", 1);
  CHECK(report_date() == "2026-01-31");
  ::unsetenv("SOURCE_DATE_EPOCH");
  CHECK(report_date().size() == 10);
  CHECK(report_date()[4] == '-');
  CHECK(report_date()[7] == '-');
}

}  // namespace tubewright::report_date_test
