#include "cases/bends/bend_errors.h"

#include "tests/catch.h"

namespace tubewright::bend_errors_test {

TEST_CASE("each fault of a bend names the tube and says what to give") {
  for (const Diagnostic& d :
       {bends_and_corners("hoop", 1, 2), bend_does_not_fit("hoop", "a", "b", 0.2, 0.1),
        bend_too_tight("hoop", "b", 0.005, 0.0125), bend_turns_back("hoop", "b"),
        two_bends_at_node("hoop", "rail", "b")}) {
    INFO(d.message);
    CHECK(d.message.find("`hoop`") != std::string::npos);
    CHECK(!d.advice.empty());
    CHECK(d.severity == Severity::error);
  }
}

}  // namespace tubewright::bend_errors_test
