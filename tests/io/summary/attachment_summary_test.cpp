#include "io/summary/attachment_summary.h"

#include "tests/catch.h"

namespace tubewright::attachment_summary_test {

namespace {

NamedCheck share(const std::string& name, double utilisation) {
  CheckResult r;
  r.utilisation = utilisation;
  return {name, r};
}

NamedCheck missing(const std::string& name) {
  CheckResult r;
  r.reason = "no rule";
  return {name, r};
}

Analysis seven() {
  Analysis a;
  CaseResult c;
  for (int i = 0; i < 7; ++i) {
    Attachment attachment;
    attachment.name = "ear_" + std::to_string(i);
    a.frame.attachments.push_back(attachment);
    AttachmentResult r;
    r.forces.hole = {300, 0, 400};
    r.checks = {share("face", 0.2 * i), share("plate_net", 0.1)};
    c.attachments.push_back(r);
  }
  c.attachments[4].checks.push_back(missing("weak_way"));
  a.cases.push_back(c);
  return a;
}

}  // namespace

TEST_CASE("the five attachments nearest their limit are shown, the worst first") {
  const Analysis a = seven();
  const std::string text = attachment_rows(a, a.cases[0], Paint{});
  CHECK(text.find("ear_6") < text.find("ear_5"));
  CHECK_THAT(text, ContainsSubstring("1.20  FAIL  face"));
  CHECK_THAT(text, ContainsSubstring("500 N"));
  CHECK_THAT(text, ContainsSubstring("and 2 more"));
  CHECK(text.find("ear_1") == std::string::npos);
}

TEST_CASE("an attachment that lacks a check does not pass, and says which") {
  const Analysis a = seven();
  const std::string text = attachment_rows(a, a.cases[0], Paint{});
  const std::size_t row = text.find("ear_4");
  const std::string line =
      text.substr(text.rfind('\n', row) + 1, text.find('\n', row) - text.rfind('\n', row) - 1);
  CHECK_THAT(line, ContainsSubstring("no weak way check"));
  CHECK(line.find("pass") == std::string::npos);
}

TEST_CASE("those over their limit are counted, and without attachments nothing is said") {
  const Analysis a = seven();
  CHECK(failing_attachments(a.cases[0]) == 1);
  CHECK(attachment_rows(Analysis{}, CaseResult{}, Paint{}).empty());
}

TEST_CASE("gussets stand in a table of their own, with the force along them by its sign") {
  Analysis a;
  CaseResult c;
  Gusset gusset;
  gusset.name = "corner";
  a.frame.gussets.push_back(gusset);
  c.gussets.push_back({-1234, {share("weld", 1.1)}});
  const std::string text = attachment_rows(a, c, Paint{});
  CHECK_THAT(text, ContainsSubstring("1.10  FAIL  weld"));
  CHECK_THAT(text, ContainsSubstring("corner"));
  CHECK_THAT(text, ContainsSubstring("-1234 N"));
  CHECK(failing_gussets(c) == 1);
  CHECK(failing_attachments(c) == 0);
}

}  // namespace tubewright::attachment_summary_test
