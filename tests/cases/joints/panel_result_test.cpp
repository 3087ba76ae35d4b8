#include "cases/joints/panel_result.h"

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/frame/built_in_materials.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::panel_result_test {

using namespace tubewright::testing;

namespace {

constexpr Source gere = from_memory("Timoshenko & Gere, simply supported plate in shear, by hand");
constexpr Source megson = rederived("Megson eqs. 6.111 to 6.114 and R = q (1 + 0.414 k), by hand");
constexpr Source shear = from_memory("EN 1999-1-4 8.2: 38 d2/1.25, by hand");
constexpr Source bearing =
    seen_in("EN 1999-1-4 8.2: bearing on the thinner of sheet and support, by hand");
constexpr Source bond = rederived("shear lag across the bond, shares by stiffness");

constexpr double mm = 1e-3, MPa = 1e6;

Analysis solved(const Frame& frame) { return answer_of(analyse(frame)); }

const CheckResult& check_named(const PanelResult& panel, const std::string& name) {
  for (const NamedCheck& check : panel.checks) {
    if (check.name == name) return check.result;
  }
  throw std::runtime_error("no check " + name);
}

/// The aluminium of worked examples: E 70 GPa, nu 0.33.
Frame textbook(Frame f) {
  f.materials.push_back(
      {"textbook", {70e9, 70e9 / 2.66, 2700, 130e6, 220e6}, {}, Metal::aluminium, {}});
  for (Sheet& sheet : f.sheets) sheet.material = "textbook";
  return f;
}

}  // namespace

TEST_CASE("a sheared bay carries its load as shear flow, below buckling with all its stiffness",
          "[truth]") {
  const Frame f = textbook(shear_frame(0.7, 0.6, 1400));  // 2 N/mm
  const Analysis a = solved(f);
  const PanelResult& web = a.cases.front().panels.front();
  CHECK_THAT(web.flow, WithinRel(2000.0, 1e-9));
  CHECK_THAT(web.shear_stress, WithinRel(2000 / 1.2e-3, 1e-9));
  // Timoshenko & Gere, 600 x 700 x 1.2, simply supported: 2.14 MPa.
  truth("600 x 700 x 1.2: critical shear stress, Pa", gere, web.critical_stress,
        within_rel(2.140 * MPa, 1e-3));
  CHECK(web.stage.secant_ratio == 1);
  CHECK(web.stage.traction == 0);
  // Pushed towards +x at +y: the corners at A and C close.
  for (const double flow : web.edge_flows) CHECK(flow > 0);
  CHECK(a.remarks.empty());
}

TEST_CASE("a sheet beyond its critical stress carries on with what NACA TN 2661 leaves it",
          "[truth]") {
  // 600 x 700 x 1.2 mm at q = 6 N/mm: tau 5.0 MPa, 2.34 times critical, k = 0.182; rivets every 50
  // mm take 6.45 N/mm, 323 N each; sigma_1 5.90 and sigma_2 -4.07 MPa at 42 degrees of fold (worked
  // by hand with Megson's equations 6.111 to 6.114).
  Frame f = textbook(shear_frame(0.7, 0.6, 4200));
  f.sheets.front().rivet = rivets(4.8 * mm, 50 * mm);
  const Analysis a = solved(f);
  const PanelResult& web = a.cases.front().panels.front();
  CHECK_THAT(web.flow, WithinRel(6000.0, 1e-6));
  truth("600 x 700 x 1.2 at 6 N/mm: share of diagonal tension", megson, web.stage.tension_share,
        within_rel(0.182, 5e-3));
  truth("600 x 700 x 1.2 at 6 N/mm: load of a rivet every 50 mm, N", megson, *web.rivet_load,
        within_rel(323, 2e-3));
  truth("600 x 700 x 1.2 at 6 N/mm: pull on the edges, N/m", megson, web.stage.traction,
        within_rel(0.182 * 6000, 5e-3));
  truth("600 x 700 x 1.2 at 6 N/mm: G left of G", megson, web.stage.secant_ratio,
        within_rel(1 / ((1 - 0.182) + 2 * 0.182 / 1.33), 2e-3));
  // 38 d2/1.25 = 701 N, and the reserve of 1.5 on the load.
  truth("600 x 700 x 1.2 at 6 N/mm, reserve 1.5: rivet shear", shear,
        *check_named(web, "rivet_shear").utilisation, within_rel(1.5 * 323 / 701, 3e-3));
  CHECK(a.cases.front().worst->check == "rivet_shear");
  CHECK(a.cases.front().worst->item == "web");
}

TEST_CASE("the frame gives way as the secant stiffness of the buckled sheet says") {
  // Statically determinate flow: the upper side moves by load b / (a G t eta) once the links are
  // stiff.
  const auto moved = [](double load) {
    Frame f = textbook(shear_frame(0.7, 0.6, load));
    const Analysis a = solved(f);
    return a.cases.front().solution.displacements[6 * 2] / load;
  };
  const double flat = moved(100), buckled = moved(4200);
  const double k = std::tanh(0.5 * std::log10(5.0 / 2.140));
  const double kept = 1 / ((1 - k) + 2 * k / 1.33);
  // The links' own share: (Gt b/a)^-1 of the sheet taken from the flat case.
  const double sheet = 0.6 / (0.7 * 70e9 / 2.66 * 1.2 * mm);
  CHECK_THAT((buckled - (flat - sheet)) / sheet, WithinRel(1 / kept, 2e-3));
}

TEST_CASE("the pull of a buckled sheet bends the tubes along its edges") {
  // Fixed-ended span L under k q: M = k q L^2/12 (Megson, M_max = k q b^2 tan(alpha)/12 at 45
  // degrees).
  Frame f = shear_frame(0.7, 0.6, 4200);
  for (Member& m : f.members) m.kind = MemberKind::beam;
  f.sections.front().height = f.sections.front().width = 0.025;
  f.sections.front().wall = 0.0016;
  f = textbook(std::move(f));
  const Analysis a = solved(f);
  const PanelResult& web = a.cases.front().panels.front();
  REQUIRE(web.stage.traction > 0);
  const SectionForces middle = section_forces(a.cases.front().solution.beams[0], 0.5);
  const SectionForces end = section_forces(a.cases.front().solution.beams[0], 0);
  const SectionForces other = section_forces(a.cases.front().solution.beams[0], 1, true);
  const double sag = (end.Mz + other.Mz) / 2 - middle.Mz;
  CHECK_THAT(std::abs(sag), WithinRel(web.stage.traction * 0.7 * 0.7 / 8, 1e-3));
  CHECK(a.cases.front().solution.residual.force < 1e-9);
}

TEST_CASE("edge distance and wall come from the narrowest tube round the panel") {
  Frame f = shear_frame(0.6, 0.4, 100);
  SectionEntry flat;
  flat.name = "flat";
  flat.shape = Shape::rectangular_tube;
  flat.height = 0.05;
  flat.width = 0.03;
  flat.wall = 0.0015;
  flat.material = "S235";
  f.sections.push_back(flat);
  f.members[1].section = "flat";
  f.members[1].kind = MemberKind::beam;
  const NumberedFrame n = build_model(f);
  const PanelFacts facts = panel_facts(f, n, 0);
  // The sheet lies in z = 0, so it rests on the tube's width.
  CHECK_THAT(facts.edge_distance, WithinRel(0.015, 1e-12));
  CHECK_THAT(facts.wall, WithinRel(0.0015, 1e-12));
  f.sections.back().shape = Shape::properties;
  f.sections.back().given =
      Section{1e-4, 1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  const PanelFacts unknown = panel_facts(f, build_model(f), 0);
  CHECK(std::isnan(unknown.edge_distance));
  CHECK(std::isnan(unknown.wall));
}

// EN 1999-1-4 8.2, form of eq. 8.9 (the screws' text seen, the rivets' from memory): t is the
// thinner part, f_u the lesser. Worked by hand: d 4.8, t 1.0, f_u 220: 2.5 220 sqrt(1.0^3 4.8) =
// 1205 N; t 2.0 on a thick tube 1.5 220 2.0 4.8 = 3168 N.
TEST_CASE("the thinner of sheet and tube tears under a rivet, by the weaker metal", "[truth]") {
  const auto strength = [](double wall, const char* tube, double sheet_ultimate) {
    Frame f = textbook(shear_frame(0.6, 0.4, 300));
    f.materials.back().properties.ultimate = sheet_ultimate;
    f.sections.front().wall = wall;
    f.sections.front().material = tube;
    f.sheets.front().thickness = 2 * mm;
    f.sheets.front().rivet = rivets(4.8 * mm, 50 * mm);
    const PanelResult web = solved(f).cases.front().panels.front();
    return 1.5 * *web.rivet_load / *check_named(web, "rivet_bearing").utilisation * 1.25;
  };
  truth("blind rivet 4.8, sheet 2 on tube 5, f_u 220: bearing, N", bearing,
        strength(5 * mm, "S235", 220 * MPa), within_rel(3168.0, 1e-3));
  truth("blind rivet 4.8, sheet 2 on tube 1, f_u 220: bearing, N", bearing,
        strength(1 * mm, "S235", 220 * MPa), within_rel(1205.0, 1e-3));
  // Beyond 260 MPa nothing counts; of an alloy of 190 MPa (EN AW-5754-H111) no more than that.
  truth("blind rivet 4.8, sheet 2 on tube 1, f_u 400 counted as 260: bearing, N", bearing,
        strength(1 * mm, "S235", 400 * MPa), within_rel(1205.0 * 260 / 220, 1e-3));
  CHECK_THAT(strength(1 * mm, "EN AW-5754-H111", 400 * MPa), WithinRel(1205.0 * 190 / 220, 1e-3));
}

TEST_CASE("a check that cannot be made says why") {
  Frame f = shear_frame(0.6, 0.4, 100);
  f.materials.push_back({"unknown", {70e9, 26e9, 2700, NAN, NAN}, {}, Metal::aluminium, {}});
  f.sheets.front().material = "unknown";
  f.sheets.front().rivet = rivets(4 * mm, 40 * mm);
  f.sheets.front().bond = BondJoint{10 * mm, 0.3 * mm, 1000 * MPa, {}};
  const Analysis a = solved(f);
  const PanelResult& web = a.cases.front().panels.front();
  for (const char* name : {"yield", "rivet_bearing", "rivet_tear_out", "bond"}) {
    CHECK_FALSE(check_named(web, name).utilisation);
    CHECK_FALSE(check_named(web, name).reason.empty());
  }
  CHECK(check_named(web, "rivet_shear").utilisation);
}

TEST_CASE("rivets and bond share the flow as their stiffnesses", "[truth]") {
  Frame f = textbook(shear_frame(0.6, 0.4, 600));  // 1 N/mm
  f.sheets.front().rivet = rivets(4.8 * mm, 50 * mm, 10e6);
  f.sheets.front().bond = BondJoint{20 * mm, 2.0 * mm, 50 * MPa, 10 * MPa};
  const PanelResult web = solved(f).cases.front().panels.front();
  // Two-component polyurethane as in the table of bonds: 453 N/mm2 against 200 of the rivets; peak
  // stress 0.55 MPa at 10 N/mm (derived, by finite differences too).
  truth("rivets at 50 mm beside polyurethane, 1 N/mm: load of a rivet, N", bond, *web.rivet_load,
        within_rel(50.0 * 200 / 653, 2e-3));
  truth("rivets at 50 mm beside polyurethane, 1 N/mm: peak in the bond, Pa", bond, *web.bond_peak,
        within_rel(0.055 * MPa * 453 / 653, 1e-2));
  CHECK_THAT(*web.bond_mean, WithinRel(1000.0 * 453 / 653 / (20 * mm), 2e-3));
}

namespace {

/// The panels of a floor of three by three bays with given flows q0, flat or pulling.
struct Floor {
  Frame frame = floor_grid(3, 3);
  NumberedFrame numbered;
  StaticSolution solution;
  std::vector<SheetStage> stages{9};

  explicit Floor(std::optional<BondJoint> glue = {}) {
    frame.sheets.front().bond = glue;
    for (int j = 0; j < 4; ++j)
      frame.supports.push_back(
          {"n0_" + std::to_string(j), {true, true, true, true, true, true}, {}, {}});
    add_case(frame, "push").forces.push_back({"n3_0", {0, 100, 0}, {}});
    numbered = build_model(frame);
    solution = solved(frame).cases.front().solution;
    solution.panel_flows.assign(9, 0);
  }

  PanelResult result(size_t panel) const {
    return panel_result(frame, numbered, panel, panel_facts(frame, numbered, panel), stages,
                        solution, 1);
  }
};

}  // namespace

TEST_CASE("inner rivets take the difference of the flows beside them, rim rivets all of it") {
  Floor f;
  f.solution.panel_flows.assign(9, 3000);
  const double pitch = f.frame.sheets.front().rivet->pitch;
  CHECK(*f.result(4).rivet_load < 1e-9);  // the middle one
  for (const size_t rim : {0, 1, 3, 8}) {
    CHECK_THAT(*f.result(rim).rivet_load, WithinRel(3000 * pitch, 1e-9));
  }
  CHECK_THAT(f.result(4).flow, WithinRel(3000.0, 1e-9));  // the sheet carries it all the same
  f.solution.panel_flows[5] = 1000;
  CHECK_THAT(*f.result(4).rivet_load, WithinRel(2000 * pitch, 1e-9));
  f.solution.panel_flows[5] = -1000;
  CHECK_THAT(*f.result(4).rivet_load, WithinRel(4000 * pitch, 1e-9));

  // As two sheets, cut between the middle panel and its right neighbour.
  Sheet other = f.frame.sheets.front();
  other.name = "other";
  f.frame.sheets.push_back(other);
  for (const size_t p : {2, 5, 8}) f.frame.panels[p].sheet = "other";
  f.numbered = build_model(f.frame);
  CHECK_THAT(*f.result(4).rivet_load, WithinRel(3000 * pitch, 1e-9));
}

TEST_CASE("the load of a row is never less than what flows along and pulls across come to") {
  PanelRow rim;
  rim.flow = -1;
  // NACA TN 2661: q (1 + 0.414 k), between q and sqrt(2) q.
  for (const double k : {0.0, 0.182, 0.6, 1.0}) {
    CHECK_THAT(row_load(rim, 6000, k * 6000, 0, 0).net,
               WithinRel(6000 * (1 + (std::sqrt(2.0) - 1) * k), 1e-12));
    CHECK(row_load(rim, 6000, k * 6000, 0, 0).through == 0);
  }
  PanelRow inner = rim;
  inner.other = 1;
  inner.other_flow = 1;
  for (const double other : {-7000.0, -500.0, 2000.0, 6000.0, 9000.0}) {
    for (const double pull : {0.0, 800.0, 5000.0}) {
      const RowLoad load = row_load(inner, 6000, 1000, other, pull);
      CHECK(load.net >= std::hypot(6000 - other, 1000 - pull) * (1 - 1e-12));
      CHECK(load.net <= 1.09 * std::hypot(6000 - other, 1000 - pull) + 1e-9);
      CHECK(load.through >= std::hypot(6000 + other, 1000 + pull) / 2 * (1 - 1e-12));
    }
  }
  CHECK(row_load(inner, 6000, 1000, 6000, 1000).net == 0);
}

TEST_CASE("a bond under a continuous sheet is worked by flow that only passes through") {
  // lambda tanh(lambda w/2) q, and with no flow beyond lambda coth(lambda w) q as at a rim (shear
  // lag, derived; strips of adhesive in sheet_joint_test.cpp).
  const BondJoint glue{15 * mm, 0.3 * mm, 500 * MPa, {}};
  Floor f(glue);
  f.frame.sheets.front().rivet.reset();
  f.numbered = build_model(f.frame);
  const Material& m = find_material(f.frame, f.frame.sheets.front().material)->properties;
  const double lambda =
      std::sqrt(glue.shear_modulus / (glue.thickness * m.G * f.frame.sheets.front().thickness));
  f.solution.panel_flows.assign(9, 3000);
  CHECK_THAT(*f.result(4).bond_peak,
             WithinRel(3000 * lambda * std::tanh(lambda * glue.width / 2), 1e-9));
  CHECK(*f.result(4).bond_mean < 1e-6);
  CHECK_THAT(*f.result(0).bond_peak,
             WithinRel(3000 * lambda / std::tanh(lambda * glue.width), 1e-9));
  f.solution.panel_flows.assign(9, 0);
  f.solution.panel_flows[4] = 3000;
  CHECK_THAT(*f.result(4).bond_peak,
             WithinRel(3000 * lambda / std::tanh(lambda * glue.width), 1e-9));
  CHECK_THAT(*f.result(4).bond_mean, WithinRel(3000 / glue.width, 1e-9));
}

}  // namespace tubewright::panel_result_test
