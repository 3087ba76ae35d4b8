// Between which nodes a bar that may tip over sideways is held: EN 1993-1-1 6.3.2 asks for the
// length between those, not between nodes.
//
// An end is held where a support, a rigid upright or a beam across that leads on to the rest of the
// frame keeps it from turning about the bar and from moving sideways. Links, cables and sheets hold
// nothing here, on the safe side; nor does a beam in line of the same section, which tips with it.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/elements/beam_field.h"

namespace tubewright {

struct SidewaysRun {
  struct Piece {
    int member = 0;
    bool reversed = false;  ///< it runs from the run's end to its start
  };
  std::vector<Piece> pieces;  ///< in order; empty: nothing that may tip over
  double length = 0;          ///< m
  std::array<bool, 2> held{};

  /// The length of a bar held at both ends that is as slender.
  double effective_length() const { return held[0] && held[1] ? length : 2 * length; }
};

/// The runs that these beams are part of, one each.
std::vector<SidewaysRun> sideways_runs(const Frame& frame, const NumberedFrame& numbered,
                                       const std::vector<int>& members);

/// Section forces of a member at a fraction of its length.
using ForcesAlong = std::function<SectionForces(int member, double s)>;

/// Moments about y or z at equal steps along the run, without sign.
std::vector<double> moments_along(const SidewaysRun& run, const NumberedFrame& numbered,
                                  const Frame& frame, bool about_y, const ForcesAlong& forces);

}  // namespace tubewright
