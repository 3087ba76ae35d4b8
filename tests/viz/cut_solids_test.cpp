#include "tests/catch.h"
TEST_CASE("x") { CHECK(true); }
