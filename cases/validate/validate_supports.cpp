// Supports and carried masses.
#include <algorithm>
#include <unordered_set>

#include "cases/frame/frame_errors.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {
namespace {

void check_displacements(const SupportEntry& s, const std::string& subject,
                         Diagnostics& diagnostics) {
  for (int d = 0; d < 6; ++d) {
    const Range& range = d < 3 ? sensible::displacement : sensible::rotation;
    if (!s.restrained[d] && s.displacement[d] != 0) {
      add_error(diagnostics, s.place, displaced_unheld(s.node, direction_names[d]));
    } else {
      check_range(s.displacement[d], range, subject, direction_names[d], s.place, diagnostics);
    }
  }
}

}  // namespace

void validate_supports(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  std::unordered_set<std::string> seen;
  for (const SupportEntry& s : frame.supports) {
    const std::string subject = "support " + quoted(s.node);
    if (!seen.insert(s.node).second) {
      add_error(diagnostics, s.place, support_given_twice(s.node));
    }
    joined_node(names, s.node, quoted("supports"), s.place, diagnostics);
    if (std::none_of(s.restrained.begin(), s.restrained.end(), [](bool held) { return held; })) {
      add_error(diagnostics, s.place, support_of_nothing(s.node));
    }
    check_displacements(s, subject, diagnostics);
  }
}

void validate_masses(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  std::unordered_set<std::string> seen;
  for (const CarriedMass& m : frame.masses) {
    const std::string subject = "mass " + quoted(m.name);
    if (!seen.insert(m.name).second) {
      add_error(diagnostics, m.place, name_given_twice("mass", m.name));
    }
    check_range(m.mass, sensible::mass, subject, "mass", m.place, diagnostics);
    for (const double coordinate : m.at) {
      if (!check_range(coordinate, sensible::coordinate, subject, "at", m.place, diagnostics))
        break;
    }
    for (const double moment : m.inertia) {
      if (!check_range(moment, sensible::inertia, subject, "inertia", m.place, diagnostics)) break;
    }
    if (m.on.empty()) {
      add_error(diagnostics, m.place, mass_on_nothing(m.name));
    }
    std::unordered_set<std::string> carriers;
    for (const std::string& node : m.on) {
      joined_node(names, node, subject, m.place, diagnostics);
      if (!carriers.insert(node).second) {
        add_error(diagnostics, m.place, node_listed_twice(subject, node, "on"));
      }
    }
  }
}

}  // namespace tubewright
