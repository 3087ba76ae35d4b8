#include "cases/pieces/tube_arms.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/frame/find_parts.h"
#include "cases/frame/frame_symmetry.h"
#include "cases/model/weldments.h"

namespace tubewright {

bool same_size(const HalfSizes& a, const HalfSizes& b) {
  const auto near = [](double p, double q) { return std::abs(p - q) < 1e-6; };
  return a.round == b.round && near(std::min(a.y, a.z), std::min(b.y, b.z)) &&
         near(std::max(a.y, a.z), std::max(b.y, b.z));
}

ConvexPolygon section_polygon(const HalfSizes& half, double inset) {
  const double y = half.y - std::min(inset, half.y / 2), z = half.z - std::min(inset, half.z / 2);
  if (!half.round) return {{y, z}, {-y, z}, {-y, -z}, {y, -z}};
  constexpr int sides = 48;
  ConvexPolygon polygon;
  for (int k = 0; k < sides; ++k) {
    const double turn = 2 * std::numbers::pi * k / sides;
    polygon.push_back({y * std::cos(turn), z * std::sin(turn)});
  }
  return polygon;
}

UncutTubes uncut_tubes(const Frame& frame, const NumberedFrame& n) {
  UncutTubes all;
  all.tubes = cut_tubes(frame, n);
  for (const CutTube& t : all.tubes) {
    const SectionEntry& s = find_section(frame, t.section);
    const Member& first = frame.members[static_cast<size_t>(t.members.front())];
    const Member& last = frame.members[static_cast<size_t>(t.members.back())];
    const bool round = s.shape == Shape::round_tube || s.shape == Shape::round_bar;
    all.half.push_back({s.width / 2, s.height / 2, round});
    all.link.push_back(first.kind == MemberKind::link);
    all.joint.push_back({is_joint(first.release_from), is_joint(last.release_to)});
    all.path.push_back(first.tube);
  }
  const std::vector<DrawnTube> drawn = drawn_tubes(frame, n, all.tubes);
  all.rank = mirror_classes(drawn, mirror_planes(drawn));
  return all;
}

double angle_between(const TubeArm& a, const TubeArm& b) {
  return std::acos(std::clamp(a.away.dot(b.away), -1.0, 1.0));
}

std::vector<NodeTubes> tubes_at_nodes(const Frame& frame, const NumberedFrame& n,
                                      const UncutTubes& all) {
  std::vector<NodeTubes> nodes(n.model.nodes.size());
  for (size_t t = 0; t < all.tubes.size(); ++t) {
    const CutTube& c = all.tubes[t];
    const Eigen::Vector3d x = c.axes.row(0);
    for (const int end : {0, 1}) {
      nodes[static_cast<size_t>(c.nodes[static_cast<size_t>(end)])].arms.push_back(
          {static_cast<int>(t), end, end == 0 ? x : Eigen::Vector3d(-x)});
    }
    for (const int node : inner_nodes(frame, n, c)) {
      nodes[static_cast<size_t>(node)].through.push_back(static_cast<int>(t));
    }
  }
  return nodes;
}

}  // namespace tubewright
