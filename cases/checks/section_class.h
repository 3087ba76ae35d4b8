// Class of a cross-section: how far its walls can go before they buckle locally.
//
// EN 1993-1-1:2005 5.5.2 and Table 5.2 (from memory): 1 and 2 reach the plastic moment, 3 the
// elastic one, 4 not even that. SI units; forces as in solver/elements/beam_field.h, N tension
// positive.
#pragma once

#include <string>

#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

/// epsilon = sqrt(235 MPa / f_y), Table 5.2. Requires: fy > 0.
double yield_epsilon(double fy);

/// Internal part wholly in compression: c/t up to 33, 38, 42 epsilon. Returns 1 to 4.
int class_of_compressed_wall(double c_over_t, double epsilon);

/// Internal part bent about its middle: c/t up to 72, 83, 124 epsilon.
int class_of_bent_wall(double c_over_t, double epsilon);

/// Round tube in bending or compression: d/t up to 50, 70, 90 epsilon^2.
int class_of_round_tube(double d_over_t, double epsilon);

/// Width c of the flat part of a hollow rectangle's wall on the side `side` (height or width):
/// side - 3 t as in Table 5.2 for tubes of unknown radius, side - 2 t where the area is that of
/// sharp corners.
double flat_width(const Section& section, double side);

struct SectionClass {
  int value = 0;           ///< 1 to 4; 0 when it cannot be told, and `reason` says why
  double slenderness = 0;  ///< c/t of the worst wall, d/t of a round tube; 0 where nothing buckles
  std::string part;        ///< the worst wall, in words
  std::string reason;
};

/// The class of the worst compressed wall. Safe side: any compression N counts every wall as wholly
/// compressed, and so does bending about both axes; tension does not relieve a bent wall unless all
/// of the section is in tension, which is class 1. N below a millionth of A f_y is no compression.
/// Solid bars are class 1 (no wall). Not known: a section given by its properties only, fy missing.
SectionClass section_class(const Section& section, double fy, const SectionForces& forces);

/// The class with every wall wholly compressed.
SectionClass section_class_compressed(const Section& section, double fy);

}  // namespace tubewright
