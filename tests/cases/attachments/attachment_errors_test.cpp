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

}  // namespace tubewright::attachment_errors_test
