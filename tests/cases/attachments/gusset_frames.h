// A corner of two tubes with a gusset in it.
#pragma once

#include "tests/cases/attachments/attachment_frames.h"
#include "tests/cases/attachments/gusset_mesh.h"

namespace tubewright::testing {

/// `arm` from M along x to A, `post` from M at the corner's angle in the plane of x and z to B,
/// held there; the gusset `g` at M. Sharp corners, so that the section is the mesh's.
inline Frame gusset_frame(const GussetCorner& c) {
  constexpr double mm = 1e-3;
  Frame f = empty_frame();
  f.joint_flexibility = rigid_joints;
  f.sections[0].height = f.sections[0].width = c.side * mm;
  f.sections[0].wall = c.wall * mm;
  f.sections[0].corners = Corners::sharp;
  add_node(f, "M", 0, 0, 0);
  add_node(f, "A", c.reach * mm, 0, 0);
  add_node(f, "B", c.reach * mm * std::cos(c.angle), 0, c.reach * mm * std::sin(c.angle));
  add_member(f, "arm", "M", "A");
  add_member(f, "post", "M", "B");
  SupportEntry held;
  held.node = "B";
  held.restrained = {true, true, true, true, true, true};
  f.supports.push_back(held);
  Gusset g;
  g.name = "g";
  g.node = "M";
  g.legs[0].tube = "arm";
  g.legs[1].tube = "post";
  g.legs[0].length = c.first_leg * mm;
  g.legs[1].length = c.second_leg * mm;
  g.thickness = c.thickness * mm;
  g.place = {401, 3};
  f.gussets.push_back(g);
  return f;
}

}  // namespace tubewright::testing
