#include "cases/pieces/cut_by_tube.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "cases/pieces/shown_cuts.h"

namespace tubewright {

namespace {

constexpr double steepest = 1e6;  // slope of a plane that runs along the tube

/// The plane n.x = c through the node, as an arm sees it; keeps n.x >= c. Requires: n.away > 0.
CutPlane plane_from(const CutTube& tube, const TubeArm& arm, const Eigen::Vector3d& n, double c) {
  const double along = n.dot(arm.away);
  return {c / along, -n.dot(tube.axes.row(1)) / along, -n.dot(tube.axes.row(2)) / along};
}

/// A plane that is far back where p.at + p.mitre y + p.bevel z < 0 and far out elsewhere.
CutPlane dividing(const CutPlane& p) {
  const double scale = steepest / std::max(std::hypot(p.mitre, p.bevel), 1e-9);
  return {p.at * scale + 1, p.mitre * scale, p.bevel * scale};
}

/// Side by side, as far as a drawing by lines says.
EndCut beside(int other) { return {{CutPlane{}}, other, EndKind::square}; }

/// Half of what a section measures along a direction across its tube.
double reach_across(const CutTube& tube, const HalfSizes& h, const Eigen::Vector3d& direction) {
  const double y = direction.dot(tube.axes.row(1)), z = direction.dot(tube.axes.row(2));
  return h.round ? std::hypot(h.y * y, h.z * z) : std::abs(h.y * y) + std::abs(h.z * z);
}

/// How near to the node a fibre of an arm begins on a round tube of radius R, the least over the
/// arm's outline: sqrt(R^2 - v^2)/sin - u cot, u toward the tube, v square to both (derived). What
/// is wider than the tube is cut as far as its sides.
double least_on_round(const UncutTubes& all, const TubeArm& arm, double radius,
                      const Eigen::Vector3d& off, const Eigen::Vector3d& across, double sine) {
  const Eigen::Matrix3d& axes = all.tube(arm.tube).axes;
  const ConvexPolygon outline = section_polygon(all.half_of(arm.tube));
  constexpr int steps = 8;
  double least = std::numeric_limits<double>::infinity();
  for (size_t k = 0; k < outline.size(); ++k) {
    const Eigen::Vector2d side = outline[(k + 1) % outline.size()] - outline[k];
    for (int i = 0; i < steps; ++i) {
      const Eigen::Vector2d at = outline[k] + side * i / steps;
      const Eigen::Vector3d p = at.x() * axes.row(1) + at.y() * axes.row(2);
      const double v = std::min(radius, std::abs(p.dot(across)));
      const double deep = std::sqrt(radius * radius - v * v);
      least = std::min(least, (deep - p.dot(off)) / sine);
    }
  }
  return least;
}

/// A cut at the slope of a round tube, as far out as the points of the saddle reach: what is then
/// filed to fit.
EndCut cope(const UncutTubes& all, const TubeArm& arm, int other, double sine) {
  const Eigen::Vector3d along = all.tube(other).axes.row(0);
  const Eigen::Vector3d off = (arm.away - along.dot(arm.away) * along).normalized();
  const Eigen::Vector3d across = along.cross(off);
  const CutTube& own = all.tube(arm.tube);
  const double radius = all.half_of(other).y;
  const double least = least_on_round(all, arm, radius, off, across, sine);
  CutPlane plane = plane_from(own, arm, off, 0);
  // The plane begins that near at the corner of the arm that lies nearest to the tube.
  plane.at = least + reach_across(own, all.half_of(arm.tube), off) / sine;
  return {{plane}, other, EndKind::cope};
}

/// A face of a tube: which way it looks and how far off the axis it stands.
struct Face {
  Eigen::Vector3d outward;
  double size = 0;
};

/// The faces of a tube that an arm looks out of, first the one it meets most squarely. One that
/// runs along the arm within 10 degrees is none to cut to: what reaches past its edge is cut along
/// the other face with the rest, as where both are flush. No saw cuts the thin wedge over that
/// face.
std::vector<Face> faces_for(const UncutTubes& all, const TubeArm& arm, int other) {
  const CutTube& o = all.tube(other);
  const HalfSizes& h = all.half_of(other);
  std::vector<Face> faces = {{o.axes.row(1), h.y}, {o.axes.row(2), h.z}};
  for (Face& f : faces) {
    if (f.outward.dot(arm.away) < 0) f.outward = -f.outward;
  }
  const auto out = [&](const Face& f) { return f.outward.dot(arm.away); };
  if (out(faces[1]) > out(faces[0])) std::swap(faces[0], faces[1]);
  if (out(faces[1]) <= std::min(std::sin(spliced_within), out(faces[0]) / 2)) faces.pop_back();
  return faces;
}

EndCut by_faces(const UncutTubes& all, const TubeArm& arm, int other) {
  EndCut cut{{}, other, EndKind::face};
  for (const Face& f : faces_for(all, arm, other)) {
    cut.planes.push_back(plane_from(all.tube(arm.tube), arm, f.outward, f.size));
  }
  return cut;
}

CutPlane operator-(const CutPlane& a, const CutPlane& b) {
  return {a.at - b.at, a.mitre - b.mitre, a.bevel - b.bevel};
}

/// Past any of some planes of an earlier one's end an arm is free. Requires: the faces are in
/// `cut`, the first of them met most squarely.
void add_ways_past(const UncutTubes& all, const TubeArm& arm, const TubeArm& earlier,
                   const std::vector<CutPlane>& end, EndCut& cut) {
  const Eigen::Matrix3d& own = all.tube(arm.tube).axes;
  const Eigen::Matrix3d& theirs = all.tube(earlier.tube).axes;
  const CutPlane face = cut.planes.front();
  std::vector<CutPlane> dividers, ways_in;
  for (const CutPlane& p : end) {
    // Past the end is n.x >= -at, from x - mitre y - bevel z <= at.
    const Eigen::Vector3d n =
        -earlier.away + p.mitre * theirs.row(1).transpose() + p.bevel * theirs.row(2).transpose();
    const double out = n.dot(arm.away), y = n.dot(own.row(1)), z = n.dot(own.row(2));
    const double along_it = 1e-4 * n.norm();
    if (out > std::sin(spliced_within) * n.norm()) {
      cut.planes.push_back(plane_from(all.tube(arm.tube), arm, n, -p.at));
    } else if (out > along_it) {
      // No saw follows a plane so nearly along the arm: what is past it where the arm would stand
      // on the face is free, the rest is not.
      dividers.push_back(dividing(plane_from(all.tube(arm.tube), arm, n, -p.at) - face));
    } else if (out > -along_it) {
      // The plane runs along the arm: on one side of it there is nothing to leave.
      dividers.push_back(dividing({-p.at, -y, -z}));
    } else {
      ways_in.push_back({-p.at / out, -y / out, -z / out});
    }
  }
  // Where the arm comes from past the end it is free if it is out again before it gets in.
  for (const CutPlane& in : ways_in) {
    for (const CutPlane& f : cut.planes) dividers.push_back(dividing(f - in));
  }
  cut.planes.insert(cut.planes.end(), dividers.begin(), dividers.end());
}

/// One plane out of each cut of an end, in all ways there are.
std::vector<std::vector<CutPlane>> choices_of_planes(const TubeEnd& end) {
  constexpr size_t too_many = 64;  // then the room inside the notch is left free
  std::vector<std::vector<CutPlane>> choices = {{}};
  for (const EndCut& c : end.cuts) {
    std::vector<std::vector<CutPlane>> more;
    for (const CutPlane& p : c.planes) {
      for (std::vector<CutPlane> choice : choices) {
        choice.push_back(p);
        more.push_back(std::move(choice));
      }
    }
    if (more.size() <= too_many) choices = std::move(more);
  }
  return choices;
}

/// Those that take something away, without what does not show.
std::vector<EndCut> tidied(const EndSection& section, std::vector<EndCut> cuts) {
  std::erase_if(cuts, [&](const EndCut& c) { return misses(section, c); });
  for (EndCut& c : cuts) {
    drop_hidden_planes(section, c);
    const auto faces = std::count_if(c.planes.begin(), c.planes.end(),
                                     [](const CutPlane& p) { return !only_divides(p); });
    if (c.kind == EndKind::face && faces > 1) c.kind = EndKind::edge;
  }
  return cuts;
}

double sine_between(const UncutTubes& all, const TubeArm& arm, int other) {
  return Eigen::Vector3d(all.tube(other).axes.row(0)).cross(arm.away).norm();
}

/// As if the other had no end.
EndCut untidied(const UncutTubes& all, const TubeArm& arm, int other) {
  return all.half_of(other).round ? cope(all, arm, other, sine_between(all, arm, other))
                                  : by_faces(all, arm, other);
}

/// An arm astride an edge lies on two faces. What reaches over the one it meets less squarely is
/// cut at the far side of the tube: beyond it that plane goes on, but there is nothing to lie on.
std::vector<EndCut> cut_at_far_side(const UncutTubes& all, const TubeArm& arm, int other,
                                    std::vector<EndCut> cuts) {
  if (all.half_of(other).round) return cuts;
  const std::vector<Face> faces = faces_for(all, arm, other);
  const bool astride =
      faces.size() == 2 && std::any_of(cuts.begin(), cuts.end(), [](const auto& c) {
        return c.planes.size() == 2 && c.kind == EndKind::edge;
      });
  if (!astride) return cuts;
  const Face& f = faces.front();
  const CutPlane far = plane_from(all.tube(arm.tube), arm, f.outward, -f.size);
  cuts.push_back({{far}, other, EndKind::face});
  return cuts;
}

}  // namespace

std::vector<EndCut> cuts_by_whole(const UncutTubes& all, const TubeArm& arm, int whole) {
  if (sine_between(all, arm, whole) < std::sin(spliced_within)) return {beside(whole)};
  return cut_at_far_side(all, arm, whole,
                         tidied(end_section(all, arm), {untidied(all, arm, whole)}));
}

std::vector<EndCut> cuts_by_placed(const UncutTubes& all, const TubeArm& arm, const TubeArm& placed,
                                   const TubeEnd& end) {
  const bool along = sine_between(all, arm, placed.tube) < std::sin(spliced_within);
  if (along && placed.away.dot(arm.away) > 0) return {beside(placed.tube)};
  // Past a notched end is past both of its planes:
  // min(face, max(a, b)) = max(min(face, a), min(face, b)).
  std::vector<EndCut> cuts;
  for (const std::vector<CutPlane>& choice : choices_of_planes(end)) {
    cuts.push_back(untidied(all, arm, placed.tube));
    add_ways_past(all, arm, placed, choice, cuts.back());
  }
  return cut_at_far_side(all, arm, placed.tube, tidied(end_section(all, arm), std::move(cuts)));
}

EndCut cut_between(const UncutTubes& all, const TubeArm& arm, const TubeArm& other) {
  const double between = angle_between(arm, other);
  if (between < spliced_within) return beside(other.tube);
  const bool straight = between > std::numbers::pi - turns_at;
  const Eigen::Vector3d normal = (arm.away - other.away).normalized();
  return {{plane_from(all.tube(arm.tube), arm, normal, 0)},
          other.tube,
          straight ? EndKind::square : EndKind::mitre};
}

double outermost(const UncutTubes& all, const TubeArm& arm, const std::vector<TubeArm>& arms) {
  double least = 0;
  for (const TubeArm& other : arms) {
    if (other.tube == arm.tube) continue;
    if (arm.away.cross(other.away).norm() < std::sin(spliced_within)) continue;
    TubeEnd theirs;
    theirs.cuts = cuts_by_whole(all, other, arm.tube);
    const Eigen::Matrix3d& axes = all.tube(other.tube).axes;
    const HalfSizes& h = all.half_of(other.tube);
    for (const auto& [y, z] : {std::pair{h.y, h.z}, {-h.y, h.z}, {-h.y, -h.z}, {h.y, -h.z}}) {
      const Eigen::Vector3d at = theirs.begin(y, z) * other.away +
                                 y * Eigen::Vector3d(axes.row(1)) +
                                 z * Eigen::Vector3d(axes.row(2));
      least = std::min(least, at.dot(arm.away));
    }
  }
  return least;
}

}  // namespace tubewright
