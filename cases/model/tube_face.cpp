#include "cases/model/tube_face.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/elements/beam_element.h"

namespace tubewright {

TubeFace tube_face(const SectionEntry& section, const NumberedFrame& n, const MemberSlot& slot,
                   const Eigen::Vector3d& normal) {
  if (section.shape == Shape::properties) return {std::numeric_limits<double>::quiet_NaN(), 0};
  if (!slot.is_beam) return {std::min(section.width, section.height), 0};
  const Beam& beam = n.model.beams[slot.index];
  const Eigen::Matrix3d axes =
      member_axes(n.model.nodes[beam.from], n.model.nodes[beam.to], beam.roll);
  const double up = std::abs(axes.row(2).dot(normal)), across = std::abs(axes.row(1).dot(normal));
  const bool round = section.shape == Shape::round_tube || section.shape == Shape::round_bar;
  return {up >= across ? section.width : section.height,
          round ? 0 : std::acos(std::min(1.0, std::max(up, across)))};
}

}  // namespace tubewright
