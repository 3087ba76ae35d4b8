#include "cases/validate/validate.h"
#include "tests/cases/attachments/attachment_frames.h"

namespace tubewright::validate_attachments_test {

using testing::cantilever_40;
using testing::expanded;
using testing::tab;
using testing::text_of;

namespace {

std::string told(Attachment a) {
  Frame f = cantilever_40();
  f.attachments.push_back(std::move(a));
  return text_of(validate(expanded(f)));
}

Attachment plain() { return tab("ear", "rail", 0.5, Face::top); }

}  // namespace

TEST_CASE("a tab that fits its tube is no fault") { CHECK(told(plain()).empty()); }

TEST_CASE("what takes more of the face than there is says how much there is") {
  Attachment a = plain();
  a.kind = AttachmentKind::pair;
  a.gap = 0.032;
  CHECK(told(a).empty());
  a.gap = 0.033;
  CHECK_THAT(told(a), ContainsSubstring("takes 41 mm of a face that has 40 mm"));
  a.kind = AttachmentKind::sleeve;
  a.length = 0.035;
  CHECK_THAT(told(a), ContainsSubstring("of a face that has 34 mm"));
}

TEST_CASE("a hole over the edge and a bolt as thick as its bush are faults") {
  Attachment a = plain();
  a.edge = 0.004;
  CHECK_THAT(told(a), ContainsSubstring("no metal between its hole and its edge"));
  Attachment bush = plain();
  bush.kind = AttachmentKind::sleeve;
  bush.length = 0.008;
  CHECK_THAT(told(bush), ContainsSubstring("as thick as itself"));
}

TEST_CASE("an unknown material and impossible sizes are told") {
  Attachment a = plain();
  a.material = "S236";
  CHECK_THAT(told(a), ContainsSubstring("did you mean `S235`"));
  Attachment far = plain();
  far.hole = 20;
  CHECK_THAT(told(far), ContainsSubstring("impossible `hole`"));
  Attachment thick = plain();
  thick.thickness = -1;
  CHECK_THAT(told(thick), ContainsSubstring("impossible `thickness`"));
}

TEST_CASE("an attachment of the name of a node is given twice") {
  Attachment a = plain();
  a.name = "B";
  CHECK_THAT(told(a), ContainsSubstring("node `B` is given twice"));
}

}  // namespace tubewright::validate_attachments_test
