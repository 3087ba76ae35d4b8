#include "cases/changes/wall_slopes.h"

#include <cmath>
#include <numbers>

#include "cases/changes/changed_answer.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/section_of.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::wall_slopes_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// A frame with what its slopes are found from.
struct Ranked {
  Frame frame;
  Analysis analysis = answer_of(analyse(frame));
  BaseStiffnesses bases = base_stiffnesses(held_models(frame));
  SlopeBase base{frame, analysis, bases};
};

Frame with_wall(const Frame& frame, const MemberSet& members, double wall) {
  SectionEntry s = frame.sections.front();
  s.wall = wall;
  return with_section(frame, members, s);
}

/// Central difference of answers of frames solved afresh.
template <class Answer>
double difference(const Frame& frame, const MemberSet& members, const Answer& answer) {
  const double wall = frame.sections.front().wall, step = 1e-3 * wall;
  return (answer(with_wall(frame, members, wall + step)) -
          answer(with_wall(frame, members, wall - step))) /
         (2 * step);
}

double second_moment(const SectionEntry& s) {
  return section_of(s, find_material(Frame{}, s.material)->properties).Iy;
}

/// dI/dt of the section, the corner radii going with the wall.
double second_moment_per_wall(SectionEntry s) {
  const double step = 1e-5 * s.wall;
  s.wall += step;
  const double more = second_moment(s);
  s.wall -= 2 * step;
  return (more - second_moment(s)) / (2 * step);
}

}  // namespace

TEST_CASE("the slope of torsional stiffness is that of frames drawn thicker and thinner") {
  const Ranked r{ring_box_in_torsion()};
  for (const char* tube : {"lb0-lb1", "rb2-rt2", "lb1-rb1"}) {
    const MemberSet members = {member_named(r.frame, tube)};
    const auto slopes = r.base.slopes(members);
    REQUIRE(slopes);
    const double expected =
        difference(r.frame, members, [](const Frame& f) { return *torsional_stiffness(f); });
    CHECK_THAT(*slopes->stiffness, WithinRel(expected, 1e-5));
  }
}

TEST_CASE("with joints of thin walls the slope takes their stiffness along") {
  Frame f = ring_box_in_torsion();
  f.joint_flexibility = 1;
  const Ranked r{f};
  const MemberSet members = {member_named(f, "lb0-lb1")};
  const double expected =
      difference(f, members, [](const Frame& g) { return *torsional_stiffness(g); });
  CHECK_THAT(*r.base.slopes(members)->stiffness, WithinRel(expected, 1e-3));
}

TEST_CASE("the sag of a stepped cantilever falls with its walls as beam theory says", "[truth]") {
  // Root L1 with I1, outer part L2 with I2, P at the tip:
  // d = P/(3E) [((L1 + L2)^3 - L2^3)/I1 + L2^3/I2].
  constexpr Source source = rederived("virtual work of a stepped cantilever");
  Frame f = empty_frame();
  f.sections.front().shear = false;
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "middle", 0.5, 0, 0);
  add_node(f, "tip", 0.8, 0, 0);
  add_member(f, "root", "foot", "middle");
  add_member(f, "outer", "middle", "tip");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  constexpr double P = 50, L1 = 0.5, L2 = 0.3;
  add_case(f, "load").forces.push_back({"tip", {0, 0, -P}, {}});
  const Ranked r{f};
  const double E = find_material(f, "S235")->properties.E;
  const double I = second_moment(f.sections.front());
  const double rise = second_moment_per_wall(f.sections.front());
  const double of_root = -P * (std::pow(L1 + L2, 3) - std::pow(L2, 3)) / (3 * E * I * I);
  const double of_outer = -P * std::pow(L2, 3) / (3 * E * I * I);
  truth("stepped cantilever: sag per wall of its root", source, *r.base.slopes({0})->deflection,
        within_rel(of_root * rise, 1e-6));
  truth("stepped cantilever: sag per wall of its outer part", source,
        *r.base.slopes({1})->deflection, within_rel(of_outer * rise, 1e-6));
}

TEST_CASE("the worst utilisation moves with a wall as that of frames drawn anew does") {
  const Ranked r{ring_box()};
  const auto worst = worst_of_all(r.analysis);
  for (const char* tube : {"lb0-lb1", "rb2-rt2", "lb2-rb2"}) {
    const MemberSet members = {member_named(r.frame, tube)};
    const auto slopes = r.base.slopes(members);
    const double expected = difference(r.frame, members, [&](const Frame& f) {
      const Analysis a = answer_of(analyse(f, {worst->load_case}));
      const auto& checks =
          a.cases[0].members[static_cast<size_t>(member_named(f, worst->item))].checks;
      for (const auto& [name, result] : named_checks(checks)) {
        if (name == worst->check) return *result->utilisation;
      }
      return 0.0;
    });
    CHECK_THAT(*slopes->utilisation, WithinRel(expected, 1e-3) || WithinAbs(expected, 1e-3));
  }
}

