#include "cases/sizing/size_study.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/model/mass_summary.h"
#include "cases/studies/torsion.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/sizing/listed_trusses.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::size_study_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinRel;

namespace {

StockSize square(double side_mm, double wall_mm) {
  StockSize size;
  size.height = size.width = side_mm / 1000;
  size.wall = wall_mm / 1000;
  return size;
}

DisplacementLimit limit_of(const std::string& load_case, const std::string& node, int direction,
                           double most) {
  DisplacementLimit limit;
  limit.load_case = load_case;
  limit.node = node;
  limit.most[static_cast<size_t>(direction)] = most;
  return limit;
}

/// The box of two bays in four groups of twelve sizes: bays, the two free rings, the ring held.
Frame box_of_sizes() {
  Frame f = ring_box();
  f.cases[0].forces[0].value.z() = 100;
  f.cases[0].forces[1].value.z() = -100;
  for (NodeAction& force : f.cases[1].forces) force.value.z() = -25;
  f.groups = {
      {"bay_0", {"lb0-lb1", "rb0-rb1", "rt0-rt1", "lt0-lt1"}, {}},
      {"bay_1", {"lb1-lb2", "rb1-rb2", "rt1-rt2", "lt1-lt2"}, {}},
      {"rings",
       {"lb1-rb1", "rb1-rt1", "rt1-lt1", "lt1-lb1", "lb2-rb2", "rb2-rt2", "rt2-lt2", "lt2-lb2"},
       {}},
      {"ring_0", {"lb0-rb0", "rb0-rt0", "rt0-lt0", "lt0-lb0"}, {}}};
  f.stock = Stock{};
  f.stock->sizes = {square(20, 1.5), square(20, 2), square(25, 1.5), square(25, 2),
                    square(30, 1.5), square(30, 2), square(35, 2),   square(40, 1.5),
                    square(40, 2),   square(40, 3), square(50, 2),   square(50, 3)};
  return f;
}

/// Twist of the front ring by one degree per 1000 N m.
double twist_limit() { return 0.04 * M_PI / 180 * 0.4 / 2; }

Frame box_a() {
  Frame f = box_of_sizes();
  f.limits.displacements = {limit_of("tors", "lb2", 2, twist_limit())};
  for (const char* node : {"lb2", "rb2", "lt2", "rt2"}) {
    f.limits.displacements.push_back(limit_of("bend", node, 2, 0.20e-3));
  }
  return f;
}

Frame box_b() {
  Frame f = box_of_sizes();
  f.limits.displacements = {limit_of("tors", "lb2", 2, twist_limit()),
                            limit_of("bend", "lb1", 2, 0.07e-3),
                            limit_of("tors", "lt1", 1, 0.15e-3)};
  return f;
}

std::string sizes_of(const SizeStudy& study, const SizedDesign& design) {
  std::string text;
  for (size_t g = 0; g < study.groups.size(); ++g) {
    const SectionEntry& s = study.groups[g].sizes[static_cast<size_t>(design.choice[g])];
    const auto mm = [](double m) {
      std::string number = std::to_string(std::lround(m * 1e4) / 10.0);
      return number.substr(0, number.find('.') + 2);
    };
    text += (g == 0 ? "" : " ") + mm(s.height) + "x" + mm(s.wall);
  }
  return text;
}

std::vector<double> areas_of(const SizeStudy& study, const SizedDesign& design) {
  std::vector<double> areas;
  for (size_t g = 0; g < study.groups.size(); ++g) {
    areas.push_back(study.groups[g].sizes[static_cast<size_t>(design.choice[g])].given.A);
  }
  return areas;
}

double mass_of(const Frame& frame) {
  const MassSummary mass = mass_summary(frame, build_model(frame));
  return mass.tubes + mass.panels;
}

bool passes_all(const Frame& frame) {
  const Analysis analysis = answer_of(analyse(frame));
  const bool stiff = !frame.limits.torsional_stiffness ||
                     torsional_stiffness(frame).value_or(0) >= *frame.limits.torsional_stiffness;
  return stiff && std::all_of(analysis.cases.begin(), analysis.cases.end(),
                              [](const CaseResult& c) { return c.passes(); });
}

/// Every choice analysed: the lightest that pass.
struct Enumerated {
  double mass = std::numeric_limits<double>::infinity();
  std::vector<std::vector<int>> choices;
};

Enumerated enumerated(const Frame& frame, const std::vector<SizedTubes>& groups) {
  Enumerated found;
  std::vector<int> choice(groups.size(), 0);
  while (true) {
    const Frame sized = in_sizes(frame, groups, choice);
    const double mass = mass_of(sized);
    if (mass <= found.mass * (1 + 1e-9) && passes_all(sized)) {
      if (mass < found.mass * (1 - 1e-9)) found.choices.clear();
      found.mass = std::min(mass, found.mass);
      found.choices.push_back(choice);
    }
    size_t g = 0;
    while (g < groups.size() && ++choice[g] == static_cast<int>(groups[g].sizes.size())) {
      choice[g++] = 0;
    }
    if (g == groups.size()) return found;
  }
}

constexpr const char* truss_source =
    "branch and bound over an independent truss solver, proved there too";
constexpr const char* box_source =
    "an independent frame solver, all 20 736 choices enumerated (script kept apart)";

}  // namespace

