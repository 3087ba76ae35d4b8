// The checks of a gusset by hand, and in a solved frame.
#include "cases/attachment_checks/gusset_check.h"

#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/attachment_checks/plate_on_face.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/truth.h"

namespace tubewright::gusset_check_test {

using testing::expanded;
using testing::gusset_frame;

namespace {

constexpr Source by_hand = rederived("by hand");
constexpr double MPa = 1e6;

Analysis solved(const Frame& f) {
  Result<Analysis> outcome = analyse(f);
  if (const auto* diagnostics = outcome.error()) FAIL(testing::text_of(*diagnostics));
  return std::move(*outcome.get());
}

/// A force across the end of the arm: opens or closes the corner.
Frame pushed(double force) {
  Frame f = gusset_frame({});
  Case c;
  c.name = "push";
  c.forces.push_back({"A", {0, 0, force}, {}});
  f.cases.push_back(c);
  return f;
}

CheckResult check_of(const GussetResult& g, const std::string& name) {
  for (const NamedCheck& c : g.checks) {
    if (c.name == name) return c.result;
  }
  FAIL("no check " + name);
  return {};
}

}  // namespace

TEST_CASE("the plate between a corner and its free edge by Navier", "[truth]") {
  // Legs 60 of 4 mm: h = 42.426 mm; bar 80 to 80 on the axes, its corner 42.426 - 14.142 = 28.284
  // mm off, e = 7.071 mm from the middle: 1000/(42.426 x 4) (1 + 6 x 7.071/42.426) = 11.785 MPa.
  const Frame f = expanded(gusset_frame({}));
  truth("stress of a gusset 60 x 60 x 4 under 1 kN, MPa", by_hand,
        gusset_stress(gusset_plate(f, f.gussets[0]), 0.004, 1000) / MPa, within_rel(11.7851, 1e-5));
}

TEST_CASE("faces and welds of a gusset take the force in its bar by its angles", "[truth]") {
  const Analysis a = solved(expanded(pushed(-500)));
  const GussetResult& g = a.cases[0].gussets[0];
  const double S = std::abs(g.force) * a.cases[0].safety_factor;
  REQUIRE(S > 100);
  const double N = S * std::sqrt(0.5), M = N * 0.010;  // crosses the face 20 mm before its end
  PlatedTube tube;
  tube.b0 = tube.h0 = 0.040;
  tube.t0 = 0.003;
  tube.fy = 235 * MPa;
  const FacePlate plate{0.004, 0.060, 235 * MPa};
  // With no stress in the tube: what the tube carries only adds.
  const double bare = *along_plate_check(tube, plate, N, M).utilisation;
  CHECK(*check_of(g, "face").utilisation >= bare - 1e-9);
  CHECK(*check_of(g, "face").utilisation < 1.5 * bare);
  // Two lines of 60 mm less two throats of 0.7 x 3 mm (4.5.1): N, V, 6 M/l^2 shared by both.
  const double l = 0.060 - 2 * 0.0021;
  const double across = N / (2 * l) + 6 * M / (2 * l * l), along = N / (2 * l);
  const double limit = 360 * MPa / (std::sqrt(3) * 0.8 * 1.25) * 0.0021;
  truth("utilisation of its weld", by_hand, *check_of(g, "weld").utilisation,
        within_rel(std::hypot(across, along) / limit, 1e-6));
}

TEST_CASE("only a pressed free edge is held against its proportion", "[truth]") {
  const Analysis down = solved(expanded(pushed(-500))), up = solved(expanded(pushed(500)));
  const GussetResult &a = down.cases[0].gussets[0], &b = up.cases[0].gussets[0];
  CHECK_THAT(a.force, WithinRel(-b.force, 1e-9));
  const GussetResult& pressed = a.force < 0 ? a : b;
  const GussetResult& pulled = a.force < 0 ? b : a;
  // 84.853/4 over 2 sqrt(210 000/235) = 59.786 (reference 4.3: 59.8).
  truth("slenderness of the free edge of 60 x 60 x 4 over 2 sqrt(E/f_y)",
        from_memory("free edges of gussets, L_e/t <= 2 sqrt(E/f_y)"),
        *check_of(pressed, "free_edge").utilisation, within_rel(21.2132 / 59.786, 1e-4));
  CHECK(check_of(pressed, "free_edge").comparison);
  CHECK_FALSE(check_of(pulled, "free_edge").needed);
}

TEST_CASE("a gusset takes load off the corner of its tubes") {
  Frame without = pushed(-500);
  without.gussets.clear();
  const Analysis bare = solved(without), with = solved(expanded(pushed(-500)));
  const auto at_corner = [](const Analysis& a) { return std::abs(a.cases[0].members[0].from[4]); };
  CHECK(at_corner(with) < 0.6 * at_corner(bare));
  CHECK(with.cases[0].deflection < bare.cases[0].deflection);
  CHECK(with.cases[0].pick_ups.empty());  // its bar is no link
}

TEST_CASE("what has no rule has no number, and says why") {
  Frame f = pushed(-500);
  f.gussets[0].material = "EN AW-6082-T6";
  const Analysis a = solved(expanded(f));
  REQUIRE(a.cases[0].gussets[0].checks.size() == 1);
  CHECK(a.cases[0].gussets[0].checks[0].result.reason == "the rules are of steel");
  CHECK(nearest_limit(a.cases[0].gussets[0].checks) == nullptr);
}

TEST_CASE("plates at the sides stand on the walls beside") {
  Frame f = pushed(-500);
  f.gussets[0].at_sides = true;
  const Analysis a = solved(expanded(f));
  CHECK_THAT(check_of(a.cases[0].gussets[0], "face").reason,
             ContainsSubstring("plates at the sides"));
}

}  // namespace tubewright::gusset_check_test
