#include "cases/attachments/attachment_arm.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/attachments/expand_attachments.h"
#include "cases/attachments/face_stiffness.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "solver/elements/beam_element.h"
#include "solver/model/section_shapes.h"

namespace tubewright {
namespace {

Section two_of(Section s) {
  for (double* property :
       {&s.A, &s.Iy, &s.Iz, &s.It, &s.Wy, &s.Wz, &s.Wt, &s.Wply, &s.Wplz, &s.Ay, &s.Az}) {
    *property *= 2;
  }
  return s;
}

Section bar_of(const Attachment& a, double nu) {
  const double bolt = a.bolt ? a.bolt->diameter : a.length;
  switch (a.kind) {
    case AttachmentKind::tab:
    case AttachmentKind::through_plate:
      return flat_bar(a.length, a.thickness, nu);
    case AttachmentKind::cross_tab:
      return flat_bar(a.thickness, a.length, nu);
    case AttachmentKind::pair:
    case AttachmentKind::saddle:
      return two_of(flat_bar(a.length, a.thickness, nu));
    case AttachmentKind::nut:
    case AttachmentKind::sleeve:
    case AttachmentKind::bolt:
      break;
  }
  return round_bar(bolt, nu);
}

/// Turn about the line from foot to hole that lays local z along the tube.
double roll_of(const Attachment& a, const Eigen::Vector3d& foot, const Eigen::Vector3d& hole) {
  const Eigen::Matrix3d plain = member_axes(foot, hole, 0);
  const Eigen::Vector3d along = plain * a.lengthwise;  // its components across: y, z
  return std::atan2(-along.y(), along.z());
}

JointFlexibility as_flexibility(double push, double about_across, double about_along) {
  JointFlexibility f;
  f.axial = 1 / push;
  f.bending = {1 / about_across, 1 / about_along};
  return f;
}

/// Bending of a bar through the tube, supported by both walls, under a moment at one of them.
double bar_inside(double E, double I, double depth) { return 3 * E * I / depth; }

JointFlexibility face_flexibility(const Attachment& a, const SectionEntry& tube,
                                  const TubeWall& face, const Section& bar, double bar_E) {
  const double depth = face_depth(tube, a);
  const double b = clear_width(face);
  const double size = a.length / b;
  switch (a.kind) {
    case AttachmentKind::tab:
    case AttachmentKind::through_plate: {
      const double faces = a.kind == AttachmentKind::tab ? 1 : 2;
      return as_flexibility(faces * push_stiffness(face, tab_push_coefficient(size)),
                            faces * turn_stiffness(face, tab_turn_coefficient(size)),
                            faces * turn_stiffness(face, tab_twist_coefficient(size)));
    }
    case AttachmentKind::pair: {
      const double push = push_stiffness(face, tab_push_coefficient(size));
      return as_flexibility(push, turn_stiffness(face, tab_turn_coefficient(size)),
                            push * std::pow(plates_apart(tube, a), 2) / 4);
    }
    case AttachmentKind::cross_tab: {
      const double push = push_stiffness(face, cross_push_coefficient(size));
      return as_flexibility(push, turn_stiffness(face, square_turn_coefficient(0)),
                            push * std::pow(a.length / 2, 2) / 3);
    }
    case AttachmentKind::saddle:
      return {};  // it stands on the walls beside, which do not give in their planes
    case AttachmentKind::nut: {
      const double turn = turn_stiffness(face, square_turn_coefficient(size));
      return as_flexibility(push_stiffness(face, square_push_coefficient(size)), turn, turn);
    }
    case AttachmentKind::sleeve: {
      const double turn = bar_inside(bar_E, round_bar(a.length, 0.3).Iy, depth);
      return as_flexibility(2 * push_stiffness(face, square_push_coefficient(size)), turn, turn);
    }
    case AttachmentKind::bolt:
      break;
  }
  const double turn = bar_inside(bar_E, bar.Iy, depth);
  const double head = a.bolt && a.bolt->washer ? *a.bolt->washer / b : 2 * bar.profile.width / b;
  return as_flexibility(push_stiffness(face, square_push_coefficient(head)), turn, turn);
}

}  // namespace

AttachmentArm attachment_arm(const Frame& frame, const Attachment& a, const Eigen::Vector3d& foot,
                             const Eigen::Vector3d& hole) {
  AttachmentArm arm;
  const SectionEntry& tube = find_section(frame, a.section);
  const Material& wall = find_material(frame, tube.material)->properties;
  const Material& own = find_material(frame, a.material)->properties;
  const double depth = face_depth(tube, a), width = face_width(tube, a);
  arm.block = flat_bar(std::max(depth, width), std::max(depth, width), poisson_ratio(own));
  arm.plate = bar_of(a, poisson_ratio(own));
  arm.plate_roll = roll_of(a, foot, hole);
  const TubeWall face{width, tube.wall, wall.E, poisson_ratio(wall)};
  arm.face = face_flexibility(a, tube, face, arm.plate, own.E);
  return arm;
}

}  // namespace tubewright
