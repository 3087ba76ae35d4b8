// The checks of EN 1993 as a solved frame calls them: which forces, which lengths, which ends.
#include "cases/checks/member_checks.h"

#include <cmath>
#include <numbers>

#include "cases/analysis/analysis.h"
#include "cases/bends/expand_bends.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::member_checks_test {

using namespace tubewright::testing;

namespace {

constexpr Source gere =
    from_memory("Timoshenko & Gere, Theory of Elastic Stability, ch. 2 (numbers derived)");
constexpr Source aisc =
    rederived("closed form of benchmark case 2 of ANSI/AISC 360-10 Commentary C2 (from memory)");
constexpr Source table_3_2b = seen_in("EN 1999-1-1 Table 3.2b: 6082-T6 250 MPa, 125 beside a weld");
constexpr Source rule_6_3_3_3 = from_memory("EN 1999-1-1 6.3.3.3, by hand");
constexpr Source weaker =
    from_memory("EN 1993-1-8 4.5.3.2: f_u/(beta_w gamma_M2) of the weaker part");

constexpr double pi = std::numbers::pi;

SupportEntry held(const std::string& node, std::array<bool, 6> directions) {
  SupportEntry s;
  s.node = node;
  s.restrained = directions;
  return s;
}

SupportEntry fixed(const std::string& node) {
  return held(node, {true, true, true, true, true, true});
}

CaseResult solved(const Frame& f, const AnalysisOptions& options = {}) {
  return answer_of(analyse(f, {}, options)).cases.front();
}

/// A column along z of `length`, free at its head, under a load downward and one to the side.
Frame mast(double length, double down, double aside) {
  Frame f = empty_frame();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "head", 0, 0, length);
  add_member(f, "mast", "foot", "head");
  f.supports.push_back(fixed("foot"));
  add_case(f, "load").forces.push_back({"head", {aside, 0, -down}, {}});
  f.limits.yield_factor = 1;
  return f;
}

/// chi by EN 1993-1-1 6.3.1 with curve c, written out.
double chi_c(double lambda_bar) {
  const double Phi = 0.5 * (1 + 0.49 * (lambda_bar - 0.2) + lambda_bar * lambda_bar);
  return 1 / (Phi + std::sqrt(Phi * Phi - lambda_bar * lambda_bar));
}

/// Without moments n = N/(chi A f_y) is the whole check.
double column_utilisation(const Section& s, double N, double length) {
  const double fy = 235e6;
  const double lambda_bar = std::sqrt(s.A * fy * length * length / (pi * pi * 210e9 * s.Iy));
  return N / (chi_c(lambda_bar) * s.A * fy);
}

/// Fixed or pinned portal, columns and beam 1 m long of the same tube, `P` down on each column.
Frame portal(bool fixed_feet, double P) {
  Frame f = empty_frame();
  add_node(f, "foot_l", 0, 0, 0);
  add_node(f, "foot_r", 1, 0, 0);
  add_node(f, "head_l", 0, 0, 1);
  add_node(f, "head_r", 1, 0, 1);
  add_member(f, "left", "foot_l", "head_l");
  add_member(f, "right", "foot_r", "head_r");
  add_member(f, "beam", "head_l", "head_r");
  f.sections.front().shear = false;
  for (const char* foot : {"foot_l", "foot_r"}) {
    f.supports.push_back(held(foot, {true, true, true, true, fixed_feet, true}));
  }
  for (const char* head : {"head_l", "head_r"}) {
    f.supports.push_back(held(head, {false, true, false, true, false, true}));
  }
  Case& c = add_case(f, "load");
  for (const char* head : {"head_l", "head_r"}) c.forces.push_back({head, {0, 0, -P}, {}});
  f.limits.yield_factor = 1;
  return f;
}

Section tube() {
  const Frame f = mast(1, 1, 0);
  return build_model(f).model.sections.front();
}

}  // namespace

