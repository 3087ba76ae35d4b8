// The wording of every doubt that lint() has.
//
// Names are given as in the file, lengths in m, stiffnesses in N/m.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// The same doubt, the last of those of its kind that are listed.
Diagnostic last_of_many(Diagnostic doubt);

// Unused, missing, given twice
// ----------------------------
Diagnostic unused_node(const std::string& node);
Diagnostic unused_section(const std::string& section);
/// `section`: one that is made of it.
Diagnostic no_yield_strength(const std::string& material, const std::string& section);
Diagnostic members_side_by_side(const std::string& first, const std::string& second);

// Places
// ------
Diagnostic nodes_nearly_coincide(const std::string& first, const std::string& second, double gap);
/// `from` and `to`: the member's ends.
Diagnostic node_lies_on_member(const std::string& node, const std::string& member,
                               const std::string& from, const std::string& to);
Diagnostic node_touches_member(const std::string& node, const std::string& member,
                               const std::string& from, const std::string& to);
Diagnostic members_cross(const std::string& first, const std::string& second);
Diagnostic bay_not_braced(const std::vector<std::string>& corners);

// Joints
// ------
/// A tube, and how many more like it, that stands on a face of `chord`; their widths across it.
Diagnostic tube_narrow_on_face(const std::string& tube, std::size_t more, double width,
                               const std::string& chord, double face);
/// `chord` ends open at `node`, under `tube`.
Diagnostic open_end_under_tube(const std::string& chord, const std::string& node,
                               const std::string& tube);

// Bends
// -----
/// `usual`: the least radius that tools bend.
Diagnostic bend_is_tight(const std::string& tube, const std::string& node, double radius,
                         double usual);
/// `roll`: of the tube with which it does not, rad.
Diagnostic bend_across_corners(const std::string& tube, const std::string& node, double roll);
/// `nearest`: of the dies there are.
Diagnostic no_die_for_bend(const std::string& tube, const std::string& node, double radius,
                           double nearest);
/// A tube that stands on a bend of `bent`.
Diagnostic tube_stands_on_bend(const std::string& tube, const std::string& bent,
                               const std::string& node);

// Sheets
// ------
Diagnostic rivets_too_close(const std::string& sheet, double pitch, double diameter);
Diagnostic rivets_too_far_apart(const std::string& sheet, double pitch, double farthest);
Diagnostic rivet_size_outside_rules(const std::string& sheet, double diameter);
Diagnostic rivets_too_stiff(const std::string& sheet, double stiffness, double most);
Diagnostic rivets_near_edge(const std::string& sheet, const std::string& tube, double edge_distance,
                            double diameter);
/// A sheet in the plane of the axes, the tube it lies deepest in and how many more there are.
Diagnostic sheet_left_in_the_axes(const std::string& sheet, const std::string& tube,
                                  std::size_t more);
/// A sheet without `offset` on tubes of which none has a known depth.
Diagnostic sheet_on_unknown_tubes(const std::string& sheet);
/// `depth`: how far the sheet lies in the tube.
Diagnostic sheet_inside_tubes(const std::string& sheet, const std::string& tube, std::size_t more,
                              double depth, double touching);
Diagnostic sheet_clear_of_tubes(const std::string& sheet, const std::string& tube, std::size_t more,
                                double gap, double touching);
/// The tubes that reach farthest and least far from the plane of the axes, and how far.
Diagnostic sheet_on_unlike_tubes(const std::string& sheet, const std::string& deep, double far,
                                 const std::string& shallow, double near);
/// Two panels of one sheet and the tube between them.
Diagnostic panels_on_opposite_sides(const std::string& sheet, const std::string& first,
                                    const std::string& second, const std::string& tube);
Diagnostic panel_on_link(const std::string& panel, const std::string& link);
/// `softer`: share of its stiffness that it may lack.
Diagnostic panel_skewed(const std::string& panel, double softer);

}  // namespace tubewright
