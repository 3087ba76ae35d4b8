#include "cases/checks/section_class.h"

#include <array>
#include <cmath>

namespace tubewright {

namespace {

/// Number of limits below `slenderness`, plus one.
int class_by_limits(double slenderness, const std::array<double, 3>& limits) {
  int value = 1;
  for (double limit : limits) value += slenderness > limit;
  return value;
}

enum class WallState { not_compressed, bent, compressed };

/// Walls parallel to z (as high as the section) and parallel to y.
struct WallStates {
  WallState along_height = WallState::compressed;
  WallState along_width = WallState::compressed;
};

WallStates wall_states(const Section& s, double fy, const SectionForces& f) {
  constexpr double no_compression = 1e-6;  // of A f_y: rounding of the solver (judgement)
  if (f.N < -no_compression * s.A * fy) return {};
  const double bending = std::abs(f.My) / s.Wy + std::abs(f.Mz) / s.Wz;
  if (f.N / s.A >= bending || bending <= no_compression * fy) {
    return {WallState::not_compressed, WallState::not_compressed};
  }
  const auto state = [](double as_flange, double as_web) {
    if (as_flange != 0) return WallState::compressed;
    return as_web != 0 ? WallState::bent : WallState::not_compressed;
  };
  return {state(f.Mz, f.My), state(f.My, f.Mz)};
}

int class_of_wall(double c_over_t, double epsilon, WallState state) {
  switch (state) {
    case WallState::compressed:
      return class_of_compressed_wall(c_over_t, epsilon);
    case WallState::bent:
      return class_of_bent_wall(c_over_t, epsilon);
    case WallState::not_compressed:
      break;
  }
  return 1;
}

SectionClass class_of_hollow_rectangle(const Section& s, double epsilon, const WallStates& states) {
  const Profile& p = s.profile;
  SectionClass worst;
  const auto consider = [&](double side, WallState state, const char* part) {
    const double c_over_t = flat_width(s, side) / p.wall;
    const int value = class_of_wall(c_over_t, epsilon, state);
    const bool stiffer = value < worst.value;
    if (stiffer || (value == worst.value && c_over_t <= worst.slenderness)) return;
    worst = {value, c_over_t, part, ""};
  };
  consider(p.height, states.along_height, "wall along the height");
  consider(p.width, states.along_width, "wall along the width");
  return worst;
}

SectionClass classify(const Section& s, double fy, const SectionForces* f) {
  SectionClass r;
  if (!(fy > 0)) {
    r.reason = "the material has no yield strength";
    return r;
  }
  const double epsilon = yield_epsilon(fy);
  const WallStates states = f ? wall_states(s, fy, *f) : WallStates{};
  const Profile& p = s.profile;
  switch (p.kind) {
    case ProfileKind::hollow_rectangle:
      return class_of_hollow_rectangle(s, epsilon, states);
    case ProfileKind::round:
      if (p.wall > 0) {
        const bool compressed = states.along_height != WallState::not_compressed ||
                                states.along_width != WallState::not_compressed;
        const double d_over_t = p.height / p.wall;
        return {compressed ? class_of_round_tube(d_over_t, epsilon) : 1, d_over_t, "round wall",
                ""};
      }
      [[fallthrough]];
    case ProfileKind::solid_rectangle:
      return {1, 0, "solid bar", ""};
    case ProfileKind::unknown:
      break;
  }
  r.reason = "the section is given by its properties: its walls are not known";
  return r;
}

}  // namespace

double yield_epsilon(double fy) {
  constexpr double S235 = 235e6;  // Pa
  return std::sqrt(S235 / fy);
}

int class_of_compressed_wall(double c_over_t, double epsilon) {
  return class_by_limits(c_over_t, {33 * epsilon, 38 * epsilon, 42 * epsilon});
}

int class_of_bent_wall(double c_over_t, double epsilon) {
  return class_by_limits(c_over_t, {72 * epsilon, 83 * epsilon, 124 * epsilon});
}

int class_of_round_tube(double d_over_t, double epsilon) {
  const double e2 = epsilon * epsilon;
  return class_by_limits(d_over_t, {50 * e2, 70 * e2, 90 * e2});
}

double flat_width(const Section& section, double side) {
  const Profile& p = section.profile;
  const double sharp_area = 2 * p.wall * (p.height + p.width - 2 * p.wall);
  constexpr double rounding = 1e-9;  // of the area
  const bool sharp = section.A >= (1 - rounding) * sharp_area;
  return side - (sharp ? 2 : 3) * p.wall;
}

SectionClass section_class(const Section& section, double fy, const SectionForces& forces) {
  return classify(section, fy, &forces);
}

SectionClass section_class_compressed(const Section& section, double fy) {
  return classify(section, fy, nullptr);
}

}  // namespace tubewright
