// What summaries and JSON say of joints, from counts filled in by hand.
#include "io/results/joints_output.h"

#include <nlohmann/json.hpp>

#include "tests/catch.h"

namespace tubewright::joints_output_test {

namespace {

JointSummary some() {
  JointSummary s;
  s.sprung = 12;
  s.taken_as_nearest["turned about its own axis"] = {"brace at A"};
  s.taken_as_rigid["no table"] = {"a at A", "b at B", "c at C", "d at D"};
  return s;
}

}  // namespace

TEST_CASE("a summary tells how many ends give way, which are nearest or rigid, and why") {
  const std::string text = joints_lines(some(), "  ");
  CHECK_THAT(text, ContainsSubstring("  joints: at 12 welded ends the walls give way"));
  CHECK_THAT(text, ContainsSubstring("no test of real joints"));
  CHECK_THAT(text, ContainsSubstring("1 welded end taken as the nearest joint that is known"));
  CHECK_THAT(text, ContainsSubstring("4 welded ends taken as rigid (a at A, b at B, c at C, ...)"));
}

TEST_CASE("rigid joints are said to be as asked, and a frame without welds says nothing") {
  JointSummary rigid;
  rigid.rigid = true;
  CHECK_THAT(joints_lines(rigid, ""), ContainsSubstring("all rigid"));
  CHECK(joints_lines({}, "").empty());
}

TEST_CASE("JSON has the model, the count and every end that is not in the tables") {
  const nlohmann::ordered_json j = joints_json(some());
  CHECK(j["model"] == "welded");
  CHECK(j["ends_sprung"] == 12);
  CHECK(j["ends_taken_as_nearest"]["turned about its own axis"][0] == "brace at A");
  CHECK(j["ends_taken_as_rigid"]["no table"].size() == 4);
  JointSummary rigid;
  rigid.rigid = true;
  CHECK(joints_json(rigid)["model"] == "rigid");
}

}  // namespace tubewright::joints_output_test
