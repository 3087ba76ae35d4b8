#include "cases/workshop/weld_order.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "cases/frame/frame_symmetry.h"

namespace tubewright {

namespace {

constexpr std::size_t still_warm = 3;  // steps
constexpr double as_far = 1e-6;        // m

struct Joint {
  int ends = 0;
  double length = 0;
};

using Nodes = std::vector<int>;

/// Joints one by one, or with their image if that is a joint too, by the first node's number.
std::vector<Nodes> paired(const std::vector<Joint>& joints, const std::vector<int>& image) {
  std::vector<Nodes> steps;
  for (std::size_t n = 0; n < joints.size(); ++n) {
    if (joints[n].ends == 0) continue;
    const int other = image.empty() ? -1 : image[n];
    const bool has_pair = other >= 0 && other != static_cast<int>(n) &&
                          joints[static_cast<std::size_t>(other)].ends > 0;
    if (has_pair && other < static_cast<int>(n)) continue;
    steps.push_back({static_cast<int>(n)});
    if (has_pair) steps.back().push_back(other);
  }
  return steps;
}

/// By node.
std::vector<Joint> welded_joints(const std::vector<CutPiece>& pieces, std::size_t nodes) {
  std::vector<Joint> joints(nodes);
  for (const CutPiece& p : pieces) {
    for (std::size_t end = 0; end < 2; ++end) {
      if (!(p.ends[end].weld_length > 0)) continue;
      Joint& j = joints[static_cast<std::size_t>(p.tube.nodes[end])];
      ++j.ends;
      j.length += p.ends[end].weld_length;
    }
  }
  return joints;
}

Eigen::Vector3d middle_of(const std::vector<Eigen::Vector3d>& at, const std::vector<Nodes>& steps) {
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  int count = 0;
  for (const Nodes& step : steps) {
    for (const int n : step) middle += at[static_cast<std::size_t>(n)], ++count;
  }
  return middle / std::max(count, 1);
}

/// Between the nearest nodes of two steps.
double apart(const std::vector<Eigen::Vector3d>& at, const Nodes& a, const Nodes& b) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const int i : a) {
    for (const int j : b) {
      nearest = std::min(
          nearest, (at[static_cast<std::size_t>(i)] - at[static_cast<std::size_t>(j)]).norm());
    }
  }
  return nearest;
}

/// The place of the step that comes next: nearest the middle, then farthest from what is warm.
std::size_t next_step(const std::vector<Eigen::Vector3d>& at, const std::vector<Nodes>& waiting,
                      const std::vector<Nodes>& done, const Eigen::Vector3d& middle) {
  const auto merit = [&](const Nodes& step) {
    if (done.empty()) return -(at[static_cast<std::size_t>(step.front())] - middle).norm();
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t k = done.size(); k-- > 0 && done.size() - k <= still_warm;) {
      nearest = std::min(nearest, apart(at, step, done[k]));
    }
    return nearest;
  };
  std::size_t best = 0;
  double most = merit(waiting[0]);
  for (std::size_t i = 1; i < waiting.size(); ++i) {
    const double here = merit(waiting[i]);
    if (here > most + as_far) {
      best = i;
      most = here;
    }
  }
  return best;
}

}  // namespace

std::vector<WeldStep> weld_order(const Frame& frame, const NumberedFrame& numbered,
                                 const std::vector<CutPiece>& pieces) {
  const std::vector<Eigen::Vector3d>& at = numbered.model.nodes;
  const std::vector<Joint> joints = welded_joints(pieces, at.size());
  std::vector<CutTube> tubes;
  for (const CutPiece& p : pieces) tubes.push_back(p.tube);
  const std::vector<MirrorPlane> planes = mirror_planes(drawn_tubes(frame, numbered, tubes));
  std::vector<Nodes> waiting =
      paired(joints, planes.empty() ? std::vector<int>{} : images_of(at, planes.front()));
  const Eigen::Vector3d middle = middle_of(at, waiting);
  std::vector<Nodes> done;
  std::vector<WeldStep> order;
  while (!waiting.empty()) {
    const std::size_t next = next_step(at, waiting, done, middle);
    WeldStep step;
    for (const int n : waiting[next]) {
      step.nodes.push_back(frame.nodes[static_cast<std::size_t>(n)].name);
      step.ends += joints[static_cast<std::size_t>(n)].ends;
      step.weld_length += joints[static_cast<std::size_t>(n)].length;
    }
    order.push_back(std::move(step));
    done.push_back(waiting[next]);
    waiting.erase(waiting.begin() + static_cast<std::ptrdiff_t>(next));
  }
  return order;
}

}  // namespace tubewright
