// Flexural buckling of members and its interaction with bending: EN 1993-1-1:2005 6.3.1, 6.3.3 with
// Annex B (Method 2), from memory.
//
// For members not susceptible to torsional deformation (hollow sections), chi_LT = 1; bars that may
// tip over sideways by 6.3.2 (lateral_torsional.h). SI units; forces as in
// solver/elements/beam_field.h, N tension positive. Lengths and moments are named by the axis the
// member bends about: `y` is buckling along z. gamma_M1 = 1.0 (6.1, recommended).
#pragma once

#include <optional>

#include "cases/checks/check_result.h"
#include "cases/checks/section_class.h"
#include "cases/frame/frame.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double gamma_M1 = 1.0;  // EN 1993-1-1 6.1, recommended value

enum class BucklingCurve { a0, a, b, c, d };

/// Table 6.1: alpha = 0.13, 0.21, 0.34, 0.49, 0.76.
double imperfection_factor(BucklingCurve curve);

/// Table 6.2: cold formed tubes c; hot finished tubes a, and a0 from S460 on; solid bars c. Sharp
/// corners say nothing of the making and get c.
BucklingCurve buckling_curve(const Profile& profile, Corners corners, double fy);

/// N_cr = pi^2 E I/L^2, N.
double euler_load(double E, double I, double length);

struct FlexuralBuckling {
  double N_cr = 0;
  double lambda_bar = 0;  ///< sqrt(A f_y/N_cr), (6.50)
  double Phi = 0;         ///< 0.5 (1 + alpha (lambda_bar - 0.2) + lambda_bar^2)
  double chi = 1;         ///< 1/(Phi + sqrt(Phi^2 - lambda_bar^2)) <= 1, (6.49)
  double N_b_Rd = 0;      ///< chi A f_y/gamma_M1, (6.47)
};

/// chi of (6.49); 1 up to lambda_bar = 0.2.
double reduction_factor(double lambda_bar, BucklingCurve curve);

/// `A`: the effective area for class 4. Requires: all positive.
FlexuralBuckling flexural_buckling(double A, double I, double fy, double E, double length,
                                   BucklingCurve curve);

/// Moments about one axis along the member, N m.
struct MemberMoments {
  double start = 0;  ///< section moment at the start: equal signs at both ends are single curvature
  double end = 0;
  double greatest = 0;          ///< anywhere, without sign; the ends count even if it is left 0
  bool loaded_between = false;  ///< loads act between the ends
  bool sway = false;            ///< the ends can move sideways to each other as it buckles
};

/// The greatest moment of the three, without sign.
double greatest_moment(const MemberMoments& moments);

/// C_m of Table B.3: 0.6 + 0.4 psi >= 0.4 for end moments M and psi M; 0.9 in a sway mode. Loaded
/// between its ends, or with a moment there beyond those of the ends: 1, which no row of the table
/// exceeds (safe choice). 1 without moments, where it does nothing.
double equivalent_moment_factor(const MemberMoments& moments);

struct BucklingLengths {
  double y = 0;  ///< effective length for bending about y, m
  double z = 0;
};

struct CompressedMember {
  double N = 0;  ///< tension positive; compression where it is greatest
  MemberMoments y;
  MemberMoments z;
  /// Moment about the strong axis at which it tips over sideways, 0 where nothing holds it; absent:
  /// a section that cannot, or it is not known.
  std::optional<double> critical_moment;
};

struct MemberBuckling {
  SectionClass section_class;
  FlexuralBuckling y;
  FlexuralBuckling z;
  double n_y = 0;  ///< N/(chi_y N_Rk/gamma_M1)
  double n_z = 0;
  double chi_LT = 1;
  double C_my = 1;
  double C_mz = 1;
  double k_yy = 0;
  double k_yz = 0;
  double k_zy = 0;
  double k_zz = 0;
  double eq_6_61 = 0;  ///< left side
  double eq_6_62 = 0;
  CheckResult result;  ///< the greater of the two
};

/// 6.3.3 (6.61), (6.62) with Table B.1, hollow sections: class 1, 2 k_yy = C_my (1 + (lambda_y -
/// 0.2) n_y) <= C_my (1 + 0.8 n_y), k_yz = 0.6 k_zz, k_zy = 0.6 k_yy; class 3, 4 k_yy = C_my (1 +
/// 0.6 lambda_y n_y) <= C_my (1 + 0.6 n_y), k_yz = k_zz, k_zy = 0.8 k_yy. Characteristic
/// resistances by the class in pure compression. lambda - 0.2 is not let below 0 (safe). The relief
/// of 6.3.1.2(4), N/N_cr <= 0.04, is not used; nor is k_zy = 0 for N + M_y.
///
/// With a critical moment the strong moment counts against chi_LT W f_y, with N or without (tension
/// helps and is left out), and both moments at least in full beside buckling about the weak axis
/// (k = 1, what Table B.2 ends at).
///
/// No check: neither compression nor a critical moment (the section check governs), f_y or E or a
/// length missing, numbers that are not finite, unknown profile, class 4 round tube, a flat bar
/// bent the strong way whose critical moment is not known or 0.
MemberBuckling member_buckling(const Section& section, double fy, double E, BucklingCurve curve,
                               const BucklingLengths& lengths, const CompressedMember& member);

}  // namespace tubewright
