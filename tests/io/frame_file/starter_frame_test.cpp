#include "io/frame_file/starter_frame.h"

#include <sstream>

#include "cases/lint/lint.h"
#include "cases/verdict/frame_studies.h"
#include "io/frame_file/read_frame.h"
#include "io/keys/frame_keys.h"
#include "io/yaml/render_diagnostics.h"
#include "tests/catch.h"

namespace tubewright::starter_frame_test {

namespace {

/// The words alone, one space between them: comments go on over several lines.
std::string words_of(const std::string& text) {
  std::string words;
  std::istringstream stream(text);
  for (std::string word; stream >> word;) {
    if (word != "#") words += word + " ";
  }
  return words;
}

void check_told(const ValueKind& kind, const std::string& where, const std::string& words);

void check_told(const KeyGroup& group, const std::string& where, const std::string& words) {
  for (const Key& key : group.keys) {
    const std::string place = where + "." + key.name;
    INFO(place);
    CHECK_THAT(words, ContainsSubstring(key.name + ": "));
    // The frame itself shows these, in words of its own.
    const bool used_above = key.name == "frame" || where == ".mirror" || place == ".mirror";
    if (!used_above) CHECK_THAT(words, ContainsSubstring(key.help));
    check_told(*key.kind, place, words);
  }
}

void check_told(const ValueKind& kind, const std::string& where, const std::string& words) {
  for (const KeyGroup& group : kind.groups) check_told(group, where, words);
  for (const SharedKind& part : {kind.element, kind.scalar, kind.list, kind.map}) {
    if (part != nullptr) check_told(*part, where, words);
  }
}

}  // namespace

TEST_CASE("the starter frame raises no problem and no doubt, and passes its checks") {
  const FrameText file{"starter.yaml", starter_frame()};
  const FrameReading reading = read_frame(file);
  CHECK(render(reading.diagnostics, file) == "");
  REQUIRE(reading.sound());
  CHECK(render(lint(reading.frame), file) == "");
  const Result<FrameStudies> outcome = verdict_check(reading.frame);
  const FrameStudies* studies = outcome.get();
  REQUIRE(studies != nullptr);
  CHECK(studies->analysis.cases.size() == reading.frame.cases.size());
  CHECK(studies->verdict.answer == Verdict::Answer::pass);
}

TEST_CASE("every key at the top of the starter frame is explained") {
  const std::string text = starter_frame();
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

TEST_CASE("the starter frame has every key of the table with its help") {
  check_told(frame_keys(), "", words_of(starter_frame()));
}

TEST_CASE("keys are explained in the order of the table") {
  std::vector<std::string> top;
  std::istringstream lines(more_keys());
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty() && line.front() != ' ') top.push_back(line.substr(0, line.find(':')));
  }
  std::vector<std::string> expected;
  for (const Key& key : frame_keys().keys) {
    if (key.name != "frame" && key.name != "mirror") expected.push_back(key.name);
  }
  CHECK(top == expected);
}

TEST_CASE("the starter frame fits into 100 columns and is written in plain signs") {
  std::istringstream lines(starter_frame());
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 100);
    CHECK((line.empty() || line.back() != ' '));
  }
}

}  // namespace tubewright::starter_frame_test
