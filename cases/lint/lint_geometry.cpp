// Tubes and joints that come too close to each other without being joined.
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/frame/near_pairs.h"
#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"

namespace tubewright {
namespace {

// All in parts of a tube's side. Judgement: half of it is a joint drawn twice, a tenth a slip of
// rounding; tubes whose axes are nearer than nine tenths of touching run through each other.
constexpr double same_joint = 0.5;
constexpr double on_axis = 0.1;
constexpr double touching = 0.55;    // of one side: its half and a gap to be welded
constexpr double penetrating = 0.9;  // of the two half sides together
constexpr double short_stub = 1.5;   // of the two sides together: models an eccentric joint

bool is_rod(MemberKind kind) { return kind == MemberKind::beam || kind == MemberKind::link; }

bool joined(const Layout& layout, int a, int b) {
  if (layout.members_at[a].size() > layout.members_at[b].size()) std::swap(a, b);
  return std::any_of(layout.members_at[a].begin(), layout.members_at[a].end(),
                     [&](int member) { return layout.other_end(member, a) == b; });
}

bool is_end_of(const Layout& layout, int member, int node) {
  return layout.ends[member][0] == node || layout.ends[member][1] == node;
}

/// Smallest side of the tubes at each node; where there are none, the smallest of the frame.
std::vector<double> sides_at_nodes(const Layout& layout, const std::vector<double>& sides) {
  double smallest = std::numeric_limits<double>::infinity();
  for (const double side : sides) {
    if (side > 0) smallest = std::min(smallest, side);
  }
  if (!std::isfinite(smallest)) smallest = 0;
  std::vector<double> result;
  for (const std::vector<int>& members : layout.members_at) {
    double side = std::numeric_limits<double>::infinity();
    for (const int m : members) {
      if (sides[m] > 0) side = std::min(side, sides[m]);
    }
    result.push_back(std::isfinite(side) ? side : smallest);
  }
  return result;
}

Eigen::AlignedBox3d grown(Eigen::AlignedBox3d box, double margin) {
  box.extend(Eigen::Vector3d(box.min().array() - margin));
  box.extend(Eigen::Vector3d(box.max().array() + margin));
  return box;
}

/// Boxes round the tubes with length, and the member of each.
struct TubeBoxes {
  Boxes boxes;
  std::vector<int> member;
};

TubeBoxes tube_boxes(const Frame& frame, const Layout& layout, const std::vector<double>& sides) {
  TubeBoxes tubes;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const auto [a, b] = layout.ends[i];
    if (a < 0 || !is_rod(frame.members[i].kind)) continue;
    Eigen::AlignedBox3d box(layout.at[a]);
    box.extend(layout.at[b]);
    tubes.boxes.push_back(grown(box, touching * sides[i]));
    tubes.member.push_back(static_cast<int>(i));
  }
  return tubes;
}

struct Segment {
  Eigen::Vector3d start;
  Eigen::Vector3d along;  ///< from start to end
};

Segment segment_of(const Layout& layout, int member) {
  const auto [a, b] = layout.ends[member];
  return {layout.at[a], layout.at[b] - layout.at[a]};
}

/// Fractions along two segments of the points nearest to each other. C. Ericson, Real-Time
/// Collision Detection (2005), 5.1.9. Where they run parallel: the middle of the stretch side by
/// side.
std::pair<double, double> nearest_points(const Segment& p, const Segment& q) {
  const auto clamp = [](double t) { return std::clamp(t, 0.0, 1.0); };
  const Eigen::Vector3d r = p.start - q.start;
  const double a = p.along.squaredNorm(), e = q.along.squaredNorm();
  const double b = p.along.dot(q.along), c = p.along.dot(r), f = q.along.dot(r);
  const double denominator = a * e - b * b;
  double s;
  if (denominator > 1e-6 * a * e) {
    s = clamp((b * f - c * e) / denominator);
  } else {
    const double q0 = clamp(-c / a), q1 = clamp((b - c) / a);  // ends of q seen on p
    s = (q0 + q1) / 2;
  }
  double t = (b * s + f) / e;
  if (t < 0 || t > 1) {
    t = clamp(t);
    s = clamp((b * t - c) / a);
  }
  return {s, t};
}

/// True if a point at this fraction is more than `margin` from both ends.
bool inside(double fraction, double length, double margin) {
  return std::min(fraction, 1 - fraction) * length > margin;
}

bool joined_by_stub(const Layout& layout, int p, int q, double longest) {
  for (const int a : layout.ends[p]) {
    for (const int b : layout.ends[q]) {
      if ((layout.at[a] - layout.at[b]).norm() <= longest && joined(layout, a, b)) return true;
    }
  }
  return false;
}

/// True if two tubes that share no node run through each other between their ends.
bool cross(const Layout& layout, const std::vector<double>& sides, int p, int q) {
  if (is_end_of(layout, q, layout.ends[p][0]) || is_end_of(layout, q, layout.ends[p][1])) {
    return false;
  }
  const Segment a = segment_of(layout, p), b = segment_of(layout, q);
  const auto [s, t] = nearest_points(a, b);
  const double gap = (a.start + s * a.along - b.start - t * b.along).norm();
  if (gap > penetrating * (sides[p] + sides[q]) / 2) return false;
  if (!inside(s, a.along.norm(), sides[q] / 2) || !inside(t, b.along.norm(), sides[p] / 2)) {
    return false;
  }
  return !joined_by_stub(layout, p, q, short_stub * (sides[p] + sides[q]));
}

enum class Nearness { apart, touches, lies_on };

Nearness nearness(const Layout& layout, int node, int member, double side) {
  const Segment m = segment_of(layout, member);
  const Eigen::Vector3d from_start = layout.at[node] - m.start;
  const double s = std::clamp(from_start.dot(m.along) / m.along.squaredNorm(), 0.0, 1.0);
  if (!inside(s, m.along.norm(), side / 2)) return Nearness::apart;  // near an end: two nodes
  const double gap = (from_start - s * m.along).norm();
  if (gap <= on_axis * side) return Nearness::lies_on;
  if (gap > touching * side) return Nearness::apart;
  const auto [a, b] = layout.ends[member];
  return joined(layout, node, a) || joined(layout, node, b) ? Nearness::apart : Nearness::touches;
}

}  // namespace

