#include "cases/studies/suspension_modes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>

#include "cases/model/spread_load.h"
#include "cases/model/weldments.h"
#include "cases/wheels/rolling.h"
#include "solver/elements/bar_element.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

namespace {

/// Along x, y, z, then about them.
constexpr std::array<const char*, 6> body_words = {"body surge", "body sway",  "body bounce",
                                                   "body roll",  "body pitch", "body yaw"};

/// Of strain energy in springs and tyres, and of kinetic energy in the body as a rigid one and in
/// wheels, from which on a mode is the suspension's (judgement).
constexpr double mostly = 0.5;
/// Of the kinetic energy of the wheel that hops most, from which on another hops with it: left and
/// right of a vehicle hop alike, but for rounding (judgement).
constexpr double hops_with_it = 0.5;

std::string hop_words(const std::vector<std::string>& wheels) {
  std::string text = "wheel hop";
  for (size_t w = 0; w < wheels.size(); ++w) {
    text += (w == 0 ? ", " : w + 1 == wheels.size() ? " and " : ", ") + wheels[w];
  }
  return text;
}

std::vector<int> spring_bars(const Frame& frame, const NumberedFrame& numbered) {
  std::vector<int> bars;
  for (size_t m = 0; m < frame.members.size(); ++m) {
    if (frame.members[m].kind == MemberKind::spring) bars.push_back(numbered.slots[m].index);
  }
  return bars;
}

}  // namespace

std::vector<Tyre> tyres_of(const Frame& frame, const NumberedFrame& numbered) {
  std::vector<Tyre> tyres;
  if (!frame.vehicle || !has_tyre_rates(*frame.vehicle)) return tyres;
  for (const Wheel& wheel : frame.vehicle->wheels) {
    Tyre t{tyre_rate(*frame.vehicle, wheel), node_numbers(numbered, wheel.carrier), {}};
    std::vector<Eigen::Vector3d> at;
    for (const int n : t.nodes) at.push_back(numbered.model.nodes[static_cast<size_t>(n)]);
    const std::vector<NodeShare> shares =
        spread_load(at, wheel.contact, Eigen::Vector3d::UnitZ(), Eigen::Vector3d::Zero());
    t.lift.resize(dofs_per_node * static_cast<Eigen::Index>(shares.size()));
    for (size_t n = 0; n < shares.size(); ++n) {
      const auto row = dofs_per_node * static_cast<Eigen::Index>(n);
      t.lift.segment<3>(row) = shares[n].force;
      t.lift.segment<3>(row + 3) = shares[n].moment;
    }
    tyres.push_back(std::move(t));
  }
  return tyres;
}

std::vector<GroundStiffness> ground_of(const std::vector<Tyre>& tyres) {
  std::vector<GroundStiffness> ground;
  for (const Tyre& t : tyres) ground.push_back({t.nodes, t.rate * t.lift * t.lift.transpose()});
  return ground;
}

Model with_locked_springs(const Frame& frame, const NumberedFrame& numbered, const Model& model) {
  // Far stiffer than any tube, and far from what rounding makes of a stiffness matrix.
  constexpr double times_the_stiffest = 100;
  double stiffest = 0;
  for (const Beam& beam : numbered.model.beams) {
    const double length = (numbered.model.nodes[beam.to] - numbered.model.nodes[beam.from]).norm();
    stiffest = std::max(stiffest, numbered.model.materials[beam.material].E *
                                      numbered.model.sections[beam.section].A / length);
  }
  for (const Bar& bar : numbered.model.bars) stiffest = std::max(stiffest, bar.stiffness);
  Model locked = model;
  for (const int bar : spring_bars(frame, numbered)) {
    locked.bars[static_cast<size_t>(bar)].stiffness = times_the_stiffest * stiffest;
  }
  return locked;
}

SuspensionReader::SuspensionReader(const Frame& frame, const NumberedFrame& numbered,
                                   const std::vector<double>& masses, std::vector<Tyre> tyres)
    : model_(numbered.model),
      masses_(masses),
      tyres_(std::move(tyres)),
      springs_(spring_bars(frame, numbered)),
      body_(largest_weldment(frame, numbered)) {
  if (!frame.vehicle) return;
  const std::vector<int> weldment = weldments(frame, numbered);
  for (const Wheel& wheel : frame.vehicle->wheels) {
    std::set<int> parts;
    for (const int n : node_numbers(numbered, wheel.carrier)) {
      const int part = weldment[static_cast<size_t>(n)];
      if (body_.empty() || part != weldment[static_cast<size_t>(body_.front())]) parts.insert(part);
    }
    Unsprung u{wheel.name, {}};
    for (size_t n = 0; n < weldment.size(); ++n) {
      if (parts.contains(weldment[n])) u.nodes.push_back(static_cast<int>(n));
    }
    unsprung_.push_back(std::move(u));
  }
}