TEST_CASE("the lightest box of two bays is the one that enumeration finds", "[truth]") {
  const SizeStudy a = answer_of(size_study(box_a()));
  REQUIRE(a.best);
  CHECK(a.proved);
  truth("box of two bays, limits on twist and bending: lightest of 20 736 choices, kg",
        rederived(box_source), a.best->mass, within_abs(15.25139, 5e-6));
  CHECK(sizes_of(a, *a.best) == "40.0x1.5 40.0x1.5 40.0x1.5 30.0x1.5");
  CHECK(a.ties.empty());

  const SizeStudy b = answer_of(size_study(box_b()));
  REQUIRE(b.best);
  CHECK(b.proved);
  truth("box of two bays, limits that do not all grow with the sizes: lightest choice, kg",
        rederived(box_source), b.best->mass, within_abs(17.201201, 5e-7));
  truth("box of two bays: the displacement nearest its limit there, over it", rederived(box_source),
        b.best->worst->utilisation, within_abs(0.990395, 1e-6));
  CHECK(sizes_of(b, *b.best) == "40.0x2.0 40.0x1.5 40.0x1.5 40.0x1.5");
}

TEST_CASE("ten bars from 42 areas are proved to be the lightest", "[truth]") {
  const SizeStudy study = answer_of(size_study(ten_listed_bars()));
  REQUIRE(study.best);
  CHECK(study.proved);
  truth("ten bars from 42 areas: least weight, lb", rederived(truss_source), study.best->mass,
        within_abs(5490.737892, 1e-6));
  truth("ten bars from 42 areas: the displacement nearest its limit, over it",
        rederived(truss_source), study.best->worst->utilisation, within_abs(0.999471, 1e-6));
  CHECK(areas_of(study, *study.best) ==
        std::vector<double>{33.5, 1.62, 22.9, 14.2, 1.62, 1.62, 7.97, 22.9, 22.0, 1.62});
}

TEST_CASE("25 bars from 30 areas are proved to be the lightest, and a printed trap is refused",
          "[truth]") {
  const Frame frame = twenty_five_listed_bars();
  const SizeStudy study = answer_of(size_study(frame));
  REQUIRE(study.best);
  CHECK(study.proved);
  truth("25 bars from 30 areas: least weight, lb", rederived(truss_source), study.best->mass,
        within_abs(484.854179, 1e-6));
  truth("25 bars from 30 areas: the displacement nearest its limit, over it",
        rederived(truss_source), study.best->worst->utilisation, within_abs(0.999361, 1e-6));
  CHECK(areas_of(study, *study.best) ==
        std::vector<double>{0.1, 0.3, 3.4, 0.1, 2.1, 1.0, 0.5, 3.4});

  // 484.328644 lb, printed in papers as the best.
  const std::vector<double> trap = {0.1, 0.4, 3.4, 0.1, 2.2, 1.0, 0.4, 3.4};
  std::vector<int> choice;
  for (size_t g = 0; g < trap.size(); ++g) {
    const std::vector<SectionEntry>& sizes = study.groups[g].sizes;
    const auto at = std::find_if(sizes.begin(), sizes.end(),
                                 [&](const SectionEntry& s) { return s.given.A == trap[g]; });
    choice.push_back(static_cast<int>(at - sizes.begin()));
  }
  const Frame trapped = in_sizes(frame, study.groups, choice);
  truth("25 bars: weight of a choice printed as the best, lb", rederived(truss_source),
        mass_of(trapped), within_abs(484.328644, 1e-6));
  truth("25 bars: its displacement over the limit", rederived(truss_source),
        worst_of_all(answer_of(analyse(trapped)))->utilisation, within_abs(1.000193, 1e-6));
}