TEST_CASE("a strut between pins is checked as a column of its own length") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0, 0, 1);
  add_member(f, "strut", "A", "B").kind = MemberKind::link;
  f.supports.push_back(held("A", {true, true, true}));
  f.supports.push_back(held("B", {true, true, false}));
  add_case(f, "push").forces.push_back({"B", {0, 0, -5000}, {}});
  const MemberChecks c = solved(f).members[0].checks;
  CHECK_THAT(*c.buckling.utilisation, WithinRel(column_utilisation(tube(), 1.5 * 5000, 1), 1e-9));
  CHECK_THAT(*c.section.utilisation, WithinRel(1.5 * 5000 / (tube().A * 235e6), 1e-9));
  CHECK(c.section_class == 1);
  CHECK_FALSE(c.weld.utilisation);

  f.cases.front().forces.front().value.z() = 5000;
  const MemberChecks pulled = solved(f).members[0].checks;
  CHECK_FALSE(pulled.buckling.utilisation);
  CHECK_FALSE(pulled.buckling.needed);
}

TEST_CASE("a case's own factor, or none for a rare one, multiplies its loads") {
  Frame f = mast(0.1, 1000, 0);
  f.limits.yield_factor = 1.5;
  const double usual = *solved(f).members[0].checks.section.utilisation;
  f.cases.front().rare = true;
  CHECK_THAT(*solved(f).members[0].checks.section.utilisation, WithinRel(usual / 1.5, 1e-9));
  f.cases.front().yield_factor = 2.25;
  CHECK_THAT(*solved(f).members[0].checks.section.utilisation, WithinRel(usual * 1.5, 1e-9));
}

TEST_CASE("a mast that nothing holds at its head counts twice its length", "[truth]") {
  // Timoshenko & Gere, Theory of Elastic Stability, 2.1 (MEMORY): P_cr = pi^2 E I/(2 L)^2.
  const double P = 3000;
  const CaseResult r = solved(mast(1, P, 0));
  REQUIRE(r.sway_factor);
  const double critical = pi * pi * 210e9 * tube().Iy / 4;
  truth("mast free at its head: factor to buckling, pi2 E I/(2 L)2 over the load", gere,
        *r.sway_factor, within_rel(critical / P, 0.01));
  CHECK_THAT(*r.members[0].checks.buckling.utilisation,
             WithinRel(column_utilisation(tube(), P, 2), 0.01));
}

TEST_CASE("columns of a swaying portal get the lengths of the textbook", "[truth]") {
  // u/tan u = -6 g and u tan u = 6 g with g = 1: K = 1.15650 and 2.32788 (Timoshenko & Gere ch. 2;
  // DERIVED numbers).
  for (const auto& [fixed_feet, K] : {std::pair{true, 1.15650}, {false, 2.32788}}) {
    const double P = 4000;
    const CaseResult r = solved(portal(fixed_feet, P));
    REQUIRE(r.sway_factor);
    for (const int column : {0, 1}) {
      truth(named("column of a portal with ", fixed_feet ? "fixed" : "pinned", " feet, K ", K,
                  ", column ", column, ": utilisation"),
            gere, *r.members[static_cast<size_t>(column)].checks.buckling.utilisation,
            within_rel(column_utilisation(tube(), P, K), 0.02));
    }
  }
}

TEST_CASE("a node that nothing braces does not shorten a column") {
  const double P = 5000;
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "M", 0, 0, 0.6);
  add_node(f, "B", 0, 0, 1.2);
  add_member(f, "lower", "A", "M");
  add_member(f, "upper", "M", "B");
  f.supports.push_back(held("A", {true, true, true, false, false, true}));
  f.supports.push_back(held("B", {true, true, false}));
  add_case(f, "push").forces.push_back({"B", {0, 0, -P}, {}});
  f.limits.yield_factor = 1;
  const CaseResult r = solved(f);
  for (const MemberResult& m : r.members) {
    CHECK_THAT(*m.checks.buckling.utilisation, WithinRel(column_utilisation(tube(), P, 1.2), 0.01));
  }
  // Braced there, each half is a column of its own.
  f.supports.push_back(held("M", {true, true, false}));
  CHECK_THAT(*solved(f).members[0].checks.buckling.utilisation,
             WithinRel(column_utilisation(tube(), P, 0.6), 1e-6));
}

