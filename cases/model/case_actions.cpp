#include "cases/model/case_actions.h"

#include <algorithm>
#include <map>

#include "cases/model/mass_distribution.h"

namespace tubewright {

namespace {

Eigen::Ref<Eigen::Vector3d> force_on(Actions& a, int node) {
  return a.nodal.segment<3>(dofs_per_node * node);
}

Eigen::Ref<Eigen::Vector3d> moment_on(Actions& a, int node) {
  return a.nodal.segment<3>(dofs_per_node * node + 3);
}

void add_line_load(Actions& a, const Frame& frame, const NumberedFrame& n, const LineLoad& load) {
  for (const int m : n.members.at(load.member)) {
    a.beams[n.slots[m].index].line += length_over_chord(n, frame.members[m]) * load.load;
  }
}

Actions static_actions(const Frame& frame, const NumberedFrame& n, const Case& c) {
  Actions a = no_actions(n.model);
  for (const NodeAction& f : c.forces) force_on(a, n.node.at(f.node)) += f.value;
  for (const NodeAction& m : c.moments) moment_on(a, n.node.at(m.node)) += m.value;
  for (const LineLoad& load : c.line_loads) add_line_load(a, frame, n, load);
  add_point_loads(frame, n, c, a);
  if (!c.gravity.isZero(0)) {
    BodyField weight;
    weight.at_centre = frame.gravity * c.gravity;
    add_body_field(a, n.model, mass_distribution(frame, n), weight);
  }
  for (const SupportEntry& s : frame.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      a.prescribed[dofs_per_node * n.node.at(s.node) + d] = s.displacement[d];
    }
  }
  return a;
}

/// `known`: combinations met before, so that nested ones are opened once.
const Factors& open_combination(const Frame& frame, const Case& c,
                                std::map<std::string, Factors>& known) {
  const auto [place, is_new] = known.try_emplace(c.name);
  Factors& factors = place->second;  // stays where it is while the map grows
  if (!is_new) return factors;
  if (c.kind != CaseKind::combine) factors[c.name] = 1;
  for (const CaseTerm& term : c.of) {
    for (const auto& [name, factor] :
         open_combination(frame, *find_case(frame, term.name), known)) {
      factors[name] += term.factor * factor;
    }
  }
  return factors;
}

}  // namespace

PlaceAlong place_along(const Frame& frame, const NumberedFrame& n, const std::string& tube,
                       double at) {
  const std::vector<int>& pieces = n.members.at(tube);
  const auto length_of = [&](int m) {
    return member_length(n, frame.members[static_cast<size_t>(m)]);
  };
  double along = 0;
  for (const int m : pieces) along += at * length_of(m);
  for (const int m : pieces) {
    const double length = length_of(m);
    if (along <= length || m == pieces.back()) return {m, std::clamp(along / length, 0.0, 1.0)};
    along -= length;
  }
  return {};
}

void add_point_loads(const Frame& frame, const NumberedFrame& n, const Case& c, Actions& a) {
  for (const PointLoad& load : c.point_loads) {
    const PlaceAlong place = place_along(frame, n, load.member, load.at);
    a.beams[n.slots[static_cast<size_t>(place.member)].index].points.push_back(
        {place.at, load.force, load.moment});
  }
}

Factors basic_cases(const Frame& frame, const Case& c) {
  std::map<std::string, Factors> known;
  return open_combination(frame, c, known);
}

const Case* find_case(const Frame& frame, const std::string& name) {
  const auto found = std::find_if(frame.cases.begin(), frame.cases.end(),
                                  [&](const Case& c) { return c.name == name; });
  return found == frame.cases.end() ? nullptr : &*found;
}

bool needs_vehicle(const Frame& frame, const Case& load_case) {
  for (const auto& [name, factor] : basic_cases(frame, load_case)) {
    if (find_case(frame, name)->kind == CaseKind::vehicle) return true;
  }
  return false;
}

Actions case_actions(const Frame& frame, const NumberedFrame& numbered, const Case& load_case) {
  Actions sum = no_actions(numbered.model);
  for (const auto& [name, factor] : basic_cases(frame, load_case)) {
    add_actions(sum, static_actions(frame, numbered, *find_case(frame, name)), factor);
  }
  return sum;
}

}  // namespace tubewright
