#include "cases/vehicle/vehicle_cases.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "cases/frame/find_parts.h"
#include "cases/model/case_actions.h"
#include "cases/wheels/rolling.h"

namespace tubewright {

namespace {

/// Cases are solved together; each has a cross-weight of its own.
class VehicleSolver {
 public:
  VehicleSolver(const Frame& frame, const NumberedFrame& numbered, const BaseStiffnesses* bases)
      : frame_(frame),
        numbered_(numbered),
        vehicle_(free_vehicle(frame, numbered)),
        statics_(vehicle_.model, bases) {}

  const FreeVehicle& vehicle() const { return vehicle_; }
  const std::vector<double>& standing() const { return standing_; }
  void stand_with(std::vector<double> loads) { standing_ = std::move(loads); }

  /// To be called first. The standing loads everything else builds on.
  std::optional<StaticFailure> stand();
  Outcome<std::vector<VehicleSolution>, StaticFailure> solve(const std::vector<const Case*>& cases,
                                                             const Actions* extra);

 private:
  std::optional<StaticFailure> settle(const std::vector<const Case*>& basic);
  TyreForces forces_of(const Case& c) const;
  TyreForces at_rest() const;
  void add_part(const Case& c, const TyreForces& forces, double factor, Actions& sum,
                DrivingState& state) const;
  BalancedActions actions_of(const Case& c, const TyreForces& forces) const;
  bool elastic() const { return !frame_.vehicle->roll_stiffness_front_share; }
  std::vector<double> heights(const Eigen::VectorXd& u, const std::vector<double>& loads) const;