/// Of the strain energy: twice that is omega^2, since shapes come mass-normalised.
double SuspensionReader::sprung_share(const Mode& mode) const {
  double twice = 0;
  for (const int s : springs_) {
    const Bar& bar = model_.bars[static_cast<size_t>(s)];
    const double stretch = bar_elongation(model_, bar, mode.shape);
    twice += bar.stiffness * stretch * stretch;
  }
  for (const Tyre& t : tyres_) {
    double lifted = 0;
    for (size_t n = 0; n < t.nodes.size(); ++n) {
      lifted += t.lift.segment<6>(dofs_per_node * static_cast<Eigen::Index>(n))
                    .dot(mode.shape.segment<6>(dofs_per_node * t.nodes[n]));
    }
    twice += t.rate * lifted * lifted;
  }
  const double omega = 2 * std::numbers::pi * mode.frequency;
  return omega > 0 ? twice / (omega * omega) : 0;
}

/// Twice the kinetic energy at unit circular frequency.
double SuspensionReader::kinetic(const std::vector<int>& nodes,
                                 const Eigen::VectorXd& shape) const {
  double energy = 0;
  for (const int n : nodes) {
    energy += masses_[static_cast<size_t>(n)] * shape.segment<3>(dofs_per_node * n).squaredNorm();
  }
  return energy;
}

Ride SuspensionReader::body_ride(const Eigen::VectorXd& shape, double all) const {
  std::vector<Eigen::Vector3d> at, moved;
  std::vector<double> weight;
  for (const int n : body_) {
    at.push_back(model_.nodes[static_cast<size_t>(n)]);
    moved.emplace_back(shape.segment<3>(dofs_per_node * n));
    weight.push_back(masses_[static_cast<size_t>(n)]);
  }
  const RigidMotion motion = fit_rigid_motion(at, moved, weight);
  std::array<double, 6> energy = {};
  double whole = 0;
  for (size_t n = 0; n < at.size(); ++n) {
    const Eigen::Vector3d r = at[n] - motion.centre;
    whole += weight[n] * motion.at(at[n]).squaredNorm();
    for (size_t d = 0; d < 3; ++d) {
      const auto axis = static_cast<Eigen::Index>(d);
      energy[d] += weight[n] * motion.translation[axis] * motion.translation[axis];
      const double arm2 = r.squaredNorm() - r[axis] * r[axis];
      energy[3 + d] += weight[n] * arm2 * motion.rotation[axis] * motion.rotation[axis];
    }
  }
  const auto most = std::max_element(energy.begin(), energy.end()) - energy.begin();
  return {body_words[static_cast<size_t>(most)], whole / all};
}

std::optional<Ride> SuspensionReader::hop(const Eigen::VectorXd& shape, double all) const {
  std::set<int> parts;
  double most = 0;
  for (const Unsprung& u : unsprung_) {
    parts.insert(u.nodes.begin(), u.nodes.end());
    most = std::max(most, kinetic(u.nodes, shape));
  }
  if (!(most > 0)) return std::nullopt;
  std::vector<std::string> wheels;
  for (const Unsprung& u : unsprung_) {
    if (kinetic(u.nodes, shape) >= hops_with_it * most) wheels.push_back(u.wheel);
  }
  return Ride{hop_words(wheels), kinetic({parts.begin(), parts.end()}, shape) / all};
}

std::optional<Ride> SuspensionReader::ride(const Mode& mode) const {
  if (springs_.empty() && tyres_.empty()) return std::nullopt;
  if (sprung_share(mode) < mostly) return std::nullopt;
  double all = 0;
  for (size_t n = 0; n < masses_.size(); ++n) {
    all += masses_[n] *
           mode.shape.segment<3>(dofs_per_node * static_cast<Eigen::Index>(n)).squaredNorm();
  }
  if (!(all > 0)) return std::nullopt;
  const Ride body = body_ride(mode.shape, all);
  const std::optional<Ride> wheels = hop(mode.shape, all);
  if (body.share + (wheels ? wheels->share : 0) < mostly) return std::nullopt;
  return wheels && wheels->share > body.share ? *wheels : body;
}

}  // namespace tubewright
