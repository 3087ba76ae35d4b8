// Frames with something welded or bolted to a tube, for tests.
#pragma once

#include <string>

#include "cases/attachments/expand_attachments.h"
#include "tests/cases/small_frames.h"

namespace tubewright::testing {

/// A tab 4 x 40 with a hole for M8, 25 mm off the face.
inline Attachment tab(const std::string& name, const std::string& on, double at, Face face) {
  Attachment a;
  a.name = name;
  a.on = on;
  a.at = at;
  a.face = face;
  a.thickness = 0.004;
  a.length = 0.040;
  a.hole = 0.025;
  a.edge = 0.015;
  a.bolt = BoltEntry{0.008, "8.8", {}, {}};
  a.weld_throat = 0.003;
  a.place = {301, 3};
  return a;
}

/// A cantilever of 40 x 40 x 3, 1 m along x, held at A, free at B.
inline Frame cantilever_40() {
  Frame f = empty_frame();
  f.sections[0].height = f.sections[0].width = 0.040;
  f.sections[0].wall = 0.003;
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_member(f, "rail", "A", "B");
  SupportEntry held;
  held.node = "A";
  held.restrained = {true, true, true, true, true, true};
  f.supports.push_back(held);
  return f;
}

inline Frame expanded(Frame f) {
  const Diagnostics diagnostics = expand_attachments(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.empty());
  return f;
}

inline void push(Frame& f, const std::string& node, const Eigen::Vector3d& force) {
  Case c;
  c.name = "push";
  c.forces.push_back({node, force, {}});
  f.cases.push_back(c);
}

}  // namespace tubewright::testing
