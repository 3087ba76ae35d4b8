#include "cases/studies/torsion.h"

#include <cmath>
#include <numbers>
#include <numeric>

#include "cases/analysis/frame_edits.h"
#include "solver/statics/strain_energy.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::torsion_tests {

using namespace tubewright::testing;

namespace {

constexpr Source saint_venant = rederived("St Venant: G I_t/L");

Torsion tested(const Frame& frame, TorsionHold hold = TorsionHold::free) {
  return answer_of(torsion_test(frame, hold));
}

/// A single tube of length L between two very stiff cross tubes.
Frame spine(double L) {
  Frame f = empty_frame();
  SectionEntry stiff = f.sections.front();
  stiff.name = "stiff";
  stiff.height = stiff.width = 0.4;
  stiff.wall = 0.05;
  f.sections.push_back(stiff);
  add_node(f, "fl", 0, 0.3, 0);
  add_node(f, "f", 0, 0, 0);
  add_node(f, "fr", 0, -0.3, 0);
  add_node(f, "rl", -L, 0.2, 0);
  add_node(f, "r", -L, 0, 0);
  add_node(f, "rr", -L, -0.2, 0);
  for (const auto& [from, to] : {std::pair{"fl", "f"}, {"f", "fr"}, {"rl", "r"}, {"r", "rr"}}) {
    add_member(f, std::string(from) + to, from, to).section = "stiff";
  }
  add_member(f, "spine", "r", "f");
  f.torsion = TorsionTest{{"fl", "fr"}, {"rl", "rr"}, 50, {}};
  return f;
}

double sum(const std::vector<double>& list) {
  return std::accumulate(list.begin(), list.end(), 0.0);
}

}  // namespace

TEST_CASE("a single tube between stiff cross tubes is as stiff as G It / L, held either way",
          "[truth]") {
  // St Venant; the cross tubes add a little: under one per cent with sections this large.
  const Frame f = spine(1.5);
  const NumberedFrame n = build_model(f);
  const double expected = n.model.materials[0].G * n.model.sections[0].It / 1.5;
  for (const TorsionHold hold : {TorsionHold::free, TorsionHold::clamped}) {
    const Torsion t = tested(f, hold);
    truth(named("single tube, ", hold == TorsionHold::free ? "free to warp" : "clamped",
                ": stiffness, N m/rad"),
          saint_venant, t.stiffness, within_rel(expected, 0.01));
    CHECK_THAT(t.twist, WithinRel(t.couple / t.stiffness, 1e-12));
  }
}

TEST_CASE("the couple and the strain energy of the torsion test agree") {
  for (const Frame& f : {open_box(), clad_box(), spine(1)}) {
    const Torsion t = tested(f);
    CHECK_THAT(sum(t.member_share) + sum(t.panel_share), WithinRel(1.0, 1e-12));
    double bays = 0;
    for (const TwistBay& bay : t.bays) bays += bay.energy_share;
    CHECK(bays <= 1 + 1e-9);
    // Clapeyron: half couple times twist.
    const StrainEnergy energy = strain_energy(build_model(f).model, t.solution);
    CHECK_THAT(energy.total(), WithinRel(t.couple * t.twist / 2, 1e-9));
  }
}

TEST_CASE(
    "stiffness does not depend on the couple, nor on supports, nor on where the frame stands") {
  Frame f = clad_box();
  const double K = tested(f).stiffness;
  f.torsion->couple = 1;
  CHECK_THAT(tested(f).stiffness, WithinRel(K, 1e-9));
  f.supports.push_back({"h2_l", {true, true, true, true, true, true}, {}, {}});
  CHECK_THAT(tested(f).stiffness, WithinRel(K, 1e-9));
  for (Node& node : f.nodes) node.at += Eigen::Vector3d(3, -2, 1);
  CHECK_THAT(tested(f).stiffness, WithinRel(K, 1e-9));
}

