#include "cases/frame/frame_symmetry.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "solver/model/disjoint_sets.h"

namespace tubewright {

namespace {

constexpr double same_place = 1e-5;  // m: a file gives hundredths of a millimetre
constexpr double enough = 0.5;       // share of the tubes

using PlaceKey = std::array<long, 3>;

PlaceKey key_of(const Eigen::Vector3d& p) {
  return {std::lround(p.x() / same_place), std::lround(p.y() / same_place),
          std::lround(p.z() / same_place)};
}

using TubeKey = std::array<long, 7>;

/// The same whichever way the tube is drawn.
TubeKey key_of(const DrawnTube& t) {
  PlaceKey a = key_of(t.ends[0]), b = key_of(t.ends[1]);
  if (b < a) std::swap(a, b);
  return {t.size, a[0], a[1], a[2], b[0], b[1], b[2]};
}

std::map<TubeKey, int> indexed(const std::vector<DrawnTube>& tubes) {
  std::map<TubeKey, int> index;
  for (std::size_t i = 0; i < tubes.size(); ++i) {
    index.emplace(key_of(tubes[i]), static_cast<int>(i));
  }
  return index;
}

DrawnTube image_of(const DrawnTube& t, const MirrorPlane& plane) {
  return {{plane.image(t.ends[0]), plane.image(t.ends[1])}, t.size};
}

}  // namespace

std::vector<MirrorPlane> mirror_planes(const std::vector<DrawnTube>& tubes) {
  std::vector<MirrorPlane> planes;
  if (tubes.empty()) return planes;
  const auto index = indexed(tubes);
  for (const int axis : {1, 0, 2}) {
    double least = std::numeric_limits<double>::infinity(), most = -least;
    for (const DrawnTube& t : tubes) {
      for (const Eigen::Vector3d& end : t.ends) {
        least = std::min(least, end[axis]);
        most = std::max(most, end[axis]);
      }
    }
    MirrorPlane plane{axis, (least + most) / 2, 0};
    const auto with_image = std::count_if(tubes.begin(), tubes.end(), [&](const DrawnTube& t) {
      return index.contains(key_of(image_of(t, plane)));
    });
    plane.share = static_cast<double>(with_image) / static_cast<double>(tubes.size());
    if (plane.share >= enough && most - least > same_place) planes.push_back(plane);
  }
  std::stable_sort(planes.begin(), planes.end(),
                   [](const MirrorPlane& a, const MirrorPlane& b) { return a.share > b.share; });
  return planes;
}

std::vector<int> mirror_classes(const std::vector<DrawnTube>& tubes,
                                const std::vector<MirrorPlane>& planes) {
  const auto index = indexed(tubes);
  DisjointSets alike(tubes.size());
  for (std::size_t i = 0; i < tubes.size(); ++i) {
    for (const MirrorPlane& plane : planes) {
      const auto found = index.find(key_of(image_of(tubes[i], plane)));
      if (found != index.end()) alike.join(static_cast<int>(i), found->second);
    }
  }
  return alike.firsts();
}

std::vector<int> images_of(const std::vector<Eigen::Vector3d>& places, const MirrorPlane& plane) {
  std::map<PlaceKey, int> index;
  for (std::size_t i = 0; i < places.size(); ++i) {
    index.emplace(key_of(places[i]), static_cast<int>(i));
  }
  std::vector<int> images;
  for (const Eigen::Vector3d& p : places) {
    const auto found = index.find(key_of(plane.image(p)));
    images.push_back(found == index.end() ? -1 : found->second);
  }
  return images;
}

}  // namespace tubewright
