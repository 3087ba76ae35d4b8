#include "cases/analysis/frame_edits.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "cases/checks/member_checks.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"
#include "cases/frame/wording.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "cases/model/sheet_joint_stiffness.h"

namespace tubewright {

namespace {

constexpr double mm = 1e-3;

const Material& material_of(const Frame& frame, const SectionEntry& s) {
  return find_material(frame, s.material)->properties;
}

/// The section with `factor` times the area.
SectionEntry heavier(const SectionEntry& s, const Material& material, double factor) {
  SectionEntry h = s;
  const double wanted = factor * section_of(s, material).A;
  if (s.shape == Shape::properties) {
    for (double* value :
         {&h.given.A, &h.given.Iy, &h.given.Iz, &h.given.It, &h.given.Wy, &h.given.Wz, &h.given.Wt,
          &h.given.Wply, &h.given.Wplz, &h.given.Ay, &h.given.Az}) {
      *value *= factor;
    }
    return h;
  }
  const bool tube = s.shape == Shape::square_tube || s.shape == Shape::rectangular_tube ||
                    s.shape == Shape::round_tube;
  if (tube) {
    // The thickest wall that a tube is still drawn with: a third of its side.
    double low = s.wall, high = std::min(s.height, s.width) / 3;
    h.wall = high;
    if (high > low && section_of(h, material).A >= wanted) {
      for (int i = 0; i < 60; ++i) {
        h.wall = (low + high) / 2;
        (section_of(h, material).A < wanted ? low : high) = h.wall;
      }
      return h;
    }
  }
  const double scale = std::sqrt(factor);
  h.height = scale * s.height;
  h.width = scale * s.width;
  h.wall = scale * s.wall;
  return h;
}

}  // namespace

Frame without_panels(Frame frame) {
  frame.panels.clear();
  return frame;
}

Frame with_rivets(Frame frame, RivetBand band) {
  for (Sheet& sheet : frame.sheets) {
    if (!sheet.rivet || sheet.rivet->stiffness) continue;
    const RivetStiffness s = blind_rivet_stiffness(sheet.rivet->diameter);
    sheet.rivet->stiffness = band == RivetBand::low ? s.low : s.high;
  }
  return frame;
}

bool rivets_are_guessed(const Frame& frame) {
  return std::any_of(frame.panels.begin(), frame.panels.end(), [&](const PanelEntry& p) {
    const Sheet& sheet = find_sheet(frame, p.sheet);
    return sheet.rivet && !sheet.rivet->stiffness;
  });
}

DiagonalFrame with_diagonals(const Frame& frame, bool second) {
  const NumberedFrame n = build_model(frame);
  DiagonalFrame d{without_panels(frame), {}};
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    const PanelEntry& panel = frame.panels[p];
    const std::string& from = panel.corners[second ? 1 : 0];
    const std::string& to = panel.corners[second ? 3 : 2];
    const double length = (n.model.nodes[n.node.at(from)] - n.model.nodes[n.node.at(to)]).norm();
    SectionEntry tube;
    double wall = INFINITY;
    for (const int m : members_round(n, n.model.panels[p])) {
      const SectionEntry& edge = find_section(frame, frame.members[m].section);
      if (edge.shape != Shape::properties && edge.wall > 0) wall = std::min(wall, edge.wall);
      tube.material = edge.material;
    }
    const double area = panel_mass(frame, n, p).mass / (material_of(frame, tube).density * length);
    tube.wall = std::min(wall, std::sqrt(area / 36));  // at least ten walls wide
    tube.height = tube.width = area / (4 * tube.wall) + tube.wall;
    tube.corners = Corners::sharp;
    tube.name = panel.name + "/diagonal";  // no name of a file can hold a slash
    d.sizes.push_back(decimals(tube.height / mm, 2) + " x " + decimals(tube.height / mm, 2) +
                      " x " + decimals(tube.wall / mm, 2));
    Member member;
    member.name = member.tube = tube.name;
    member.from = from;
    member.to = to;
    member.section = tube.name;
    d.frame.sections.push_back(tube);
    d.frame.members.push_back(std::move(member));
  }
  return d;
}

ThickerFrame with_thicker_tubes(const Frame& frame) {
  const NumberedFrame n = build_model(frame);
  ThickerFrame t{without_panels(frame), {}};
  std::set<int> members;
  for (const Panel& panel : n.model.panels) {
    for (const int m : members_round(n, panel)) members.insert(m);
  }
  double present = 0;
  for (const int m : members) {
    present += mass_per_length(frame, frame.members[m]) * member_length(n, frame.members[m]);
  }
  const double factor = 1 + panels_mass(frame) / present;
  std::map<std::string, std::string> renamed;
  for (const int m : members) {
    const std::string& old = frame.members[m].section;
    const auto [place, is_new] = renamed.emplace(old, old + "/thicker");
    if (is_new) {
      const SectionEntry& before = find_section(frame, old);
      SectionEntry after = heavier(before, material_of(frame, before), factor);
      after.name = place->second;
      t.sizes.push_back(before.shape == Shape::properties
                            ? old + ": " + decimals(factor, 2) + " times"
                            : old + ": " + decimals(after.height / mm, 2) + " x " +
                                  decimals(after.width / mm, 2) +
                                  (after.wall > 0 ? " x " + decimals(after.wall / mm, 2) : ""));
      t.frame.sections.push_back(std::move(after));
    }
    t.frame.members[m].section = place->second;
  }
  return t;
}

Frame with_sheets(Frame frame, std::optional<double> thickness, std::optional<double> pitch) {
  for (Sheet& sheet : frame.sheets) {
    if (thickness) sheet.thickness = *thickness;
    if (pitch && sheet.rivet) sheet.rivet->pitch = *pitch;
  }
  return frame;
}

Frame with_sheets_times(Frame frame, double thickness, double pitch) {
  for (Sheet& sheet : frame.sheets) {
    sheet.thickness *= thickness;
    if (sheet.rivet) sheet.rivet->pitch *= pitch;
  }
  return frame;
}

Frame with_epoxy(Frame frame) {
  for (Sheet& sheet : frame.sheets) sheet.bond = BondJoint{20 * mm, 0.3 * mm, 1000e6, std::nullopt};
  return frame;
}

double panels_mass(const Frame& frame) {
  const NumberedFrame n = build_model(frame);
  double mass = 0;
  for (size_t p = 0; p < frame.panels.size(); ++p) mass += panel_mass(frame, n, p).mass;
  return mass;
}

bool has_walls(const Frame& frame) {
  return std::any_of(frame.sections.begin(), frame.sections.end(), [](const SectionEntry& s) {
    return s.shape == Shape::properties || s.wall > 0;
  });
}

Frame with_walls(Frame frame, double factor) {
  for (SectionEntry& s : frame.sections) {
    s.wall *= factor;
    Section& g = s.given;
    for (double* p : {&g.A, &g.Iy, &g.Iz, &g.It, &g.Wy, &g.Wz, &g.Wt, &g.Wply, &g.Wplz}) {
      *p *= factor;
    }
    if (!std::isinf(g.Ay)) g.Ay *= factor;
    if (!std::isinf(g.Az)) g.Az *= factor;
  }
  return frame;
}

Frame with_masses(Frame frame, double factor) {
  for (CarriedMass& m : frame.masses) {
    m.mass *= factor;
    m.inertia *= factor;
  }
  return frame;
}

Frame with_joint_flexibility(Frame frame, double factor) {
  frame.joint_flexibility = factor;
  return frame;
}

}  // namespace tubewright
