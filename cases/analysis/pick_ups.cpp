#include "cases/analysis/pick_ups.h"

#include <map>
#include <unordered_set>

#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

std::vector<bool> nodes_of_frame(const Model& model) {
  std::vector<bool> of_frame(model.nodes.size(), false);
  for (const Beam& b : model.beams) of_frame[b.from] = of_frame[b.to] = true;
  for (const RigidBody& body : model.bodies) {
    for (const int node : body.nodes) of_frame[node] = false;
  }
  return of_frame;
}

}  // namespace

std::vector<PickUp> pick_ups(const Model& model, const StaticSolution& solution) {
  const std::vector<bool> of_frame = nodes_of_frame(model);
  std::map<int, Eigen::Vector3d> force;
  for (size_t i = 0; i < model.bars.size(); ++i) {
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

std::vector<std::string> pick_ups_without_attachment(const Frame& frame, const Model& model) {
  const std::vector<bool> of_frame = nodes_of_frame(model);
  std::vector<bool> met(model.nodes.size(), false);
  for (const Bar& bar : model.bars) met[bar.from] = met[bar.to] = true;
  std::unordered_set<std::string> attached;
  for (const Attachment& a : frame.attachments) attached.insert(a.name);
  std::vector<std::string> names;
  for (size_t n = 0; n < frame.nodes.size(); ++n) {
    if (met[n] && of_frame[n] && !attached.contains(frame.nodes[n].name)) {
      names.push_back(frame.nodes[n].name);
    }
  }
  return names;
}

}  // namespace tubewright
