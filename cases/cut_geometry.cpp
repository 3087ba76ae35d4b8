#include "cases/cut_geometry.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "solver/beam_element.h"

namespace tubewright {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double straight_on = 0.5 * degree;  ///< a path that turns by less is one piece
constexpr double in_line = 10 * degree;       ///< tubes that meet at less are spliced end to end
constexpr double square_to_plane =
    2 * degree;  ///< of a mitre: a side of the tube lies in its plane

/// A tube as it leaves a node.
struct Arm {
  int tube = 0;
  int end = 0;
  Eigen::Vector3d away;  ///< unit vector into the tube
};

/// Half of the section along y and z.
struct HalfSizes {
  double y = 0, z = 0;
  bool round = false;
};

class Cutter {
 public:
  Cutter(const Frame& frame, const NumberedFrame& n)
      : frame_(frame), n_(n), tubes_(cut_tubes(frame, n)) {
    for (const CutTube& t : tubes_) {
      const SectionEntry& s = find_section(frame, t.section);
      const bool round = s.shape == Shape::round_tube || s.shape == Shape::round_bar;
      half_.push_back({s.width / 2, s.height / 2, round});
      link_.push_back(frame.members[static_cast<size_t>(t.members.front())].kind ==
                      MemberKind::link);
    }
    ends_.resize(tubes_.size());
  }

  std::vector<CutPiece> pieces() {
    for (size_t node = 0; node < n_.model.nodes.size(); ++node) cut_at(static_cast<int>(node));
    std::vector<CutPiece> list;
    for (size_t t = 0; t < tubes_.size(); ++t) list.push_back(piece(t));
    return list;
  }

 private:
  const HalfSizes& half(int tube) const { return half_[static_cast<size_t>(tube)]; }
  const CutTube& tube(int t) const { return tubes_[static_cast<size_t>(t)]; }
  TubeEnd& end_of(const Arm& arm) {
    return ends_[static_cast<size_t>(arm.tube)][static_cast<size_t>(arm.end)];
  }
  double area(int t) const { return half(t).y * half(t).z; }

  /// Tubes that are whole at a node, and those that end there, each the bigger first.
  void collect(int node, std::vector<int>& through, std::vector<Arm>& arms) const {
    for (size_t t = 0; t < tubes_.size(); ++t) {
      const CutTube& c = tubes_[t];
      for (const int end : {0, 1}) {
        if (c.nodes[static_cast<size_t>(end)] != node) continue;
        const Eigen::Vector3d x = c.axes.row(0);
        arms.push_back({static_cast<int>(t), end, end == 0 ? x : Eigen::Vector3d(-x)});
      }
      if (runs_inside(c, node)) through.push_back(static_cast<int>(t));
    }
    std::stable_sort(through.begin(), through.end(),
                     [&](int a, int b) { return area(a) > area(b); });
    std::stable_sort(arms.begin(), arms.end(),
                     [&](const Arm& a, const Arm& b) { return area(a.tube) > area(b.tube); });
  }

  bool runs_inside(const CutTube& c, int node) const {
    if (c.nodes[0] == node || c.nodes[1] == node) return false;
    return std::any_of(c.members.begin(), c.members.end(), [&](int m) {
      const Member& member = frame_.members[static_cast<size_t>(m)];
      return n_.node.at(member.from) == node || n_.node.at(member.to) == node;
    });
  }

  void cut_at(int node) {
    std::vector<int> through;
    std::vector<Arm> arms;
    collect(node, through, arms);
    std::erase_if(arms, [&](const Arm& arm) {
      if (!link_[static_cast<size_t>(arm.tube)]) return false;
      end_of(arm) = {EndKind::eye, {{{CutPlane{}}, -1}}};
      return true;
    });
    std::vector<const Arm*> placed;
    if (const auto twins = mitred(through, arms)) {
      for (const auto& [a, b] : {std::pair{(*twins)[0], (*twins)[1]}, {(*twins)[1], (*twins)[0]}}) {
        end_of(*a) = {EndKind::mitre, {{{mitre_plane(*a, *b)}, b->tube}}};
        placed.push_back(a);
      }
    }
    for (const Arm& arm : arms) {
      if (std::find(placed.begin(), placed.end(), &arm) != placed.end()) continue;
      TubeEnd& e = end_of(arm);
      for (const int t : through) cut_by(arm, t, e);
      for (const Arm* earlier : placed) {
        // An earlier tube only stands on its own side of the node.
        if (earlier->away.dot(arm.away) > 1e-6 || through.empty()) cut_by(arm, earlier->tube, e);
      }
      if (e.cuts.empty()) e.cuts.push_back({{CutPlane{outermost(arm, arms), 0, 0}}, -1});
      keep_what_shows(arm, e);
      placed.push_back(&arm);
    }
  }

