#include "solver/stability/fine_buckling.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tubewright {

namespace {

constexpr double roughly = 0.03;
constexpr double finely = 0.001;

double length_of(const Model& model, const Beam& beam) {
  return (model.nodes[static_cast<size_t>(beam.to)] - model.nodes[static_cast<size_t>(beam.from)])
      .norm();
}

/// k h at which (k h)^4/720 + share (k h)^2/12 is `error`.
double length_within(double error, double share) {
  const double a = 1.0 / 720, b = share / 12;
  return std::sqrt(2 * error / (b + std::sqrt(b * b + 4 * a * error)));
}

FineBuckling cut_into(const Model& model, const StaticSolution& solution,
                      const std::vector<int>& pieces) {
  FineBuckling cut;
  cut.fine = refine(model, pieces);
  cut.forces = refine_axial_forces(cut.fine, solution);
  return cut;
}

}  // namespace

std::vector<int> pieces_for_buckling(const Model& model, const AxialForces& forces, double factor,
                                     double error, int most) {
  std::vector<int> pieces;
  for (size_t b = 0; b < model.beams.size(); ++b) {
    const Beam& beam = model.beams[b];
    const Section& s = model.sections[static_cast<size_t>(beam.section)];
    const Material& m = model.materials[static_cast<size_t>(beam.material)];
    const double growth = forces.growth.empty() ? 0 : forces.growth[b];
    const double P = factor * (std::abs(forces.beams[b]) + std::abs(growth) / 2);
    const double kL = length_of(model, beam) * std::sqrt(P / (m.E * std::min(s.Iy, s.Iz)));
    const double wanted = kL / length_within(error, P / (m.G * std::min(s.Ay, s.Az)));
    if (wanted <= 1) {
      pieces.push_back(1);
    } else {  // for NaN too
      pieces.push_back(wanted < most ? std::min(most, 2 * static_cast<int>(std::ceil(wanted / 2)))
                                     : most);
    }
  }
  return pieces;
}

double clamped_factor(const Model& model, const AxialForces& forces, int count) {
  constexpr double clamped = 4 * std::numbers::pi * std::numbers::pi;
  std::vector<double> factors;
  for (size_t b = 0; b < model.beams.size(); ++b) {
    if (!(forces.beams[b] < 0)) continue;
    const Beam& beam = model.beams[b];
    const Section& s = model.sections[static_cast<size_t>(beam.section)];
    const double E = model.materials[static_cast<size_t>(beam.material)].E;
    const double L = length_of(model, beam);
    for (const double I : {s.Iy, s.Iz}) {
      factors.push_back(clamped * E * I / (L * L * -forces.beams[b]));
    }
  }
  if (count < 1 || factors.size() < static_cast<size_t>(count))
    return std::numeric_limits<double>::infinity();
  std::sort(factors.begin(), factors.end());
  return factors[static_cast<size_t>(count) - 1];
}

FineBuckling fine_buckling(const Model& model, const StaticSolution& solution, int count,
                           int most) {
  const AxialForces forces = axial_forces(solution);
  const double bound = std::min(clamped_factor(model, forces, count), beyond_any_load);
  const std::vector<int> rough_pieces = pieces_for_buckling(model, forces, bound, roughly, most);
  const FineBuckling rough = cut_into(model, solution, rough_pieces);
  // A factor missed here would make the cut finer than it need be.
  const Buckling likely = likely_buckling(rough.fine.model, rough.forces, count);
  const bool all = static_cast<int>(likely.modes.size()) >= count;
  const double highest = all ? std::min(bound, likely.modes.back().factor) : bound;
  FineBuckling fine =
      cut_into(model, solution, pieces_for_buckling(model, forces, highest, finely, most));
  fine.buckling = linear_buckling(fine.fine.model, fine.forces, count);
  return fine;
}

}  // namespace tubewright
