#include "cases/validate/validate_errors.h"

#include <array>

#include "cases/frame/frame.h"
#include "cases/frame/wording.h"

namespace tubewright {
namespace {

/// `kind`: "cold-formed", as the standard has it.
Diagnostic corners_too_large(const std::string& subject, const std::string& kind,
                             const std::string& standard, double wall, double needed) {
  return {subject + " has no room for its rounded corners",
          kind + " corners of a " + in_mm(wall) + " wall need a side of at least " + in_mm(needed) +
              " (" + standard + "), or say `corners: sharp`"};
}

/// How a member with both ends released in that direction would move.
const char* loose_motion(int direction) {
  constexpr std::array<const char*, 6> motions = {
      "slide along its own axis", "swing freely in its x-y plane", "swing freely in its x-z plane",
      "spin about its own axis",  "swing freely in its x-z plane", "swing freely in its x-y plane"};
  return motions[direction];
}

std::string what_to_keep(int direction) {
  const std::string force = quoted(release_names[direction]);
  if (direction == 0 || direction == 3) return "keep " + force + " at one end";
  const std::string moment = quoted(release_names[direction == 1 ? 5 : 4]);
  return "keep enough of " + force + " and " + moment + " at the two ends that the rest holds it";
}

/// From the first round to the first, the middle of a long way left out.
std::string way_round(const std::vector<std::string>& circle) {
  constexpr std::size_t most_named = 10;
  std::string way;
  std::size_t at = 0;
  if (circle.size() > most_named) {
    way = quoted(circle.front()) + " -> ... -> ";
    at = circle.size() - most_named + 1;
  }
  for (; at < circle.size(); ++at) way += quoted(circle[at]) + " -> ";
  return way + quoted(circle.front());
}

}  // namespace

Diagnostic breaks_before_yield(const std::string& material) {
  return {"material " + quoted(material) + " breaks before it yields",
          "`ultimate` must be at least `yield`; are the two exchanged?"};
}

Diagnostic shear_modulus_too_small(const std::string& material) {
  return {"material " + quoted(material) + " has too small a `G` for its `E`",
          "Poisson's ratio E/(2G) - 1 must not exceed 0.5; steel has G = E/2.6"};
}

Diagnostic wall_too_thick(const std::string& subject, double wall, double side) {
  return {subject + " has a wall of " + in_mm(wall) + " but is only " + in_mm(side) + " wide",
          "the wall must be less than half of that; for a solid section use `round_bar` or "
          "`flat_bar`"};
}

Diagnostic cold_formed_corners_too_large(const std::string& subject, double wall, double needed) {
  return corners_too_large(subject, "cold-formed", "EN 10219-2", wall, needed);
}

Diagnostic hot_finished_corners_too_large(const std::string& subject, double wall, double needed) {
  return corners_too_large(subject, "hot-finished", "EN 10210-2", wall, needed);
}

Diagnostic no_nodes() {
  return {"the frame has no nodes", "give the joints of the tubes under `nodes`"};
}

Diagnostic no_members() { return {"the frame has no members", "give the tubes under `members`"}; }

Diagnostic impossible_place(const std::string& node, const std::string& range) {
  return {"node " + quoted(node) + " is in an impossible place", "give " + range};
}

Diagnostic both_ends_at_one_node(const std::string& member, const std::string& node) {
  return {"member " + quoted(member) + " starts and ends at the same node " + quoted(node),
          "`from` and `to` must be different nodes"};
}

Diagnostic no_length(const std::string& member, const std::string& from, const std::string& to) {
  return {"member " + quoted(member) + " has no length: " + quoted(from) + " and " + quoted(to) +
              " are in the same place",
          "move one of the nodes, or make them one node"};
}

Diagnostic spring_with_section(const std::string& member) {
  return {"member " + quoted(member) + " is a spring and has no section",
          "remove `section`; a spring is described by its `rate` alone"};
}

Diagnostic releases_of_no_beam(const std::string& member, const std::string& kind) {
  return {"member " + quoted(member) + " is a " + kind + " and has no releases",
          "remove `release_from` and `release_to`; its ends turn freely already"};
}

Diagnostic loose_member(const std::string& member, int direction) {
  return {"member " + quoted(member) + " is loose: its releases let it " + loose_motion(direction),
          what_to_keep(direction)};
}

Diagnostic attachment_wider_than_face(const std::string& attachment, double width, double room) {
  return {"attachment " + quoted(attachment) + " takes " + in_mm(width) + " of a face that has " +
              in_mm(room) + " for it",
          "make it narrower, or put it on a wider face"};
}

Diagnostic gusset_wider_than_face(const std::string& gusset, double width, double room) {
  return {"gusset " + quoted(gusset) + " takes " + in_mm(width) + " of a face that has " +
              in_mm(room) + " between its walls",
          "make it thinner"};
}

Diagnostic hole_over_the_edge(const std::string& attachment) {
  return {"attachment " + quoted(attachment) + " has no metal between its hole and its edge",
          "give `edge` from the middle of the hole, at least 1.2 holes"};
}

Diagnostic bolt_fills_boss(const std::string& attachment) {
  return {"attachment " + quoted(attachment) + " has a bolt as thick as itself",
          "give the outside `diameter` of the nut, boss or bush"};
}

Diagnostic support_given_twice(const std::string& node) {
  return {"support " + quoted(node) + " is given twice",
          "list all directions that the node is held in at one place"};
}

Diagnostic support_of_nothing(const std::string& node) {
  return {"support " + quoted(node) + " holds nothing",
          "give `fixed`, `pinned` or a list of `x`, `y`, `z`, `rx`, `ry`, `rz`"};
}

Diagnostic displaced_unheld(const std::string& node, const std::string& direction) {
  return {"support " + quoted(node) + " displaces " + quoted(direction) + " without holding it",
          "only a held direction can be displaced"};
}

Diagnostic mass_on_nothing(const std::string& mass) {
  return {"mass " + quoted(mass) + " rests on nothing", "list the nodes that carry it under `on`"};
}

Diagnostic node_listed_twice(const std::string& subject, const std::string& node,
                             const std::string& key) {
  return {subject + " names node " + quoted(node) + " twice under " + quoted(key),
          "name each node once"};
}

Diagnostic rivets_overlap(const std::string& sheet) {
  return {"sheet " + quoted(sheet) + " has rivets closer than their own diameter",
          "`pitch` is the distance from rivet to rivet along the edge"};
}

Diagnostic not_four_corners(const std::string& panel, std::size_t corners) {
  return {"panel " + quoted(panel) + " has " + std::to_string(corners) + " corners",
          "give four nodes in order round the panel; cut other shapes into quadrilaterals"};
}

Diagnostic corner_used_twice(const std::string& panel) {
  return {"panel " + quoted(panel) + " uses a corner twice", "give four different nodes"};
}

Diagnostic panel_without_area(const std::string& panel) {
  return {"panel " + quoted(panel) + " has no area", "give the corners in order round the panel"};
}

Diagnostic corner_not_outward(const std::string& panel, const std::string& corner) {
  return {"panel " + quoted(panel) + " does not bulge outward at its corner " + quoted(corner),
          "give the corners in order round the panel; all four must be true corners"};
}

Diagnostic panel_not_flat(const std::string& panel, double apart) {
  return {"panel " + quoted(panel) + " is not flat: one diagonal passes " + in_mm(apart) +
              " from the other",
          "move a corner into the plane of the others, or make two panels with a tube between"};
}

Diagnostic offset_away_from_side(const std::string& sheet) {
  return {"sheet " + quoted(sheet) + " has a `side` and an `offset` below 0",
          "`offset` counts toward the side: leave out the minus or the `side`"};
}

Diagnostic panel_has_no_top(const std::string& panel, const std::string& sheet) {
  return {"panel " + quoted(panel) + " stands upright: it has no top or bottom for the `side` of " +
              "sheet " + quoted(sheet),
          "leave out `side` in a sheet of its own: then it lies on the side from which its corners "
          "go round anticlockwise"};
}

Diagnostic edge_without_tube(const std::string& panel, const std::string& from,
                             const std::string& to) {
  return {"panel " + quoted(panel) + " has no tube along its edge from " + quoted(from) + " to " +
              quoted(to),
          "a panel with a free edge carries no shear; add a member there"};
}

Diagnostic wheel_on_nothing(const std::string& wheel) {
  return {"wheel " + quoted(wheel) + " is carried by nothing",
          "list the nodes that its upright or hub is fixed to under `carrier`"};
}

Diagnostic mount_without_inboard_brake(const std::string& wheel) {
  return {"wheel " + quoted(wheel) + " has a `brake_mount`, but no inboard brake",
          "give it `brake: inboard`; the couple of an outboard brake goes to the upright"};
}

Diagnostic contact_above_centre(const std::string& wheel) {
  return {"wheel " + quoted(wheel) + " touches the ground above its centre",
          "`contact` must lie below `centre`; z points up"};
}

Diagnostic node_of_two_uprights(const std::string& node, const std::string& first_wheel,
                                const std::string& second_wheel) {
  return {"node " + quoted(node) + " is part of the rigid uprights of wheels " +
              quoted(first_wheel) + " and " + quoted(second_wheel),
          "give each upright nodes of its own, or use `hold: spread`"};
}

Diagnostic upright_supported_twice(const std::string& wheel, int nodes) {
  return {"the rigid upright of wheel " + quoted(wheel) + " is supported at " +
              std::to_string(nodes) + " nodes",
          "support it at one of its nodes, in all the directions that are held"};
}

Diagnostic wrong_wheel_count(std::size_t wheels) {
  return {"the vehicle has " + std::to_string(wheels) + " wheels",
          "give three or four under `vehicle.wheels`"};
}

Diagnostic wrong_wheels_of_axle(const std::string& axle, std::size_t wheels) {
  return {"the " + axle + " axle has " + std::to_string(wheels) + " wheels",
          "an axle has one or two; see each wheel's `axle`"};
}

Diagnostic axle_without_track(const std::string& first_wheel, const std::string& second_wheel) {
  return {"wheels " + quoted(first_wheel) + " and " + quoted(second_wheel) +
              " of one axle have no track between them",
          "their contacts must differ in y"};
}

Diagnostic axles_exchanged() {
  return {"the front axle is not in front of the rear axle",
          "x points forward; see `contact` and `axle` of the wheels"};
}

Diagnostic share_without_brake(const std::string& axle) {
  return {"`brake_front_share` gives brake force to the " + axle + " axle, which has no brake",
          "change the share, or give a wheel of that axle a `brake`"};
}

Diagnostic load_across_bar(const std::string& load_case, const std::string& member) {
  return {"case " + quoted(load_case) + " loads member " + quoted(member) +
              ", which carries axial force only",
          "put the load on its end nodes under `forces`, or make it a `beam`"};
}

Diagnostic vehicle_case_without_vehicle(const std::string& load_case) {
  return {"case " + quoted(load_case) + " is of `kind: vehicle`, but there is no `vehicle`",
          "describe the wheels under `vehicle`, or use `kind: static`"};
}

Diagnostic step_higher_than_wheel(const std::string& load_case, const std::string& wheel,
                                  double radius) {
  return {
      "case " + quoted(load_case) + " has a step as high as the centre of wheel " + quoted(wheel),
      "a wheel climbs only steps lower than its radius, " + in_mm(radius)};
}

Diagnostic braking_without_brakes(const std::string& load_case) {
  return {"case " + quoted(load_case) + " brakes, but no wheel has a brake",
          "give wheels `brake: outboard` or `brake: inboard`"};
}

Diagnostic handling_mixed(const std::string& load_case) {
  return {
      "case " + quoted(load_case) + " mixes `jack`, `tie_down` or `roll_over` with something else",
      "give each a case of its own; `vertical` may go with them"};
}

Diagnostic combination_of_nothing(const std::string& load_case) {
  return {"case " + quoted(load_case) + " combines nothing",
          "list cases and their factors under `of`"};
}

Diagnostic ride_combined(const std::string& load_case, const std::string& ride_case) {
  return {"case " + quoted(load_case) + " combines case " + quoted(ride_case) +
              ", which is many instants of a ride",
          "combine cases of one state each"};
}

Diagnostic ride_in_spectrum(const std::string& ride_case) {
  return {"`life.spectrum` names case " + quoted(ride_case) +
              ", a ride, which goes up and down many times",
          "say `repeat` in the ride itself: `tubewright ride` counts its cycles and adds `life`"};
}

Diagnostic static_combined_with_vehicle(const std::string& load_case) {
  return {"case " + quoted(load_case) + " combines `kind: static` with `kind: vehicle`",
          "one is held by the supports, the other by nothing; put the loads of the static one "
          "under `forces` of a vehicle case"};
}

Diagnostic combination_too_deep(const std::string& load_case, int levels) {
  return {"case " + quoted(load_case) + " combines combinations too deeply",
          "go down at most " + std::to_string(levels) + " levels"};
}

Diagnostic combinations_in_circle(const std::vector<std::string>& load_cases) {
  return {"combinations go in a circle: " + way_round(load_cases),
          "a combination must come down to cases that are not combinations"};
}

Diagnostic torsion_node_used_twice(const std::string& node) {
  return {"the torsion test uses node " + quoted(node) + " twice", "give four different nodes"};
}

Diagnostic torsion_pair_exchanged(const std::string& pair, const std::string& left,
                                  const std::string& right) {
  return {"`torsion." + pair + "` needs a left and a right node, but " + quoted(left) +
              " is not to the left of " + quoted(right),
          "y points left: the first node must have the larger y"};
}

Diagnostic life_without_spectrum() {
  return {"`life` has no `spectrum`, and there is no vehicle to take one from",
          "list what happens how often, [{case: NAME, cycles: 10000}]"};
}

Diagnostic cycle_of_both_or_neither() {
  return {"a cycle of `life.spectrum` needs either `case` or `vertical`",
          "`{case: bump, cycles: 10000}`, `{case: left, from: right, cycles: 10000}` or "
          "`{vertical: 1, cycles: 10000}`"};
}

Diagnostic shaken_without_vehicle() {
  return {"`vertical` shakes a vehicle on its wheels, and there is none",
          "name a load case instead"};
}

Diagnostic stock_trimmed_away() {
  return {"`stock` trims its bars away",
          "`end_trim` is cut from both ends of each bar of `length`"};
}

Diagnostic no_direction_limited(const std::string& load_case, const std::string& node) {
  return {"`limits.displacement` limits node " + quoted(node) + " in case " + quoted(load_case) +
              " in no direction",
          "give a length for `x`, `y` or `z`, such as {z: 5}"};
}

Diagnostic member_listed_twice(const std::string& list, const std::string& member) {
  return {list + " lists " + quoted(member) + " twice", "once is enough"};
}

Diagnostic member_in_two_lists(const std::string& member, const std::string& first_list,
                               const std::string& second_list) {
  return {quoted(member) + " is in " + first_list + " and in " + second_list,
          "a tube gets one size or keeps its own: leave it in one of them"};
}

Diagnostic size_of_spring(const std::string& list, const std::string& spring) {
  return {list + " lists " + quoted(spring) + ", a spring, which has no size",
          "list tubes, bars and cables"};
}

Diagnostic group_of_nothing(const std::string& group) {
  return {"group " + quoted(group) + " is empty", "list its members, [rail_l, rail_r]"};
}

Diagnostic gauge_without_direction(const std::string& node) {
  return {"`bench_test.gauges` reads node " + quoted(node) + " in no direction",
          "a dial gauge reads along `x`, `y` or `z`"};
}

}  // namespace tubewright
