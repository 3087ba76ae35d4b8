#include "cases/model/build_model.h"

#include <algorithm>
#include <set>

#include "cases/attachments/attachment_arm.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/bends/member_arc.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/layout.h"
#include "cases/frame/section_of.h"
#include "cases/model/sheet_joint_stiffness.h"
#include "cases/model/sheet_pieces.h"

namespace tubewright {

namespace {

Bar bar_of(const Frame& frame, const NumberedFrame& n, const Member& m) {
  Bar bar;
  bar.from = n.node.at(m.from);
  bar.to = n.node.at(m.to);
  bar.tension_only = m.kind == MemberKind::cable;
  if (m.kind == MemberKind::spring) {
    bar.stiffness = m.rate;
  } else {
    const SectionEntry& section = find_section(frame, m.section);
    const Material& material = find_material(frame, section.material)->properties;
    bar.stiffness = material.E * section_of(section, material).A / member_length(n, m);  // EA/L
  }
  return bar;
}

/// The body's master is the node that a support holds, if one does: only a master can be held.
RigidBody upright(const Frame& frame, const NumberedFrame& n, const Wheel& wheel) {
  RigidBody body{node_numbers(n, wheel.carrier)};
  for (const SupportEntry& s : frame.supports) {
    const auto held = std::find(body.nodes.begin(), body.nodes.end(), n.node.at(s.node));
    if (held != body.nodes.end()) std::iter_swap(body.nodes.begin(), held);
  }
  return body;
}

/// Without what goes by the piece of sheet that they are of.
std::vector<Panel> panels_of(const Frame& frame, const NumberedFrame& n) {
  std::vector<Panel> panels;
  if (frame.panels.empty()) return panels;
  const Layout layout = layout_of(frame);
  for (const PanelEntry& entry : frame.panels) {
    const Sheet& sheet = find_sheet(frame, entry.sheet);
    const Material& material = find_material(frame, sheet.material)->properties;
    Panel panel;
    panel.thickness = sheet.thickness;
    panel.G = material.G;
    const JointStiffness joint = joint_stiffness(sheet, material);
    panel.joint = joint.total();
    panel.carry_over = joint.carry_over();
    for (int k = 0; k < 4; ++k) panel.corners[k] = n.node.at(entry.corners[k]);
    for (int k = 0; k < 4; ++k) {
      const int a = panel.corners[k], b = panel.corners[(k + 1) % 4];
      for (const int member : members_in_line(frame, layout, a, b)) {
        panel.edges[k].push_back({n.slots[member].is_beam, n.slots[member].index});
      }
    }
    panels.push_back(std::move(panel));
  }
  return panels;
}

/// Adds the two beams of an attachment's arm behind those of the members, its foot on a rigid face.
void add_arm(const Frame& frame, const Attachment& a, NumberedFrame& n) {
  Model& model = n.model;
  const int axis = n.node.at(a.axis_node), foot = n.node.at(a.face_node), hole = n.node.at(a.name);
  const AttachmentArm arm = attachment_arm(frame, a, model.nodes[static_cast<size_t>(foot)],
                                           model.nodes[static_cast<size_t>(hole)]);
  const Material& material = find_material(frame, a.material)->properties;
  const auto add = [&](int from, int to, const Section& section, double roll) {
    const int number = static_cast<int>(model.sections.size());
    model.sections.push_back(section);
    model.materials.push_back(material);
    n.member_of_beam.push_back(-1);
    model.beams.push_back({from, to, number, number, roll});
    return static_cast<int>(model.beams.size()) - 1;
  };
  const int block = add(axis, foot, arm.block, 0);
  n.arms.push_back({block, add(foot, hole, arm.plate, arm.plate_roll)});
}

bool is_on_beam(const Model& model, int node) {
  return std::any_of(model.beams.begin(), model.beams.end(),
                     [node](const Beam& b) { return b.from == node || b.to == node; });
}

/// Adds the bar that a gusset is, on rigid faces; none where the loss of a tube left it loose.
void add_gusset(const Frame& frame, const Gusset& g, NumberedFrame& n) {
  Bar bar;
  bar.from = n.node.at(g.legs[0].axis_node);
  bar.to = n.node.at(g.legs[1].axis_node);
  n.gussets.push_back(-1);
  if (!is_on_beam(n.model, bar.from) || !is_on_beam(n.model, bar.to)) return;
  bar.stiffness = gusset_plate(frame, g).stiffness;
  n.gussets.back() = static_cast<int>(n.model.bars.size());
  n.member_of_bar.push_back(-1);
  n.model.bars.push_back(bar);
}

}  // namespace

std::vector<int> node_numbers(const NumberedFrame& numbered,
                              const std::vector<std::string>& names) {
  std::vector<int> list;
  for (const std::string& name : names) list.push_back(numbered.node.at(name));
  return list;
}

std::vector<int> members_round(const NumberedFrame& numbered, const Panel& panel) {
  std::set<int> members;
  for (const auto& edge : panel.edges) {
    for (const EdgePiece& piece : edge) {
      members.insert(piece.is_beam ? numbered.member_of_beam[piece.index]
                                   : numbered.member_of_bar[piece.index]);
    }
  }
  return {members.begin(), members.end()};
}

namespace {

double chord_of(const NumberedFrame& numbered, const Member& member) {
  const std::vector<Eigen::Vector3d>& at = numbered.model.nodes;
  return (at[numbered.node.at(member.to)] - at[numbered.node.at(member.from)]).norm();
}

}  // namespace

double member_length(const NumberedFrame& numbered, const Member& member) {
  const double chord = chord_of(numbered, member);
  return member.arc ? arc_length(*member.arc, chord) : chord;
}

double length_over_chord(const NumberedFrame& numbered, const Member& member) {
  return member.arc ? member_length(numbered, member) / chord_of(numbered, member) : 1;
}

NumberedFrame build_model(const Frame& frame) {
  NumberedFrame n;
  for (const Node& node : frame.nodes) {
    n.node.emplace(node.name, static_cast<int>(n.model.nodes.size()));
    n.model.nodes.push_back(node.at);
  }
  std::unordered_map<std::string, int> section_number;
  for (const SectionEntry& s : frame.sections) {
    const Material& material = find_material(frame, s.material)->properties;
    section_number.emplace(s.name, static_cast<int>(n.model.sections.size()));
    n.model.sections.push_back(section_of(s, material));
    n.model.materials.push_back(material);  // one a section: the solver wants both together
  }
  for (const Member& m : frame.members) {
    const int index = static_cast<int>(n.slots.size());
    n.members[m.name].push_back(index);
    if (!m.tube.empty() && m.tube != m.name) n.members[m.tube].push_back(index);
    if (m.kind == MemberKind::beam) {
      const int section = section_number.at(m.section);
      n.slots.push_back({true, static_cast<int>(n.model.beams.size())});
      n.member_of_beam.push_back(index);
      Beam beam{n.node.at(m.from), n.node.at(m.to), section, section, m.roll,
                m.release_from,    m.release_to};
      if (m.arc) {
        const auto at = [&](int node) { return n.model.nodes[static_cast<size_t>(node)]; };
        beam.arc =
            arc_of(*m.arc, at(beam.from), at(beam.to), m.roll, find_section(frame, m.section));
      }
      n.model.beams.push_back(beam);
    } else {
      n.slots.push_back({false, static_cast<int>(n.model.bars.size())});
      n.member_of_bar.push_back(index);
      n.model.bars.push_back(bar_of(frame, n, m));
    }
  }
  for (const Attachment& a : frame.attachments) add_arm(frame, a, n);
  for (const Gusset& g : frame.gussets) add_gusset(frame, g, n);
  n.model.panels = panels_of(frame, n);
  lay_sheets(frame, n);
  if (frame.vehicle) {
    for (const Wheel& w : frame.vehicle->wheels) {
      if (has_rigid_upright(w)) n.model.bodies.push_back(upright(frame, n, w));
    }
  }
  for (const SupportEntry& s : frame.supports) {
    n.model.supports.push_back({n.node.at(s.node), s.restrained});
  }
  return n;
}

}  // namespace tubewright
