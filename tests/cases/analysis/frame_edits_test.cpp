// Frames changed for comparison: what each change is in masses, geometry and closed forms.
#include "cases/analysis/frame_edits.h"

#include <cmath>

#include "cases/model/build_model.h"
#include "cases/model/case_actions.h"
#include "cases/model/mass_summary.h"
#include "cases/model/sheet_joint_stiffness.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::frame_edits_test {

using namespace tubewright::testing;

namespace {

MassSummary mass_of(const Frame& f) { return mass_summary(f, build_model(f)); }

double tip_deflection(const Frame& f) {
  const NumberedFrame n = build_model(f);
  const StaticResult r = solve_statics(n.model, {case_actions(f, n, f.cases.front())});
  return r->front().displacements[6 + 2];
}

/// An arm of 0.8 m, fixed at its root, with 100 N down at its tip.
Frame arm() {
  Frame f = empty_frame();
  f.sections.front().shear = false;
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 0.8, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"tip", {0, 0, -100}, {}});
  return f;
}

}  // namespace

TEST_CASE("a frame without its panels is the same frame otherwise and lighter by them") {
  const Frame f = clad_box(), bare = without_panels(f);
  CHECK(bare.panels.empty());
  CHECK(bare.members.size() == f.members.size());
  // Three bays of 0.5 m by 0.5 m, 1.2 mm of aluminium at 2.6 to 2.8 g/cm3.
  CHECK_THAT(panels_mass(f), WithinRel(0.75 * 0.0012 * 2700, 0.04));
  CHECK_THAT(mass_of(f).total - mass_of(bare).total, WithinRel(panels_mass(f), 1e-9));
  CHECK(panels_mass(bare) == 0);
}

TEST_CASE("rivets of unknown stiffness take the ends of their band, known ones stay") {
  Frame f = clad_box();  // 4.0 mm
  CHECK(rivets_are_guessed(f));
  const Frame low = with_rivets(f, RivetBand::low), high = with_rivets(f, RivetBand::high);
  CHECK(*low.sheets[0].rivet->stiffness == blind_rivet_stiffness(0.004).low);
  CHECK(*high.sheets[0].rivet->stiffness == blind_rivet_stiffness(0.004).high);
  CHECK(*low.sheets[0].rivet->stiffness < *high.sheets[0].rivet->stiffness);
  CHECK_FALSE(rivets_are_guessed(low));
  f.sheets[0].rivet->stiffness = 1e6;
  CHECK(*with_rivets(f, RivetBand::high).sheets[0].rivet->stiffness == 1e6);
  f.sheets[0].rivet.reset();
  CHECK_FALSE(rivets_are_guessed(f));
  CHECK_FALSE(with_rivets(f, RivetBand::high).sheets[0].rivet);
  Frame spare = open_box();  // a sheet that no panel is made of
  add_sheet(spare, "spare").rivet = rivets(0.004, 0.04);
  CHECK_FALSE(rivets_are_guessed(spare));
}

TEST_CASE(
    "a diagonal runs from corner to corner, weighs its panel and is a tube that can be made") {
  Frame f = clad_box();
  for (const auto& [second, thickness] : {std::pair{false, 0.0012}, {true, 0.0012}, {true, 2e-4}}) {
    f.sheets.front().thickness = thickness;
    const DiagonalFrame d = with_diagonals(f, second);
    CHECK(d.frame.panels.empty());
    REQUIRE(d.frame.members.size() == f.members.size() + 3);
    REQUIRE(d.sizes.size() == 3);
    for (size_t p = 0; p < 3; ++p) {
      const Member& m = d.frame.members[f.members.size() + p];
      CHECK(m.from == f.panels[p].corners[second ? 1 : 0]);
      CHECK(m.to == f.panels[p].corners[second ? 3 : 2]);
      const SectionEntry& s = d.frame.sections[f.sections.size() + p];
      CHECK(m.section == s.name);
      CHECK(s.wall <= f.sections[0].wall);
      CHECK(s.height >= 10 * s.wall * (1 - 1e-9));
      // Sharp corners: 4 t (h - t); the diagonal of a bay of 0.5 m by 0.5 m.
      const double area = 4 * s.wall * (s.height - s.wall);
      CHECK_THAT(area * std::sqrt(0.5) * 7850, WithinRel(panels_mass(f) / 3, 1e-9));
    }
  }
}