  const Frame& frame_;
  const NumberedFrame& numbered_;
  FreeVehicle vehicle_;
  StaticSolver statics_;
  std::vector<double> standing_;
  std::map<std::string, double> cross_weight_;  ///< of each case
};

TyreForces VehicleSolver::forces_of(const Case& c) const {
  const auto cross = cross_weight_.find(c.name);
  return tyre_forces(frame_, vehicle_.rigid, c, standing_,
                     cross == cross_weight_.end() ? 0 : cross->second);
}

BalancedActions VehicleSolver::actions_of(const Case& c, const TyreForces& forces) const {
  BalancedActions balanced = balanced_actions(vehicle_, forces, c.forces, c.moments, numbered_);
  if (c.point_loads.empty()) return balanced;
  Actions within = no_actions(vehicle_.model);
  add_point_loads(frame_, numbered_, c, within);
  add_balanced(vehicle_, within, balanced.actions);
  return balanced;
}

/// Height of the road under each wheel in relation to the vehicle: up by the displacement of the
/// contact, and by what the tyre is squeezed.
std::vector<double> VehicleSolver::heights(const Eigen::VectorXd& u,
                                           const std::vector<double>& loads) const {
  std::vector<double> z = contact_displacements(vehicle_, u);
  const Vehicle& vehicle = *frame_.vehicle;
  if (has_tyre_rates(vehicle)) {
    for (size_t w = 0; w < z.size(); ++w) z[w] += loads[w] / tyre_rate(vehicle, vehicle.wheels[w]);
  }
  return z;
}

/// The case without its sudden events: while a bump lasts, the other wheels keep their loads.
Case steady_part(const Case& c) {
  Case steady = c;
  steady.bump.clear();
  steady.step.reset();
  steady.nudge.reset();
  steady.tow.reset();
  steady.roll_over.reset();
  steady.forces.clear();
  steady.moments.clear();
  steady.point_loads.clear();
  return steady;
}

std::vector<double> wheel_forces_up(const TyreForces& forces) {
  std::vector<double> loads;
  for (const TyreForce& wheel : forces.wheels) loads.push_back(wheel.total().z());
  return loads;
}

/// The loads that a cross-weight of 1 N puts on the wheels.
TyreForces unit_cross_weight(const std::vector<double>& pattern) {
  TyreForces unit;
  for (const double share : pattern) {
    unit.wheels.emplace_back();
    unit.wheels.back().at_contact.z() = share;
  }
  return unit;
}

/// Force method: the cross-weight X closes the gap that the contacts would have to a plane,
/// gap(X) = gap(0) + X flexibility. Repeated, since brake and side forces go with the wheel loads.
std::optional<StaticFailure> VehicleSolver::settle(const std::vector<const Case*>& basic) {
  if (!elastic()) return std::nullopt;
  const std::vector<double> pattern = wheel_loads(vehicle_.rigid, {0, 0, -1}).cross_pattern;
  if (pattern.empty()) return std::nullopt;
  const auto gap = [&](const std::vector<double>& z) {
    double sum = 0;
    for (size_t w = 0; w < z.size(); ++w) sum += pattern[w] * z[w];
    return sum;
  };

  const TyreForces unit = unit_cross_weight(pattern);
  std::vector<Actions> actions = {balanced_actions(vehicle_, unit, {}, {}, numbered_).actions};
  const double negligible = 1e-10 * vehicle_.mass.mass * frame_.gravity;
  constexpr int most_rounds = 30;
  for (int round = 0; round < most_rounds; ++round) {
    std::vector<TyreForces> forces;
    actions.resize(1);
    for (const Case* c : basic) {
      const Case steady = steady_part(*c);
      forces.push_back(forces_of(steady));
      actions.push_back(actions_of(steady, forces.back()).actions);
    }
    auto solved = statics_.displacements(actions);
    if (auto* failure = solved.error()) {
      failure->load_case = 0;  // not one of those asked for
      return *failure;
    }
    const auto& solutions = *solved;
    const double flexibility = gap(heights(solutions[0], pattern));
    if (!(flexibility > 0)) return std::nullopt;
    bool settled = true;
    for (size_t i = 0; i < basic.size(); ++i) {
      if (forces[i].cross_pattern.empty()) continue;  // a wheel is off: nothing left to choose
      const double step = -gap(heights(solutions[i + 1], wheel_forces_up(forces[i]))) / flexibility;
      cross_weight_[basic[i]->name] += step;
      settled = settled && std::abs(step) <= negligible;
    }
    if (settled) break;
  }
  return std::nullopt;
}

std::optional<StaticFailure> VehicleSolver::stand() {
  Case standing;  // no name: none of the file's
  standing.kind = CaseKind::vehicle;
  if (auto failure = settle({&standing})) return failure;
  standing_ = standing_loads(vehicle_.rigid, frame_.gravity, cross_weight_[standing.name]);
  return std::nullopt;
}

/// Standing on the level.
TyreForces VehicleSolver::at_rest() const {
  TyreForces forces;
  forces.gravity = {0, 0, -frame_.gravity};
  for (const double load : standing_) {
    forces.wheels.emplace_back();
    forces.wheels.back().at_contact.z() = load;
  }
  return forces;
}

void add_state(DrivingState& sum, const DrivingState& part, double factor) {
  sum.wheels.resize(part.wheels.size());
  for (size_t w = 0; w < part.wheels.size(); ++w) {
    TyreForce& s = sum.wheels[w];
    const TyreForce& p = part.wheels[w];
    s.at_contact += factor * p.at_contact;
    s.at_centre += factor * p.at_centre;
    s.mount_couple += factor * p.mount_couple;
    s.lifted = s.lifted || p.lifted;
    s.by_edge += factor * p.by_edge;
    s.friction_used = std::max(s.friction_used, p.friction_used);
  }
  sum.balance.force += factor * part.balance.force;
  sum.balance.moment += factor * part.balance.moment;
  sum.balance.gravity += factor * part.balance.gravity;
  sum.balance.acceleration += factor * part.balance.acceleration;
  sum.balance.angular += factor * part.balance.angular;
  sum.tips = sum.tips || part.tips;
}

void VehicleSolver::add_part(const Case& c, const TyreForces& forces, double factor, Actions& sum,
                             DrivingState& state) const {
  const BalancedActions balanced = actions_of(c, forces);
  add_actions(sum, balanced.actions, factor);
  add_state(state, {forces.wheels, balanced.balance, {}, forces.tips, false}, factor);
}

/// What the sum of several cases leaves on the wheels.
void judge_sum(DrivingState& state, double weight) {
  constexpr double nothing = 1e-9;  // of the weight
  for (TyreForce& wheel : state.wheels) {
    const double load = wheel.total().z();
    wheel.lifted = load <= nothing * weight;
    const Eigen::Vector2d along = (wheel.total() - wheel.by_edge).head<2>();
    wheel.friction_used = wheel.lifted ? 0 : along.norm() / load;
    state.pulls = state.pulls || load < -nothing * weight;
  }
}

Outcome<std::vector<VehicleSolution>, StaticFailure> VehicleSolver::solve(
    const std::vector<const Case*>& cases, const Actions* extra) {
  std::vector<const Case*> basic;
  for (const Case* c : cases) {
    for (const auto& [name, factor] : basic_cases(frame_, *c)) {
      const Case* part = find_case(frame_, name);
      if (std::find(basic.begin(), basic.end(), part) == basic.end()) basic.push_back(part);
    }
  }
  if (auto failure = settle(basic)) return *failure;

  std::vector<Actions> actions;
  std::vector<VehicleSolution> result;
  for (const Case* c : cases) {
    DrivingState state;
    Actions sum = no_actions(vehicle_.model);
    if (extra != nullptr) add_balanced(vehicle_, *extra, sum);
    double rest = 1;
    for (const auto& [name, factor] : basic_cases(frame_, *c)) {
      const Case& part = *find_case(frame_, name);
      add_part(part, forces_of(part), factor, sum, state);
      rest -= factor;
    }
    if (c->kind == CaseKind::combine) {
      if (rest != 0) add_part(Case(), at_rest(), rest, sum, state);
      judge_sum(state, vehicle_.mass.mass * frame_.gravity);
    }
    actions.push_back(std::move(sum));
    result.push_back({std::move(state), {}, {}});
  }
  StaticResult solved = statics_.solve(actions);
  if (auto* failure = solved.error()) return *failure;
  auto& solutions = *solved;
  for (size_t i = 0; i < result.size(); ++i) {
    centre_motion(vehicle_, solutions[i]);
    result[i].state.balance.restraint_force = solutions[i].reactions.lpNorm<Eigen::Infinity>();
    for (const Support& s : vehicle_.model.supports) {
      result[i].state.restrained.push_back(s.node);
    }
    result[i].solution = std::move(solutions[i]);
    result[i].actions = std::move(actions[i]);
  }
  return result;
}

VehicleFacts facts_of(const Frame& frame, const VehicleSolver& solver) {
  VehicleFacts facts;
  facts.mass = solver.vehicle().mass;
  facts.rigid = solver.vehicle().rigid;
  facts.standing = solver.standing();
  facts.tipping = tipping_limits(facts.rigid, frame.gravity);
  facts.friction = frame.vehicle->friction.value_or(usual_friction);
  facts.braking = reachable_deceleration(facts.rigid, brakes_of(*frame.vehicle), facts.friction, 0,
                                         frame.gravity);
  facts.sprung = has_springs(frame);
  return facts;
}

}  // namespace

Outcome<VehicleFacts, StaticFailure> vehicle_facts(const Frame& frame,
                                                   const NumberedFrame& numbered) {
  VehicleSolver solver(frame, numbered, nullptr);
  if (auto failure = solver.stand()) return *failure;
  return facts_of(frame, solver);
}

VehicleOutcome solve_vehicle_cases(const Frame& frame, const NumberedFrame& numbered,
                                   const std::vector<const Case*>& cases, const Actions* extra,
                                   const std::vector<double>& standing,
                                   const BaseStiffnesses* bases) {
  VehicleSolver solver(frame, numbered, bases);
  if (!standing.empty()) {
    solver.stand_with(standing);
  } else if (auto failure = solver.stand()) {
    return *failure;
  }
  auto solved = solver.solve(cases, extra);
  if (auto* failure = solved.error()) return *failure;
  return VehicleResults{facts_of(frame, solver), std::move(*solved)};
}

}  // namespace tubewright
