#include "io/report/report_frame.h"

#include <algorithm>
#include <cmath>

#include "cases/attachments/expand_attachments.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/joint_stiffness/end_fixity.h"
#include "io/keys/choice_words.h"
#include "io/results/json_parts.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;
using NodeNumbers = std::unordered_map<std::string, int>;

ordered_json materials_of(const Frame& frame) {
  std::vector<std::string> names;
  const auto note = [&](const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const SectionEntry& s : frame.sections) note(s.material);
  for (const Sheet& s : frame.sheets) note(s.material);
  ordered_json list = ordered_json::array();
  for (const std::string& name : names) {
    const Material& m = find_material(frame, name)->properties;
    list.push_back({{"name", name},
                    {"E", number(m.E * MPa_per_Pa)},
                    {"G", number(m.G * MPa_per_Pa)},
                    {"density", number(m.density)},
                    {"yield", number(m.yield * MPa_per_Pa)},
                    {"ultimate", number(m.ultimate * MPa_per_Pa)}});
  }
  return list;
}

ordered_json sections_of(const Frame& frame) {
  ordered_json list = ordered_json::array();
  const auto size = [](double x) { return x > 0 ? number(x * mm_per_m) : ordered_json(nullptr); };
  for (const SectionEntry& s : frame.sections) {
    list.push_back({{"name", s.name},
                    {"shape", word_for(shape_words, s.shape)},
                    {"height", size(s.height)},
                    {"width", size(s.width)},
                    {"wall", size(s.wall)},
                    {"material", s.material}});
  }
  return list;
}

ordered_json nodes_of(const Frame& frame) {
  ordered_json list = ordered_json::array();
  for (const Node& n : frame.nodes) {
    list.push_back({{"name", n.name}, {"at", numbers(n.at, mm_per_m)}});
  }
  return list;
}

/// Of a member its section's number, null where it has none.
ordered_json section_number(const Frame& frame, const Member& m) {
  const auto section = std::find_if(frame.sections.begin(), frame.sections.end(),
                                    [&](const SectionEntry& s) { return s.name == m.section; });
  if (section == frame.sections.end()) return nullptr;
  return section - frame.sections.begin();
}

/// `next`: the beam of the model that the member is, if it is one.
ordered_json fixity_of(const Member& m, const Model& model, std::size_t& next) {
  if (m.kind != MemberKind::beam) return nullptr;
  const std::array<double, 2> ends = end_fixity(model, model.beams[next++]);
  return {number(ends[0]), number(ends[1])};
}

ordered_json members_of(const Frame& frame, const Model& model, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  std::size_t beam_of_model = 0;
  for (const Member& m : frame.members) {
    const bool beam = m.kind == MemberKind::beam;
    const auto bends_freely = [&](const EndConnection& c) {
      return !beam || std::isfinite(c[4]) || std::isfinite(c[5]);
    };
    list.push_back({{"name", m.name},
                    {"kind", word_for(member_kind_words, m.kind)},
                    {"from", node.at(m.from)},
                    {"to", node.at(m.to)},
                    {"section", section_number(frame, m)},
                    {"roll", number(m.roll * degrees_per_radian)},
                    {"pinned", {bends_freely(m.release_from), bends_freely(m.release_to)}},
                    {"fixity", fixity_of(m, model, beam_of_model)},
                    {"tube", m.tube.empty() ? ordered_json(nullptr) : ordered_json(m.tube)}});
  }
  return list;
}

ordered_json numbers_of(const std::vector<std::string>& names, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  for (const std::string& name : names) list.push_back(node.at(name));
  return list;
}

ordered_json panels_of(const Frame& frame, const Model& model, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  for (std::size_t i = 0; i < frame.panels.size(); ++i) {
    const PanelEntry& p = frame.panels[i];
    const Sheet& sheet = find_sheet(frame, p.sheet);
    list.push_back({{"name", p.name},
                    {"corners", numbers_of(p.corners, node)},
                    {"sheet", p.sheet},
                    {"material", sheet.material},
                    {"thickness", number(sheet.thickness * mm_per_m)},
                    {"offset", number(model.panels[i].offset * mm_per_m)}});
  }
  return list;
}