TEST_CASE("a length that the file gives is used as it is") {
  Frame f = mast(1, 3000, 0);
  f.members[0].buckling_length = {0.7, 1.4};
  CHECK_THAT(*solved(f).members[0].checks.buckling.utilisation,
             WithinRel(column_utilisation(tube(), 3000, 1.4), 1e-9));
}

TEST_CASE("a frame loaded beyond what it can stand under fails, whatever its stresses") {
  const CaseResult r = solved(mast(1, 9000, 0));  // critical at 7.7 kN
  REQUIRE(r.sway_factor);
  CHECK(*r.sway_factor < 1);
  CHECK(*r.members[0].checks.yield.utilisation < 0.5);
  CHECK(r.worst->utilisation > 1);
}

TEST_CASE("second order: a leaning mast's foot takes H L tan a/a", "[truth]") {
  // ANSI/AISC 360-10 Commentary C2, benchmark case 2 (MEMORY; closed form DERIVED).
  const double P = 3000, H = 50, L = 1;
  Frame f = mast(L, P, H);
  f.sections.front().shear = false;
  const double a = std::sqrt(P * L * L / (210e9 * tube().Iy));
  const CaseResult first = solved(f), second = solved(f, {true});
  REQUIRE(second.second_order);
  CHECK(second.second_order->converged);
  CHECK_THAT(std::abs(first.members[0].from[4]), WithinRel(H * L, 1e-9));
  truth("leaning mast, second order: moment at the foot, N m", aisc,
        std::abs(second.members[0].from[4]), within_rel(H * L * std::tan(a) / a, 0.01));
  truth("leaning mast, second order: growth of the movement", aisc, second.second_order->growth,
        within_rel(3 * (std::tan(a) - a) / (a * a * a), 0.01));
  // The reserve belongs to the loads: at 1.5 times them the axial force is 1.5 times as large.
  f.limits.yield_factor = 1.5;
  const double b = a * std::sqrt(1.5);
  CHECK_THAT(std::abs(solved(f, {true}).members[0].from[4]),
             WithinRel(H * L * std::tan(b) / b, 0.01));
}

TEST_CASE("second order: no equilibrium is a failure, not a number") {
  const CaseResult r = solved(mast(1, 9000, 10), {true});
  REQUIRE(r.second_order);
  CHECK_FALSE(r.second_order->converged);
  CHECK(r.worst->utilisation > 1);
}

TEST_CASE("welds are where tubes end, not where one runs through or turns on a pin") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 1, 0, 0);
  for (int i = 1; i <= 2; ++i) {
    Member& piece =
        add_member(f, "rail." + std::to_string(i), i == 1 ? "A" : "B", i == 1 ? "B" : "C");
    piece.tube = "rail";
  }
  f.sections.front().wall = 0.004;  // where EN 1993-1-8 begins
  f.supports.push_back(fixed("A"));
  add_case(f, "load").forces.push_back({"C", {0, 0, -60}, {}});
  CaseResult r = solved(f);
  REQUIRE(r.members[0].checks.weld.utilisation);
  CHECK(r.members[0].checks.weld_end == 0);
  CHECK(*r.members[1].checks.weld.utilisation < 0.05 * *r.members[0].checks.weld.utilisation);
  // Directional method by hand, bending only: sigma_perp = tau_perp = M/W/sqrt(2), equivalent
  // sqrt(2) M/W <= f_u/(beta_w gamma_M2) = 360 MPa, EN 1993-1-8 4.5.3.2 (MEMORY).
  const MemberFacts facts = member_facts(f, build_model(f))[0];
  const WeldLine line = weld_line(facts.section.profile, 0.004, facts.ends[0].weld.corner_radius);
  const double bending = 1.5 * 60 * 1.0 * 0.0125 / line.I_wy, shear = 1.5 * 60 / line.A_vz;
  const double by_hand = std::sqrt(2 * bending * bending + 3 * shear * shear) / 360e6;
  CHECK_THAT(*r.members[0].checks.weld.utilisation, WithinRel(by_hand, 1e-6));

  // Twice the throat, half the stress.
  f.members[0].weld_throat = 0.008;
  CHECK_THAT(*solved(f).members[0].checks.weld.utilisation, WithinRel(by_hand / 2, 1e-6));
}

