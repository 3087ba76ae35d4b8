#include "cases/sizing/bar_structure.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/checks/member_checks.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "cases/model/case_actions.h"
#include "solver/elements/bar_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr size_t most_dofs = 400;
constexpr double unlimited = std::numeric_limits<double>::infinity();

/// Forces or displacements of all nodes as seen from the free DOFs.
VectorXd on_free(const Model& model, const FreeDofs& free, VectorXd all) {
  gather_on_masters(model, free.masters, all);
  VectorXd f(static_cast<Index>(free.unknown.size()));
  for (Index i = 0; i < f.size(); ++i) f[i] = all[free.unknown[static_cast<size_t>(i)]];
  return f;
}

/// A frame in which one group has one size and the others their first.
struct OneSize {
  Frame frame;
  NumberedFrame numbered;
  std::vector<MemberFacts> facts;
};

OneSize one_size(const Frame& frame, const std::vector<SizedTubes>& groups, size_t g, size_t j) {
  std::vector<int> choice(groups.size(), 0);
  choice[g] = static_cast<int>(j);
  OneSize one;
  one.frame = in_sizes(frame, groups, choice);
  one.numbered = build_model(one.frame);
  one.facts = member_facts(one.frame, one.numbered);
  return one;
}

/// The greatest axial force of that sign that the checks of a bar let pass.
double greatest_force(const MemberFacts& facts, double sign, double factor) {
  constexpr double newton = 1000;
  const auto used = [&](double force) {
    Stress stress;
    stress.axial = sign * force / facts.section.A;
    stress.von_mises = force / facts.section.A;
    const MemberChecks checks = bar_checks(facts, sign * force, stress, false, factor);
    const NamedMemberCheck nearest = nearest_limit(checks);
    return nearest.result == nullptr ? 0 : *nearest.result->utilisation;
  };
  const double u = used(newton);
  if (!(u > 0)) return unlimited;
  // All of a bar's checks are proportional to its force; one that is not says nothing here.
  constexpr double rounding = 1e-9;
  return std::abs(used(newton / u) - 1) < rounding ? newton / u : unlimited;
}

bool ascending(const std::vector<double>& list) {
  return std::adjacent_find(list.begin(), list.end(),
                            [](double a, double b) { return !(a < b); }) == list.end();
}

class Builder {
 public:
  Builder(const Frame& frame, const std::vector<SizedTubes>& groups, const SizedStiffness& parts)
      : frame_(frame), groups_(groups), parts_(parts), free_(number_free_dofs(parts.model)) {}

  std::optional<BarStructure> build();

 private:
  bool add_areas();
  void add_stiffness();
  void add_bars();
  void add_cases();
  bool add_loads(const Case& c, BarCase& bar_case) const;
  void add_allowed(const Case& c, BarCase& bar_case) const;
  void add_limits(const Case& c);
  bool condense_idle();

  const Frame& frame_;
  const std::vector<SizedTubes>& groups_;
  const SizedStiffness& parts_;
  const FreeDofs free_;
  std::vector<std::vector<OneSize>> in_one_;
  BarStructure s_;
};

bool Builder::add_areas() {
  for (size_t g = 0; g < groups_.size(); ++g) {
    std::vector<OneSize> list;
    std::vector<double> areas;
    const auto first = static_cast<size_t>(groups_[g].members.front());
    for (size_t j = 0; j < groups_[g].sizes.size(); ++j) {
      list.push_back(one_size(frame_, groups_, g, j));
      areas.push_back(list.back().facts[first].section.A);
    }
    if (!ascending(areas)) return false;
    s_.mass_per_area.push_back(groups_[g].masses.front() / areas.front());
    for (size_t j = 0; j < areas.size(); ++j) {
      const double mass = s_.mass_per_area.back() * areas[j];
      if (std::abs(mass - groups_[g].masses[j]) > 1e-9 * mass) return false;
    }
    s_.areas.push_back(std::move(areas));
    in_one_.push_back(std::move(list));
  }
  return true;
}

void Builder::add_stiffness() {
  const Model& model = parts_.model;
  const std::vector<bool> taut(model.bars.size(), false);
  const auto unsized = [&](const ElementVisitor& visit) { for_each_unsized(parts_, visit); };
  SparseMatrix K0 = assemble_parts(model, free_, unsized);
  // Rotations that nothing resists are pinned as they are in the whole.
  SparseMatrix K = assemble_stiffness(model, free_, taut);
  const SparseMatrix before = K;
  restrain_zero_stiffness_dofs(K, free_);
  K0 += SparseMatrix(K - before);
  s_.K0 = MatrixXd(K0).selfadjointView<Eigen::Lower>();
}

void Builder::add_bars() {
  for (size_t g = 0; g < groups_.size(); ++g) {
    const OneSize& one = in_one_[g].front();
    for (const int m : groups_[g].members) {
      const Bar& bar =
          one.numbered.model
              .bars[static_cast<size_t>(one.numbered.slots[static_cast<size_t>(m)].index)];
      const Eigen::Vector3d n = bar_direction(one.numbered.model, bar);
      VectorXd all = VectorXd::Zero(dof_count(parts_.model));
      all.segment<3>(static_cast<Index>(dofs_per_node) * bar.to) = n;
      all.segment<3>(static_cast<Index>(dofs_per_node) * bar.from) = -n;
      s_.bars.push_back({static_cast<int>(g), bar.stiffness / s_.areas[g].front(),
                         on_free(parts_.model, free_, all)});
    }
  }
}

