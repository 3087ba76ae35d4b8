// The wording of cases that cannot be solved or should be doubted, against the form of the house.
#include "cases/analysis/analysis_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::analysis_errors_test {

namespace {

testing::Wordings one_of_each() {
  return {
      {"weightless_vehicle", weightless_vehicle()},
      {"numbers_too_large", numbers_too_large("c")},
      {"out_of_balance", out_of_balance("c", 0.5)},
      {"moves_too_far", moves_too_far("c", 3, 1)},
      {"no_large_displacements", no_large_displacements("c", "it turns too far")},
      {"displacement_in_unknown_case", displacement_in_unknown_case("bum", "did you mean `bump`?")},
      {"joints_give_way", joints_give_way("c", 1.5)},
      {"suspension_gives_way", suspension_gives_way("c", 1.5)},
      {"no_equilibrium", no_equilibrium("c")},
      {"stops_short", stops_short("c", {0.75, PathStop::unknown, false})},
      {"stops_short", stops_short("c", {0.75, PathStop::buckles, false})},
      {"stops_short", stops_short("c", {0.75, PathStop::snaps_through, true})},
      {"sheets_not_settled", sheets_not_settled("c")},
      {"turns_over", turns_over("c")}};
}

}  // namespace

TEST_CASE("every wording of an analysis has the form of the house") {
  testing::check_wordings("cases/analysis/analysis_errors.h", one_of_each());
}

TEST_CASE(
    "a frame that sways under its design loads is to be braced, one beyond them is explained") {
  CHECK_THAT(joints_give_way("c", 1).advice, ContainsSubstring("brace it"));
  CHECK_THAT(joints_give_way("c", 1.01).advice, ContainsSubstring("count as longer"));
  CHECK_THAT(joints_give_way("c", 1.5).message, ContainsSubstring("1.50 times"));
  CHECK_THAT(suspension_gives_way("c", 1).advice, ContainsSubstring("where they are joined"));
  CHECK_THAT(suspension_gives_way("c", 1.01).advice, ContainsSubstring("not the frame"));
  const auto stop = [](PathStop how, bool design) { return stops_short("c", {0.75, how, design}); };
  CHECK_THAT(stop(PathStop::unknown, false).message, ContainsSubstring("0.750 of its loads"));
  CHECK_THAT(stop(PathStop::buckles, false).message,
             ContainsSubstring("loses its stability at 0.750 of its loads"));
  CHECK_THAT(stop(PathStop::snaps_through, true).message,
             ContainsSubstring("0.750 of its loads times the safety factor and snaps through"));
}

}  // namespace tubewright::analysis_errors_test