TEST_CASE("the profile starts at nothing, ends at the whole twist and never turns back in a box") {
  const Torsion t = tested(clad_box());
  REQUIRE(t.profile.size() == 4);
  CHECK(t.profile.front().twist == 0);
  CHECK_THAT(t.profile.back().twist, WithinRel(t.twist, 1e-12));
  for (size_t i = 1; i < t.profile.size(); ++i) CHECK(t.profile[i].twist > t.profile[i - 1].twist);
  double along = 0;
  for (const TwistBay& bay : t.bays) along += bay.twist;
  CHECK_THAT(along, WithinRel(t.twist, 1e-9));
}

TEST_CASE("the bay without its panel is the weakest") {
  for (int open = 0; open < 3; ++open) {
    Frame f = clad_box();
    f.panels.erase(f.panels.begin() + open);
    const Torsion t = tested(f);
    REQUIRE(t.weakest >= 0);
    const TwistBay& bay = t.bays[static_cast<size_t>(t.weakest)];
    CHECK_THAT(t.profile[static_cast<size_t>(bay.ahead)].x, WithinAbs(-0.5 * open, 1e-9));
  }
}

TEST_CASE("clamping is never softer than letting the frame warp") {
  for (const Frame& f : {open_box(), clad_box(), clad_ladder(), spine(1)}) {
    CHECK(tested(f, TorsionHold::clamped).stiffness >= tested(f).stiffness * (1 - 1e-9));
  }
}

TEST_CASE("a sheet closes the open face of a braced box many-fold, and does nothing on a ladder") {
  const double open = tested(open_box()).stiffness, clad = tested(clad_box()).stiffness;
  CHECK(clad > 5 * open);
  Frame ladder = clad_ladder();
  const double bare = tested(without_panels(ladder)).stiffness;
  CHECK_THAT(tested(ladder).stiffness, WithinRel(bare, 0.02));
  ladder.sheets.front().offset = 0;
  CHECK_THAT(tested(ladder).stiffness, WithinRel(bare, 1e-9));
}

TEST_CASE("the first sheet to buckle is told with its couple") {
  Frame f = clad_box();
  const Torsion t = tested(f);
  REQUIRE(t.buckling_couple);
  REQUIRE(t.first_to_buckle >= 0);
  f.sheets.front().thickness *= 2;
  f.sheets.front().rivet.reset();
  Frame thin = f;
  thin.sheets.front().thickness /= 2;
  // Critical flow goes with the cube of the thickness where the flow is the same.
  CHECK_THAT(*tested(f).buckling_couple / *tested(thin).buckling_couple, WithinRel(8.0, 0.1));
}

TEST_CASE("beyond the first buckling the secant stiffness lies below that of flat sheets") {
  Frame f = clad_box();
  const double couple = *tested(f).buckling_couple;
  f.torsion->couple = 0.99 * couple;
  CHECK_FALSE(tested(f).secant_stiffness);
  double before = tested(f).stiffness;
  for (const double times : {1.5, 3.0, 10.0}) {
    f.torsion->couple = times * couple;
    const Torsion t = tested(f);
    REQUIRE(t.secant_stiffness);
    CHECK(*t.secant_stiffness < before);
    before = *t.secant_stiffness;
  }
  // A sheet never loses more than the complete tension field takes: (1 + nu)/2 is left.
  CHECK(before > 0.6 * tested(f).stiffness);
}

TEST_CASE("a frame without a torsion test is told which nodes would do") {
  Frame f = open_box();
  f.torsion.reset();
  const Diagnostics diagnostics = no_torsion_test(f);
  REQUIRE(diagnostics.size() == 1);
  CHECK_THAT(diagnostics.front().advice,
             ContainsSubstring("front: [l1_l, l1_r], rear: [l4_l, l4_r]"));
}

TEST_CASE("what is hinged to the frame is no part of the frame proper") {
  Frame f = spine(1);
  add_node(f, "arm", -0.5, 0.5, 0);
  Member& hinged = add_member(f, "arm", "rl", "arm");
  hinged.release_from = {rigid, rigid, rigid, rigid, 0, rigid};
  const NumberedFrame n = build_model(f);
  const std::vector<bool> body = welded_body(f, n, {n.node.at("fl")});
  CHECK(body[static_cast<size_t>(n.node.at("rr"))]);
  CHECK_FALSE(body[static_cast<size_t>(n.node.at("arm"))]);
}

}  // namespace tubewright::torsion_tests