TEST_CASE("aluminium tubes are checked beside their welds, other metals for yield only") {
  Frame f = mast(1, 100, 50);
  f.sections.front().material = "EN AW-6082-T6";
  const MemberChecks c = solved(f).members[0].checks;
  REQUIRE(c.weld.utilisation);
  REQUIRE(c.section.utilisation);
  REQUIRE(c.buckling.utilisation);
  // f_o,haz = 125 of 250 MPa, and gamma_M1 = 1.1: at least 2.2 times the yield check's share.
  CHECK(*c.weld.utilisation > 2.1 * *c.yield.utilisation);

  MaterialEntry strange;
  strange.name = "bronze";
  strange.properties = {110e9, 41e9, 8800, 250e6, 400e6};
  strange.metal = Metal::other;
  f.materials.push_back(strange);
  f.sections.front().material = "bronze";
  const MemberChecks other = solved(f).members[0].checks;
  CHECK(other.yield.utilisation);
  CHECK_FALSE(other.buckling.utilisation);
  CHECK(other.buckling.needed);
}

TEST_CASE("aluminium whose strength beside welds is not known is not passed in silence") {
  Frame f = mast(1, 100, 50);
  f.sections.front().material = "EN AW-5754-H22";
  const MemberChecks c = solved(f).members[0].checks;
  CHECK_FALSE(c.weld.utilisation);
  CHECK_THAT(c.weld.reason, ContainsSubstring("heat_affected_yield"));
}

namespace {

/// A beam of 6082-T6 on two supports 1 m apart, one path through `B`, loaded in its middle by 1 kN.
Frame aluminium_chord(double at_B, bool with_brace) {
  Frame f = empty_frame();
  f.sections.front().material = "EN AW-6082-T6";
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", at_B, 0, 0);
  add_node(f, "C", 1, 0, 0);
  add_node(f, "D", at_B, 0, 0.3);
  add_member(f, "chord.1", "A", "B").tube = "chord";
  add_member(f, "chord.2", "B", "C").tube = "chord";
  if (with_brace) add_member(f, "brace", "B", "D");
  f.supports.push_back(held("A", {true, true, true, true, false, true}));
  f.supports.push_back(held("C", {false, true, true, true, false, true}));
  if (!with_brace) f.supports.push_back(fixed("D"));
  add_case(f, "load").point_loads.push_back({at_B < 0.5 ? "chord.2" : "chord.1",
                                             at_B < 0.5 ? (0.5 - at_B) / (1 - at_B) : 0.5 / at_B,
                                             {0, 0, -1000},
                                             {0, 0, 0},
                                             {}});
  f.limits.yield_factor = 1;
  return f;
}

double chord_use(const Frame& f) {
  const CaseResult r = solved(f);
  double most = 0;
  for (const int piece : {0, 1}) {
    most = std::max(most, *r.members[static_cast<size_t>(piece)].checks.section.utilisation);
  }
  return most;
}

}  // namespace

TEST_CASE("what is welded on an aluminium tube that runs through softens it there, and only there",
          "[truth]") {
  // EN 1999-1-1 Table 3.2b (MEMORY): 6082-T6 250 MPa, 125 beside a weld; gamma_M1 = 1.1; class A.
  const double W = build_model(aluminium_chord(0.4, true)).model.sections.front().Wy;
  const double unheated = 250 / (W * 250e6 / 1.1);
  truth("6082-T6 beam without a weld: utilisation", table_3_2b,
        chord_use(aluminium_chord(0.4, false)), within_rel(unheated, 1e-6));
  // A brace 12.5 + 2.8 + 30 mm from the worst place: heated. One farther away: not.
  truth("6082-T6 beam, brace welded in the middle: utilisation", table_3_2b,
        chord_use(aluminium_chord(0.5 - 1e-6, true)), within_rel(2 * unheated, 1e-3));
  CHECK_THAT(chord_use(aluminium_chord(0.46, true)), WithinRel(2 * unheated, 1e-3));
  // At 0.4 m the moment at the end of the heat, 445.3 mm from A, is 0.8907 of the greatest.
  const double edge = (0.4 + 0.0125 + std::sqrt(2.0) * 0.002 + 0.030) / 0.5;
  CHECK_THAT(chord_use(aluminium_chord(0.4, true)), WithinRel(2 * edge * unheated, 1e-3));
  CHECK_THAT(chord_use(aluminium_chord(0.2, true)), WithinRel(unheated, 1e-6));
}

