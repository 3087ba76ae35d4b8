#include "cases/lint/lint_warnings.h"

#include "cases/frame/wording.h"
#include "solver/model/angle.h"

namespace tubewright {
namespace {

/// `how`: "lies on".
Diagnostic node_not_joined(const std::string& node, const std::string& how,
                           const std::string& member, const std::string& from,
                           const std::string& to) {
  return {
      "node " + quoted(node) + " " + how + " member " + quoted(member) + " but is not joined to it",
      "lead the member through it, `path: [" + from + ", " + node + ", " + to +
          "]`, or move the node away"};
}

/// "tube `a` and 2 more"
std::string tube_and(const std::string& tube, std::size_t more) {
  return "tube " + quoted(tube) + (more > 0 ? " and " + std::to_string(more) + " more" : "");
}

}  // namespace

Diagnostic last_of_many(Diagnostic doubt) {
  doubt.advice += "; there are more of this kind, not listed";
  return doubt;
}

Diagnostic unused_node(const std::string& node) {
  return {"node " + quoted(node) + " is used by no member", "remove it, or join it"};
}

Diagnostic unused_section(const std::string& section) {
  return {"section " + quoted(section) + " is used by no member",
          "remove it, or give it to a member"};
}

Diagnostic no_yield_strength(const std::string& material, const std::string& section) {
  return {"material " + quoted(material) + " has no yield strength",
          "give `yield` in MPa; without it the tubes of section " + quoted(section) +
              " cannot be checked"};
}

Diagnostic members_side_by_side(const std::string& first, const std::string& second) {
  return {"members " + quoted(first) + " and " + quoted(second) + " join the same two nodes",
          "remove one; two tubes side by side need nodes of their own"};
}

Diagnostic nodes_nearly_coincide(const std::string& first, const std::string& second, double gap) {
  return {"nodes " + quoted(first) + " and " + quoted(second) + " nearly coincide, " + in_mm(gap) +
              " apart, and are not joined",
          "use one node where tubes meet"};
}

Diagnostic node_lies_on_member(const std::string& node, const std::string& member,
                               const std::string& from, const std::string& to) {
  return node_not_joined(node, "lies on", member, from, to);
}

Diagnostic node_touches_member(const std::string& node, const std::string& member,
                               const std::string& from, const std::string& to) {
  return node_not_joined(node, "touches", member, from, to);
}

Diagnostic members_cross(const std::string& first, const std::string& second) {
  return {"members " + quoted(first) + " and " + quoted(second) + " cross without a joint",
          "give both a node where they are welded, or leave a gap between them"};
}

Diagnostic bay_not_braced(const std::vector<std::string>& corners) {
  return {"bay " + quoted_list(corners) + " has neither a diagonal nor a panel",
          "join two opposite corners or add a panel; welded corners alone let a bay fold into a "
          "parallelogram"};
}

Diagnostic tube_narrow_on_face(const std::string& tube, std::size_t more, double width,
                               const std::string& chord, double face) {
  return {tube_and(tube, more) + ", " + in_mm(width) + " wide, on the " + in_mm(face) +
              " face of " + quoted(chord) + ": the middle of the face gives way like a membrane",
          "take a tube nearly as wide as the face, stand it on a narrower face, or add a gusset "
          "that reaches the corners"};
}

Diagnostic open_end_under_tube(const std::string& chord, const std::string& node,
                               const std::string& tube) {
  return {"tube " + quoted(chord) + " ends open at node " + quoted(node) + " under " +
              quoted(tube) + ": its walls have nothing to hold them",
          "close the end with a plate, `cap`, or mitre both: several times as stiff out of their "
          "plane"};
}

Diagnostic bend_is_tight(const std::string& tube, const std::string& node, double radius,
                         double usual) {
  return {"the bend of " + quoted(tube) + " at " + quoted(node) + " has a radius of " +
              in_mm(radius) + ", less than the " + in_mm(usual) + " that tools usually bend",
          "ask your bender, or give a larger `bend`: a tight one wrinkles on its inside"};
}

Diagnostic bend_across_corners(const std::string& tube, const std::string& node, double roll) {
  return {"the bend of " + quoted(tube) + " at " + quoted(node) +
              " lies in the plane of none of the tube's faces",
          "a square tube is not bent over its corner: turn it with `roll: " +
              decimals(roll / degree, 1) +
              "`, and lead its other bends in planes along or square to this one"};
}

Diagnostic no_die_for_bend(const std::string& tube, const std::string& node, double radius,
                           double nearest) {
  return {
      "no die of `stock` bends " + quoted(tube) + " at " + quoted(node) + " to " + in_mm(radius),
      "the nearest has " + in_mm(nearest)};
}

Diagnostic tube_stands_on_bend(const std::string& tube, const std::string& bent,
                               const std::string& node) {
  return {quoted(tube) + " stands on the bend of " + quoted(bent) + " at " + quoted(node),
          "its end is left as long as to the middle of the bent tube: mark and cope it there; no "
          "rule for joints covers it"};
}

Diagnostic rivets_too_close(const std::string& sheet, double pitch, double diameter) {
  return {"rivets of sheet " + quoted(sheet) + " stand " + decimals(pitch / diameter, 1) +
              " diameters apart",
          "at least 3 diameters, or the sheet tears from hole to hole (EN 1993-1-3 Table 8.1)"};
}

Diagnostic rivets_too_far_apart(const std::string& sheet, double pitch, double farthest) {
  return {"rivets of sheet " + quoted(sheet) + " stand " + in_mm(pitch) + " apart",
          "at most " + in_mm(farthest) +
              " for a sheet that is to carry shear (judgement); it gapes between them"};
}

Diagnostic rivet_size_outside_rules(const std::string& sheet, double diameter) {
  return {"sheet " + quoted(sheet) + " has rivets of " + in_mm(diameter),
          "the rules used here are for blind rivets of 2.6 to 6.4 mm"};
}

Diagnostic rivets_too_stiff(const std::string& sheet, double stiffness, double most) {
  return {"rivets of sheet " + quoted(sheet) + " have a stiffness of " +
              decimals(stiffness * 1e-6, 1) + " kN/mm",
          "even a solid steel rivet has no more than " + decimals(most * 1e-6, 0) +
              " kN/mm there (Huth 1986); `stiffness` is that of one rivet, in kN/mm"};
}

Diagnostic rivets_near_edge(const std::string& sheet, const std::string& tube, double edge_distance,
                            double diameter) {
  return {"rivets of sheet " + quoted(sheet) + " come " + decimals(edge_distance / diameter, 1) +
              " diameters from the edge on tube " + quoted(tube),
          edge_distance < 1.5 * diameter
              ? "at least 1.5 diameters (EN 1993-1-3 Table 8.1): take thinner rivets"
              : "2 diameters are better practice: take thinner rivets or a wider tube"};
}

Diagnostic sheet_left_in_the_axes(const std::string& sheet, const std::string& tube,
                                  std::size_t more) {
  return {"sheet " + quoted(sheet) + " has `offset: 0`: it cuts through " + tube_and(tube, more),
          "without `offset` it lies on their outer face"};
}

Diagnostic sheet_on_unknown_tubes(const std::string& sheet) {
  return {"sheet " + quoted(sheet) + " is taken to lie in the plane of its tubes' axes",
          "the depth of its tubes is not known: give `offset`, half their depth and half its "
          "thickness"};
}

Diagnostic sheet_inside_tubes(const std::string& sheet, const std::string& tube, std::size_t more,
                              double depth, double touching) {
  return {"sheet " + quoted(sheet) + " lies " + in_mm(depth) + " inside " + tube_and(tube, more),
          "`offset: " + in_mm(touching) + "` puts it on their outer face"};
}

Diagnostic sheet_clear_of_tubes(const std::string& sheet, const std::string& tube, std::size_t more,
                                double gap, double touching) {
  return {"sheet " + quoted(sheet) + " hangs " + in_mm(gap) + " clear of " + tube_and(tube, more),
          "`offset: " + in_mm(touching) + "` puts it on their outer face"};
}

Diagnostic sheet_on_unlike_tubes(const std::string& sheet, const std::string& deep, double far,
                                 const std::string& shallow, double near) {
  return {"no `offset` lets sheet " + quoted(sheet) + " touch both " + quoted(deep) + " and " +
              quoted(shallow),
          "they reach " + in_mm(far) + " and " + in_mm(near) +
              " from the plane of the axes: take tubes of one depth, or a sheet of its own for "
              "panels whose tubes have another"};
}

Diagnostic panels_on_opposite_sides(const std::string& sheet, const std::string& first,
                                    const std::string& second, const std::string& tube) {
  return {
      "panels " + quoted(first) + " and " + quoted(second) + " of sheet " + quoted(sheet) +
          " lie on opposite sides of tube " + quoted(tube),
      "their corners go round in opposite order: turn those of one, or give the sheet a `side`"};
}

Diagnostic panel_on_link(const std::string& panel, const std::string& link) {
  return {"panel " + quoted(panel) + " is fixed to the link " + quoted(link),
          "a link is taken as straight: if the sheet buckles, its pull across the link is not "
          "in the link's stress; make it a beam"};
}

Diagnostic panel_skewed(const std::string& panel, double softer) {
  return {"panel " + quoted(panel) + " is far from rectangular",
          "where its edges slip it may be up to " + decimals(100 * softer, 0) +
              " % softer than reckoned; divide it by a tube if that matters"};
}

}  // namespace tubewright