  /// The two runs of a path that turns, or two equal tubes alone at a corner.
  std::optional<std::array<const Arm*, 2>> mitred(const std::vector<int>& through,
                                                  const std::vector<Arm>& arms) const {
    for (size_t i = 0; i < arms.size(); ++i) {
      for (size_t j = i + 1; j < arms.size(); ++j) {
        const bool one_path = same_path(arms[i].tube, arms[j].tube);
        const bool alone = through.empty() && arms.size() == 2;
        if ((one_path || alone) && twins(arms[i], arms[j])) return {{&arms[i], &arms[j]}};
      }
    }
    return std::nullopt;
  }

  bool same_path(int a, int b) const {
    const auto path = [&](int t) -> const std::string& {
      return frame_.members[static_cast<size_t>(tube(t).members.front())].tube;
    };
    return !path(a).empty() && path(a) == path(b);
  }

  /// Equal outlines whose sides lie in the plane of the corner.
  bool twins(const Arm& a, const Arm& b) const {
    const double between = std::acos(std::clamp(a.away.dot(b.away), -1.0, 1.0));
    if (between < in_line || between > std::numbers::pi - straight_on) return false;
    const Eigen::Vector3d normal = a.away.cross(b.away).normalized();
    const auto outline = [&](const Arm& arm) -> std::optional<std::array<double, 2>> {
      const HalfSizes& h = half(arm.tube);
      if (h.round) return std::array{h.y, h.z};
      const double along_y = std::abs(normal.dot(tube(arm.tube).axes.row(1)));
      const double along_z = std::abs(normal.dot(tube(arm.tube).axes.row(2)));
      if (std::max(along_y, along_z) < std::cos(square_to_plane)) return std::nullopt;
      return along_y > along_z ? std::array{h.y, h.z} : std::array{h.z, h.y};
    };
    const auto first = outline(a), second = outline(b);
    return first && second && half(a.tube).round == half(b.tube).round &&
           std::abs((*first)[0] - (*second)[0]) < 1e-6 &&
           std::abs((*first)[1] - (*second)[1]) < 1e-6;
  }

  /// The plane n.x = c through the node, as an arm sees it; keeps n.x >= c. Requires: n.away > 0.
  CutPlane plane(const Arm& arm, const Eigen::Vector3d& n, double c) const {
    const Eigen::Matrix3d& axes = tube(arm.tube).axes;
    const double along = n.dot(arm.away);
    return {c / along, -n.dot(axes.row(1)) / along, -n.dot(axes.row(2)) / along};
  }

  CutPlane mitre_plane(const Arm& arm, const Arm& twin) const {
    return plane(arm, (arm.away - twin.away).normalized(), 0);
  }

  /// The corners of an arm's section, y and z.
  std::array<std::array<double, 2>, 4> corners(const Arm& arm) const {
    const HalfSizes& h = half(arm.tube);
    return {{{h.y, h.z}, {-h.y, h.z}, {-h.y, -h.z}, {h.y, -h.z}}};
  }

  /// Along the face of another tube that the arm leaves it by.
  void cut_by(const Arm& arm, int other, TubeEnd& e) {
    const CutTube& o = tube(other);
    const HalfSizes& h = half(other);
    const Eigen::Vector3d along = o.axes.row(0);
    const double sine = along.cross(arm.away).norm();
    if (sine < std::sin(in_line)) {
      e.cuts.push_back({{CutPlane{}}, other});  // end to end
      return;
    }
    if (h.round) {
      // The farthest the tube may reach: at the sides of the saddle, or on the axis if it is wider.
      const HalfSizes& own = half(arm.tube);
      const double side = std::min({h.y, own.y, own.z});
      e.cuts.push_back({{CutPlane{std::sqrt(h.y * h.y - side * side) / sine, 0, 0}}, other});
      e.kind = EndKind::saddle;
      return;
    }
    std::vector<CutPlane> faces;
    for (const auto& [axis, size] : {std::pair{1, h.y}, {2, h.z}}) {
      const Eigen::Vector3d normal = o.axes.row(axis);
      const double out = normal.dot(arm.away);
      constexpr double along_it = 1e-6;
      if (std::abs(out) > along_it) {
        faces.push_back(plane(arm, out > 0 ? normal : Eigen::Vector3d(-normal), size));
      }
    }
    std::sort(faces.begin(), faces.end(),
              [](const CutPlane& a, const CutPlane& b) { return a.at < b.at; });
    if (faces.size() == 2 && !astride(arm, faces)) faces.pop_back();
    if (faces.size() == 2) {
      e.kind = EndKind::edge;
    } else if (e.kind == EndKind::square) {
      e.kind = EndKind::face;
    }
    e.cuts.push_back({faces, other});
  }

