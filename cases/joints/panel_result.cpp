#include "cases/joints/panel_result.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/joints/rivet_resistance.h"
#include "cases/model/sheet_joint_stiffness.h"
#include "cases/model/tube_face.h"
#include "solver/elements/shear_panel.h"
#include "solver/elements/sheet_joint.h"

namespace tubewright {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr double fold_angle = std::numbers::pi / 4;

/// Static strength of an adhesive over its lap-shear strength: 0.25 for epoxy and acrylic, 0.1 for
/// soft elastic ones (judgement, no source). Soft: shear modulus below 50 MPa.
double bond_share_allowed(const BondJoint& bond) { return bond.shear_modulus >= 50e6 ? 0.25 : 0.1; }

double wall_of(const SectionEntry& s) {
  switch (s.shape) {
    case Shape::square_tube:
    case Shape::rectangular_tube:
    case Shape::round_tube:
      return s.wall;
    case Shape::round_bar:
    case Shape::flat_bar:
      return std::min(s.height, s.width);
    case Shape::properties:
      break;
  }
  return unknown;
}

template <class Visit>
void each_edge_piece(const Panel& panel, const Visit& visit) {
  for (const auto& edge : panel.edges) {
    for (const EdgePiece& piece : edge) visit(piece);
  }
}

CheckResult ratio(double load, double strength, const char* clause, const char* unknown_reason) {
  CheckResult r;
  r.clause = clause;
  if (std::isnan(strength)) {
    r.reason = unknown_reason;
  } else {
    r.utilisation = load > 0 ? load / strength : 0;
  }
  return r;
}

constexpr const char* no_ultimate = "the sheet's material has no ultimate strength";
constexpr const char* no_tube_ultimate = "the material of a tube has no ultimate strength";
constexpr const char* no_yield = "the sheet's material has no yield strength";
constexpr const char* no_face = "the tubes' faces are not known";

/// Greatest compressive strain of the tubes along the panel, at their ends.
double edge_compression(const Panel& panel, const Model& model, const StaticSolution& s) {
  double strain = 0;
  each_edge_piece(panel, [&](const EdgePiece& piece) {
    if (!piece.is_beam) {
      const Bar& bar = model.bars[piece.index];
      const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
      strain = std::max(strain, -s.bar_forces[piece.index] / (bar.stiffness * L));
      return;
    }
    const BeamState& beam = s.beams[piece.index];
    const double EA = beam.element.material.E * beam.element.section.A;
    for (const double at : {0.0, 1.0}) {
      strain = std::max(strain, -section_forces(beam, at, at > 0).N / EA);
    }
  });
  return strain;
}

void add_rivet_checks(PanelResult& r, const Sheet& sheet, const PanelFacts& f, double factor,
                      double compression) {
  const RivetJoint& rivet = *sheet.rivet;
  const double load = factor * *r.rivet_load;
  const double d = rivet.diameter, t = sheet.thickness;
  const bool given = rivet.shear_strength.has_value();
  const double shear = rivet.shear_strength.value_or(blind_rivet_shear_strength(d));
  r.checks.push_back(
      {"rivet_shear", ratio(load, shear / gamma_M3,
                            given ? "strength as given, gamma_M3 = 1.25"
                                  : "EN 1999-1-4 8.2: 38 d2 N, gamma_M3 = 1.25 (from memory)",
                            "")});
  r.checks.push_back(
      {"rivet_bearing", ratio(load, bearing_strength(f.least_ultimate, t, d, f.wall) / gamma_M3,
                              "EN 1999-1-4 8.2 (form of eq. 8.9), gamma_M3 = 1.25",
                              std::isnan(f.wall)       ? no_face
                              : std::isnan(f.ultimate) ? no_ultimate
                                                       : no_tube_ultimate)});
  r.checks.push_back({"rivet_tear_out",
                      ratio(load, tear_out_strength(f.ultimate, t, d, f.edge_distance) / gamma_M3,
                            "2 (e - d/2) t f_u/sqrt(3), gamma_M3 = 1.25 (derived)",
                            std::isnan(f.edge_distance) ? no_face : no_ultimate)});
  r.checks.push_back({"inter_rivet_buckling",
                      ratio(compression * f.E, inter_rivet_buckling_stress(f.E, t, rivet.pitch),
                            "c pi2 E/12 (t/p)2, c = 2 (judgement)", "")});
}

}  // namespace

const NamedCheck* nearest_limit(const std::vector<NamedCheck>& checks) {
  const NamedCheck* nearest = nullptr;
  for (const NamedCheck& check : checks) {
    if (!check.counts || !check.result.utilisation) continue;
    if (nearest == nullptr || *check.result.utilisation > *nearest->result.utilisation) {
      nearest = &check;
    }
  }
  return nearest;
}

