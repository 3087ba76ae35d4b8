#include "solver/elements/sheet_joint.h"

#include <cmath>

namespace tubewright {

namespace {

double shear_lag(const BondLine& bond, double Gt) {
  return std::sqrt(bond.G / (bond.thickness * Gt));
}

}  // namespace

double bond_stiffness(const BondLine& bond, double Gt) {
  const double lambda = shear_lag(bond, Gt);
  return Gt * lambda * std::tanh(lambda * bond.width);
}

double bond_peak_per_flow(const BondLine& bond, double Gt) {
  const double lambda = shear_lag(bond, Gt);
  return lambda / std::tanh(lambda * bond.width);
}

double bond_through_flexibility(const BondLine& bond, double Gt) {
  const double lambda = shear_lag(bond, Gt);
  return std::tanh(lambda * bond.width / 2) / (Gt * lambda);
}

double bond_peak_per_net(const BondLine& bond, double Gt) {
  const double lambda = shear_lag(bond, Gt);
  return lambda / (2 * std::tanh(lambda * bond.width / 2));
}

double bond_peak_per_through(const BondLine& bond, double Gt) {
  const double lambda = shear_lag(bond, Gt);
  return lambda * std::tanh(lambda * bond.width / 2);
}

double solid_rivet_flexibility(double d, double E_rivet, const Plate& a, const Plate& b) {
  const double t1 = a.thickness, t2 = b.thickness;
  return std::pow((t1 + t2) / (2 * d), 0.4) * 2.2 *
         (1 / (t1 * a.E) + 1 / (t2 * b.E) + 1 / (2 * t1 * E_rivet) + 1 / (2 * t2 * E_rivet));
}

}  // namespace tubewright