TEST_CASE("thicker tubes take the panels' mass in proportion to their own and stay as large") {
  const Frame f = clad_box();
  const ThickerFrame t = with_thicker_tubes(f);
  REQUIRE(t.sizes.size() == 1);
  const NumberedFrame n = build_model(f);
  double before = 0;
  int changed = 0;
  for (size_t m = 0; m < f.members.size(); ++m) {
    if (t.frame.members[m].section == f.members[m].section) continue;
    ++changed;
    before += mass_per_length(f, f.members[m]) * member_length(n, f.members[m]);
  }
  CHECK(changed == 10);  // four cross tubes and six rails of the underside
  for (size_t m = 0; m < f.members.size(); ++m) {
    const double ratio =
        mass_per_length(t.frame, t.frame.members[m]) / mass_per_length(f, f.members[m]);
    const bool same = t.frame.members[m].section == f.members[m].section;
    CHECK_THAT(ratio, WithinRel(same ? 1 : 1 + panels_mass(f) / before, 1e-6));
  }
  CHECK(t.frame.sections.back().height == f.sections[0].height);
  CHECK(t.frame.sections.back().wall > f.sections[0].wall);
}

TEST_CASE("sheets, rivets and bonds are changed alone and by what is asked") {
  const Frame f = clad_box();
  const Frame as_asked = with_sheets(f, 0.002, 0.025);
  CHECK(as_asked.sheets[0].thickness == 0.002);
  CHECK(as_asked.sheets[0].rivet->pitch == 0.025);
  const Frame as_is = with_sheets(f, std::nullopt, std::nullopt);
  CHECK(as_is.sheets[0].thickness == f.sheets[0].thickness);
  CHECK(as_is.sheets[0].rivet->pitch == f.sheets[0].rivet->pitch);
  const Frame scaled = with_sheets_times(f, 1.5, 0.5);
  CHECK_THAT(panels_mass(scaled), WithinRel(1.5 * panels_mass(f), 1e-9));
  CHECK_THAT(scaled.sheets[0].rivet->pitch, WithinRel(0.020, 1e-12));
  const Frame glued = with_epoxy(f);
  const Material soft_sheet = {70e9, 1e15, 0, 0, 0};  // so stiff in shear that the bond alone gives
  // A bond so short gives evenly: G w/t = 1000 MPa x 20/0.3 a metre.
  CHECK_THAT(joint_stiffness(glued.sheets[0], soft_sheet).bond, WithinRel(1e9 * 20 / 0.3, 1e-3));
  CHECK(glued.sheets[0].rivet->pitch == f.sheets[0].rivet->pitch);
}

TEST_CASE("thinner walls keep the outer size, and properties that are given shrink alike") {
  Frame f = arm();
  f.sections[0].corners = Corners::sharp;
  CHECK(has_walls(f));
  const Frame thin = with_walls(f, 0.9);
  CHECK(thin.sections[0].height == 0.025);
  // Sharp-cornered square: I = (h^4 - (h - 2 t)^4)/12.
  const auto I = [](double wall) {
    return (std::pow(0.025, 4) - std::pow(0.025 - 2 * wall, 4)) / 12;
  };
  CHECK_THAT(tip_deflection(thin) / tip_deflection(f), WithinRel(I(0.002) / I(0.0018), 1e-9));
  f.sections[0].shape = Shape::properties;
  f.sections[0].wall = 0;
  f.sections[0].given = {2e-4, 2e-8, 3e-8, 4e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, 1e-4, {}};
  CHECK(has_walls(f));
  CHECK_THAT(tip_deflection(with_walls(f, 0.9)) / tip_deflection(f), WithinRel(1 / 0.9, 1e-9));
  CHECK(with_walls(f, 0.9).sections[0].given.Ay == rigid);
  CHECK_THAT(with_walls(f, 0.9).sections[0].given.Az, WithinRel(0.9e-4, 1e-12));
  f.sections[0].shape = Shape::round_bar;
  CHECK_FALSE(has_walls(f));
}

TEST_CASE("heavier loads are carried masses and their inertia, nothing else") {
  Frame f = box_vehicle();
  f.masses.front().inertia = {1, 2, 3};
  const Frame heavy = with_masses(f, 1.2);
  CHECK_THAT(mass_of(heavy).carried, WithinRel(1.2 * 70, 1e-12));
  CHECK(mass_of(heavy).tubes == mass_of(f).tubes);
  CHECK((heavy.masses[0].inertia - Eigen::Vector3d(1.2, 2.4, 3.6)).norm() < 1e-12);
}

}  // namespace tubewright::frame_edits_test
