#include "cases/attachments/attachment_errors.h"

#include "tests/catch.h"

namespace tubewright::attachment_errors_test {

TEST_CASE("each fault of a place names the attachment and says what to give") {
  for (const Diagnostic& d :
       {attachment_nowhere("ear"), attachment_at_two_places("ear"), attachment_beyond_ends("ear"),
        attachment_on_no_tube("ear", "rod"), no_such_face("ear", "front", "`top` and `left`"),
        no_tube_at_node("ear", "A"), attachment_on_bend("ear", "hoop")}) {
    INFO(d.message);
    CHECK(d.message.starts_with("attachment `ear`"));
    CHECK(!d.advice.empty());
    CHECK(d.severity == Severity::error);
  }
}

TEST_CASE("each fault of a gusset names it and says what to give") {
  for (const Diagnostic& d : {gusset_tube_elsewhere("corner", "post", "A"),
                              gusset_tube_runs_on("corner", "rail", "A", "rail.1", "rail.2"),
                              gusset_on_no_tube("corner", "rod"), gusset_without_corner("corner"),
                              gusset_off_the_faces("corner", "post"),
                              gusset_longer_than_tube("corner", "post", 0.06, 0.05)}) {
    INFO(d.message);
    CHECK(d.message.starts_with("gusset `corner`"));
    CHECK(!d.advice.empty());
    CHECK(d.severity == Severity::error);
  }
}

}  // namespace tubewright::attachment_errors_test
