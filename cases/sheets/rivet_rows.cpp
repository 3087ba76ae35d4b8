#include "cases/sheets/rivet_rows.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/model/angle.h"

namespace tubewright {

double joint_reach(double angle, double a, double b) {
  constexpr double mitred = 130 * degree;
  constexpr double rounding = 1e-9;
  if (angle > mitred) return std::max(a, b) / std::tan(angle / 2);
  if (angle > std::numbers::pi / 2 + rounding) return b / std::sin(angle);
  return (b + a * std::max(0.0, std::cos(angle))) / std::sin(angle);
}

std::vector<double> rivet_places(double length, double clear_from, double clear_to, double pitch,
                                 double least) {
  const double room = length - clear_from - clear_to;
  if (room < 0) return {};
  if (room < least) return {clear_from + room / 2};
  const double wanted = std::max(1.0, std::ceil(room / pitch - 1e-9));
  const int spaces = static_cast<int>(std::min(wanted, std::floor(room / least + 1e-9)));
  std::vector<double> places;
  for (int i = 0; i <= spaces; ++i) places.push_back(clear_from + room * i / spaces);
  return places;
}

}  // namespace tubewright
