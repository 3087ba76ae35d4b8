// The wording of what stands in the way of a drawing, or what it cannot show.
//
// `sheet`, `panel`, `piece`, `tube`: names; lengths in m.
#pragma once

#include <cstddef>
#include <set>
#include <string>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// The first four names, and how many more there are.
std::string some_of(const std::set<std::string>& names);

// Not drawn, or otherwise than meant
// ----------------------------------
Diagnostic not_drawn_over_unknown_tube(const std::string& sheet, const std::string& panel,
                                       const std::string& tube);
Diagnostic not_drawn_across_itself(const std::string& sheet, const std::string& panel);
Diagnostic panels_drawn_apart(const std::string& sheet);
Diagnostic panel_warped(const std::string& panel, double warp);
Diagnostic sheet_on_edges(const std::string& sheet, const std::set<std::string>& tubes);

// Rivets
// ------
Diagnostic no_room_for_rivets(const std::string& sheet, const std::set<std::string>& tubes);
Diagnostic rivets_left_out(const std::string& sheet, const std::string& piece, std::size_t count);

// In the way
// ----------
Diagnostic tubes_through_sheet(const std::string& sheet, const std::set<std::string>& tubes);
Diagnostic pieces_lap(const std::string& first, const std::string& second,
                      const std::set<std::string>& tubes);

}  // namespace tubewright