TEST_CASE("heat at its ends takes from an aluminium strut what EN 1999-1-1 6.3.3.3 says",
          "[truth]") {
  Frame f = empty_frame();
  f.sections.front().material = "EN AW-6082-T6";
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0, 0, 0.8);
  add_member(f, "strut", "A", "B");
  f.supports.push_back(held("A", {true, true, true, false, false, true}));
  f.supports.push_back(held("B", {true, true, false}));
  add_case(f, "push").forces.push_back({"B", {0, 0, -5000}, {}});
  f.limits.yield_factor = 1;
  const Section s = build_model(f).model.sections.front();
  // By hand, class A: alpha 0.20, lambda_0 0.10.
  const double lambda = std::sqrt(s.A * 250e6 * 0.64 / (pi * pi * 70e9 * s.Iy));
  const double Phi = 0.5 * (1 + 0.20 * (lambda - 0.10) + lambda * lambda);
  const double chi = 1 / (Phi + std::sqrt(Phi * Phi - lambda * lambda));
  const double x_s = std::sqrt(2.0) * 0.002 + 0.030;
  const double omega = std::min(1.0, 0.5 / (chi + (1 - chi) * std::sin(pi * x_s / 0.8)));
  const double n = 5000 / (omega * chi * s.A * 250e6 / 1.1);
  truth("6082-T6 strut, heat at its pinned ends: utilisation", rule_6_3_3_3,
        *solved(f).members[0].checks.buckling.utilisation,
        within_rel(std::max(n, std::pow(n, 0.8)), 1e-6));
}

TEST_CASE("an aluminium strut that buckles as fixed at its ends is heated where it bends most",
          "[truth]") {
  // chi of the heated strength throughout, class A, by hand: f_o,haz 125 MPa, half the length.
  Frame f = empty_frame();
  f.sections.front().material = "EN AW-6082-T6";
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0, 0, 1.6);
  add_member(f, "strut", "A", "B").buckling_length = {0.5, 0.5};
  f.supports.push_back(fixed("A"));
  f.supports.push_back(held("B", {true, true, false, true, true, true}));
  add_case(f, "push").forces.push_back({"B", {0, 0, -3000}, {}});
  f.limits.yield_factor = 1;
  const Section s = build_model(f).model.sections.front();
  const double lambda = std::sqrt(s.A * 125e6 * 0.64 / (pi * pi * 70e9 * s.Iy));
  const double Phi = 0.5 * (1 + 0.20 * (lambda - 0.10) + lambda * lambda);
  const double chi = 1 / (Phi + std::sqrt(Phi * Phi - lambda * lambda));
  const double n = 3000 / (chi * s.A * 125e6 / 1.1);
  truth("6082-T6 strut with fixed ends, heated where it bends: utilisation", rule_6_3_3_3,
        *solved(f).members[0].checks.buckling.utilisation,
        within_rel(std::max(n, std::pow(n, 0.8)), 1e-6));
}

TEST_CASE("steel is not welded to aluminium") {
  Frame f = aluminium_chord(0.4, true);
  SectionEntry steel = f.sections.front();
  steel.name = "steel";
  steel.material = "S235";
  f.sections.push_back(steel);
  f.members[2].section = "steel";
  const MemberChecks c = solved(f).members[2].checks;
  CHECK(lacks_number(c.weld_at[0]));
  CHECK_THAT(c.weld.reason, ContainsSubstring("between these metals"));
}