  /// Calls visit(y, z) for places all over an arm's section.
  template <class Visit>
  void all_over(const Arm& arm, const Visit& visit) const {
    constexpr int steps = 8;
    const HalfSizes& h = half(arm.tube);
    for (int i = 0; i <= steps; ++i) {
      for (int j = 0; j <= steps; ++j) {
        visit(h.y * (2.0 * i / steps - 1), h.z * (2.0 * j / steps - 1));
      }
    }
  }

  /// Drops cuts that others have made already, but for a millimetre that a grinder takes, and puts
  /// the one that makes most of the end first.
  void keep_what_shows(const Arm& arm, TubeEnd& e) const {
    constexpr double shows = 1e-3;
    for (size_t i = 0; e.cuts.size() > 1 && i < e.cuts.size();) {
      TubeEnd others = e;
      others.cuts.erase(others.cuts.begin() + static_cast<std::ptrdiff_t>(i));
      bool needed = false;
      all_over(arm, [&](double y, double z) {
        needed = needed || e.begin(y, z) > others.begin(y, z) + shows;
      });
      if (needed) {
        ++i;
      } else {
        e.cuts = std::move(others.cuts);
      }
    }
    std::vector<int> places(e.cuts.size());
    all_over(arm, [&](double y, double z) {
      const double here = e.begin(y, z);
      for (size_t i = 0; i < e.cuts.size(); ++i) {
        TubeEnd one{e.kind, {e.cuts[i]}};
        places[i] += one.begin(y, z) >= here - 1e-9;
      }
    });
    const auto most = std::max_element(places.begin(), places.end()) - places.begin();
    std::rotate(e.cuts.begin(), e.cuts.begin() + most, e.cuts.begin() + most + 1);
    if (e.kind == EndKind::edge && std::none_of(e.cuts.begin(), e.cuts.end(), [](const EndCut& c) {
          return c.planes.size() > 1;
        })) {
      e.kind = EndKind::face;
    }
  }

  /// True if each of two faces is left first by some corner.
  bool astride(const Arm& arm, const std::vector<CutPlane>& faces) const {
    constexpr double clearly = 1e-3;  // m: less is filled by the weld
    bool first = false, second = false;
    for (const auto& [y, z] : corners(arm)) {
      const double difference = (faces[1].at + faces[1].mitre * y + faces[1].bevel * z) -
                                (faces[0].at + faces[0].mitre * y + faces[0].bevel * z);
      first = first || difference > clearly;
      second = second || difference < -clearly;
    }
    return first && second;
  }

  /// How far beyond the node a tube has to reach so that the others can stand on its face, <= 0.
  double outermost(const Arm& arm, const std::vector<Arm>& arms) {
    double least = 0;
    for (const Arm& other : arms) {
      if (other.tube == arm.tube) continue;
      TubeEnd theirs;
      cut_by(other, arm.tube, theirs);
      if (arm.away.cross(other.away).norm() < std::sin(in_line)) continue;
      const Eigen::Matrix3d& axes = tube(other.tube).axes;
      for (const auto& [y, z] : corners(other)) {
        const Eigen::Vector3d at = theirs.begin(y, z) * other.away +
                                   y * Eigen::Vector3d(axes.row(1)) +
                                   z * Eigen::Vector3d(axes.row(2));
        least = std::min(least, at.dot(arm.away));
      }
    }
    return least;
  }

