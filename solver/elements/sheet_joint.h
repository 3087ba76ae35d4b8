// How much the joint between a sheet and a tube gives way: fasteners and bond. SI units.
#pragma once

namespace tubewright {

/// A bond line: adhesive of shear modulus `G`, `thickness` and `width` across the tube.
struct BondLine {
  double G = 0;
  double thickness = 0;
  double width = 0;
};

/// Shear stiffness of a bond line to a sheet of shear stiffness `Gt` = G t (N/m), tube wall rigid,
/// N/m per metre of edge: Gt lambda tanh(lambda w), lambda^2 = G_a/(t_a G t). Shear lag across the
/// width, as O. Volkersen, Luftfahrtforschung 15 (1938), has it along a lap; derived for this case.
double bond_stiffness(const BondLine& bond, double Gt);

/// Peak shear stress of the adhesive per unit shear flow, 1/m: lambda / tanh(lambda w). The mean is
/// 1/w.
double bond_peak_per_flow(const BondLine& bond, double Gt);

/// A sheet that goes on over its bond line, with flows q1 and q2 on the two sides, shears the
/// adhesive in two ways (derived, from the same shear lag): evenly by the net flow q1 - q2 that it
/// takes, and to and fro by the mean (q1 + q2)/2 that only passes through, since the stiff tube
/// keeps the sheet on it from shearing. With w the whole width:

/// What either edge of the sheet gives way by under flow passing through, m2/N:
/// tanh(lambda w/2)/(G t lambda).
double bond_through_flexibility(const BondLine& bond, double Gt);

/// Peak shear stress per unit of net flow, 1/m: lambda/(2 tanh(lambda w/2)).
double bond_peak_per_net(const BondLine& bond, double Gt);

/// Peak shear stress per unit of flow passing through, 1/m: lambda tanh(lambda w/2). Where both
/// are, the greater peak is their sum.
double bond_peak_per_through(const BondLine& bond, double Gt);

/// One plate of a riveted joint.
struct Plate {
  double thickness = 0;
  double E = 0;
};

/// Flexibility of a solid, hole-filling rivet in single shear, m/N (H. Huth, ASTM STP 927 (1986)
/// and LBF report FB-172 (1984); the bracket from memory):
///   C = ((t1 + t2)/(2 d))^(2/5) 2.2 [1/(t1 E1) + 1/(t2 E2) + 1/(2 t1 Ef) + 1/(2 t2 Ef)].
/// Blind rivets give way more, by a factor of three to nine (common practice).
double solid_rivet_flexibility(double diameter, double E_rivet, const Plate& a, const Plate& b);

}  // namespace tubewright