TEST_CASE("the lightest of a small list is what analysing every choice says, ties included") {
  for (const bool welded : {false, true}) {
    for (const double stiffness : {0.0, 250.0}) {
      Frame f = box_of_sizes();
      if (welded) f.joint_flexibility = 1;
      f.stock->sizes = {square(20, 1.5), square(25, 1.5), square(30, 2), square(40, 2)};
      f.torsion = TorsionTest{{"lb2", "rb2"}, {"lb0", "rb0"}, 100, {}};
      if (stiffness > 0) f.limits.torsional_stiffness = stiffness * 180 / M_PI;
      for (NodeAction& force : f.cases[1].forces) force.value.z() = -500;
      const SizeStudy study = answer_of(size_study(f));
      REQUIRE(study.best);
      CHECK(study.proved);
      CHECK(study.all_ties);
      const Enumerated all = enumerated(f, study.groups);
      INFO("welded " << welded << ", least stiffness " << stiffness);
      CHECK_THAT(study.best->mass, WithinRel(all.mass, 1e-9));
      std::vector<std::vector<int>> found = {study.best->choice};
      for (const SizedDesign& tie : study.ties) found.push_back(tie.choice);
      std::sort(found.begin(), found.end());
      std::vector<std::vector<int>> expected = all.choices;
      std::sort(expected.begin(), expected.end());
      CHECK(found == expected);
      CHECK(mass_of(in_sizes(f, study.groups, study.best->choice)) == study.best->mass);
    }
  }
}

TEST_CASE("bars that carry their own weight are sized with it") {
  Frame f = twenty_five_listed_bars();
  f.stock->sizes.erase(f.stock->sizes.begin() + 5, f.stock->sizes.end() - 2);
  f.groups.resize(3);
  for (const char* rest : {"3-6", "4-5", "3-4", "5-6"}) f.keep.members.emplace_back(rest);
  for (const auto& bars : {std::pair{3, 10},
                           {6, 7},
                           {4, 9},
                           {5, 8},
                           {3, 8},
                           {4, 7},
                           {6, 9},
                           {5, 10},
                           {3, 7},
                           {4, 8},
                           {5, 9},
                           {6, 10}}) {
    f.keep.members.push_back(std::to_string(bars.first) + "-" + std::to_string(bars.second));
  }
  SectionEntry strong = f.sections.front();
  strong.name = "strong";
  strong.given.A = 3.4;
  f.sections.push_back(strong);
  for (Member& m : f.members) {
    const auto& kept = f.keep.members;
    if (std::find(kept.begin(), kept.end(), m.name) != kept.end()) m.section = "strong";
  }
  const SizeStudy light = answer_of(size_study(f));
  f.cases[0].gravity = {0, -2.5, 0};  // the weight of the bars counts like the loads
  const SizeStudy heavy = answer_of(size_study(f));
  for (const auto& [study, gravity] : {std::pair{&light, 0.0}, {&heavy, -2.5}}) {
    INFO("gravity " << gravity);
    f.cases[0].gravity = {0, gravity, 0};
    REQUIRE(study->best);
    CHECK(study->proved);
    CHECK_THAT(study->best->mass, WithinRel(enumerated(f, study->groups).mass, 1e-9));
  }
}

TEST_CASE("what governs a group, and the next lighter choice, are analysed choices that fail") {
  const SizeStudy study = answer_of(size_study(box_b()));
  REQUIRE(study.governs.size() == study.groups.size());
  for (size_t g = 0; g < study.governs.size(); ++g) {
    const GoverningLimit& limit = study.governs[g];
    REQUIRE(limit.lighter);
    CHECK_FALSE(limit.lighter->passes());
    CHECK(limit.lighter->mass < study.best->mass);
    for (size_t other = 0; other < study.groups.size(); ++other) {
      CHECK((other == g) == (limit.lighter->choice[other] != study.best->choice[other]));
    }
  }
  REQUIRE(study.next);
  CHECK_FALSE(study.next->passes());
  CHECK(study.next->mass < study.best->mass);
  CHECK(study.next->mass > 0.999 * study.best->mass);
}

