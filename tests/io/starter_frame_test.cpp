#include "io/starter_frame.h"

#include "cases/analysis.h"
#include "cases/lint.h"
#include "io/diagnostics.h"
#include "io/read_frame.h"
#include "tests/catch.h"

using namespace tubewright;

TEST_CASE("the starter frame raises no problem and no doubt, and passes its checks") {
  const FrameText file{"starter.yaml", starter_frame};
  const FrameReading reading = read_frame(file);
  CHECK(render(reading.problems, file) == "");
  REQUIRE(reading.sound());
  CHECK(render(lint(reading.frame), file) == "");
  const AnalysisOutcome outcome = analyse(reading.frame);
  const Analysis* analysis = std::get_if<Analysis>(&outcome);
  REQUIRE(analysis != nullptr);
  CHECK(analysis->cases.size() == reading.frame.cases.size());
  CHECK(analysis->passes());
}

TEST_CASE("every key at the top of the starter frame is explained") {
  const std::string text = starter_frame;
  std::string line_before;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    const std::string line = text.substr(at, end - at);
    const bool key = !line.empty() && line.front() != ' ' && line.front() != '#';
    INFO(line);
    // The first three keys stand under the comment at the head of the file.
    const bool at_the_head =
        line.starts_with("frame:") || line.starts_with("sections:") || line.starts_with("members:");
    if (key && !at_the_head) CHECK(line_before.starts_with("# "));
    line_before = line;
    at = end + 1;
  }
}
