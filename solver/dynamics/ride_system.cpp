#include "solver/dynamics/ride_system.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

bool at_least_zero(double value) { return std::isfinite(value) && value >= 0; }

}  // namespace

bool is_ride_system(const RideSystem& system) {
  const Eigen::Index coordinates = system.modes.rows(), modes = system.modes.cols();
  const auto is_coordinate = [&](int c) { return c >= 0 && c < coordinates; };
  const auto good_tyre = [&](const RideTyre& t) {
    return is_coordinate(t.vertical) && (t.longitudinal == -1 || is_coordinate(t.longitudinal)) &&
           at_least_zero(t.stiffness) && t.stiffness > 0 && at_least_zero(t.damping);
  };
  const auto good_damper = [&](const RideDamper& d) {
    return is_coordinate(d.coordinate) && at_least_zero(d.damping);
  };
  const auto all_at_least_zero = [](const Eigen::VectorXd& v) {
    return std::all_of(v.begin(), v.end(), at_least_zero);
  };
  return system.circular_frequency.size() == modes && system.damping_ratio.size() == modes &&
         system.residual_flexibility.rows() == coordinates &&
         system.residual_flexibility.cols() == coordinates && system.weight_modal.size() == modes &&
         system.weight_displacement.size() == coordinates &&
         all_at_least_zero(system.circular_frequency) && all_at_least_zero(system.damping_ratio) &&
         system.modes.allFinite() && system.residual_flexibility.allFinite() &&
         system.weight_modal.allFinite() && system.weight_displacement.allFinite() &&
         system.tyres.size() <= static_cast<size_t>(most_tyres) &&
         std::all_of(system.tyres.begin(), system.tyres.end(), good_tyre) &&
         std::all_of(system.dampers.begin(), system.dampers.end(), good_damper);
}

}  // namespace tubewright
