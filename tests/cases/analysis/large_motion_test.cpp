#include "cases/analysis/large_motion.h"

#include <cmath>

#include "cases/analysis/analysis.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::large_motion_test {

using namespace tubewright::testing;

namespace {

constexpr Source mattiasson = from_memory("K. Mattiasson, IJNME 17 (1981) 145-153 (recomputed)");
constexpr Source truss = rederived("shallow two-bar truss: 2 E A h3/(3 sqrt 3 L3)");

AnalysisOptions large() { return {false, true, {}}; }

/// A flat strap 2 m long and 3 mm thick, fixed at one end, that P at its tip bends by P L^2/(E I) =
/// `k`.
Frame strap(double k) {
  Frame f = empty_frame();
  SectionEntry& s = f.sections.front();
  s.shape = Shape::flat_bar;
  s.height = 0.003;
  s.width = 0.030;
  s.wall = 0;
  s.shear = false;
  MaterialEntry spring;
  spring.name = "spring steel";
  spring.properties = {210e9, 81e9, 7850, 1200e6, 1400e6};
  f.materials.push_back(spring);
  s.material = "spring steel";
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 2, 0, 0);
  add_member(f, "strap", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  const double EI = 210e9 * build_model(f).model.sections[0].Iy;
  add_case(f, "load").forces.push_back({"tip", {0, 0, -k * EI / 4}, {}});
  f.limits.yield_factor = 1;
  return f;
}

CaseResult solved(const Frame& f, const AnalysisOptions& options = large()) {
  return answer_of(analyse(f, {}, options)).cases.front();
}

}  // namespace

TEST_CASE("a strap that bends far follows the elastica, not the straight line", "[truth]") {
  // K. Mattiasson, IJNME 17 (1981) 145-153 (MEMORY, recomputed): P L^2/(E I), u/L, w/L, turn.
  struct Row {
    double k, u, w, turn;
  };
  for (const Row& row : {Row{1, 0.05643, 0.30172, 0.46135}, Row{3, 0.25442, 0.60325, 0.98602},
                         Row{10, 0.55500, 0.81061, 1.43029}}) {
    const CaseResult r = solved(strap(row.k));
    REQUIRE(r.large);
    CHECK(r.large->reached == 1);
    const Eigen::VectorXd& u = r.solution.displacements;
    truth(named("strap of 2 m, P L2/EI = ", row.k, ": shortening, m"), mattiasson, -u[6],
          within_rel(2 * row.u, 5e-3));
    truth(named("strap of 2 m, P L2/EI = ", row.k, ": deflection, m"), mattiasson, -u[8],
          within_rel(2 * row.w, 3e-3));  // eight pieces
    truth(named("strap of 2 m, P L2/EI = ", row.k, ": slope, rad"), mattiasson, u[10],
          within_rel(row.turn, 3e-3));
    CHECK_THAT(r.solution.reactions[2], WithinRel(row.k * 210e9 * 0.03 * 2.7e-8 / 12 / 4, 1e-6));
  }
}

TEST_CASE("the moment at the root is the load times the arm that is left") {
  const Frame f = strap(3);
  const CaseResult r = solved(f);
  const double P = -f.cases[0].forces[0].value.z();
  CHECK_THAT(std::abs(r.members[0].from[4]), WithinRel(P * 2 * (1 - 0.25442), 2e-3));
}

TEST_CASE("checks are made under the loads times the reserve, numbers under the loads") {
  Frame f = strap(1);
  f.limits.yield_factor = 3;
  const CaseResult r = solved(f), raised = solved(strap(3));
  CHECK_THAT(*r.members[0].checks.yield.utilisation,
             WithinRel(*raised.members[0].checks.yield.utilisation, 1e-6));
  CHECK_THAT(r.solution.displacements[8], WithinRel(-2 * 0.30172, 2e-3));
}

TEST_CASE("where displacements are small nothing changes") {
  Frame f = braced_rectangle();
  f.supports.push_back({"A", {true, true, true, true, true, true}, {}, {}});
  f.supports.push_back({"D", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"C", {0, -0.1, -0.1}, {}});
  const CaseResult linear = solved(f, {}), far = solved(f);
  for (size_t m = 0; m < linear.members.size(); ++m) {
    CHECK_THAT(far.members[m].worst.stress.von_mises,
               WithinRel(linear.members[m].worst.stress.von_mises, 1e-3));
    CHECK_THAT(*far.members[m].checks.yield.utilisation,
               WithinRel(*linear.members[m].checks.yield.utilisation, 1e-3));
  }
}

