#include "cases/changes/wall_slopes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "cases/analysis/in_parallel.h"
#include "cases/analysis/summarise_case.h"
#include "cases/attachment_checks/attachment_check.h"
#include "cases/frame/find_parts.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/mass_distribution.h"
#include "cases/model/mass_summary.h"
#include "cases/studies/suspension_modes.h"
#include "solver/linear_algebra/dense.h"
#include "solver/stability/buckling.h"
#include "solver/stability/modes.h"
#include "solver/stability/refine.h"
#include "solver/statics/assembly.h"

namespace tubewright {

/// Parts of SlopeBase, which anonymous types cannot be.
namespace wall_slopes {

/// Torsion: the test's own displacements.
struct TwistBase {
  Eigen::VectorXd u;
  double stiffness_by_couple = 0;
};

/// The lowest elastic modes that share a frequency.
struct ModeBase {
  double frequency = 0;
  bool locked = false;  ///< of the frame with its springs locked
  std::vector<int> pieces;
  std::vector<Eigen::VectorXd> shapes;
};

/// The lowest buckling modes, of all cases, that share a factor.
struct BucklingBase {
  double factor = 0;
  std::string load_case;
  std::vector<int> pieces;
  std::vector<double> secants;  ///< of the panels
  std::vector<Eigen::VectorXd> shapes;
};

}  // namespace wall_slopes

using wall_slopes::BucklingBase;
using wall_slopes::ModeBase;
using wall_slopes::TwistBase;

namespace {

/// Of the wall: half the distance between the two frames of a difference. Small, since the joints'
/// stiffness has kinks where a table ends; answers are exact to some 1e-12, which leaves 1e-7.
constexpr double step_share = 1e-5;
/// Relative distance below which eigenvalues count as one.
constexpr double one_value = 1e-4;

std::vector<int> piece_counts(const RefinedModel& fine) {
  std::vector<int> counts;
  for (const std::vector<int>& pieces : fine.pieces) {
    counts.push_back(static_cast<int>(pieces.size()));
  }
  return counts;
}

std::vector<bool> none_slack(const Model& model) {
  return std::vector<bool>(model.bars.size(), false);
}

/// A matrix on a few shapes: entries x_i' P x_j.
template <class Product>
Eigen::MatrixXd on_shapes(const std::vector<Eigen::VectorXd>& shapes, const Product& product) {
  const auto n = static_cast<Eigen::Index>(shapes.size());
  Eigen::MatrixXd P(n, n);
  for (Eigen::Index j = 0; j < n; ++j) {
    const Eigen::VectorXd image = product(shapes[static_cast<size_t>(j)]);
    for (Eigen::Index i = 0; i < n; ++i) P(i, j) = shapes[static_cast<size_t>(i)].dot(image);
  }
  return (P + P.transpose()) / 2;
}

/// The least eigenvalue of A on shapes whose B is positive definite.
std::optional<double> least_slope(const Eigen::MatrixXd& A, const Eigen::MatrixXd& B) {
  const auto system = symmetric_eigensystem(A, B);
  if (!system) return std::nullopt;
  return system->values.minCoeff();
}

std::optional<TwistBase> twist_base(const Frame& frame) {
  if (!frame.torsion) return std::nullopt;
  const Result<Torsion> test = torsion_test(frame, TorsionHold::free);
  const Torsion* twisted = test.get();
  if (twisted == nullptr) return std::nullopt;
  return TwistBase{twisted->solution.displacements, twisted->stiffness / twisted->couple};
}

std::optional<ModeBase> mode_base(const Frame& frame) {
  constexpr int enough = 6;
  const Result<FrameModes> found = frame_modes(frame, enough);
  const FrameModes* modes = found.get();
  if (modes == nullptr) return std::nullopt;
  const FrameMode* lowest = lowest_elastic(*modes);
  if (lowest == nullptr) return std::nullopt;
  ModeBase base{lowest->frequency, !modes->own.empty(), piece_counts(modes->fine), {}};
  for (const FrameMode& m : base.locked ? modes->own : modes->modes) {
    if (!m.rigid && m.frequency <= base.frequency * (1 + one_value)) base.shapes.push_back(m.shape);
  }
  return base;
}

std::optional<BucklingBase> buckling_base(const Analysis& analysis) {
  constexpr int enough = 4;
  std::vector<std::optional<BucklingBase>> found(analysis.cases.size());
  in_parallel(found.size(), [&](size_t i) {
    const CaseResult& result = analysis.cases[i];
    const FineBuckling b = buckling_of(analysis, result, enough);
    if (b.buckling.modes.empty()) return;
    BucklingBase base;
    base.factor = b.buckling.modes.front().factor;
    base.load_case = result.name;
    base.pieces = piece_counts(b.fine);
    for (const PanelResult& p : result.panels) base.secants.push_back(p.stage.secant_ratio);
    for (const BucklingMode& m : b.buckling.modes) {
      if (m.factor <= base.factor * (1 + one_value)) base.shapes.push_back(m.shape);
    }
    found[i] = std::move(base);
  });
  std::optional<BucklingBase> lowest;
  for (auto& base : found) {
    if (base && (!lowest || base->factor < lowest->factor)) lowest = std::move(base);
  }
  return lowest;
}

/// Utilisation of one check of one item in a case.
std::optional<double> utilisation_in(const Frame& frame, const CaseResult& c, const Worst& of) {
  for (size_t m = 0; m < c.members.size(); ++m) {
    if (frame.members[m].name != of.item) continue;
    for (const auto& [name, result] : named_checks(c.members[m].checks)) {
      if (name == of.check) return result->utilisation;
    }
  }
  std::optional<double> found;
  const auto look_among = [&](const auto& parts, const auto& results) {
    for (size_t i = 0; i < results.size(); ++i) {
      if (parts[i].name != of.item) continue;
      for (const NamedCheck& check : results[i].checks) {
        if (check.name == of.check) found = check.result.utilisation;
      }
    }
  };
  look_among(frame.panels, c.panels);
  look_among(frame.attachments, c.attachments);
  look_among(frame.gussets, c.gussets);
  if (found) return found;
  if (of.check == "deflection" && frame.limits.deflection) {
    return c.deflection / *frame.limits.deflection;
  }
  if (of.check == "displacement") {
    for (const LimitedDisplacement& d : limited_displacements(frame, c)) {
      if (d.item == of.item) return d.utilisation;
    }
  }
  if (of.check == "sway" && c.sway_factor) return 1 / *c.sway_factor;
  return std::nullopt;
}

/// A frame with the walls a little thicker or thinner, and what is solved of it.
struct Neighbour {
  Frame frame;
  JointedFrame jointed;
  std::optional<Analysis> analysis;  ///< of the cases that are asked for

