// A plate welded to the face of a rectangular tube: EN 1993-1-8:2005 Table 7.13 (SEEN in part,
// eurocode.us; rest MEMORY), its moments by the pattern of a T joint (DERIVED use of Table 7.14).
//
// Range: Table 7.8, walls from 2.5 mm (7.1.1), b0/t0 <= 35, in compression class 1 or 2; a
// plate along the tube t1/b0 <= 0.2; across it 0.5 <= b1/b0 <= 1 and b0/t0 <= 30. Outside, and
// wherever a moment counts, the number is a comparison. The compression of the tube weakens the
// face by k_m, not by k_n: k_n has beta in its denominator, which of a thin plate is next to
// nothing. SI units, design values.
#pragma once

#include "cases/checks/check_result.h"

namespace tubewright {

struct PlatedTube {
  double b0 = 0;  ///< the face it stands on
  double h0 = 0;
  double t0 = 0;
  double fy = 0;
  double n = 0;           ///< greatest compressive stress of the tube there over f_y0
  bool open_end = false;  ///< near: half the resistance, as half the folds are missing (MEMORY)
};

struct FacePlate {
  double thickness = 0;  ///< t1
  double size = 0;       ///< along the weld: h1 along the tube, b1 across it
  double fy = 0;
};

/// N_1,Rd of a plate along the tube, one face: k_m f_y0 t0^2 (2 h1/b0 + 4 sqrt(1 - t1/b0))/(1 -
/// t1/b0), N.
double along_plate_resistance(const PlatedTube& tube, const FacePlate& plate);
/// M_ip,1,Rd of it, beta = t1/b0, eta = h1/b0, N m.
double along_plate_moment(const PlatedTube& tube, const FacePlate& plate);

/// Of a plate across the tube, N. Infinite where a way of failing does not arise.
struct AcrossPlate {
  double effective = 0;  ///< b_eff, m
  double plate = 0;      ///< f_y1 t1 b_eff
  double side_wall = 0;  ///< k_m f_y0 t0 (2 t1 + 10 t0), b1 >= b0 - 2 t0
  double punching = 0;   ///< f_y0 t0/sqrt(3) (2 t1 + 2 b_ep), b1 <= b0 - 2 t0
  double face = 0;       ///< the US form, k_m f_y0 t0^2 (2 eta/(1 - beta) + 4/sqrt(1 - beta)),
                         ///< eta = t1/b0, beta <= 0.85 (SEEN Packer, steeltubeinstitute.org)
  double least() const;
};
AcrossPlate across_plate_resistance(const PlatedTube& tube, const FacePlate& plate);

/// Turned about the tube's axis: the least of f_y1 t1 b_eff/2 (b1 - b_eff/2), of M_op,1,Rd of Table
/// 7.14 with h1 = t1, and where b1 >= b0 - 2 t0 of its side walls, N m (DERIVED use).
double across_plate_moment(const PlatedTube& tube, const FacePlate& plate);

/// N/N_Rd + M/M_Rd (7.5.2), M in the plane of the plate. `faces`: 2 for a plate through the tube,
/// which holds twice as much (SEEN Packer, as above).
CheckResult along_plate_check(const PlatedTube& tube, const FacePlate& plate, double N, double M,
                              int faces = 1);
CheckResult across_plate_check(const PlatedTube& tube, const FacePlate& plate, double N, double M);

/// A saddle, whose ears stand on both walls beside the face over h1: the side walls of a T joint as
/// wide as the tube, N_Rd = chi k_m f_y0 t0 (2 h1 + 10 t0), chi of Table 7.11 whatever the sign,
/// and Table 7.14 with its distortion of the whole section. A use of the rules that they were not
/// written for: a comparison.
CheckResult walls_beside_check(const PlatedTube& tube, double E, double h1, double N, double M_ip,
                               double M_op, const char* what = "a saddle");

/// A moment that turns a single plate about its own foot: the face has next to nothing against it,
/// so there is no number once it is more than a fiftieth of `beside`, the resistance of the same
/// plate in its own plane (judgement). `advice` says what to do.
CheckResult weak_way_check(double M, double beside, const char* advice);

}  // namespace tubewright
