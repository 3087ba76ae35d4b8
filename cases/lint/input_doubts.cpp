#include "cases/lint/input_doubts.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/sheet_contact.h"

namespace tubewright {
namespace {

// Bounds of what is welded from light tube. Judgement, each far outside anything sensible.
constexpr double least_extent = 2;        // the frame's extent, in sides of its widest tube
constexpr double most_extent = 30;        // m
constexpr double heaviest_load = 5000;    // kg, all that is carried
constexpr double least_friction = 0.05;   // wet ice
constexpr double most_friction = 2.5;     // tyres of racing on a warm track
constexpr double hardly_a_length = 1e-3;  // m

Diagnostic far_too_small(double extent, double side) {
  return {"the whole frame measures " + in_mm(extent) + ", and its tubes " + in_mm(side),
          "coordinates are in mm: is this in metres?"};
}

Diagnostic far_too_large(double extent) {
  return {"the whole frame measures " + in_mm(extent), "coordinates are in mm"};
}

Diagnostic far_too_short(const std::string& member, double length) {
  return {"member " + quoted(member) + " is " + in_mm(length) + " long",
          "join its nodes, or check their coordinates"};
}

Diagnostic far_too_heavy(double mass) {
  return {"the masses carried come to " + decimals(mass, 0) + " kg",
          "masses are in kg: is this in grams?"};
}

Diagnostic hardly_a_tyre(double friction) {
  return {"a `friction` of " + decimals(friction, 2) + " is none that a tyre has",
          "0.1 on ice, 0.4 to 0.7 in the wet, 0.8 to 1.2 on a dry road (common practice)"};
}

Diagnostic loads_made_smaller(const std::string& owner, double factor) {
  return {owner + " asks for " + decimals(factor, 2) + " times the loads only",
          "a factor below 1 leaves part of the loads out of every check"};
}

void doubt(Diagnostics& list, const SourceLocation& place, Diagnostic diagnostic) {
  diagnostic.severity = Severity::warning;
  list.push_back(error_at(place, std::move(diagnostic)));
}

void doubt_size(const Frame& frame, Diagnostics& list) {
  Eigen::AlignedBox3d box;
  for (const Node& n : frame.nodes) box.extend(n.at);
  if (box.isEmpty()) return;
  double widest = 0;
  for (const double side : tube_sides(frame)) widest = std::max(widest, side);
  const double extent = box.diagonal().norm();
  const SourceLocation& place = frame.nodes.front().place;
  if (extent < least_extent * widest) doubt(list, place, far_too_small(extent, widest));
  if (extent > most_extent) doubt(list, place, far_too_large(extent));
}

void doubt_lengths(const Frame& frame, Diagnostics& list) {
  std::unordered_map<std::string, const Node*> node;
  for (const Node& n : frame.nodes) node.emplace(n.name, &n);
  for (const Member& m : frame.members) {
    const auto from = node.find(m.from), to = node.find(m.to);
    if (from == node.end() || to == node.end()) continue;  // validate() tells
    const double length = (to->second->at - from->second->at).norm();
    if (length < hardly_a_length) doubt(list, m.place, far_too_short(m.name, length));
  }
}

void doubt_masses(const Frame& frame, Diagnostics& list) {
  double carried = 0;
  for (const CarriedMass& m : frame.masses) carried += m.mass;
  if (carried > heaviest_load) doubt(list, frame.masses.front().place, far_too_heavy(carried));
}

void doubt_friction(const Frame& frame, Diagnostics& list) {
  if (!frame.vehicle || !frame.vehicle->friction) return;
  const double mu = *frame.vehicle->friction;
  if (mu < least_friction || mu > most_friction) {
    doubt(list, frame.vehicle->place, hardly_a_tyre(mu));
  }
}

void doubt_factors(const Frame& frame, Diagnostics& list) {
  if (frame.limits.yield_factor < 1) {
    doubt(list, {}, loads_made_smaller("`limits.yield_factor`", frame.limits.yield_factor));
  }
  for (const Case& c : frame.cases) {
    if (c.yield_factor && *c.yield_factor < 1) {
      doubt(list, c.place,
            loads_made_smaller("`yield_factor` of case " + quoted(c.name), *c.yield_factor));
    }
  }
}

}  // namespace

Diagnostics input_doubts(const Frame& frame) {
  Diagnostics list;
  doubt_size(frame, list);
  doubt_lengths(frame, list);
  doubt_masses(frame, list);
  doubt_friction(frame, list);
  doubt_factors(frame, list);
  append(list, contact_doubts(frame).unproven);
  return list;
}

}  // namespace tubewright
