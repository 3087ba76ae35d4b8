#include "cases/model/nodes_in_use.h"

#include <vector>

namespace tubewright {

std::unordered_set<std::string> nodes_in_use(const Frame& frame) {
  std::unordered_set<std::string> used;
  const auto note = [&](const std::vector<std::string>& nodes) {
    used.insert(nodes.begin(), nodes.end());
  };
  for (const SupportEntry& s : frame.supports) used.insert(s.node);
  for (const CarriedMass& m : frame.masses) note(m.on);
  for (const PanelEntry& p : frame.panels) note(p.corners);
  if (frame.vehicle) {
    for (const Wheel& w : frame.vehicle->wheels) {
      note(w.carrier);
      note(w.brake_mount);
    }
  }
  for (const Case& c : frame.cases) {
    for (const NodeAction& a : c.forces) used.insert(a.node);
    for (const NodeAction& a : c.moments) used.insert(a.node);
    if (c.tow) note(c.tow->at);
    if (c.jack) note(c.jack->at);
    if (c.tie_down) note(c.tie_down->at);
    if (c.roll_over) note(c.roll_over->at);
  }
  for (const Attachment& a : frame.attachments) {
    for (const std::string& node : {a.name, a.axis_node, a.face_node}) used.insert(node);
  }
  for (const Gusset& g : frame.gussets) {
    for (const GussetLeg& leg : g.legs) used.insert(leg.axis_node);
  }
  if (frame.torsion) {
    for (const auto* pair : {&frame.torsion->front, &frame.torsion->rear}) {
      used.insert(pair->begin(), pair->end());
    }
  }
  if (frame.bench_test) {
    for (const auto& [node, mass] : frame.bench_test->weights) used.insert(node);
    for (const GaugeReading& g : frame.bench_test->gauges) used.insert(g.node);
  }
  return used;
}

}  // namespace tubewright
