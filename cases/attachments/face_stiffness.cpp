#include "cases/attachments/face_stiffness.h"

#include <array>
#include <cmath>
#include <cstddef>

namespace tubewright {
namespace {

struct Row {
  double size, coefficient;
};

constexpr std::array<Row, 4> tab_push = {{{0.5, 152}, {1, 209}, {1.5, 265}, {2, 321}}};
constexpr std::array<Row, 4> tab_turn = {{{0.5, 23.7}, {1, 61.3}, {1.5, 125}, {2, 222}}};
constexpr std::array<Row, 3> cross_push = {{{0.3, 168}, {0.5, 319}, {0.7, 903}}};
constexpr std::array<Row, 6> square_push = {
    {{0.3, 219}, {0.4, 339}, {0.5, 568}, {0.6, 1067}, {0.7, 2404}, {0.8, 7594}}};
constexpr std::array<Row, 6> square_turn = {
    {{0.3, 20.6}, {0.4, 33.3}, {0.5, 56.5}, {0.6, 105}, {0.7, 233}, {0.8, 718}}};

template <std::size_t n>
double between(const std::array<Row, n>& table, double size) {
  if (!(size > table.front().size)) return table.front().coefficient;
  for (std::size_t i = 1; i < n; ++i) {
    if (size > table[i].size) continue;
    const Row &a = table[i - 1], &b = table[i];
    const double s = (size - a.size) / (b.size - a.size);
    return a.coefficient * std::pow(b.coefficient / a.coefficient, s);
  }
  return table.back().coefficient;
}

}  // namespace

double tab_push_coefficient(double length_over_b) { return between(tab_push, length_over_b); }
double tab_turn_coefficient(double length_over_b) { return between(tab_turn, length_over_b); }
double tab_twist_coefficient(double length_over_b) { return 12 * length_over_b; }
double cross_push_coefficient(double width_over_b) { return between(cross_push, width_over_b); }
double square_push_coefficient(double side_over_b) { return between(square_push, side_over_b); }
double square_turn_coefficient(double side_over_b) { return between(square_turn, side_over_b); }

double clear_width(const TubeWall& face) { return face.width - face.wall; }

double plate_rigidity(const TubeWall& face) {
  return face.E * std::pow(face.wall, 3) / (12 * (1 - face.nu * face.nu));
}

double push_stiffness(const TubeWall& face, double C_N) {
  return C_N * plate_rigidity(face) / std::pow(clear_width(face), 2);
}

double turn_stiffness(const TubeWall& face, double C_M) { return C_M * plate_rigidity(face); }

}  // namespace tubewright
