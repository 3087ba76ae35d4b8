// The wording of faults in names, values and mirror images, against the form of the house.
#include "cases/frame/frame_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::frame_errors_test {

namespace {

testing::Wordings one_of_each() {
  return {{"impossible_value", impossible_value("section `rail`", "wall", "a size above 0")},
          {"name_given_twice", name_given_twice("node", "a")},
          {"member_given_twice", member_given_twice("rail")},
          {"unknown_name", unknown_name("member `rail`", "node", "b", "define it under `nodes`")},
          {"node_without_members", node_without_members("case `c`", "a")},
          {"mirror_endings_alike", mirror_endings_alike("_l", "_xl")},
          {"mirror_copies_nothing", mirror_copies_nothing("_l")},
          {"attachment_is_its_own_image", attachment_is_its_own_image("ear_l", "_l")},
          {"gusset_is_its_own_image", gusset_is_its_own_image("corner_l", "_l")},
          {"image_is_given", image_is_given("node", "a_r", "a_l")},
          {"node_without_image", node_without_image("member `rail`", "a", "_l")},
          {"image_not_there", image_not_there("member `rail`", "a_l", "a_r")}};
}

}  // namespace

TEST_CASE("every wording of a fault of the frame has the form of the house") {
  testing::check_wordings("cases/frame/frame_errors.h", one_of_each());
}

TEST_CASE("an unknown name is answered by all there are, while they are few") {
  std::vector<std::string> known;
  CHECK(what_to_name("node", "nodes", known) == "there is no node; define it under `nodes`");
  for (const char* name : {"a", "b", "c", "d", "e", "f", "g", "h"}) known.emplace_back(name);
  CHECK(what_to_name("node", "nodes", known) ==
        "define it under `nodes` or use one of `a`, `b`, `c`, `d`, `e`, `f`, `g` and `h`");
  known.emplace_back("i");
  CHECK(what_to_name("node", "nodes", known) == "define it under `nodes`");
}

TEST_CASE("a support that the mirror makes is answered by a node on the plane, a node by a name") {
  CHECK_THAT(image_is_given("support", "a_r", "a_l").advice, ContainsSubstring("y = 0"));
  CHECK_THAT(image_is_given("node", "a_r", "a_l").advice, ContainsSubstring("another ending"));
}

}  // namespace tubewright::frame_errors_test
