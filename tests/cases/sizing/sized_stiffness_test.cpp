#include "cases/sizing/sized_stiffness.h"

#include "tests/cases/clad_frames.h"
#include "tests/cases/sizing/sized_box.h"
#include "tests/catch.h"

namespace tubewright::sized_stiffness_tests {

using namespace tubewright::testing;

namespace {

/// The forces on nodes of a case, as the file has them.
Eigen::VectorXd node_forces(const Frame& f, const Case& c) {
  const NumberedFrame numbered = build_model(f);
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(dof_count(numbered.model));
  for (const NodeAction& a : c.forces) {
    forces.segment<3>(6 * numbered.node.at(a.node)) += a.value;
  }
  return forces;
}

Eigen::MatrixXd all_node_forces(const Frame& f) {
  Eigen::MatrixXd forces(6 * static_cast<Eigen::Index>(f.nodes.size()),
                         static_cast<Eigen::Index>(f.cases.size()));
  for (size_t c = 0; c < f.cases.size(); ++c) {
    forces.col(static_cast<Eigen::Index>(c)) = node_forces(f, f.cases[c]);
  }
  return forces;
}

/// Both ways of blending give what the frame gives that is drawn for each.
void check_same(const SizedStiffness& parts, const Shares& shares, Blend blend,
                const Frame& drawn) {
  const BlendedFrame blended(parts, build_model(drawn).model.supports, shares, blend);
  REQUIRE(blended.sound());
  const Eigen::MatrixXd u = blended.displacements(all_node_forces(drawn));
  const std::vector<Eigen::VectorXd> solved = solved_displacements(drawn);
  for (size_t c = 0; c < solved.size(); ++c) {
    CHECK((u.col(static_cast<Eigen::Index>(c)) - solved[c]).norm() < 1e-9 * solved[c].norm());
  }
}

Section given_section(double A, double Iy, double Iz, double It) {
  return {A, Iy, Iz, It, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, rigid, rigid, {}};
}

/// The box of tubes without shear flexibility, whose sizes are given properties.
Frame box_of_given_properties() {
  Frame f = ring_box();
  SectionEntry& own = f.sections.front();
  own.shape = Shape::properties;
  own.given = given_section(2e-4, 2e-8, 3e-8, 4e-8);
  f.stock = Stock{};
  for (const Section& s :
       {given_section(1e-4, 1e-8, 4e-8, 2e-8), given_section(2e-4, 5e-8, 1e-8, 9e-8),
        given_section(5e-4, 8e-8, 9e-8, 7e-8)}) {
    f.stock->sizes.push_back({Shape::properties, 0, 0, 0, {}, s});
  }
  return f;
}

/// Of numbers that make a stiffness their mean, or the mean of their inverses.
double blend_of(const std::vector<SectionEntry>& sizes, const std::vector<double>& shares,
                Blend blend, double Section::*number) {
  double sum = 0;
  for (size_t j = 0; j < sizes.size(); ++j) {
    const double value = sizes[j].given.*number;
    sum += shares[j] * (blend == Blend::stiffness ? value : 1 / value);
  }
  return blend == Blend::stiffness ? sum : 1 / sum;
}

}  // namespace

TEST_CASE("a whole choice, blended either way, moves as the frame with these sizes does") {
  Random random(21);
  Frame f = box_with_stock();
  add_member(f, "tie", "lb0", "rt1").kind = MemberKind::link;
  f.keep.members = {"lb1-rb1"};
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  CHECK(parts.groups.size() == groups.size());
  for (int trial = 0; trial < 10; ++trial) {
    const Choice choice = random_choice(random, masses_of(groups));
    const Frame drawn = in_sizes(f, groups, choice);
    for (const Blend blend : {Blend::stiffness, Blend::flexibility}) {
      check_same(parts, whole_shares(masses_of(groups), choice), blend, drawn);
    }
  }
}

// A slender tube's stiffness is linear in A, Iy, Iz and It, and its flexibility in their inverses.
TEST_CASE("a blend of slender tubes is the tube of blended properties or of blended inverses") {
  Random random(22);
  const Frame f = box_of_given_properties();
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  for (int trial = 0; trial < 10; ++trial) {
    const Shares shares = random_shares(random, masses_of(groups));
    for (const Blend blend : {Blend::stiffness, Blend::flexibility}) {
      Frame drawn = f;
      for (size_t g = 0; g < groups.size(); ++g) {
        SectionEntry blended = f.sections.front();
        blended.name = "blend " + std::to_string(g);
        for (const auto number : {&Section::A, &Section::Iy, &Section::Iz, &Section::It}) {
          blended.given.*number = blend_of(groups[g].sizes, shares[g], blend, number);
        }
        drawn = with_section(drawn, groups[g].members, blended);
      }
      check_same(parts, shares, blend, drawn);
    }
  }
}

TEST_CASE("where every tube is sized, they store what the loads do") {
  Random random(23);
  const Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const Shares shares = random_shares(random, masses_of(groups));
  const Eigen::VectorXd forces = node_forces(f, f.cases.front());
  for (const Blend blend : {Blend::stiffness, Blend::flexibility}) {
    const BlendedFrame blended(parts, parts.model.supports, shares, blend);
    const Eigen::VectorXd u = blended.displacements(forces);
    double stored = 0;
    for (size_t g = 0; g < groups.size(); ++g) {
      REQUIRE(parts.groups[g].size() == groups[g].members.size());
      for (size_t i = 0; i < parts.groups[g].size(); ++i) {
        const Vector12 ends = end_displacements(parts.groups[g][i], u);
        stored += ends.dot(blended.stiffness(g, i) * ends);
      }
    }
    CHECK_THAT(stored, WithinRel(forces.dot(u), 1e-9));
  }
}

TEST_CASE("the blend of flexibilities is softer than that of stiffnesses") {
  Random random(24);
  const Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const Eigen::VectorXd forces = node_forces(f, f.cases.front());
  for (int trial = 0; trial < 10; ++trial) {
    const Shares shares = random_shares(random, masses_of(groups));
    const BlendedFrame stiff(parts, parts.model.supports, shares, Blend::stiffness);
    const BlendedFrame soft(parts, parts.model.supports, shares, Blend::flexibility);
    CHECK(forces.dot(soft.displacements(forces).col(0)) >
          forces.dot(stiff.displacements(forces).col(0)) * 1.0001);
  }
}

TEST_CASE("a flexibility is the pseudo-inverse of its stiffness, of tubes and of links") {
  Frame f = box_with_stock();
  add_member(f, "tie", "lb0", "rt1").kind = MemberKind::link;
  const SizedStiffness parts = sized_stiffness(f, groups_of(f));
  int matrices = 0;
  for (const std::vector<SizedElement>& group : parts.groups) {
    for (const SizedElement& e : group) {
      for (size_t j = 0; j < e.K.size(); ++j, ++matrices) {
        const Matrix12 &K = e.K[j], &F = e.F[j];
        const Matrix12 KF = K * F;
        CHECK((KF * K - K).norm() < 1e-8 * K.norm());
        CHECK((F * KF - F).norm() < 1e-8 * F.norm());
        CHECK((KF - KF.transpose()).norm() < 1e-8 * KF.norm());
      }
    }
  }
  CHECK(matrices == 21 * 4);
}

TEST_CASE("sizes that move a sheet are not just a sum over tubes, those of bare tubes are") {
  CHECK(sized_stiffness(box_with_stock(), groups_of(box_with_stock())).separable);
  Frame clad = clad_box();
  clad.stock = box_with_stock().stock;
  CHECK_FALSE(sized_stiffness(clad, groups_of(clad)).separable);
}

TEST_CASE("joints are rigid where the file says so, and not where welded tubes give way") {
  Frame f = box_with_stock();
  CHECK(sized_stiffness(f, groups_of(f)).joints_rigid);
  f.joint_flexibility = 1;
  CHECK_FALSE(sized_stiffness(f, groups_of(f)).joints_rigid);
}

TEST_CASE("a frame that nothing holds up is not sound") {
  const Frame f = box_with_stock();
  const std::vector<SizedTubes> groups = groups_of(f);
  const SizedStiffness parts = sized_stiffness(f, groups);
  const Shares shares = whole_shares(masses_of(groups), Choice(groups.size(), 0));
  std::vector<Support> one = parts.model.supports;
  one.resize(1);
  CHECK(BlendedFrame(parts, parts.model.supports, shares, Blend::stiffness).sound());
  CHECK_FALSE(BlendedFrame(parts, one, shares, Blend::stiffness).sound());
}

}  // namespace tubewright::sized_stiffness_tests