/// False if they are no linear function of the areas, or supports are displaced.
bool Builder::add_loads(const Case& c, BarCase& bar_case) const {
  const auto loads = [&](const OneSize& one) {
    const Actions actions = case_actions(one.frame, one.numbered, c);
    if (!actions.prescribed.isZero(0)) return VectorXd();
    return on_free(parts_.model, free_, joint_loads(one.numbered.model, actions));
  };
  const VectorXd first = loads(in_one_.front().front());
  if (first.size() == 0) return false;
  bar_case.f0 = first;
  bool any = false;
  constexpr double rounding = 1e-11;
  for (size_t g = 0; g < groups_.size(); ++g) {
    const std::vector<double>& areas = s_.areas[g];
    VectorXd slope = VectorXd::Zero(first.size());
    if (areas.size() > 1) {
      slope = (loads(in_one_[g].back()) - first) / (areas.back() - areas.front());
    }
    const double size = first.cwiseAbs().maxCoeff() + slope.cwiseAbs().maxCoeff() * areas.back();
    for (size_t j = 1; j < areas.size(); ++j) {
      const VectorXd off = loads(in_one_[g][j]) - first - slope * (areas[j] - areas.front());
      if (off.cwiseAbs().maxCoeff() > rounding * size) return false;
    }
    if (slope.cwiseAbs().maxCoeff() * areas.back() <= rounding * size) slope.setZero();
    any = any || !slope.isZero(0);
    bar_case.f0 -= slope * areas.front();
    bar_case.f.push_back(std::move(slope));
  }
  if (!any) bar_case.f.clear();
  return true;
}

void Builder::add_allowed(const Case& c, BarCase& bar_case) const {
  const double factor = safety_factor(frame_, c);
  for (size_t g = 0, bar = 0; g < groups_.size(); ++g) {
    for (const int m : groups_[g].members) {
      std::vector<Elongation> list;
      for (size_t j = 0; j < s_.areas[g].size(); ++j) {
        const MemberFacts& facts = in_one_[g][j].facts[static_cast<size_t>(m)];
        const double k = s_.bars[bar].kappa * s_.areas[g][j];
        list.push_back(
            {-greatest_force(facts, -1, factor) / k, greatest_force(facts, 1, factor) / k});
      }
      bar_case.allowed.push_back(std::move(list));
      ++bar;
    }
  }
}

void Builder::add_limits(const Case& c) {
  const auto number = numbers_of_nodes(frame_);
  const int load_case = static_cast<int>(s_.cases.size()) - 1;
  for (const DisplacementLimit& limit : frame_.limits.displacements) {
    if (limit.load_case != c.name) continue;
    for (int d = 0; d < 3; ++d) {
      const auto& most = limit.most[static_cast<size_t>(d)];
      if (!most) continue;
      VectorXd all = VectorXd::Zero(dof_count(parts_.model));
      all[static_cast<Index>(dofs_per_node) * number.at(limit.node) + d] = 1;
      const VectorXd q = on_free(parts_.model, free_, all);
      if (q.isZero(0)) continue;  // held
      s_.limits.push_back({load_case, q, *most});
      s_.limits.push_back({load_case, -q, *most});
    }
  }
}

void Builder::add_cases() {
  for (const Case& c : frame_.cases) {
    if (needs_vehicle(frame_, c)) continue;
    BarCase bar_case;
    if (!add_loads(c, bar_case)) continue;
    add_allowed(c, bar_case);
    s_.cases.push_back(std::move(bar_case));
    add_limits(c);
  }
}

/// Eliminates the DOFs that no sized bar, load or limit knows, such as rotations. False if what is
/// not sized does not hold them.
bool Builder::condense_idle() {
  VectorXd used = VectorXd::Zero(s_.K0.rows());
  const auto use = [&](const VectorXd& v) { used += v.cwiseAbs(); };
  for (const SizedBar& bar : s_.bars) use(bar.b);
  for (const BarCase& c : s_.cases) {
    use(c.f0);
    for (const VectorXd& f : c.f) use(f);
  }
  for (const BarLimit& limit : s_.limits) use(limit.q);
  std::vector<Index> kept, idle;
  for (Index i = 0; i < used.size(); ++i) (used[i] > 0 ? kept : idle).push_back(i);
  if (!idle.empty()) {
    const Eigen::LLT<MatrixXd> held(s_.K0(idle, idle));
    if (held.info() != Eigen::Success) return false;
    const MatrixXd across = s_.K0(idle, kept);
    s_.K0 = (s_.K0(kept, kept) - across.transpose() * held.solve(across)).eval();
  }
  const auto keep = [&](VectorXd& v) { v = v(kept).eval(); };
  for (SizedBar& bar : s_.bars) keep(bar.b);
  for (BarCase& c : s_.cases) {
    keep(c.f0);
    for (VectorXd& f : c.f) keep(f);
  }
  for (BarLimit& limit : s_.limits) keep(limit.q);
  return true;
}

std::optional<BarStructure> Builder::build() {
  const bool all_links = std::none_of(parts_.sized_beams.begin(), parts_.sized_beams.end(),
                                      [](bool sized) { return sized; });
  if (!all_links || !is_linear(parts_.model) || !parts_.separable || !parts_.joints_rigid)
    return std::nullopt;
  if (free_.unknown.size() > most_dofs || !add_areas()) return std::nullopt;
  add_stiffness();
  add_bars();
  add_cases();
  if (s_.cases.empty() || !condense_idle()) return std::nullopt;
  return std::move(s_);
}

}  // namespace

std::optional<BarStructure> bar_structure(const Frame& frame, const std::vector<SizedTubes>& groups,
                                          const SizedStiffness& parts) {
  return Builder(frame, groups, parts).build();
}

}  // namespace tubewright
