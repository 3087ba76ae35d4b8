// Which tubes are images of each other in a plane that mirrors most of the frame.
//
// Looked for are the three planes square to the axes through the middle of the frame. A plane
// counts if at least half of the tubes have an image, themselves or another; the rest may be
// diagonals that lean one way.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <vector>

namespace tubewright {

/// A straight tube from node to node, and a number that alike sizes share.
struct DrawnTube {
  std::array<Eigen::Vector3d, 2> ends;
  int size = 0;
};

struct MirrorPlane {
  int axis = 1;      ///< 0, 1, 2: square to x, y, z
  double at = 0;     ///< m
  double share = 0;  ///< of the tubes that have an image, 0 to 1

  Eigen::Vector3d image(Eigen::Vector3d p) const {
    p[axis] = 2 * at - p[axis];
    return p;
  }
};

/// The planes that count, those with most images first; y before x before z.
std::vector<MirrorPlane> mirror_planes(const std::vector<DrawnTube>& tubes);

/// For each tube the first (least index) that it is turned into by any of the planes, one after the
/// other: equal for tubes that are images of each other.
std::vector<int> mirror_classes(const std::vector<DrawnTube>& tubes,
                                const std::vector<MirrorPlane>& planes);

/// For each place the index of its image among them, itself if it lies on the plane; -1: none.
std::vector<int> images_of(const std::vector<Eigen::Vector3d>& places, const MirrorPlane& plane);

}  // namespace tubewright
