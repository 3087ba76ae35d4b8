// Tubes parted where something stands on them. Nothing is cut there: a tube stays one tube.
//
// A member `m` becomes the pieces m.1, m.2, ... of a tube `m`, as a path would; a piece p.2 of a
// path becomes p.2a, p.2b, ... of the same tube. Loads and listings that name a parted piece are
// put on what it became.
#pragma once

#include <map>
#include <string>

#include "cases/frame/frame.h"

namespace tubewright {

/// Nearer than this along a tube two places are one, m: no piece is as short as that.
constexpr double as_one_place = 1e-3;

/// Of a member, by number: the nodes on it by their distance from its start, m.
using TubeCuts = std::map<std::size_t, std::map<double, std::string>>;

/// The node there, `otherwise` if it is a new one.
std::string node_at(TubeCuts& cuts, std::size_t member, double from_start,
                    const std::string& otherwise);

/// Requires: the ends of the members that are parted exist.
void part_tubes(Frame& frame, const TubeCuts& cuts);

/// Square and rectangular tubes.
bool has_flat_faces(const SectionEntry& section);

}  // namespace tubewright