TEST_CASE("a frame that carries only itself does not ring higher with thicker walls: E I/(rho A)",
          "[truth]") {
  // omega^2 ~ E I/(rho A): what is left of the slope is that of I/A, thin against its side.
  Frame f = empty_frame();
  f.sections.front().shear = false;
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "tip", 0.5, 0, 0);
  add_member(f, "beam", "foot", "tip");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"tip", {0, 0, -1}, {}});
  const Ranked r{f};
  const SectionEntry& s = f.sections.front();
  const double rho_A = section_of(s, find_material(f, "S235")->properties).A;
  SectionEntry thicker = s;
  thicker.wall *= 1 + 1e-6;
  const double rise_A =
      (section_of(thicker, find_material(f, "S235")->properties).A - rho_A) / (1e-6 * s.wall);
  const double relative = (second_moment_per_wall(s) / second_moment(s) - rise_A / rho_A) / 2;
  truth("cantilever that carries itself: frequency per wall over frequency, 1/m",
        rederived("omega2 ~ E I/(rho A)"), *r.base.slopes({0})->frequency / *r.base.frequency(),
        within_rel(relative, 2e-3));
}

TEST_CASE("two modes of one frequency give the slope that the lower of them then has") {
  // A square cantilever with a mass at its tip rings alike up and sideways. A brace in one plane
  // stiffens the other mode only: the lowest stays where it is.
  Frame f = empty_frame();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "tip", 0.5, 0, 0);
  add_node(f, "wall", 0, 0, 0.4);
  add_member(f, "beam", "foot", "tip");
  add_member(f, "stay", "wall", "tip").kind = MemberKind::link;
  f.members.back().section = "thin";
  SectionEntry thin = f.sections.front();
  thin.name = "thin";
  thin.height = thin.width = 0.008;
  thin.wall = 1e-7;  // a trace of stiffness: the two stay together
  thin.material = "weightless";
  f.sections.push_back(thin);
  MaterialEntry weightless = *find_material(f, "S235");
  weightless.name = "weightless";
  weightless.properties.density = 0;
  f.materials.push_back(weightless);
  for (const char* node : {"foot", "wall"})
    f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
  add_mass(f, "load", 10, {0.5, 0, 0}, {"tip"});
  add_case(f, "case").forces.push_back({"tip", {0, 0, -1}, {}});
  const Ranked r{f};
  const double of_stay = *r.base.slopes({1})->frequency;
  const double of_beam = *r.base.slopes({0})->frequency;
  CHECK(of_beam > 0);
  // 1 mm of such a wall would raise the other mode far more than the beam's own does.
  CHECK(std::abs(of_stay) < 1e-3 * of_beam);
}

TEST_CASE("a column that grows stiffer beside a post draws load and buckles earlier for it",
          "[truth]") {
  // lambda = (pi^2 E I/L^2)(k1 + k2)/(k1 P), k1 = E A/L: d lambda = lambda (dI/I - dA k2/(A
  // (k1+k2))).
  Frame f = empty_frame();
  f.sections.front().shear = false;
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "head", 0, 0, 1);
  add_node(f, "ground", 0.0, 0, 2);
  Member& column = add_member(f, "column", "foot", "head");
  column.release_from = {rigid, rigid, rigid, rigid, 0, 0};
  column.release_to = {rigid, rigid, rigid, rigid, 0, 0};
  Member& post = add_member(f, "post", "head", "ground");
  post.kind = MemberKind::spring;
  post.section.clear();
  post.rate = 3e7;
  f.supports.push_back({"foot", {true, true, true, false, false, true}, {}, {}});
  f.supports.push_back({"head", {true, true, false, false, false, false}, {}, {}});
  f.supports.push_back({"ground", {true, true, true, false, false, false}, {}, {}});
  constexpr double P = 20000, k2 = 3e7, L = 1;
  add_case(f, "load").forces.push_back({"head", {0, 0, -P}, {}});
  const Ranked r{f};
  const Material& m = find_material(f, "S235")->properties;
  const SectionEntry& s = f.sections.front();
  const double A = section_of(s, m).A, k1 = m.E * A / L;
  SectionEntry thicker = s;
  thicker.wall *= 1 + 1e-6;
  const double rise_A = (section_of(thicker, m).A - A) / (1e-6 * s.wall);
  const double lambda =
      std::pow(std::numbers::pi, 2) * m.E * second_moment(s) / (L * L) * (k1 + k2) / (k1 * P);
  constexpr Source source = rederived("Euler column beside an elastic post under one cap");
  truth("column beside a post: buckling factor", source, *r.base.buckling(),
        within_rel(lambda, 2e-3));
  const double slope =
      lambda * (second_moment_per_wall(s) / second_moment(s) - rise_A * k2 / (A * (k1 + k2)));
  truth("column beside a post: buckling factor per wall, 1/m", source,
        *r.base.slopes({0})->buckling, within_rel(slope, 3e-3));
}

TEST_CASE("a bar without a wall has no slopes") {
  Frame f = ring_box();
  f.sections.front().shape = Shape::round_bar;
  f.sections.front().wall = 0;
  const Ranked r{f};
  CHECK_FALSE(r.base.slopes({0}));
}

}  // namespace tubewright::wall_slopes_tests
