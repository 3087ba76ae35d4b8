#include "cases/rides/ride_cases.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "cases/analysis/analysis.h"
#include "cases/analysis/in_parallel.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/rides/ride_channels.h"
#include "cases/rides/ride_drive.h"
#include "cases/rides/ride_model.h"
#include "cases/validate/ride_errors.h"

namespace tubewright {

namespace {

/// A ride and its worst instants.
struct DrivenRide {
  RideResult result;
  std::vector<RideInstant> instants;
};

Result<DrivenRide> worst_of_ride(const Frame& frame, const RideModel& model,
                                 const RideChannels& channels, const RideEntry& ride) {
  HardestInstants hardest(model.vehicle.model, channels);
  const Eigen::MatrixXd by_column = channels.forces.transpose();
  auto driven = drive_ride(*frame.vehicle, model, ride, [&](const RideSamples& s) {
    hardest.add(s.first, s.stride, s.x, s.x.transpose() * by_column);
  });
  if (auto* diagnostics = driven.error()) return std::move(*diagnostics);
  return DrivenRide{std::move(*driven), hardest.covering(ridden_share, part_that_counts)};
}

/// Loads on the nodes of the model as loads on those of the frame: of joints and attachments with
/// their arm. Six rows a node.
Eigen::VectorXd on_frame_nodes(const Frame& frame, const Model& model, Eigen::VectorXd loads) {
  const size_t own = frame.nodes.size();
  for (size_t n = own; n < model.nodes.size(); ++n) {
    size_t nearest = 0;
    double least = INFINITY;
    for (size_t k = 0; k < own; ++k) {
      const double apart = (model.nodes[n] - model.nodes[k]).squaredNorm();
      if (apart >= least) continue;
      least = apart;
      nearest = k;
    }
    const Eigen::Matrix<double, 6, 1> load =
        loads.segment<6>(dofs_per_node * static_cast<Eigen::Index>(n));
    const Eigen::Vector3d force = load.head<3>(), arm = model.nodes[n] - model.nodes[nearest];
    const auto row = dofs_per_node * static_cast<Eigen::Index>(nearest);
    loads.segment<6>(row) += load;
    loads.segment<3>(row + 3) += arm.cross(force);
  }
  return loads.head(dofs_per_node * static_cast<Eigen::Index>(own));
}

/// On the finely cut model: what dampers do, and the inertia of all modes but those of the whole as
/// a rigid body.
Eigen::VectorXd loads_of_swinging(const RideModel& model, const Eigen::VectorXd& x) {
  const Eigen::Index elastic = model.static_answer.rows();
  Eigen::VectorXd loads = model.loads.rightCols(elastic) * x.tail(elastic);
  for (const RideDamper& damper : model.system.dampers) {
    loads += x[damper.coordinate] * model.loads.col(damper.coordinate);
  }
  return loads;
}

/// Of loads on the finely cut model those within members, and the others on the nodes, those within
/// the plates of attachments by the lever.
void add_loads(const Frame& frame, const NumberedFrame& numbered, const RideModel& ridden,
               const Eigen::VectorXd& loads, Case& c) {
  const Model& model = ridden.vehicle.model;
  const double nothing = 1e-6 * ridden.vehicle.mass.mass * frame.gravity;  // N, or N m
  Eigen::VectorXd at_nodes =
      loads.head(dofs_per_node * static_cast<Eigen::Index>(model.nodes.size()));
  const auto add = [&](int node, const Eigen::Matrix<double, 6, 1>& load) {
    at_nodes.segment<6>(dofs_per_node * static_cast<Eigen::Index>(node)) += load;
  };
  for (size_t b = 0; b < model.beams.size(); ++b) {
    const std::vector<int>& nodes = ridden.fine.nodes[b];
    const auto pieces = static_cast<double>(nodes.size() - 1);
    const int member = numbered.member_of_beam[b];
    for (size_t k = 1; k + 1 < nodes.size(); ++k) {
      const double at = static_cast<double>(k) / pieces;
      const auto row = dofs_per_node * static_cast<Eigen::Index>(nodes[k]);
      if (member < 0) {
        add(model.beams[b].from, (1 - at) * loads.segment<6>(row));
        add(model.beams[b].to, at * loads.segment<6>(row));
        continue;
      }
      const Eigen::Vector3d force = loads.segment<3>(row), moment = loads.segment<3>(row + 3);
      if (force.norm() <= nothing && moment.norm() <= nothing) continue;
      c.point_loads.push_back(
          {frame.members[static_cast<size_t>(member)].name, at, force, moment, c.place});
    }
  }
  const Eigen::VectorXd on_nodes = on_frame_nodes(frame, model, std::move(at_nodes));
  for (size_t n = 0; n < frame.nodes.size(); ++n) {
    const auto row = dofs_per_node * static_cast<Eigen::Index>(n);
    const Eigen::Vector3d force = on_nodes.segment<3>(row), moment = on_nodes.segment<3>(row + 3);
    const std::string& name = frame.nodes[n].name;
    if (force.norm() > nothing) c.forces.push_back({name, force, c.place});
    if (moment.norm() > nothing) c.moments.push_back({name, moment, c.place});
  }
}

Case case_of(const Frame& frame, const NumberedFrame& numbered, const Case& ridden,
             const RideModel& model, const RideInstant& instant) {
  Case c = ridden;
  c.kind = CaseKind::vehicle;
  c.part_of = ridden.name;
  for (size_t w = 0; w < frame.vehicle->wheels.size(); ++w) {
    const RideTyre& tyre = model.system.tyres[w];
    c.wheel_forces.push_back(
        {frame.vehicle->wheels[w].name, instant.x[tyre.longitudinal], instant.x[tyre.vertical]});
  }
  add_loads(frame, numbered, model, loads_of_swinging(model, instant.x), c);
  return c;
}

std::vector<Case> cases_of(const Frame& frame, const NumberedFrame& numbered, const Case& ridden,
                           const RideModel& model, const DrivenRide& driven) {
  const std::vector<std::string> doubts = doubts_of(find_ride(frame, ridden.ride), driven.result);
  std::vector<Case> cases;
  for (const RideInstant& instant : driven.instants) {
    Case c = case_of(frame, numbered, ridden, model, instant);
    c.name = ridden.name + "_" + std::to_string(cases.size() + 1);
    const double time = static_cast<double>(instant.step) * driven.result.time_step;
    c.note = (ridden.note.empty() ? "" : ridden.note + "; ") + "ride " + quoted(ridden.ride) +
             " at " + decimals(time, 4) +
             " s, taken at rest: forces of the wheels, and on the "
             "nodes what swings against the rest; in its " +
             std::to_string(driven.instants.size()) + " instants every part that is hit has " +
             decimals(100 * ridden_share, 0) + " % of its greatest stress of the ride or more";
    c.doubts = doubts;
    cases.push_back(std::move(c));
  }
  return cases;
}

/// Everything stands under names of its own.
Diagnostics taken_names(const Frame& frame) {
  Diagnostics diagnostics;
  std::map<std::string, const Case*> seen;
  for (const Case& c : frame.cases) {
    const auto [other, is_new] = seen.emplace(c.name, &c);
    if (is_new) continue;
    const Case& named = c.part_of.empty() ? c : *other->second;
    const Case& instant = c.part_of.empty() ? *other->second : c;
    add_error(diagnostics, named.place, name_of_an_instant(named.name, instant.part_of));
  }
  return diagnostics;
}

void spread_limits(Frame& frame) {
  std::vector<DisplacementLimit> limits;
  for (const DisplacementLimit& limit : frame.limits.displacements) {
    bool ridden = false;
    for (const Case& c : frame.cases) {
      if (c.part_of != limit.load_case) continue;
      ridden = true;
      limits.push_back(limit);
      limits.back().load_case = c.name;
    }
    if (!ridden) limits.push_back(limit);
  }
  frame.limits.displacements = std::move(limits);
}

}  // namespace

Result<Frame> with_ride_cases(Frame frame) {
  std::set<std::string> names;
  for (const Case& c : frame.cases) {
    if (c.kind == CaseKind::ride) names.insert(c.ride);
  }
  if (names.empty()) return frame;
  const NumberedFrame numbered = jointed_model(frame);
  if (Diagnostics diagnostics = without_mass(frame, numbered); !diagnostics.empty())
    return diagnostics;
  const Result<RideModel> model = ride_model(frame, numbered);
  if (const auto* diagnostics = model.error()) return *diagnostics;
  const Result<RideChannels> channels = ride_channels(frame, numbered, *model);
  if (const auto* diagnostics = channels.error()) return *diagnostics;

  const std::vector<std::string> asked(names.begin(), names.end());
  std::vector<Result<DrivenRide>> driven(asked.size(), Diagnostics{});
  in_parallel(asked.size(), [&](size_t i) {
    driven[i] = worst_of_ride(frame, *model, *channels, find_ride(frame, asked[i]));
  });
  for (const auto& d : driven) {
    if (const auto* diagnostics = d.error()) return *diagnostics;
  }
  std::vector<Case> cases;
  for (Case& c : frame.cases) {
    if (c.kind != CaseKind::ride) {
      cases.push_back(std::move(c));
      continue;
    }
    const auto at = std::find(asked.begin(), asked.end(), c.ride) - asked.begin();
    for (Case& instant : cases_of(frame, numbered, c, *model, *driven[static_cast<size_t>(at)])) {
      cases.push_back(std::move(instant));
    }
  }
  frame.cases = std::move(cases);
  if (Diagnostics taken = taken_names(frame); !taken.empty()) return taken;
  spread_limits(frame);
  return frame;
}

}  // namespace tubewright
