#include "cases/sizing/design_check.h"

#include <algorithm>
#include <set>

#include "cases/changes/loss_study.h"
#include "cases/studies/torsion.h"
#include "tests/cases/sizing/sized_box.h"
#include "tests/catch.h"

namespace tubewright::design_check_tests {

using namespace tubewright::testing;

namespace {

struct Tally {
  int pass = 0, fail = 0;
};

/// Held against all of the same design's limits, whatever is over but `uncounted`.
Tally check_alike(const Frame& f, const SizeOptions& options, int count,
                  const std::string& uncounted = "") {
  Random random(51);
  const std::vector<SizedTubes> groups = answer_of(size_groups(f, options.cheapest)).groups;
  const DesignCheck check(f, groups, options);
  Tally tally;
  for (int k = 0; k < count; ++k) {
    const Choice choice = random_choice(random, masses_of(groups));
    const SizedDesign design = check.analysed(choice);
    const bool all_met =
        std::all_of(design.excesses.begin(), design.excesses.end(),
                    [&](const Failure& failure) { return failure.check == uncounted; });
    INFO("choice " << k);
    CHECK(check.passes(choice) == all_met);
    ++(all_met ? tally.pass : tally.fail);
  }
  return tally;
}

void check_both_seen(const Tally& tally) {
  CHECK(tally.pass >= 3);
  CHECK(tally.fail >= 3);
}

/// The box with loads that about half of the choices bear.
Frame half_loaded() {
  Frame f = box_with_stock();
  for (Case& c : f.cases) {
    for (NodeAction& a : c.forces) a.value *= 0.3;
  }
  return f;
}

Frame with_prices(Frame f) {
  double price = 10;
  for (StockSize& size : f.stock->sizes) size.price = price += 5;
  return f;
}

/// Of random choices that which this share of them do not exceed.
template <class Number>
double quantile_of(const Frame& f, double share, Number number_of) {
  Random random(52);
  const std::vector<SizedTubes> groups = groups_of(f);
  const DesignCheck check(f, groups, {});
  std::vector<double> numbers;
  for (int k = 0; k < 15; ++k) {
    numbers.push_back(number_of(check.analysed(random_choice(random, masses_of(groups)))));
  }
  std::sort(numbers.begin(), numbers.end());
  return numbers[static_cast<size_t>(share * 14)];
}

/// A cantilever in two tubes from A by B to C: it hangs by each of its three welds. With `twin` a
/// second one beside it, joined to it at B and C.
Frame cantilever(bool twin) {
  Frame f = empty_frame();
  for (const auto& [side, y] : {std::pair{"", 0.0}, {"'", 0.3}}) {
    const std::string s = side;
    if (!twin && !s.empty()) break;
    add_node(f, "A" + s, 0, y, 0);
    add_node(f, "B" + s, 0.3, y, 0);
    add_node(f, "C" + s, 0.6, y, 0);
    add_member(f, "AB" + s, "A" + s, "B" + s);
    add_member(f, "BC" + s, "B" + s, "C" + s);
    f.supports.push_back({"A" + s, {true, true, true, true, true, true}, {}, {}});
  }
  if (twin) {
    add_member(f, "BB", "B", "B'");
    add_member(f, "CC", "C", "C'");
  }
  add_case(f, "hang").forces = {{"C", {0, 0, -20}, {}}};
  f.stock = box_with_stock().stock;
  return f;
}

}  // namespace

TEST_CASE("a design passes if nothing of it is over a limit, by its load cases") {
  check_both_seen(check_alike(half_loaded(), {}, 30));
}

TEST_CASE("a design passes if nothing of it is over a limit, by how far nodes may move") {
  Frame f = half_loaded();
  for (Case& c : f.cases) {
    for (NodeAction& a : c.forces) a.value *= 0.1;
  }
  f.limits.deflection = 0.0002;
  f.limits.displacements = {{"bend", "lb2", {{{}, 0.0001, 0.0001}}, {}}};
  check_both_seen(check_alike(f, {}, 30));
}

TEST_CASE("a design passes if nothing of it is over a limit, by torsional stiffness") {
  Frame f = box_with_stock();
  f.cases.clear();
  f.limits.torsional_stiffness =
      quantile_of(f, 0.5, [](const SizedDesign& design) { return *design.stiffness; });
  check_both_seen(check_alike(f, {}, 30));
}

TEST_CASE("a design passes if nothing of it is over a limit, by the lowest frequency") {
  Frame f = box_with_stock();
  f.cases.clear();
  f.limits.frequency = 1;
  f.limits.frequency =
      quantile_of(f, 0.5, [](const SizedDesign& design) { return *design.frequency; });
  check_both_seen(check_alike(f, {}, 12));
}

TEST_CASE("the mass counts where it is the cost that is made least, and only there") {
  Frame f = with_prices(box_with_stock());
  f.cases.resize(1);
  f.cases[0].forces = {{"lb2", {0, 0, 1}, {}}};
  f.limits.mass = quantile_of(f, 0.5, [](const SizedDesign& design) { return design.mass; });
  SizeOptions cheapest;
  cheapest.cheapest = true;
  check_both_seen(check_alike(f, cheapest, 20));
  const Tally by_mass = check_alike(f, {}, 20, "mass");
  CHECK(by_mass.pass == 20);
}

TEST_CASE("a weld that must hold counts where any one may break, and only there") {
  SizeOptions fail_safe;
  fail_safe.fail_safe = true;
  for (const bool twin : {false, true}) {
    const Frame f = cantilever(twin);
    const std::vector<SizedTubes> groups = groups_of(f);
    const Choice choice(groups.size(), 3);
    CHECK(DesignCheck(f, groups, {}).passes(choice));
    const DesignCheck check(f, groups, fail_safe);
    CHECK(check.passes(choice) == twin);
    const SizedDesign design = check.analysed(choice);
    CHECK(design.passes() == twin);
    if (twin) continue;
    std::set<std::string> welds;
    for (const Failure& failure : design.excesses) {
      CHECK(failure.check == "broken_weld");
      CHECK(failure.utilisation > 1);
      welds.insert(failure.item);
    }
    CHECK(welds == std::set<std::string>{"AB at A", "AB at B", "BC at B"});
  }
}

TEST_CASE("a design that must bear broken welds too passes as the study of losses says") {
  SizeOptions fail_safe;
  fail_safe.fail_safe = true;
  Frame f = cantilever(true);
  f.cases[0].forces[0].value.z() = -400;
  const std::vector<SizedTubes> groups = groups_of(f);
  const DesignCheck check(f, groups, fail_safe), plain(f, groups, {});
  Random random(53);
  Tally tally;
  for (int k = 0; k < 14; ++k) {
    const Choice choice = random_choice(random, masses_of(groups));
    if (!plain.passes(choice)) continue;
    const LossStudy losses = answer_of(loss_study(in_sizes(f, groups, choice)));
    const bool holds =
        std::none_of(losses.losses.begin(), losses.losses.end(),
                     [](const Loss& loss) { return loss.kind == LossKind::end && loss.must_hold; });
    CHECK(check.passes(choice) == holds);
    CHECK(check.analysed(choice).passes() == holds);
    ++(holds ? tally.pass : tally.fail);
  }
  INFO(tally.pass << " hold, " << tally.fail << " do not");
  CHECK(tally.pass > 2);
  CHECK(tally.fail > 2);
}

TEST_CASE("a design is analysed as the frame in its sizes, and those that are tested are counted") {
  Random random(54);
  Frame f = with_prices(half_loaded());
  f.keep.members = {"lb1-rb1"};
  const std::vector<SizedTubes> groups = groups_of(f);
  const DesignCheck check(f, groups, {});
  for (int k = 0; k < 4; ++k) {
    const Choice choice = random_choice(random, masses_of(groups));
    const Frame drawn = in_sizes(f, groups, choice);
    const SizedDesign design = check.analysed(choice);
    CHECK(design.choice == choice);
    const NumberedFrame numbered = build_model(f);
    const Member& kept = f.members[static_cast<size_t>(member_named(f, "lb1-rb1"))];
    CHECK_THAT(design.mass,
               WithinRel(sum_of(masses_of(groups), choice) + mass_per_length(f, kept) * 0.4, 1e-9));
    double cost = 0;
    for (size_t g = 0; g < groups.size(); ++g) {
      cost += groups[g].costs[static_cast<size_t>(choice[g])];
    }
    REQUIRE(design.cost);
    CHECK_THAT(*design.cost, WithinRel(cost, 1e-12));
    REQUIRE(design.stiffness);
    CHECK_THAT(*design.stiffness, WithinRel(*torsional_stiffness(drawn), 1e-9));
    REQUIRE(design.worst);
    CHECK_THAT(design.worst->utilisation,
               WithinRel(worst_of_all(answer_of(analyse(drawn)))->utilisation, 1e-9));
    CHECK(design.passes() == (design.worst->utilisation <= 1));
  }
  CHECK(check.count() == 0);
  check.passes(Choice(groups.size(), 3));
  check.passes(Choice(groups.size(), 0));
  CHECK(check.count() == 2);
  const SizedDesign now = check.analysed(Choice(groups.size(), -1));
  CHECK_FALSE(now.cost);
  CHECK_THAT(*now.stiffness, WithinRel(*torsional_stiffness(f), 1e-9));
}

TEST_CASE("a design without an answer fails by that, infinitely") {
  Frame f = box_with_stock();
  f.supports.resize(1);
  const std::vector<SizedTubes> groups = groups_of(f);
  const DesignCheck check(f, groups, {});
  const Choice choice(groups.size(), 3);
  CHECK_FALSE(check.passes(choice));
  const SizedDesign design = check.analysed(choice);
  REQUIRE(design.excesses.size() == 1);
  CHECK(design.excesses[0].check == "no_answer");
  CHECK(std::isinf(design.excesses[0].utilisation));
}

}  // namespace tubewright::design_check_tests
