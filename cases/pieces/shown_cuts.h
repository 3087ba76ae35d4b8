// Which cuts of an end show on the tube's section: the others are left out.
//
// An end is a maximum of minima of planes (TubeEnd::begin). Its section is divided into convex
// parts on each of which one plane of every cut is the least; there every question about the end is
// one about linear functions, answered at the corners of what is left of the part. Nothing is
// sampled.
#pragma once

#include "cases/pieces/end_cuts.h"
#include "cases/pieces/tube_arms.h"

namespace tubewright {

/// Less than this along the tube is ground off, or filled by the weld; 1 mm, common practice, no
/// source.
constexpr double shows = 1e-3;

/// A part of the section that is narrower is no part: what lies between two lines that should be
/// one. Far below a saw's tolerance, far above the rounding of a drawing.
constexpr double hair = 5e-5;

/// What an end is cut on.
struct EndSection {
  HalfSizes half;
  double length = 0;  ///< of the tube: a cut is "never" beyond it, either way
};

EndSection end_section(const UncutTubes& all, const TubeArm& arm);

/// True if a cut leaves a tube whole but for 1 mm along its edges.
bool misses(const EndSection& section, const EndCut& cut);

/// Drops planes that others are in front of, but for what the weld fills.
void drop_hidden_planes(const EndSection& section, EndCut& cut);

/// True if an end meets nothing, at least on a part of its section.
bool open_somewhere(const EndSection& section, const TubeEnd& end);

/// Drops cuts that others have made already, but for what a grinder takes, puts the one that makes
/// most of the end first and names the end. Requires: at least one cut.
void keep_what_shows(const EndSection& section, TubeEnd& end);

/// Between two planes that divide there may be a hair's breadth that meets nothing: an end with no
/// other cuts begins there no nearer than beside it.
void close_slivers(const EndSection& section, TubeEnd& end);

}  // namespace tubewright
