// The wording of what moves without resistance, against the form of the house.
#include "cases/model/mechanism_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::mechanism_errors_test {

namespace {

const LooseNode loose{"a", 2, ""};

testing::Wordings one_of_each() {
  return {{"slack_cables_not_found", slack_cables_not_found("c", {"rope"})},
          {"whole_frame_moves", whole_frame_moves(loose)},
          {"part_moves", part_moves(loose, {"a", "b"})},
          {"node_turns_alone", node_turns_alone(loose)},
          {"node_moves_alone", node_moves_alone(loose)},
          {"nodes_move_together", nodes_move_together(loose, {"a", "b"})},
          {"stiffnesses_too_far_apart", stiffnesses_too_far_apart("c")},
          {"upright_moves_on_tubes", upright_moves_on_tubes("left", loose)},
          {"upright_wants_links", upright_wants_links("left", loose, 5)},
          {"upright_moves_on_links", upright_moves_on_links("left", loose, 6)}};
}

}  // namespace

TEST_CASE("every wording of a mechanism has the form of the house") {
  testing::check_wordings("cases/model/mechanism_errors.h", one_of_each());
}

TEST_CASE("a motion is told by its direction, and by the slack cables that allow it") {
  CHECK(node_moves_alone({"a", 1, ""}).message == "node `a` can move along y without resistance");
  CHECK(node_turns_alone({"a", 5, ""}).message == "node `a` can turn about z without resistance");
  CHECK(where_slack("c", {}).empty());
  CHECK(node_moves_alone({"a", 0, where_slack("c", {"p", "q"})}).message ==
        "node `a` can move along x without resistance in case `c`, where slack are the cables `p`, "
        "`q`");
}

TEST_CASE("of what moves together five are named, the rest counted") {
  CHECK_THAT(part_moves(loose, {"a", "b", "c", "d", "e"}).advice,
             ContainsSubstring("`a`, `b`, `c`, `d`, `e`; join"));
  CHECK_THAT(part_moves(loose, {"a", "b", "c", "d", "e", "f", "g"}).advice,
             ContainsSubstring("`d`, `e` and 2 more; join"));
}

}  // namespace tubewright::mechanism_errors_test
