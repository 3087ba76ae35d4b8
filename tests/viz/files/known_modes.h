// Frames whose modes can be checked by hand.
#pragma once

#include <filesystem>

#include "cases/studies/frame_modes.h"

namespace tubewright {

/// A beam 2 m along x, 40 mm high and 20 mm wide with 2 mm wall and sharp corners, pinned at both
/// ends, in `pieces` members of equal length.
Frame pinned_beam(int pieces);

/// `clamp_l` from A and `clamp_r` to B, 0.6 m each of the same tube, clamped at A and B and joined
/// at M by a hinge at the end of `clamp_r`.
Frame hinged_cantilevers();

/// A tube from M along x with a tab `ear` on top and one upward that is held at its end, a gusset
/// `g` between them; joints are rigid.
Frame fitted_corner();

/// Throws std::runtime_error with the first problem if there are none.
FrameModes modes_of(const Frame& frame, int count);

/// The same for the frame cut by refine(), with the nodes inside its tubes in the shapes.
FrameModes refined_modes(const Frame& frame, int pieces, int count);

/// A cantilever that does nothing but twist, by 3 in the measure that leaves its rounded
/// translations at 1e-16.
FrameModes twist_alone();

/// Each of these and the modes of mixed_frame() and of a free box with a clad floor in a directory
/// of its own.
void write_known_modes(const std::filesystem::path& directory);

}  // namespace tubewright
