// The wording of every fault that validate() finds, except those of names and single values, which
// stand in cases/frame/frame_errors.h.
//
// Lengths in m. `subject`: "section `rail`"; other names are given as in the file.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

// Materials and sections
// ----------------------
Diagnostic breaks_before_yield(const std::string& material);
Diagnostic shear_modulus_too_small(const std::string& material);
Diagnostic wall_too_thick(const std::string& subject, double wall, double side);
/// `needed`: the least side that has room for them.
Diagnostic cold_formed_corners_too_large(const std::string& subject, double wall, double needed);
Diagnostic hot_finished_corners_too_large(const std::string& subject, double wall, double needed);

// Nodes and members
// -----------------
Diagnostic no_nodes();
Diagnostic no_members();
/// `range` completes "give ...".
Diagnostic impossible_place(const std::string& node, const std::string& range);
Diagnostic both_ends_at_one_node(const std::string& member, const std::string& node);
Diagnostic no_length(const std::string& member, const std::string& from, const std::string& to);
Diagnostic spring_with_section(const std::string& member);
/// `kind`: "cable".
Diagnostic releases_of_no_beam(const std::string& member, const std::string& kind);
/// Both ends released in `direction`, 0 to 5 as release_names.
Diagnostic loose_member(const std::string& member, int direction);

// Attachments
// -----------
Diagnostic attachment_wider_than_face(const std::string& attachment, double width, double room);
Diagnostic gusset_wider_than_face(const std::string& gusset, double width, double room);
Diagnostic hole_over_the_edge(const std::string& attachment);
Diagnostic bolt_fills_boss(const std::string& attachment);

// Supports and masses
// -------------------
Diagnostic support_given_twice(const std::string& node);
Diagnostic support_of_nothing(const std::string& node);
Diagnostic displaced_unheld(const std::string& node, const std::string& direction);
Diagnostic mass_on_nothing(const std::string& mass);
/// `key`: that of the list which names it.
Diagnostic node_listed_twice(const std::string& subject, const std::string& node,
                             const std::string& key);

// Sheets and panels
// -----------------
Diagnostic rivets_overlap(const std::string& sheet);
/// An `offset` below 0 beside `side`.
Diagnostic offset_away_from_side(const std::string& sheet);
Diagnostic not_four_corners(const std::string& panel, std::size_t corners);
Diagnostic corner_used_twice(const std::string& panel);
Diagnostic panel_without_area(const std::string& panel);
Diagnostic corner_not_outward(const std::string& panel, const std::string& corner);
/// `apart`: how far one diagonal passes from the other.
Diagnostic panel_not_flat(const std::string& panel, double apart);
/// Of a sheet with `side: top` or `bottom`.
Diagnostic panel_has_no_top(const std::string& panel, const std::string& sheet);
Diagnostic edge_without_tube(const std::string& panel, const std::string& from,
                             const std::string& to);

// The vehicle
// -----------
Diagnostic wheel_on_nothing(const std::string& wheel);
Diagnostic mount_without_inboard_brake(const std::string& wheel);
Diagnostic contact_above_centre(const std::string& wheel);
Diagnostic node_of_two_uprights(const std::string& node, const std::string& first_wheel,
                                const std::string& second_wheel);
/// `nodes`: how many of the upright's are supported.
Diagnostic upright_supported_twice(const std::string& wheel, int nodes);
Diagnostic wrong_wheel_count(std::size_t wheels);
/// `axle`: "front".
Diagnostic wrong_wheels_of_axle(const std::string& axle, std::size_t wheels);
Diagnostic axle_without_track(const std::string& first_wheel, const std::string& second_wheel);
Diagnostic axles_exchanged();
Diagnostic share_without_brake(const std::string& axle);

// Load cases
// ----------
Diagnostic load_across_bar(const std::string& load_case, const std::string& member);
Diagnostic vehicle_case_without_vehicle(const std::string& load_case);
Diagnostic step_higher_than_wheel(const std::string& load_case, const std::string& wheel,
                                  double radius);
Diagnostic braking_without_brakes(const std::string& load_case);
Diagnostic handling_mixed(const std::string& load_case);
Diagnostic combination_of_nothing(const std::string& load_case);
Diagnostic ride_combined(const std::string& load_case, const std::string& ride_case);
Diagnostic ride_in_spectrum(const std::string& ride_case);
Diagnostic static_combined_with_vehicle(const std::string& load_case);
Diagnostic combination_too_deep(const std::string& load_case, int levels);
/// The cases of the circle, each once; the last leads back to the first.
Diagnostic combinations_in_circle(const std::vector<std::string>& load_cases);

// Studies
// -------
Diagnostic torsion_node_used_twice(const std::string& node);
/// `pair`: the key, "front".
Diagnostic torsion_pair_exchanged(const std::string& pair, const std::string& left,
                                  const std::string& right);
Diagnostic life_without_spectrum();
Diagnostic cycle_of_both_or_neither();
Diagnostic shaken_without_vehicle();
Diagnostic stock_trimmed_away();
Diagnostic no_direction_limited(const std::string& load_case, const std::string& node);
/// `list`: "group `rails`", "`keep`", here and below.
Diagnostic member_listed_twice(const std::string& list, const std::string& member);
Diagnostic member_in_two_lists(const std::string& member, const std::string& first_list,
                               const std::string& second_list);
Diagnostic size_of_spring(const std::string& list, const std::string& spring);
Diagnostic group_of_nothing(const std::string& group);
Diagnostic gauge_without_direction(const std::string& node);

}  // namespace tubewright