  const Model& model() const { return jointed.numbered.model; }
};

template <class Value>
using Pair = std::array<Value, 2>;

template <class Value>
std::optional<double> slope(const Pair<std::optional<Value>>& values, double step) {
  if (!values[0] || !values[1]) return std::nullopt;
  return (*values[1] - *values[0]) / (2 * step);
}

}  // namespace

struct SlopeBase::Impl {
  const Frame& frame;
  const Analysis& analysis;
  const BaseStiffnesses& bases;
  std::optional<WorstOfAll> worst;
  const CaseResult* deflected = nullptr;  ///< the case with the greatest deflection
  std::optional<TwistBase> twist;
  std::optional<ModeBase> modes;
  std::optional<BucklingBase> buckling;

  std::vector<std::string> cases_asked_for() const;
  Neighbour neighbour(const MemberSet& members, double wall) const;
  std::optional<double> stiffness_slope(const Pair<Neighbour>& both, double step) const;
  std::optional<double> frequency_slope(const Pair<Neighbour>& both, double step) const;
  std::optional<double> buckling_slope(const Pair<Neighbour>& both, double step) const;
};

std::vector<std::string> SlopeBase::Impl::cases_asked_for() const {
  std::vector<std::string> names;
  const auto add = [&](const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  if (worst) add(worst->load_case);
  if (deflected != nullptr) add(deflected->name);
  if (buckling) add(buckling->load_case);
  return names;
}

Neighbour SlopeBase::Impl::neighbour(const MemberSet& members, double wall) const {
  SectionEntry section =
      find_section(frame, frame.members[static_cast<size_t>(members.front())].section);
  section.wall = wall;
  Neighbour n;
  n.frame = with_section(frame, members, section);
  n.jointed = jointed_frame(n.frame);
  const std::vector<std::string> asked = cases_asked_for();
  if (asked.empty()) return n;
  AnalysisOptions options;
  if (worst) options.checked.only = worst->item;
  Result<Analysis> outcome = analyse(n.frame, asked, options, tell_nobody, {&bases, &n.jointed});
  if (auto* found = outcome.get()) n.analysis = std::move(*found);
  return n;
}

std::optional<double> SlopeBase::Impl::stiffness_slope(const Pair<Neighbour>& both,
                                                       double step) const {
  if (!twist) return std::nullopt;
  const auto energy = [&](const Neighbour& n) {
    return twist->u.dot(apply_stiffness(n.model(), none_slack(n.model()), twist->u));
  };
  return std::pow(twist->stiffness_by_couple, 2) * (energy(both[1]) - energy(both[0])) / (2 * step);
}

std::optional<double> SlopeBase::Impl::frequency_slope(const Pair<Neighbour>& both,
                                                       double step) const {
  if (!modes) return std::nullopt;
  const double omega = 2 * std::numbers::pi * modes->frequency;
  Pair<Eigen::MatrixXd> K, M;
  for (const size_t i : {0, 1}) {
    const NumberedFrame& numbered = both[i].jointed.numbered;
    Model fine = refine(numbered.model, modes->pieces).model;
    if (modes->locked) fine = with_locked_springs(both[i].frame, numbered, fine);
    const std::vector<AddedMass> added =
        added_masses(numbered.model, mass_distribution(both[i].frame, numbered));
    K[i] = on_shapes(modes->shapes, [&](const Eigen::VectorXd& x) {
      return apply_stiffness(fine, none_slack(fine), x);
    });
    M[i] = on_shapes(modes->shapes,
                     [&](const Eigen::VectorXd& x) { return apply_mass(fine, added, x); });
  }
  const Eigen::MatrixXd change = (K[1] - K[0] - omega * omega * (M[1] - M[0])) / (2 * step);
  const auto least = least_slope(change, (M[0] + M[1]) / 2);
  if (!least) return std::nullopt;
  return *least / (8 * std::pow(std::numbers::pi, 2) * modes->frequency);
}

std::optional<double> SlopeBase::Impl::buckling_slope(const Pair<Neighbour>& both,
                                                      double step) const {
  if (!buckling) return std::nullopt;
  Pair<Eigen::MatrixXd> K, KG;
  for (const size_t i : {0, 1}) {
    if (!both[i].analysis) return std::nullopt;
    const auto& cases = both[i].analysis->cases;
    const auto solved = std::find_if(cases.begin(), cases.end(), [&](const CaseResult& c) {
      return c.name == buckling->load_case;
    });
    if (solved == cases.end()) return std::nullopt;
    Model model = both[i].model();
    for (size_t p = 0; p < buckling->secants.size(); ++p) {
      model.panels[p].secant_ratio = buckling->secants[p];
    }
    const RefinedModel fine = refine(model, buckling->pieces);
    const AxialForces forces = refine_axial_forces(fine, solved->solution);
    K[i] = on_shapes(buckling->shapes, [&](const Eigen::VectorXd& x) {
      return apply_stiffness(fine.model, forces.slack, x);
    });
    KG[i] = on_shapes(buckling->shapes, [&](const Eigen::VectorXd& x) {
      return apply_stress_stiffness(fine.model, forces, x);
    });
  }
  const Eigen::MatrixXd change = (K[1] - K[0] + buckling->factor * (KG[1] - KG[0])) / (2 * step);
  return least_slope(change, -(KG[0] + KG[1]) / 2);
}

SlopeBase::SlopeBase(const Frame& frame, const Analysis& analysis, const BaseStiffnesses& bases)
    : impl_(new Impl{frame, analysis, bases, worst_of_all(analysis), nullptr, {}, {}, {}}) {
  for (const CaseResult& c : analysis.cases) {
    if (impl_->deflected == nullptr || c.deflection > impl_->deflected->deflection) {
      impl_->deflected = &c;
    }
  }
  impl_->twist = twist_base(frame);
  impl_->modes = mode_base(frame);
  impl_->buckling = buckling_base(analysis);
}

SlopeBase::~SlopeBase() = default;

std::optional<double> SlopeBase::frequency() const {
  if (!impl_->modes) return std::nullopt;
  return impl_->modes->frequency;
}

std::optional<double> SlopeBase::buckling() const {
  if (!impl_->buckling) return std::nullopt;
  return impl_->buckling->factor;
}

std::optional<double> SlopeBase::deflection() const {
  if (impl_->deflected == nullptr) return std::nullopt;
  return impl_->deflected->deflection;
}

std::optional<WallSlopes> SlopeBase::slopes(const MemberSet& members) const {
  const Impl& base = *impl_;
  const double wall =
      find_section(base.frame, base.frame.members[static_cast<size_t>(members.front())].section)
          .wall;
  if (!(wall > 0)) return std::nullopt;
  const double step = step_share * wall;
  const Pair<Neighbour> both = {base.neighbour(members, wall - step),
                                base.neighbour(members, wall + step)};
  WallSlopes slopes;
  const auto mass = [&](const Neighbour& n) {
    return mass_summary(n.frame, n.jointed.numbered).tubes;
  };
  slopes.mass = (mass(both[1]) - mass(both[0])) / (2 * step);
  slopes.stiffness = base.stiffness_slope(both, step);
  slopes.frequency = base.frequency_slope(both, step);
  slopes.buckling = base.buckling_slope(both, step);
  Pair<std::optional<double>> utilisation, deflection;
  for (const size_t i : {0, 1}) {
    if (!both[i].analysis) continue;
    for (const CaseResult& c : both[i].analysis->cases) {
      if (base.worst && c.name == base.worst->load_case) {
        utilisation[i] = utilisation_in(
            both[i].frame, c, {base.worst->check, base.worst->item, base.worst->utilisation});
      }
      if (base.deflected != nullptr && c.name == base.deflected->name) deflection[i] = c.deflection;
    }
  }
  slopes.utilisation = slope(utilisation, step);
  slopes.deflection = slope(deflection, step);
  return slopes;
}

}  // namespace tubewright
