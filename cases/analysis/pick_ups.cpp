#include "cases/analysis/pick_ups.h"

#include <algorithm>
#include <map>
#include <unordered_set>

#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"

namespace tubewright {

std::vector<PickUp> pick_ups(const Model& model, const StaticSolution& solution, size_t bars) {
  std::vector<bool> of_frame(model.nodes.size(), false);
  for (const Beam& b : model.beams) of_frame[b.from] = of_frame[b.to] = true;
  for (const RigidBody& body : model.bodies) {
    for (const int node : body.nodes) of_frame[node] = false;
  }
  std::map<int, Eigen::Vector3d> force;
  for (size_t i = 0; i < std::min(bars, model.bars.size()); ++i) {
    const Bar& bar = model.bars[i];
    // A bar in tension pulls its ends towards each other.
    const Eigen::Vector3d pull = solution.bar_forces[i] * bar_direction(model, bar);
    for (const auto& [node, on_node] :
         {std::pair<int, Eigen::Vector3d>{bar.from, pull}, {bar.to, -pull}}) {
      if (!of_frame[node]) continue;
      force.try_emplace(node, Eigen::Vector3d::Zero()).first->second += on_node;
    }
  }
  std::vector<PickUp> found;
  for (const auto& [node, sum] : force) found.push_back({node, sum});
  return found;
}

std::vector<std::string> pick_ups_without_attachment(const Frame& frame) {
  std::unordered_set<std::string> of_frame, met;
  for (const Member& m : frame.members) {
    (m.kind == MemberKind::beam ? of_frame : met).insert({m.from, m.to});
  }
  for (const Attachment& a : frame.attachments) of_frame.erase(a.name);
  if (frame.vehicle) {
    for (const Wheel& w : frame.vehicle->wheels) {
      if (!has_rigid_upright(w)) continue;
      for (const std::string& node : w.carrier) of_frame.erase(node);
    }
  }
  std::vector<std::string> names;
  for (const Node& node : frame.nodes) {
    if (met.contains(node.name) && of_frame.contains(node.name)) names.push_back(node.name);
  }
  return names;
}

}  // namespace tubewright
