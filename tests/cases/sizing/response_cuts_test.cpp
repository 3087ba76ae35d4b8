#include "cases/sizing/response_cuts.h"

#include <limits>

#include "cases/studies/torsion.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/sizing/sized_box.h"
#include "tests/catch.h"

namespace tubewright::response_cuts_tests {

using namespace tubewright::testing;

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

double farthest_of(const Eigen::VectorXd& u) {
  double most = 0;
  for (Eigen::Index n = 0; n < u.size(); n += 6) most = std::max(most, u.segment<3>(n).norm());
  return most;
}

/// A choice of sizes and what the frame with these does.
struct Solved {
  Choice choice;
  std::vector<Eigen::VectorXd> u;  ///< of each case
  double stiffness = 0;            ///< torsional
};

std::vector<Solved> solved_choices(Random& random, const Frame& f,
                                   const std::vector<SizedTubes>& groups, int count) {
  std::vector<Solved> all;
  for (int k = 0; k < count; ++k) {
    const Choice choice = random_choice(random, masses_of(groups));
    const Frame drawn = in_sizes(f, groups, choice);
    all.push_back({choice, solved_displacements(drawn), *torsional_stiffness(drawn)});
  }
  return all;
}

double moved(const Frame& f, const Solved& s, size_t load_case, const std::string& node, int way) {
  return s.u[load_case][6 * build_model(f).node.at(node) + way];
}

/// The number that this share of all of them does not exceed.
double quantile(std::vector<double> numbers, double share) {
  std::sort(numbers.begin(), numbers.end());
  return numbers[static_cast<size_t>(share * static_cast<double>(numbers.size() - 1))];
}

/// Limits, each of which many of the choices meet and many do not.
void limit_by(const std::vector<Solved>& choices, double share, Frame& f) {
  std::vector<double> twisted, sunk, farthest, soft;
  for (const Solved& s : choices) {
    twisted.push_back(std::abs(moved(f, s, 0, "lb2", 2)));
    sunk.push_back(std::abs(moved(f, s, 1, "rt2", 2)));
    farthest.push_back(std::max(farthest_of(s.u[0]), farthest_of(s.u[1])));
    soft.push_back(1 / s.stiffness);
  }
  f.limits.displacements = {{"tors", "lb2", {{{}, {}, quantile(twisted, share)}}, {}},
                            {"bend", "rt2", {{{}, {}, quantile(sunk, share)}}, {}}};
  f.limits.deflection = quantile(farthest, share);
  f.limits.torsional_stiffness = 1 / quantile(soft, share);
}

bool meets_limits(const Frame& f, const Solved& s) {
  for (const DisplacementLimit& limit : f.limits.displacements) {
    const size_t c = limit.load_case == "tors" ? 0 : 1;
    for (int d = 0; d < 3; ++d) {
      const auto& most = limit.most[static_cast<size_t>(d)];
      if (most && std::abs(moved(f, s, c, limit.node, d)) > *most) return false;
    }
  }
  for (const Eigen::VectorXd& u : s.u) {
    if (f.limits.deflection && farthest_of(u) > *f.limits.deflection) return false;
  }
  return !f.limits.torsional_stiffness || s.stiffness >= *f.limits.torsional_stiffness;
}

/// The limits one by one.
std::vector<HeldLimits> one_by_one(const std::vector<HeldLimits>& held) {
  std::vector<HeldLimits> list;
  for (const HeldLimits& h : held) {
    for (const ResponseLimit& limit : h.limits) {
      list.push_back({h.supports, h.loads, {limit}, no_limit});
    }
  }
  return list;
}

/// Over what it may be, tight where the cut was made.
void check_tight(const std::vector<SeparableCut>& cuts, const Choice& choice, double found,
                 double most) {
  REQUIRE(cuts.size() == (found > most ? 1 : 0));
  if (cuts.empty()) return;
  const double left = sum_of(cuts[0].weights, choice) - cuts[0].least;
  CHECK_THAT(left, WithinAbs(most - found, 1e-7 * found));
  CHECK(left < 0);
}

}  // namespace

TEST_CASE("no cut, wherever it is made, cuts off a choice that meets all limits") {
  Random random(31);
  Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const std::vector<Solved> choices = solved_choices(random, f, groups, 120);
  limit_by(choices, 0.8, f);
  std::vector<const Solved*> passing;
  for (const Solved& s : choices) {
    if (meets_limits(f, s)) passing.push_back(&s);
  }
  CHECK(passing.size() > 40);
  CHECK(passing.size() < 110);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const std::vector<HeldLimits> held = response_limits(f, groups, parts);
  CHECK(held.size() == 2);
  size_t made = 0, cutting = 0;
  for (int trial = 0; trial < 40; ++trial) {
    // Where a blend is between entries, and near whole choices that are too light.
    Shares shares = random_shares(random, masses_of(groups));
    for (std::vector<double>& list : shares) {
      const double lighter = number(random, 0, 1);
      for (double& share : list) share *= lighter;
      list.front() += 1 - lighter;
    }
    for (const SeparableCut& cut : response_cuts(parts, held, shares)) {
      ++made;
      CHECK(lacks(cut, shares) > 0);
      for (const Solved* s : passing) CHECK(sum_of(cut.weights, s->choice) >= cut.least);
      for (const Solved& s : choices) {
        cutting += sum_of(cut.weights, s.choice) < cut.least ? 1 : 0;
      }
    }
  }
  CHECK(made > 40);
  CHECK(cutting > 40);
}

