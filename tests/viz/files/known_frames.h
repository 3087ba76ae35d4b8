// Frames whose drawings can be checked by hand.
#pragma once

#include "cases/analysis/analysis.h"

namespace tubewright {

/// A square tube 25 x 25 x 2 mm with sharp corners, 1 m along x, fixed at A, free at B. Cases:
/// `tip-down.1` (300 N down at B), `mid` (400 N down halfway), `twist_rare` (50 N m about x at B,
/// rare), `pull` (1000 N along x at B).
Frame cantilever_frame();

/// One of everything: beams of every shape, rolled, released, loaded along and between their ends;
/// a link, a taut and a slack cable, a spring, all meeting at B, which is pulled down.
Frame mixed_frame();

/// Throws std::runtime_error with the first problem if there is no answer.
Analysis analysed(const Frame& frame);

}  // namespace tubewright