TEST_CASE("a shallow toggle that snaps through fails and says at which load", "[truth]") {
  Frame f = empty_frame();
  f.sections.front().shape = Shape::round_bar;
  f.sections.front().height = f.sections.front().width = 0.010;
  f.sections.front().wall = 0;
  add_node(f, "left", -0.5, 0, 0);
  add_node(f, "apex", 0, 0, 0.05);
  add_node(f, "right", 0.5, 0, 0);
  add_member(f, "l", "left", "apex").kind = MemberKind::link;
  add_member(f, "r", "apex", "right").kind = MemberKind::link;
  for (const char* foot : {"left", "right"}) {
    f.supports.push_back({foot, {true, true, true}, {}, {}});
  }
  f.supports.push_back({"apex", {false, true, false}, {}, {}});
  // Two-bar truss (any text on stability; DERIVED): the load peaks at 2 E A h^3/(3 sqrt 3 L^3) for
  // a shallow one, h = 0.05, half span near L = 0.5.
  const double EA = 210e9 * build_model(f).model.sections[0].A;
  const double peak = 2 * EA * std::pow(0.05 / 0.5, 3) / (3 * std::sqrt(3.0));
  add_case(f, "load").forces.push_back({"apex", {0, 0, -1.2 * peak}, {}});
  f.limits.yield_factor = 1;
  const CaseResult r = solved(f);
  REQUIRE(r.large);
  truth("two-bar toggle loaded by 1.2 of its peak: share reached", truss, r.large->reached,
        within_rel(1 / 1.2, 0.03));
  REQUIRE(r.stops_short);
  CHECK(r.stops_short->how == PathStop::snaps_through);
  CHECK(r.worst->utilisation > 1);
}

namespace {

/// A mast 2.5 m high of S235 tube 25 x 25 x 2 under forces at its head; Euler load 1230 N.
Frame mast(double across, double down) {
  Frame f = empty_frame();
  SectionEntry& s = f.sections.front();
  s.shape = Shape::square_tube;
  s.height = s.width = 0.025;
  s.wall = 0.002;
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "head", 0, 0, 2.5);
  add_member(f, "mast", "foot", "head");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"head", {across, 0, -down}, {}});
  f.limits.yield_factor = 1;
  return f;
}

double euler_load(const Frame& f) {
  const NumberedFrame numbered = build_model(f);
  return M_PI * M_PI * numbered.model.materials[0].E * numbered.model.sections[0].Iy / 25;
}

}  // namespace

TEST_CASE("a mast fares no better with large displacements than without") {
  // Lengths fall back on none: nothing is crooked that is drawn straight.
  const double P = euler_load(mast(0, 1));
  for (const double load : {0.3, 0.6, 0.9, 0.99, 1.01, 1.63, 2.0, 5.0}) {
    for (const double across : {0.0, 1e-6, 1.0, 20.0}) {
      INFO(load << " times the Euler load, " << across << " N across");
      const Frame f = mast(across, load * P);
      const CaseResult plain = solved(f, {}), far = solved(f);
      CHECK(far.worst->utilisation > 0.999 * plain.worst->utilisation);
      if (load > 1) CHECK_FALSE(far.passes());
      if (far.stops_short) CHECK(far.worst->utilisation > 1);
    }
  }
}

TEST_CASE("a straight mast beyond its Euler load says at which share of it it buckles") {
  // Euler: pi^2 E I/(2 L)^2.
  const Frame f = mast(0, 2 * euler_load(mast(0, 1)));
  const Result<Analysis> outcome = analyse(f, {}, large());
  REQUIRE(outcome);
  const CaseResult& r = outcome->cases.front();
  REQUIRE(r.stops_short);
  CHECK(r.stops_short->how == PathStop::buckles);
  CHECK_FALSE(r.stops_short->design);
  CHECK_THAT(r.stops_short->share, WithinRel(0.5, 2e-3));
  CHECK_THAT(text_of(outcome->remarks), ContainsSubstring("loses its stability at 0.500 of its"));
}

TEST_CASE("loads that are stood under only without their safety factor are told as such") {
  Frame f = mast(0, 0.8 * euler_load(mast(0, 1)));
  f.limits.yield_factor = 2;
  const CaseResult r = solved(f);
  REQUIRE(r.stops_short);
  CHECK(r.stops_short->design);
  CHECK(r.large->reached == 1);
  CHECK_THAT(r.stops_short->share, WithinRel(1 / 1.6, 2e-3));
  CHECK_FALSE(r.passes());
}

TEST_CASE("sheets are refused, with the way out") {
  Frame f = shear_frame(0.6, 0.4, 100);
  const Result<Analysis> outcome = analyse(f, {}, large());
  REQUIRE(!outcome);
  CHECK_THAT(text_of(*outcome.error()), ContainsSubstring("--second-order"));
}

}  // namespace tubewright::large_motion_test