TEST_CASE("at a whole choice the cut lacks just what the displacement is over its limit") {
  Random random(32);
  Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const std::vector<Solved> choices = solved_choices(random, f, groups, 15);
  limit_by(choices, 0.4, f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const std::vector<HeldLimits> held = one_by_one(response_limits(f, groups, parts));
  REQUIRE(held.size() == 5);  // two displacements either way, torsion
  size_t over = 0;
  for (const Solved& s : choices) {
    const Shares shares = whole_shares(masses_of(groups), s.choice);
    for (size_t k = 0; k < held.size(); ++k) {
      const double most = held[k].limits.front().most;
      const double found =
          k == 4 ? f.torsion->couple / s.stiffness
                 : (k % 2 == 0 ? 1 : -1) * moved(f, s, k / 2, k / 2 == 0 ? "lb2" : "rt2", 2);
      if (k == 4) {
        CHECK_THAT(most, WithinRel(f.torsion->couple / *f.limits.torsional_stiffness, 1e-12));
      } else {
        CHECK(most == *f.limits.displacements[k / 2].most[2]);
      }
      INFO("limit " << k);
      if (std::abs(found - most) < 1e-6 * most) continue;  // the choice that it was taken from
      check_tight(response_cuts(parts, {held[k]}, shares), s.choice, found, most);
      over += found > most ? 1 : 0;
    }
  }
  CHECK(over > 15);
}

TEST_CASE("at a whole choice the cut of a deflection is tight along the way of the farthest node") {
  Random random(33);
  Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const std::vector<Solved> choices = solved_choices(random, f, groups, 12);
  limit_by(choices, 0.5, f);
  f.limits.displacements.clear();
  f.limits.torsional_stiffness = {};
  const SizedStiffness parts = sized_stiffness(f, groups);
  const std::vector<HeldLimits> held = response_limits(f, groups, parts);
  REQUIRE(held.size() == 1);
  REQUIRE(held.front().loads.size() == 2);
  size_t over = 0;
  for (const Solved& s : choices) {
    for (size_t c = 0; c < 2; ++c) {
      const HeldLimits one{held[0].supports, {held[0].loads[c]}, {}, held[0].deflection};
      const double found = farthest_of(s.u[c]), most = *f.limits.deflection;
      if (std::abs(found - most) < 1e-6 * most) continue;
      check_tight(response_cuts(parts, {one}, whole_shares(masses_of(groups), s.choice)), s.choice,
                  found, most);
      over += found > most ? 1 : 0;
    }
  }
  CHECK(over > 2);
}

TEST_CASE("joints that give way leave the cuts of torsion, which hold for what is softer yet") {
  Random random(34);
  Frame f = box_with_stock();
  f.joint_flexibility = 1;
  const std::vector<SizedTubes> groups = groups_of(f);
  const std::vector<Solved> choices = solved_choices(random, f, groups, 40);
  limit_by(choices, 0.6, f);
  f.limits.deflection = {};
  const SizedStiffness parts = sized_stiffness(f, groups);
  const std::vector<HeldLimits> held = response_limits(f, groups, parts);
  size_t made = 0;
  for (const Solved& s : choices) {
    const Shares shares = whole_shares(masses_of(groups), s.choice);
    for (const HeldLimits& one : one_by_one(held)) {
      const std::vector<SeparableCut> cuts = response_cuts(parts, {one}, shares);
      if (one.loads.size() == 2) CHECK(cuts.empty());  // those of the displacements
      for (const SeparableCut& cut : cuts) {
        ++made;
        for (const Solved& other : choices) {
          if (other.stiffness < *f.limits.torsional_stiffness) continue;
          CHECK(sum_of(cut.weights, other.choice) >= cut.least);
        }
      }
    }
  }
  CHECK(made > 3);
}

TEST_CASE("loads that come with the tubes' weight, and displaced supports, make no limits") {
  Frame f = box_with_stock();
  f.limits.deflection = 0.001;
  f.limits.displacements = {{"tors", "lb2", {{0.001, {}, 0.002}}, {}},
                            {"bend", "rt2", {{{}, {}, 0.003}}, {}}};
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const std::vector<HeldLimits> plain = response_limits(f, groups, parts);
  REQUIRE(plain.size() == 1);
  CHECK(plain[0].loads.size() == 2);
  CHECK(plain[0].limits.size() == 6);  // three, either way
  CHECK(plain[0].deflection == 0.001);

  Frame heavy = f;
  heavy.cases[0].gravity = {0, 0, -1};
  const std::vector<HeldLimits> lighter = response_limits(heavy, groups, parts);
  REQUIRE(lighter.size() == 1);
  CHECK(lighter[0].loads.size() == 1);
  REQUIRE(lighter[0].limits.size() == 2);
  CHECK(lighter[0].limits[0].load == 0);
  CHECK(lighter[0].limits[0].most == 0.003);

  Frame displaced = f;
  displaced.supports.front().displacement[2] = 0.001;
  CHECK(response_limits(displaced, groups, parts).front().loads.empty());
}

TEST_CASE("a clad frame whose sheet moves with the sizes has no limits to cut by") {
  Frame f = clad_box();
  f.stock = box_with_stock().stock;
  f.limits.torsional_stiffness = 1e4;
  const std::vector<SizedTubes> groups = groups_of(f);
  CHECK(response_limits(f, groups, sized_stiffness(f, groups)).empty());
  Frame bare = f;
  bare.panels.clear();
  CHECK(response_limits(bare, groups, sized_stiffness(bare, groups)).size() == 1);
}

}  // namespace tubewright::response_cuts_tests
