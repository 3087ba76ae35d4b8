#include "viz/files/attachment_shape.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/attachment_checks/bolts.h"
#include "cases/attachments/expand_attachments.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/frame/find_parts.h"

namespace tubewright {

namespace {

using Outline = std::vector<Eigen::Vector2d>;

constexpr int round_sides = 24;
constexpr double full_turn = 2 * std::numbers::pi;

/// Of a bolt's diameter.
constexpr double head_height = 0.65, head_radius = 0.8, nut_height = 0.8;

void add_face(DrawnBody& body, const std::vector<int>& corners) { body.faces.push_back(corners); }

int add_point(DrawnBody& body, const Eigen::Vector3d& point) {
  body.points.push_back(point);
  return static_cast<int>(body.points.size()) - 1;
}

/// A round bar between two points, closed at its ends.
void add_cylinder(DrawnBody& body, const Eigen::Vector3d& from, const Eigen::Vector3d& to,
                  double radius) {
  const Eigen::Vector3d axis = (to - from).normalized(), side = axis.unitOrthogonal();
  std::vector<int> near, far;
  for (int k = 0; k < round_sides; ++k) {
    const double angle = full_turn * k / round_sides;
    const Eigen::Vector3d out =
        radius * (std::cos(angle) * side + std::sin(angle) * axis.cross(side));
    near.push_back(add_point(body, from + out));
    far.push_back(add_point(body, to + out));
  }
  for (std::size_t k = 0; k < near.size(); ++k) {
    const std::size_t next = (k + 1) % near.size();
    add_face(body, {near[k], near[next], far[next], far[k]});
  }
  std::reverse(near.begin(), near.end());
  add_face(body, near);
  add_face(body, far);
}

double cross_of(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c) {
  return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
}

/// Convex hull, anticlockwise (Andrew's monotone chain).
Outline hull_of(Outline points) {
  std::sort(points.begin(), points.end(), [](const auto& a, const auto& b) {
    return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
  });
  Outline hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const Eigen::Vector2d& p : points) {
      while (hull.size() >= start + 2 && cross_of(hull[hull.size() - 2], hull.back(), p) <= 0)
        hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

/// The plane of a plate: `u` along its foot, `v` from foot to hole, `n` across it.
struct PlatePlane {
  Eigen::Vector3d at, u, v, n;
  Eigen::Vector3d place(const Eigen::Vector2d& p, double off) const {
    return at + p.x() * u + p.y() * v + off * n;
  }
};

/// A plate of that outline, from `low` to `high` across its plane, with a hole round `centre`
/// unless `hole` is 0.
void add_plate(DrawnBody& body, const PlatePlane& plane, const Outline& outline, double low,
               double high, const Eigen::Vector2d& centre, double hole) {
  const std::size_t count = outline.size();
  // Rings of `count` points: outline below and above, hole below and above.
  const int first = static_cast<int>(body.points.size());
  const auto ring = [&](int which, std::size_t k) {
    return first + which * static_cast<int>(count) + static_cast<int>(k % count);
  };
  for (const double off : {low, high})
    for (const Eigen::Vector2d& p : outline) add_point(body, plane.place(p, off));
  if (hole > 0) {
    for (const double off : {low, high})
      for (const Eigen::Vector2d& p : outline)
        add_point(body, plane.place(centre + hole * (p - centre).normalized(), off));
  }
  std::vector<int> below, above;
  for (std::size_t k = 0; k < count; ++k) {
    add_face(body, {ring(0, k), ring(0, k + 1), ring(1, k + 1), ring(1, k)});
    below.insert(below.begin(), ring(0, k));
    above.push_back(ring(1, k));
    if (!(hole > 0)) continue;
    add_face(body, {ring(2, k), ring(3, k), ring(3, k + 1), ring(2, k + 1)});
    add_face(body, {ring(0, k), ring(2, k), ring(2, k + 1), ring(0, k + 1)});
    add_face(body, {ring(1, k), ring(1, k + 1), ring(3, k + 1), ring(3, k)});
  }
  if (hole > 0) return;
  add_face(body, below);
  add_face(body, above);
}

class AttachmentBody {
 public:
  AttachmentBody(const Frame& frame, const Attachment& a, const Eigen::Vector3d& foot,
                 const Eigen::Vector3d& hole)
      : a_(a), foot_(foot), hole_(hole), tube_(find_section(frame, a.section)) {
    if (a.bolt) bolt_ = a.bolt->diameter;
  }

  DrawnBody make() {
    switch (a_.kind) {
      case AttachmentKind::tab:
      case AttachmentKind::through_plate:
        plates(a_.lengthwise);
        break;
      case AttachmentKind::cross_tab:
        plates(a_.sideways);
        break;
      case AttachmentKind::pair:
      case AttachmentKind::saddle:
        plates(a_.lengthwise);
        break;
      case AttachmentKind::nut:
      case AttachmentKind::sleeve:
      case AttachmentKind::bolt:
        round_body();
        break;
    }
    return std::move(body_);
  }

 private:
  double depth() const { return face_depth(tube_, a_); }

  /// How far behind its foot a plate begins.
  double behind() const {
    if (a_.kind == AttachmentKind::saddle) return depth() + a_.thickness;
    return a_.kind == AttachmentKind::through_plate ? depth() + a_.thickness / 2 : 0;
  }

  void plates(const Eigen::Vector3d& along_foot) {
    PlatePlane plane;
    plane.at = foot_;
    plane.u = along_foot;
    const Eigen::Vector3d arm = hole_ - foot_;
    const Eigen::Vector2d centre(arm.dot(plane.u), (arm - arm.dot(plane.u) * plane.u).norm());
    plane.v = (arm - centre.x() * plane.u).normalized();
    plane.n = plane.u.cross(plane.v);
    const double room = bolt_ > 0 ? least_edge * hole_diameter() : a_.length / 3;
    const double edge = a_.edge.value_or(room);
    Outline points;
    for (const double side : {-a_.length / 2, a_.length / 2}) {
      points.emplace_back(side, -behind());
      if (behind() > 0) points.emplace_back(side, 0);
    }
    for (int k = 0; k < round_sides; ++k) {
      const double angle = full_turn * k / round_sides;
      points.push_back(centre + edge * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
    }
    const Outline outline = hull_of(points);
    const double apart = plates_apart(tube_, a_), half = a_.thickness / 2;
    for (const double off : apart > 0 ? std::vector{-apart / 2, apart / 2} : std::vector{0.0})
      add_plate(body_, plane, outline, off - half, off + half, centre, hole_diameter() / 2);
    if (a_.kind == AttachmentKind::saddle) {  // the strap behind its tube
      const double inner = apart / 2 - half, back = -behind(), h = a_.length / 2;
      const Outline strap = {
          {-h, back}, {h, back}, {h, back + a_.thickness}, {-h, back + a_.thickness}};
      add_plate(body_, plane, strap, -inner, inner, centre, 0);
    }
    if (bolt_ > 0)
      add_bolt(hole_ - (apart / 2 + half) * plane.n, hole_ + (apart / 2 + half) * plane.n);
  }

  /// Its shank between two outsides, a head and a nut beyond.
  void add_bolt(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d way = (to - from).normalized();
    add_cylinder(body_, from, to, bolt_ / 2);
    add_cylinder(body_, from - head_height * bolt_ * way, from, head_radius * bolt_);
    add_cylinder(body_, to, to + head_height * bolt_ * way, head_radius * bolt_);
  }

  void round_body() {
    const Eigen::Vector3d out = (hole_ - foot_).normalized();
    const Eigen::Vector3d back = foot_ - depth() * a_.out;
    const double usual = 8e-3;  // m: a boss without a bolt
    const double d = bolt_ > 0 ? bolt_ : usual;
    if (a_.kind == AttachmentKind::nut) {
      const double high = std::min(nut_height * d, (hole_ - foot_).norm());
      add_cylinder(body_, foot_ - tube_.wall * a_.out, foot_ + high * out, a_.length / 2);
    } else if (a_.kind == AttachmentKind::sleeve) {
      constexpr double proud = 1e-3;  // m, for its weld
      add_cylinder(body_, back - proud * a_.out, foot_ + proud * a_.out, a_.length / 2);
    } else {
      add_washer(foot_, a_.out);
      add_washer(back, -a_.out);
      add_cylinder(body_, back - head_height * d * a_.out, back, head_radius * d);
      add_cylinder(body_, back, foot_, d / 2);
    }
    if (bolt_ > 0) add_cylinder(body_, foot_, hole_, d / 2);
  }

  void add_washer(const Eigen::Vector3d& on, const Eigen::Vector3d& way) {
    const auto known = bolt_of(a_.bolt->diameter, a_.bolt->grade);
    const double usual = known ? known->washer : 2 * bolt_;
    constexpr double thick = 1.6e-3;  // m: ISO 7089, M8 (MEMORY)
    add_cylinder(body_, on, on + thick * way, a_.bolt->washer.value_or(usual) / 2);
  }

  /// 0: no bolt, no hole.
  double hole_diameter() const {
    if (!a_.bolt) return 0;
    const auto known = bolt_of(a_.bolt->diameter, a_.bolt->grade);
    return known ? known->d0 : bolt_;
  }

  static constexpr double least_edge = 1.2;  ///< EN 1993-1-8 Table 3.3: the least allowed

  const Attachment& a_;
  const Eigen::Vector3d foot_, hole_;
  const SectionEntry& tube_;
  double bolt_ = 0;
  DrawnBody body_;
};

}  // namespace

DrawnBody attachment_body(const Frame& frame, const Attachment& attachment,
                          const Eigen::Vector3d& foot, const Eigen::Vector3d& hole) {
  return AttachmentBody(frame, attachment, foot, hole).make();
}

DrawnBody gusset_body(const Frame& frame, const Gusset& g) {
  const GussetPlate plate = gusset_plate(frame, g);
  const Eigen::Vector3d normal = g.legs[0].along.cross(g.legs[1].along).normalized();
  DrawnBody body;
  for (const double off : plate_offsets(frame, g)) {
    const int first = static_cast<int>(body.points.size());
    for (const double side : {off - g.thickness / 2, off + g.thickness / 2}) {
      const Eigen::Vector3d corner = plate.corner + side * normal;
      add_point(body, corner);
      for (const GussetLeg& leg : g.legs) add_point(body, corner + leg.length * leg.along);
    }
    add_face(body, {first + 2, first + 1, first});
    add_face(body, {first + 3, first + 4, first + 5});
    for (int k = 0; k < 3; ++k) {
      const int next = (k + 1) % 3;
      add_face(body, {first + k, first + next, first + 3 + next, first + 3 + k});
    }
  }
  return body;
}

}  // namespace tubewright
