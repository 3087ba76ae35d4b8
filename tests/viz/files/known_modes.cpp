#include "tests/viz/files/known_modes.h"

#include <stdexcept>

#include "cases/attachments/expand_attachments.h"
#include "solver/stability/refine.h"
#include "tests/cases/clad_frames.h"
#include "tests/viz/files/known_frames.h"
#include "viz/files/mode_files.h"

namespace tubewright {

namespace {

Frame without_members() {
  Frame frame = cantilever_frame();
  frame.sections.front().shape = Shape::rectangular_tube;
  frame.sections.front().height = 0.040;
  frame.sections.front().width = 0.020;
  frame.cases.clear();
  frame.nodes.clear();
  frame.supports.clear();
  frame.members.clear();
  return frame;
}

void add_node(Frame& frame, const std::string& name, double x) {
  Node node;
  node.name = name;
  node.at = {x, 0, 0};
  frame.nodes.push_back(node);
}

Member& add_beam(Frame& frame, const std::string& name, const std::string& from,
                 const std::string& to) {
  Member member;
  member.name = name;
  member.from = from;
  member.to = to;
  member.section = frame.sections.front().name;
  frame.members.push_back(member);
  return frame.members.back();
}

void hold(Frame& frame, const std::string& node, const std::array<bool, 6>& held) {
  SupportEntry support;
  support.node = node;
  support.restrained = held;
  frame.supports.push_back(support);
}

void write(const Frame& frame, const FrameModes& modes, const std::filesystem::path& directory) {
  if (const auto failure = write_mode_files(frame, modes, directory.string()))
    throw std::runtime_error("cannot write " + failure->path.string() + ": " + failure->reason);
}

/// Of the frame with each tube cut into `pieces`.
FrameModes no_modes(const Frame& frame, int pieces) {
  NumberedFrame numbered = build_model(frame);
  FrameModes none;
  none.restrained = true;
  none.fine = refine(numbered.model, pieces);
  none.slots = std::move(numbered.slots);
  return none;
}

}  // namespace

Frame pinned_beam(int pieces) {
  constexpr double length = 2;
  Frame frame = without_members();
  const auto name = [](int i) { return "n" + std::to_string(i); };
  for (int i = 0; i <= pieces; ++i) add_node(frame, name(i), length * i / pieces);
  for (int i = 0; i < pieces; ++i)
    add_beam(frame, "piece" + std::to_string(i), name(i), name(i + 1));
  hold(frame, name(0), {true, true, true, true, false, false});
  hold(frame, name(pieces), {false, true, true, false, false, false});
  return frame;
}

Frame hinged_cantilevers() {
  Frame frame = without_members();
  add_node(frame, "A", 0);
  add_node(frame, "M", 0.6);
  add_node(frame, "B", 1.2);
  add_beam(frame, "clamp_l", "A", "M");
  add_beam(frame, "clamp_r", "M", "B").release_from = {rigid, rigid, rigid, rigid, 0, 0};
  for (const char* node : {"A", "B"}) hold(frame, node, {true, true, true, true, true, true});
  return frame;
}

Frame fitted_corner() {
  Frame frame = without_members();
  frame.joint_flexibility = rigid_joints;
  add_node(frame, "M", 0);
  add_node(frame, "A", 0.5);
  add_node(frame, "B", 0);
  frame.nodes.back().at.z() = 0.5;
  add_beam(frame, "arm", "M", "A");
  add_beam(frame, "post", "M", "B");
  hold(frame, "B", {true, true, true, true, true, true});
  Attachment ear;
  ear.name = "ear";
  ear.on = "arm";
  ear.at = 0.9;
  ear.thickness = 0.004;
  ear.length = 0.040;
  ear.hole = 0.025;
  ear.edge = 0.015;
  frame.attachments = {ear};
  Gusset corner;
  corner.name = "g";
  corner.node = "M";
  corner.legs[0].tube = "arm";
  corner.legs[1].tube = "post";
  corner.legs[0].length = corner.legs[1].length = 0.060;
  corner.thickness = 0.004;
  frame.gussets = {corner};
  if (const Diagnostics faults = expand_attachments(frame); !faults.empty())
    throw std::runtime_error(faults.front().message);
  return frame;
}

FrameModes modes_of(const Frame& frame, int count) {
  auto outcome = frame_modes(frame, count);
  if (const auto* diagnostics = outcome.error())
    throw std::runtime_error(diagnostics->empty() ? "no modes" : diagnostics->front().message);
  return *std::move(outcome);
}

FrameModes refined_modes(const Frame& frame, int pieces, int count) {
  FrameModes result = no_modes(frame, pieces);
  const Model& fine = result.fine.model;
  const auto outcome = natural_modes(fine, {}, count);
  for (const Mode& mode : outcome->modes) {
    double greatest = 0;
    for (std::size_t n = 0; n < fine.nodes.size(); ++n) {
      const auto at = dofs_per_node * static_cast<Eigen::Index>(n);
      greatest = std::max(greatest, mode.shape.segment<3>(at).norm());
    }
    result.modes.push_back({mode.frequency, mode.rigid, "as solved", 1, mode.shape / greatest});
  }
  return result;
}

FrameModes twist_alone() {
  FrameMode mode{1000, false, "first twist", 1, Eigen::VectorXd::Zero(12)};
  mode.shape[6 + 1] = 1;
  mode.shape[6 + 3] = 3e16;
  FrameModes result = no_modes(cantilever_frame(), 1);
  result.modes = {mode};
  return result;
}

void write_known_modes(const std::filesystem::path& directory) {
  write(pinned_beam(16), modes_of(pinned_beam(16), 3), directory / "many_members");
  for (const int pieces : {2, 3, 4}) {
    write(pinned_beam(1), refined_modes(pinned_beam(1), pieces, 1),
          directory / ("one_member_" + std::to_string(pieces)));
  }
  write(hinged_cantilevers(), modes_of(hinged_cantilevers(), 1), directory / "hinged");
  write(hinged_cantilevers(), refined_modes(hinged_cantilevers(), 2, 1), directory / "hinged_2");
  write(mixed_frame(), modes_of(mixed_frame(), 12), directory / "mixed");
  write(testing::clad_box(), modes_of(testing::clad_box(), 4), directory / "clad");
  write(testing::clad_box(), refined_modes(testing::clad_box(), 2, 4), directory / "clad_2");
  write(cantilever_frame(), twist_alone(), directory / "twist");
  write(fitted_corner(), modes_of(fitted_corner(), 3), directory / "fitted");
}

}  // namespace tubewright
