// Fillet welds of plates and bushes: EN 1993-1-8:2005 4.5.3.3, the simplified method (MEMORY): the
// resultant of all forces on a length of weld against a f_vw,d, whatever its direction. Elastic
// distribution over lines that are equally stiff. SI units, design values.
//
// Outside the stated range a comparison: throats under 3 mm (4.5.2(2)), parts under 4 mm (4.1),
// effective lengths under 30 mm or 6 a (4.5.1(2)).
#pragma once

#include "cases/checks/check_result.h"

namespace tubewright {

/// Forces of the plate on its foot. `along` the plate's length, `aside` across it.
struct FootLoads {
  double N = 0;  ///< off the face
  double V_along = 0;
  double V_aside = 0;
  double M_strong = 0;  ///< in the plane of the plate
  double M_weak = 0;    ///< turns it about its own foot
  double M_twist = 0;   ///< about the normal of the face
};

struct FootWeld {
  double length = 0;  ///< of the plate, or diameter of a bush
  double apart = 0;   ///< the two lines, the plate's thickness; unused for a bush
  double throat = 0;
  double thinnest = 0;  ///< of the parts joined
  double fu = 0;        ///< of the weaker part; NaN: not known
  double fy = 0;        ///< for beta_w
};

/// Greatest force on a length of two lines of effective length l = length - 2 a, N/m: N and moments
/// across, V along and aside, the twist as on a group.
double greatest_line_force(const FootWeld& weld, const FootLoads& loads);
/// On a circle of diameter D: N/(pi D) + 4 M/(pi D^2), 2 V/(pi D) and twist 2 T/(pi D^2).
double greatest_ring_force(const FootWeld& weld, const FootLoads& loads);

CheckResult plate_weld_check(const FootWeld& weld, const FootLoads& loads);
CheckResult ring_weld_check(const FootWeld& weld, const FootLoads& loads);

/// Throat where none is given: 0.7 of the thinner part, a fillet with legs as long (practice).
double usual_plate_throat(double thinnest);

/// The plate at its foot: von Mises of N/A + M_strong/W + M_weak/W and of V/A with the twist's
/// shear 3 T/(h t^2) (EN 1993-1-1 6.2.1(5), elastic).
CheckResult plate_yield_check(double thickness, double length, double fy, const FootLoads& loads);

}  // namespace tubewright