TEST_CASE("a limit that no size meets is proved to be out of reach, and the nearest miss is told") {
  Frame f = box_a();
  f.limits.displacements[0].most[2] = twist_limit() / 100;
  const SizeStudy study = answer_of(size_study(f));
  CHECK_FALSE(study.best);
  CHECK(study.proved);
  REQUIRE(study.heaviest);
  CHECK(sizes_of(study, *study.heaviest) == "50.0x3.0 50.0x3.0 50.0x3.0 50.0x3.0");
  CHECK_FALSE(study.heaviest->passes());
  CHECK(study.heaviest->excesses.front().check == "displacement");
  REQUIRE(study.least_violated);
  CHECK(study.least_violated->excesses.front().utilisation <=
        study.heaviest->excesses.front().utilisation);
}

TEST_CASE("a limit that no sized tube has to do with is told of as such") {
  Frame f = box_a();
  f.groups.clear();
  // A bracket that nothing loads, and all else kept.
  add_node(f, "bracket", 1.4, 0.2, 0);
  for (const Member& m : f.members) f.keep.members.push_back(m.name);
  add_member(f, "arm", "lb2", "bracket");
  const SizeStudy study = answer_of(size_study(f));
  CHECK_FALSE(study.best);
  CHECK(study.proved);
  REQUIRE_FALSE(study.out_of_reach.empty());
  CHECK(study.out_of_reach.front().check == "displacement");
  CHECK(answer_of(size_study(box_a())).out_of_reach.empty());
}

TEST_CASE("a mechanism is no choice of sizes, and says where it moves") {
  Frame f = box_a();
  f.supports.resize(1);
  const auto outcome = size_study(f);
  REQUIRE(outcome.error() != nullptr);
  CHECK(outcome.error()->front().message.find("move") != std::string::npos);
}

TEST_CASE("a mass limit below the lightest that meets the rest leaves nothing, proved") {
  Frame f = box_a();
  f.limits.mass = 15.2;
  const SizeStudy tight = answer_of(size_study(f));
  CHECK_FALSE(tight.best);
  CHECK(tight.proved);
  REQUIRE(tight.least_violated);
  CHECK(tight.least_violated->excesses.front().check == "mass");
  f.limits.displacements[0].most[2] = 1e-9;  // nothing passes, whatever it weighs
  CHECK_FALSE(answer_of(size_study(f)).best);
  f.limits.displacements[0].most[2] = twist_limit();
  f.limits.mass = 15.3;
  const SizeStudy wide = answer_of(size_study(f));
  REQUIRE(wide.best);
  CHECK_THAT(wide.best->mass, WithinRel(answer_of(size_study(box_a())).best->mass, 1e-12));
}

TEST_CASE("without the time to prove it the answer is the best found and a bound below it") {
  SizeOptions hurried;
  hurried.seconds = 0;
  const SizeStudy study = answer_of(size_study(ten_listed_bars(), hurried));
  CHECK_FALSE(study.proved);
  CHECK(study.bound <= 5490.737892);
  CHECK(study.bound > 0);
  if (study.best) {
    CHECK(study.best->passes());
    CHECK(study.best->mass >= 5490.737891);
    CHECK_THAT(study.gap, WithinRel((study.best->mass - study.bound) / study.best->mass, 1e-12));
  } else {
    CHECK(std::isinf(study.gap));
  }
}

TEST_CASE("the cheapest sizes are not the lightest where thin walls cost more") {
  Frame f = box_a();
  for (StockSize& size : f.stock->sizes) size.price = 10 / size.wall * size.height;
  SizeOptions options;
  options.cheapest = true;
  const SizeStudy cheapest = answer_of(size_study(f, options));
  const SizeStudy lightest = answer_of(size_study(f));
  REQUIRE(cheapest.best);
  REQUIRE(lightest.best);
  CHECK(cheapest.proved);
  CHECK(*cheapest.best->cost < *lightest.best->cost);
  CHECK(cheapest.best->mass > lightest.best->mass);
}

}  // namespace tubewright::size_study_tests