ordered_json attachments_of(const Frame& frame, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  for (const Attachment& a : frame.attachments) {
    list.push_back({{"name", a.name},
                    {"kind", word_for(attachment_kind_words, a.kind)},
                    {"on", a.on},
                    {"face", word_for(face_words, a.face)},
                    {"foot", node.at(a.face_node)},
                    {"hole", node.at(a.name)},
                    {"lengthwise", numbers(a.lengthwise)},
                    {"sideways", numbers(a.sideways)},
                    {"thickness", number(a.thickness * mm_per_m)},
                    {"length", number(a.length * mm_per_m)},
                    {"apart", number(plates_apart(find_section(frame, a.section), a) * mm_per_m)},
                    {"bolt", a.bolt ? number(a.bolt->diameter * mm_per_m) : ordered_json(0)}});
  }
  return list;
}

ordered_json gussets_of(const Frame& frame, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  for (const Gusset& g : frame.gussets) {
    const GussetPlate plate = gusset_plate(frame, g);
    const auto at = static_cast<std::size_t>(node.at(g.node));
    const Eigen::Vector3d corner = frame.nodes[at].at + plate.corner;
    // array(): one value in braces is the value itself to some compilers, a list to others
    ordered_json corners = ordered_json::array({numbers(corner, mm_per_m)});
    ordered_json nodes = ordered_json::array({node.at(g.node)});
    for (const GussetLeg& leg : g.legs) {
      corners.push_back(numbers(Eigen::Vector3d(corner + leg.length * leg.along), mm_per_m));
      nodes.push_back(node.at(leg.axis_node));
    }
    ordered_json offsets = ordered_json::array();
    for (const double off : plate_offsets(frame, g)) offsets.push_back(number(off * mm_per_m));
    list.push_back({{"name", g.name},
                    {"nodes", nodes},
                    {"between", {g.legs[0].tube, g.legs[1].tube}},
                    {"corners", corners},
                    {"offsets", offsets},
                    {"thickness", number(g.thickness * mm_per_m)}});
  }
  return list;
}

ordered_json supports_of(const Frame& frame, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  for (const SupportEntry& s : frame.supports) {
    ordered_json holds = ordered_json::array();
    for (std::size_t k = 0; k < 6; ++k) {
      if (s.restrained[k]) holds.push_back(direction_names[k]);
    }
    list.push_back({{"node", node.at(s.node)}, {"holds", holds}});
  }
  return list;
}

ordered_json masses_of(const Frame& frame) {
  ordered_json list = ordered_json::array();
  for (const CarriedMass& m : frame.masses) {
    list.push_back({{"name", m.name}, {"mass", number(m.mass)}, {"at", numbers(m.at, mm_per_m)}});
  }
  return list;
}

ordered_json wheels_of(const Frame& frame, const NodeNumbers& node) {
  ordered_json list = ordered_json::array();
  if (!frame.vehicle) return list;
  for (const Wheel& w : frame.vehicle->wheels) {
    list.push_back({{"name", w.name},
                    {"contact", numbers(w.contact, mm_per_m)},
                    {"centre", numbers(w.centre, mm_per_m)},
                    {"carrier", numbers_of(w.carrier, node)}});
  }
  return list;
}

}  // namespace

void add_frame(const Frame& frame, const Model& model, ordered_json& data) {
  const NodeNumbers node = numbers_of_nodes(frame);
  data["materials"] = materials_of(frame);
  data["sections"] = sections_of(frame);
  data["nodes"] = nodes_of(frame);
  data["members"] = members_of(frame, model, node);
  data["attachments"] = attachments_of(frame, node);
  data["gussets"] = gussets_of(frame, node);
  data["panels"] = panels_of(frame, model, node);
  data["supports"] = supports_of(frame, node);
  data["masses"] = masses_of(frame);
  data["wheels"] = wheels_of(frame, node);
}

}  // namespace tubewright