TEST_CASE("a brace of S355 on a chord of S235 is welded with the strength of the chord",
          "[truth]") {
  // f_u/(beta_w gamma_M2), EN 1993-1-8 4.5.3.2 (MEMORY): 360/0.8/1.25 = 360 MPa of S235 against
  // 510/0.9/1.25 = 453 of S355, 1.26 times.
  const auto weld_use = [](const char* chord) {
    Frame f = aluminium_chord(0.4, true);
    f.sections.front().wall = 0.004;
    f.sections.front().material = chord;
    SectionEntry strong = f.sections.front();
    strong.name = "strong";
    strong.material = "S355";
    f.sections.push_back(strong);
    f.members[2].section = "strong";
    f.cases.front().forces.push_back({"D", {300, 0, 0}, {}});
    return *solved(f).members[2].checks.weld_at[0].utilisation;
  };
  truth("S355 brace on S235 against on S355: ratio of use", weaker,
        weld_use("S235") / weld_use("S355"), within_rel(510 / 0.9 / (360 / 0.8), 1e-6));
}

TEST_CASE("a throat too small for a tube is not proven, in a frame as in a joint") {
  Frame f = aluminium_chord(0.4, true);
  f.sections.front().material = "S235";
  f.sections.front().wall = 0.004;
  f.cases.front().forces.push_back({"D", {10, 0, 0}, {}});
  CHECK(solved(f).members[2].checks.weld_at[0].utilisation);
  f.members[2].weld_throat = 0.001;
  const MemberChecks c = solved(f).members[2].checks;
  CHECK(lacks_number(c.weld_at[0]));
  CHECK_THAT(c.weld_at[0].reason, ContainsSubstring("7.3.1(4)"));
  CHECK(lacks_number(c.weld));
}

TEST_CASE("in a bend moments count for what its walls make of them, as a comparison") {
  Frame f = empty_frame();
  add_node(f, "a", 0, 0, 0);
  add_node(f, "b", 0, 0, 0.5);
  add_node(f, "c", 0.5, 0, 0.5);
  for (const auto& [name, from, to] : {std::tuple{"t.1", "a", "b"}, std::tuple{"t.2", "b", "c"}}) {
    Member& m = add_member(f, name, from, to);
    m.tube = "t";
  }
  f.members[0].bend = 0.1;
  REQUIRE(expand_bends(f).empty());
  f.supports.push_back(fixed("a"));
  // Tip couples alone: the same moment everywhere, in the plane of the bend and across it.
  add_case(f, "in").moments.push_back({"c", {0, 50, 0}, {}});
  f.limits.yield_factor = 1;
  const Analysis in_plane = answer_of(analyse(f));
  const auto& members = in_plane.cases.front().members;
  const MemberChecks &straight = members.front().checks, &bent = members[2].checks;
  CHECK(!straight.yield.comparison);
  CHECK(bent.yield.comparison);
  CHECK_THAT(*bent.yield.utilisation, WithinRel(*straight.yield.utilisation / 0.9309, 1e-4));
  CHECK_THAT(*bent.section.utilisation, WithinRel(*straight.section.utilisation / 0.9309, 1e-4));
}

TEST_CASE("a bend of walls that are not known is a comparison too") {
  Frame f = empty_frame();
  f.sections[0].shape = Shape::properties;
  f.sections[0].given = {174e-6, 14.8e-9, 14.8e-9, 25e-9, 1.2e-6, 1.2e-6,
                         2e-6,   0,       0,       rigid, rigid,  {}};
  add_node(f, "a", 0, 0, 0);
  add_node(f, "b", 0, 0, 0.5);
  add_node(f, "c", 0.5, 0, 0.5);
  add_member(f, "t.1", "a", "b").tube = "t";
  add_member(f, "t.2", "b", "c").tube = "t";
  f.members[0].bend = 0.1;
  REQUIRE(expand_bends(f).empty());
  f.supports.push_back(fixed("a"));
  add_case(f, "in").moments.push_back({"c", {0, 50, 0}, {}});
  const Analysis analysis = answer_of(analyse(f));
  CHECK(!analysis.cases.front().members.front().checks.yield.comparison);
  CHECK(analysis.cases.front().members[2].checks.yield.comparison);
}

}  // namespace tubewright::member_checks_test
