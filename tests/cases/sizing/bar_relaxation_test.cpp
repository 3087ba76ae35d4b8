#include "cases/sizing/bar_relaxation.h"

#include <algorithm>
#include <limits>
#include <random>

#include "cases/sizing/size_groups.h"
#include "tests/cases/sizing/listed_trusses.h"
#include "tests/catch.h"

namespace tubewright::bar_relaxation_tests {

using namespace tubewright::testing;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The tower with four sizes and the first of its groups tied together, so that all choices can be
/// looked at.
struct SmallTower {
  Frame frame = twenty_five_listed_bars();
  std::vector<SizedTubes> groups;
  std::optional<BarStructure> structure;
  std::vector<HeldLimits> held;
  SizedStiffness parts;
  std::vector<Choice> choices;
  std::vector<double> masses;
  std::vector<char> pass;

  SmallTower() {
    auto& sizes = frame.stock->sizes;
    sizes = {sizes[0], sizes[4], sizes[15], sizes[29]};
    auto& list = frame.groups;
    for (size_t g = 1; g < 4; ++g) {
      list[0].members.insert(list[0].members.end(), list[g].members.begin(), list[g].members.end());
    }
    list.erase(list.begin() + 1, list.begin() + 4);
    groups = answer_of(size_groups(frame, false)).groups;
    parts = sized_stiffness(frame, groups);
    structure = bar_structure(frame, groups, parts);
    held = response_limits(frame, groups, parts);
    Choice c(groups.size(), 0);
    while (true) {
      choices.push_back(c);
      double mass = 0;
      for (size_t g = 0; g < c.size(); ++g) mass += groups[g].masses[static_cast<size_t>(c[g])];
      masses.push_back(mass);
      pass.push_back(greatest_use(*structure, c).use <= 1);
      size_t g = 0;
      while (g < c.size() && ++c[g] == 4) c[g++] = 0;
      if (g == c.size()) break;
    }
  }

  BarRelaxation relaxation() const {
    return BarRelaxation(
        *structure, 0, [this](const Shares& shares) { return response_cuts(parts, held, shares); });
  }

  bool inside(const ChoiceBox& box, const Choice& c) const {
    for (size_t g = 0; g < c.size(); ++g) {
      if (c[g] < box.first[g] || c[g] > box.last[g]) return false;
    }
    return true;
  }

  double lightest_in(const ChoiceBox& box) const {
    double least = infinity;
    for (size_t i = 0; i < choices.size(); ++i) {
      if (pass[i] && inside(box, choices[i])) least = std::min(least, masses[i]);
    }
    return least;
  }

  ChoiceBox random_box(std::mt19937& random) const {
    ChoiceBox box;
    for (size_t g = 0; g < groups.size(); ++g) {
      const int a = static_cast<int>(random() % 4), b = static_cast<int>(random() % 4);
      box.first.push_back(std::min(a, b));
      box.last.push_back(std::max(a, b));
    }
    return box;
  }
};

}  // namespace

TEST_CASE("a box of bars is bounded by no more than the lightest in it that passes") {
  const SmallTower tower;
  const BarRelaxation relaxation = tower.relaxation();
  std::mt19937 random(2);
  int bounded = 0, emptied = 0;
  for (int trial = 0; trial < 200; ++trial) {
    const ChoiceBox box = tower.random_box(random);
    const double lightest = tower.lightest_in(box);
    const BoxAnswer answer = relaxation.bound(box, infinity);
    if (answer.empty) {
      CHECK(lightest == infinity);
      ++emptied;
      continue;
    }
    CHECK(answer.bound <= lightest * (1 + 1e-9));
    double least = 0;
    for (size_t g = 0; g < box.first.size(); ++g) {
      least += tower.groups[g].masses[static_cast<size_t>(box.first[g])];
    }
    if (lightest > least && answer.bound > 1.05 * least) ++bounded;  // than the smallest sizes
    if (!answer.proposal.empty()) CHECK(greatest_use(*tower.structure, answer.proposal).use <= 1);
  }
  CHECK(bounded > 20);
  CHECK(emptied > 20);
}

TEST_CASE("what a cutoff leaves of a box has every choice that passes below it") {
  const SmallTower tower;
  BarRelaxation relaxation = tower.relaxation();
  const ChoiceBox all = {Choice(tower.groups.size(), 0), Choice(tower.groups.size(), 3)};
  const double cutoff = 1.05 * tower.lightest_in(all);
  const ChoiceBox left = relaxation.narrow(all, cutoff);
  CHECK((left.first != all.first || left.last != all.last));
  std::mt19937 random(3);
  for (size_t i = 0; i < tower.choices.size(); ++i) {
    if (tower.pass[i] && tower.masses[i] <= cutoff) CHECK(tower.inside(left, tower.choices[i]));
  }
  for (int trial = 0; trial < 100; ++trial) {
    const ChoiceBox box = tower.random_box(random);
    const double lightest = tower.lightest_in(box);
    const BoxAnswer answer = relaxation.bound(box, cutoff);
    if (lightest > cutoff) continue;
    CHECK_FALSE(answer.empty);
    CHECK(answer.bound <= lightest * (1 + 1e-9));
    for (size_t i = 0; i < tower.choices.size(); ++i) {
      if (tower.pass[i] && tower.masses[i] <= cutoff && tower.inside(box, tower.choices[i])) {
        CHECK(tower.inside(answer.box, tower.choices[i]));
      }
    }
  }
}

TEST_CASE("a choice surely fails only if its checks say so by more than rounding") {
  const SmallTower tower;
  const BarRelaxation relaxation = tower.relaxation();
  for (size_t i = 0; i < tower.choices.size(); ++i) {
    const double use = greatest_use(*tower.structure, tower.choices[i]).use;
    CHECK(relaxation.surely_fails(tower.choices[i]) == (use > 1 + 1e-6));
  }
}

}  // namespace tubewright::bar_relaxation_tests
