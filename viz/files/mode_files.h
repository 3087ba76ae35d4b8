// Natural modes as an animation for general 3D viewers: an index `modes.pvd` and for each elastic
// mode one full swing in eight steps, the tubes as lines (.vtp). Mode m (1, 2, ...; rigid-body
// motions are left out) runs from time m to m + 7/8. Attachments and gussets are bodies in files
// beside (`_attachments.vtp`), as in those of load cases, and move with their tubes.
//
// The mesh is undeformed, in mm; warp it by `displacement` (mm) with a factor of 1. A mode has no
// size of its own: it is drawn so that its greatest translation is a twentieth of the frame's
// diagonal.
//
// Point data: displacement (mm) and rotation (rad) at the step's moment, global axes, both on that
// one scale; mode_shape_magnitude, the share of the greatest translation that a point swings by, 0
// to 1 in every step (what stands out from a tube may pass 1). Cell data: member, section (-1:
// none), indices into the field data member_names and section_names. Field data further:
// mode_number, frequency_hz, words and energy_share (what the mode does, and the share of its
// kinetic energy that does so).
//
// Along a beam the shape is the beam's own under the motions of its ends, inside any release, and
// under the flows of the sheets along it: the cubic of beam theory. Links, cables and springs stay
// straight.
#pragma once

#include <limits>
#include <optional>
#include <string>

#include "cases/studies/frame_modes.h"
#include "viz/files/load_files.h"

namespace tubewright {

/// Writes `modes.pvd` and the files it lists into `directory`, which is made if it is missing.
/// Every file appears whole or not at all, `modes.pvd` last: what it does not list is left over
/// from an earlier run. The same modes give the same bytes. `most`: elastic modes, the lowest.
std::optional<WriteFailure> write_mode_files(const Frame& frame, const FrameModes& modes,
                                             const std::string& directory,
                                             int most = std::numeric_limits<int>::max());

}  // namespace tubewright
