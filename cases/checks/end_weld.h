// One welded end of a steel tube: by its forces, by its throat and, on thin walls, by two
// standards.
//
// * EN 1993-1-8 4.5.3.2 (weld_check.h), with the strength of the weakest of what is joined. The
//   whole line counts: full-strength welds, which the next rule asks for, need no effective length.
// * EN 1993-1-8 7.3.1(4): the weld of a tube on a tube is as strong as its wall, because the soft
//   middle of a face leaves the corners more than their share: 0.92 t of S235, 0.96 of S275, 1.10
//   of S355 (MEMORY; full_strength_throat() comes to the same). A smaller throat needs a
//   justification (7.3.1(5)) that is not made here: not proven. A throat that is not given is taken
//   as that one, and the forces still count no more than the wall.
// * EN 1993-1-8 4.5.2(2): throats of 3 mm and more, on walls that have room for it (MEMORY).
// * EN 1993-1-3 8.5.2 on walls below 4 mm (MEMORY), where the greater number counts. Neither rule
//   was made for the end of a thin tube: a comparison.
#pragma once

#include "cases/checks/check_result.h"
#include "cases/checks/weld_check.h"

namespace tubewright {

/// Fillet welds of parts up to 4 mm, EN 1993-1-3 8.5.2: across its end a part of width b carries
/// t L (1 - 0.3 L/b) f_u/gamma_M2, along its side t L (0.9 - 0.45 L/b) f_u/gamma_M2; with welds as
/// long as the wall is wide, 0.7 and 0.45 t f_u/gamma_M2 a length. Both together: root of the
/// squares (judgement). `across`, `along`: N/m. A throat below the wall stands for the wall.
double thin_weld_utilisation(double across, double along, double wall, double throat, double fu);

/// `weld.least_throat` as welded_ends() finds it. Forces are design forces at the end.
CheckResult end_weld_check(const Profile& profile, const FilletWeld& weld,
                           const SectionForces& forces);

}  // namespace tubewright