Diagnostics lint_close_nodes(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  const std::vector<double> sides = sides_at_nodes(layout, tube_sides(frame));
  const double floor = shortest_member * layout.size;
  Boxes boxes;
  for (std::size_t i = 0; i < layout.at.size(); ++i) {
    boxes.push_back(
        grown(Eigen::AlignedBox3d(layout.at[i]), std::max(same_joint * sides[i], floor) / 2));
  }
  for_overlapping_boxes(boxes, [&](int i, int j) {
    const double near = std::max(same_joint * std::min(sides[i], sides[j]), floor);
    const double gap = (layout.at[i] - layout.at[j]).norm();
    if (gap >= near && gap > floor) return false;
    if (joined(layout, i, j)) return false;
    add_warning(diagnostics, frame.nodes[j].place,
                nodes_nearly_coincide(frame.nodes[i].name, frame.nodes[j].name, gap));
    return diagnostics.size() >= most_of_a_kind;
  });
  return diagnostics;
}

Diagnostics lint_nodes_on_members(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  const std::vector<double> sides = tube_sides(frame);
  TubeBoxes tubes = tube_boxes(frame, layout, sides);
  const int tube_count = static_cast<int>(tubes.boxes.size());
  for (const Eigen::Vector3d& at : layout.at) tubes.boxes.emplace_back(at);
  for_overlapping_boxes(tubes.boxes, [&](int tube, int point) {
    if (tube >= tube_count || point < tube_count) return false;
    const int member = tubes.member[tube], node = point - tube_count;
    if (is_end_of(layout, member, node)) return false;
    const Nearness how = nearness(layout, node, member, sides[member]);
    if (how == Nearness::apart) return false;
    const Member& m = frame.members[member];
    const Node& n = frame.nodes[node];
    add_warning(diagnostics, n.place,
                how == Nearness::lies_on ? node_lies_on_member(n.name, m.name, m.from, m.to)
                                         : node_touches_member(n.name, m.name, m.from, m.to));
    return diagnostics.size() >= most_of_a_kind;
  });
  return diagnostics;
}

Diagnostics lint_crossings(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  const std::vector<double> sides = tube_sides(frame);
  const TubeBoxes tubes = tube_boxes(frame, layout, sides);
  for_overlapping_boxes(tubes.boxes, [&](int i, int j) {
    const int p = tubes.member[i], q = tubes.member[j];
    if (!cross(layout, sides, p, q)) return false;
    add_warning(diagnostics, frame.members[q].place,
                members_cross(frame.members[p].name, frame.members[q].name));
    return diagnostics.size() >= most_of_a_kind;
  });
  return diagnostics;
}

}  // namespace tubewright