  /// Where two planes cross on the rim of the section the tube may begin nearer than at a corner.
  std::vector<std::array<double, 2>> rim(const TubeEnd& e, const Arm& arm) const {
    std::vector<std::array<double, 2>> places;
    const auto c = corners(arm);
    std::vector<CutPlane> planes;
    for (const EndCut& cut : e.cuts) {
      planes.insert(planes.end(), cut.planes.begin(), cut.planes.end());
    }
    for (size_t k = 0; k < 4; ++k) {
      const auto &a = c[k], &b = c[(k + 1) % 4];
      places.push_back(a);
      const auto value = [](const CutPlane& p, const std::array<double, 2>& at) {
        return p.at + p.mitre * at[0] + p.bevel * at[1];
      };
      std::vector<double> crossings;
      for (size_t i = 0; i < planes.size(); ++i) {
        for (size_t j = i + 1; j < planes.size(); ++j) {
          const double at_a = value(planes[i], a) - value(planes[j], a);
          const double at_b = value(planes[i], b) - value(planes[j], b);
          if (at_a * at_b < 0) crossings.push_back(at_a / (at_a - at_b));
        }
      }
      std::sort(crossings.begin(), crossings.end());
      for (const double s : crossings) {
        places.push_back({a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])});
      }
    }
    return places;
  }

  CutPiece piece(size_t t) {
    CutPiece p{tubes_[t], ends_[t], 0, 0, 0};
    double near = p.tube.length, far = p.tube.length;
    for (const int end : {0, 1}) {
      const Eigen::Vector3d x = p.tube.axes.row(0);
      const Arm arm{static_cast<int>(t), end, end == 0 ? x : Eigen::Vector3d(-x)};
      const TubeEnd& e = p.ends[static_cast<size_t>(end)];
      double least = std::numeric_limits<double>::infinity(), greatest = -least, round = 0;
      const auto places = rim(e, arm);
      for (size_t k = 0; k < places.size(); ++k) {
        const auto &a = places[k], &b = places[(k + 1) % places.size()];
        const double here = e.begin(a[0], a[1]), next = e.begin(b[0], b[1]);
        least = std::min(least, here);
        greatest = std::max(greatest, here);
        round += std::sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                           (here - next) * (here - next));
      }
      near -= least;
      far -= greatest;
      if (e.kind != EndKind::eye) {
        const bool circle = half(static_cast<int>(t)).round;
        p.weld_length += circle ? round * std::numbers::pi / 4 : round;
      }
    }
    p.long_point = near;
    p.short_point = far;
    return p;
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<CutTube> tubes_;
  std::vector<HalfSizes> half_;
  std::vector<bool> link_;
  std::vector<std::array<TubeEnd, 2>> ends_;
};

}  // namespace

double TubeEnd::begin(double y, double z) const {
  double farthest = -std::numeric_limits<double>::infinity();
  for (const EndCut& cut : cuts) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const CutPlane& p : cut.planes)
      nearest = std::min(nearest, p.at + p.mitre * y + p.bevel * z);
    farthest = std::max(farthest, nearest);
  }
  return cuts.empty() ? 0 : farthest;
}

std::vector<CutTube> cut_tubes(const Frame& frame, const NumberedFrame& n) {
  std::vector<CutTube> tubes;
  const auto along = [&](const Member& m) -> Eigen::Vector3d {
    const auto& at = n.model.nodes;
    return (at[static_cast<size_t>(n.node.at(m.to))] - at[static_cast<size_t>(n.node.at(m.from))])
        .normalized();
  };
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.kind != MemberKind::beam && m.kind != MemberKind::link) continue;
    const bool goes_on = i > 0 && !m.tube.empty() && frame.members[i - 1].tube == m.tube &&
                         along(frame.members[i - 1]).dot(along(m)) > std::cos(straight_on);
    if (goes_on) {
      CutTube& t = tubes.back();
      t.members.push_back(static_cast<int>(i));
      t.nodes[1] = n.node.at(m.to);
      t.length += member_length(n, m);
      continue;
    }
    CutTube t;
    t.name = m.tube.empty() ? m.name : m.tube;
    t.members = {static_cast<int>(i)};
    t.section = m.section;
    t.nodes = {n.node.at(m.from), n.node.at(m.to)};
    t.axes = member_axes(n.model.nodes[static_cast<size_t>(t.nodes[0])],
                         n.model.nodes[static_cast<size_t>(t.nodes[1])], m.roll);
    t.length = member_length(n, m);
    tubes.push_back(std::move(t));
  }
  // Runs of a path that turns are told apart by a number.
  for (size_t i = 0; i < tubes.size();) {
    size_t j = i + 1;
    while (j < tubes.size() && tubes[j].name == tubes[i].name) ++j;
    for (size_t k = i; j - i > 1 && k < j; ++k) tubes[k].name += "." + std::to_string(k - i + 1);
    i = j;
  }
  return tubes;
}

std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered) {
  return Cutter(frame, numbered).pieces();
}

}  // namespace tubewright
