#include "cases/model/tube_face.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/elements/beam_element.h"

namespace tubewright {
namespace {

bool is_round(const SectionEntry& section) {
  return section.shape == Shape::round_tube || section.shape == Shape::round_bar;
}

/// Components of the normal along the section's width and height, without sign.
struct Across {
  double width, height;
};

Across across(const NumberedFrame& n, const Beam& beam, const Eigen::Vector3d& normal) {
  const Eigen::Matrix3d axes =
      member_axes(n.model.nodes[beam.from], n.model.nodes[beam.to], beam.roll);
  return {std::abs(axes.row(1).dot(normal)), std::abs(axes.row(2).dot(normal))};
}

}  // namespace

TubeFace tube_face(const SectionEntry& section, const NumberedFrame& n, const MemberSlot& slot,
                   const Eigen::Vector3d& normal) {
  if (section.shape == Shape::properties) return {std::numeric_limits<double>::quiet_NaN(), 0};
  if (!slot.is_beam) return {std::min(section.width, section.height), 0};
  const auto [aside, up] = across(n, n.model.beams[slot.index], normal);
  return {up >= aside ? section.width : section.height,
          is_round(section) ? 0 : std::acos(std::min(1.0, std::max(up, aside)))};
}

TubeReach tube_reach(const SectionEntry& section, const NumberedFrame& n, const MemberSlot& slot,
                     const Eigen::Vector3d& normal) {
  constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  if (section.shape == Shape::properties) return {unknown, unknown};
  const double width = section.width / 2, height = section.height / 2;
  if (!slot.is_beam) return {std::min(width, height), std::max(width, height)};
  if (is_round(section)) return {height, height};
  const auto [aside, up] = across(n, n.model.beams[slot.index], normal);
  const double face = up >= aside ? height : width;
  return {face, std::max(face, up * height + aside * width)};
}

}  // namespace tubewright