PanelFacts panel_facts(const Frame& frame, const NumberedFrame& n, size_t index) {
  const Panel& panel = n.model.panels[index];
  const Sheet& sheet = find_sheet(frame, frame.panels[index].sheet);
  const Material& material = find_material(frame, sheet.material)->properties;
  const PanelGeometry g = panel_geometry(n.model, panel);
  PanelFacts f;
  f.E = material.E;
  f.nu = material.E / (2 * material.G) - 1;
  f.yield = material.yield;
  f.ultimate = f.least_ultimate = material.ultimate;
  // Sides of the rectangle: means of opposite edges (judgement).
  f.critical_stress =
      critical_shear_stress(f.E, f.nu, sheet.thickness, (g.length[0] + g.length[2]) / 2,
                            (g.length[1] + g.length[3]) / 2, sheet.edges);
  const JointStiffness joint = joint_stiffness(sheet, material);
  f.rivet_share = joint.rivets > 0 ? joint.rivets / joint.total() : 0;
  if (sheet.bond) {
    const BondLine line{sheet.bond->shear_modulus, sheet.bond->thickness, sheet.bond->width};
    const double Gt = material.G * sheet.thickness;
    f.bond_peak_per_flow = bond_peak_per_flow(line, Gt);
    f.bond_peak_per_net = bond_peak_per_net(line, Gt);
    f.bond_peak_per_through = bond_peak_per_through(line, Gt);
  }
  f.rows = panel_rows(n.model, static_cast<int>(index));
  f.edge_distance = f.wall = std::numeric_limits<double>::infinity();
  for (const int m : members_round(n, panel)) {
    const SectionEntry& section = find_section(frame, frame.members[m].section);
    const double e = tube_face(section, n, n.slots[m], g.normal).width / 2, wall = wall_of(section);
    if (std::isnan(e)) {  // one that is not known leaves all unknown
      f.edge_distance = f.wall = unknown;
      f.narrowest = -1;
      break;
    }
    if (e < f.edge_distance) {
      f.edge_distance = e;
      f.narrowest = m;
    }
    f.wall = std::min(f.wall, wall);
    const double ultimate = find_material(frame, section.material)->properties.ultimate;
    const double least = f.least_ultimate;
    f.least_ultimate = std::isnan(least) || least <= ultimate ? least : ultimate;
  }
  return f;
}

SheetStage sheet_stage(const PanelFacts& f, const Model& model, const Panel& panel, double q0) {
  const PanelGeometry g = panel_geometry(model, panel);
  const double greatest = *std::max_element(g.flow_ratio.begin(), g.flow_ratio.end());
  const double flow = std::abs(q0) * greatest;
  SheetStage stage;
  stage.tension_share = diagonal_tension_share(flow / panel.thickness, f.critical_stress);
  stage.secant_ratio = shear_stiffness_kept(stage.tension_share, f.nu);
  stage.traction = stage.tension_share * flow;  // k q tan(45 degrees)
  return stage;
}

RowLoad row_load(const PanelRow& row, double q0, double pull, double other_q0, double other_pull) {
  const auto both = [](double along, double across) {
    const double a = std::abs(along), b = std::abs(across);
    return std::max(a, b) + (std::numbers::sqrt2 - 1) * std::min(a, b);
  };
  const double own = row.flow * q0;
  if (row.other < 0) return {both(own, pull), 0};
  const double other = row.other_flow * other_q0;  // of the same sense, it runs the other way
  return {both(own + other, pull - other_pull), both(own - other, pull + other_pull) / 2};
}

PanelResult panel_result(const Frame& frame, const NumberedFrame& n, size_t index,
                         const PanelFacts& f, std::span<const SheetStage> stages,
                         const StaticSolution& s, double factor) {
  const SheetStage& stage = stages[index];
  const Panel& panel = n.model.panels[index];
  const Sheet& sheet = find_sheet(frame, frame.panels[index].sheet);
  const PanelGeometry g = panel_geometry(n.model, panel);
  PanelResult r;
  for (int k = 0; k < 4; ++k) {
    r.edge_flows[k] = -s.panel_flows[index] * g.flow_ratio[k];
    r.flow = std::max(r.flow, std::abs(r.edge_flows[k]));
  }
  r.shear_stress = r.flow / sheet.thickness;
  r.critical_stress = f.critical_stress;
  r.stage = stage;

  r.checks.push_back({"buckling",
                      ratio(r.shear_stress, f.critical_stress,
                            "Timoshenko & Gere; beyond 1 NACA TN 2661 (diagonal tension)", ""),
                      false});
  const SheetStress stress = tension_field_stress(r.shear_stress, stage.tension_share, fold_angle);
  const double von_mises =
      std::sqrt(stress.tension * stress.tension - stress.tension * stress.compression +
                stress.compression * stress.compression);
  r.checks.push_back(
      {"yield", ratio(factor * von_mises, f.yield, "von Mises, NACA TN 2661", no_yield)});
  double most = 0, peak = 0;
  for (const PanelRow& row : f.rows) {
    const bool rim = row.other < 0;
    const size_t other = rim ? index : static_cast<size_t>(row.other);
    const RowLoad load = row_load(row, s.panel_flows[index], stage.traction, s.panel_flows[other],
                                  stages[other].traction);
    const double bonded = (1 - f.rivet_share) * load.net;
    most = std::max(most, load.net);
    peak =
        std::max(peak, rim ? bonded * f.bond_peak_per_flow
                           : bonded * f.bond_peak_per_net + load.through * f.bond_peak_per_through);
  }
  if (sheet.rivet) {
    r.rivet_load = most * f.rivet_share * sheet.rivet->pitch;
    add_rivet_checks(r, sheet, f, factor, edge_compression(panel, n.model, s));
  }
  if (sheet.bond) {
    r.bond_peak = peak;
    r.bond_mean = most * (1 - f.rivet_share) / sheet.bond->width;
    const double strength = sheet.bond->shear_strength.value_or(unknown);
    r.checks.push_back(
        {"bond", ratio(*r.bond_peak, bond_share_allowed(*sheet.bond) * strength,
                       "peak stress against 0.25 (soft: 0.1) of the lap-shear strength "
                       "(judgement)",
                       "the bond has no shear strength")});
  }
  return r;
}

}  // namespace tubewright
