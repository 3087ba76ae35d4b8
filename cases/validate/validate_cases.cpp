// Load cases: what they refer to, how large they are, and combinations that lead back to
// themselves.
#include <algorithm>

#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {
namespace {

std::string subject_of(const Case& c) { return "case " + quoted(c.name); }

bool check_vector(const Eigen::Vector3d& v, const Range& range, const std::string& subject,
                  const std::string& what, const SourceLocation& place, Diagnostics& diagnostics) {
  return std::all_of(v.begin(), v.end(), [&](double component) {
    return check_range(component, range, subject, what, place, diagnostics);
  });
}

void check_loaded_member(const Frame& frame, const FrameNames& names, const Case& c,
                         const std::string& member, const SourceLocation& place,
                         Diagnostics& diagnostics) {
  const int index = names.loadable.find(member, subject_of(c), place, diagnostics);
  if (index < 0 || frame.members[index].kind == MemberKind::beam) return;
  add_error(diagnostics, place, load_across_bar(c.name, member));
}

void check_node_actions(const FrameNames& names, const Case& c, Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  for (const auto& [actions, key] : {std::pair{&c.forces, "forces"}, {&c.moments, "moments"}}) {
    for (const NodeAction& action : *actions) {
      joined_node(names, action.node, subject, action.place, diagnostics);
      check_vector(action.value, sensible::force, subject, key, action.place, diagnostics);
    }
  }
}

void check_static(const Frame& frame, const FrameNames& names, const Case& c,
                  Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  check_node_actions(names, c, diagnostics);
  for (const LineLoad& load : c.line_loads) {
    check_loaded_member(frame, names, c, load.member, load.place, diagnostics);
    check_vector(load.load, sensible::force, subject, "line_loads", load.place, diagnostics);
  }
  for (const PointLoad& load : c.point_loads) {
    check_loaded_member(frame, names, c, load.member, load.place, diagnostics);
    check_range(load.at, sensible::fraction, subject, "at", load.place, diagnostics);
    check_vector(load.force, sensible::force, subject, "force", load.place, diagnostics);
    check_vector(load.moment, sensible::force, subject, "moment", load.place, diagnostics);
  }
  check_vector(c.gravity, sensible::multiple_of_g, subject, "gravity", c.place, diagnostics);
}

void check_step(const Frame& frame, const FrameNames& names, const Case& c,
                Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  const StepStrike& step = *c.step;
  check_range(step.factor, sensible::positive_factor, subject, "factor", step.place, diagnostics);
  const int wheel = names.wheels.find(step.wheel, subject, step.place, diagnostics);
  if (!check_range(step.height, sensible::size, subject, "height", step.place, diagnostics)) return;
  if (wheel < 0) return;
  const double radius = wheel_radius(frame.vehicle->wheels[wheel]);
  if (step.height < radius) return;
  add_error(diagnostics, step.place, step_higher_than_wheel(c.name, step.wheel, radius));
}

void check_handled_nodes(const FrameNames& names, const std::vector<std::string>& nodes,
                         const std::string& subject, const SourceLocation& place,
                         Diagnostics& diagnostics) {
  for (const std::string& node : nodes) joined_node(names, node, subject, place, diagnostics);
}

/// Pulled, lifted or lashed down: with the vehicle at rest on the level.
void check_handling(const FrameNames& names, const Case& c, Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  if (c.tow) {
    check_handled_nodes(names, c.tow->at, subject, c.tow->place, diagnostics);
    check_range(c.tow->pull, sensible::multiple_of_g, subject, "pull", c.tow->place, diagnostics);
  }
  if (c.jack) {
    check_handled_nodes(names, c.jack->at, subject, c.jack->place, diagnostics);
    check_range(c.jack->share, sensible::jack_share, subject, "share", c.jack->place, diagnostics);
  }
  if (c.tie_down) {
    const TieDown& t = *c.tie_down;
    check_handled_nodes(names, t.at, subject, t.place, diagnostics);
    check_range(t.forward, sensible::multiple_of_g, subject, "forward", t.place, diagnostics);
    check_range(t.left, sensible::multiple_of_g, subject, "left", t.place, diagnostics);
  }
  if (c.roll_over) {
    const RollOver& r = *c.roll_over;
    check_handled_nodes(names, r.at, subject, r.place, diagnostics);
    check_range(r.force, sensible::force, subject, "force", r.place, diagnostics);
    check_range(r.side, sensible::force, subject, "side", r.place, diagnostics);
    check_range(r.angle, sensible::bank, subject, "angle", r.place, diagnostics);
  }
  const bool drives = c.brake != 0 || c.corner != 0 || c.grade != 0 || c.bank != 0 || c.nudge ||
                      c.step || !c.bump.empty() || !c.lift.empty();
  const int handled =
      (c.tow ? 1 : 0) + (c.jack ? 1 : 0) + (c.tie_down ? 1 : 0) + (c.roll_over ? 1 : 0);
  if (handled + (drives ? 1 : 0) <= 1 || (handled == 1 && c.tow)) return;
  add_error(diagnostics, c.place, handling_mixed(c.name));
}

void check_driving(const Frame& frame, const FrameNames& names, const Case& c,
                   Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  if (!frame.vehicle) {
    add_error(diagnostics, c.place, vehicle_case_without_vehicle(c.name));
    return;
  }
  check_range(c.brake, sensible::multiple_of_g, subject, "brake", c.place, diagnostics);
  check_range(c.corner, sensible::multiple_of_g, subject, "corner", c.place, diagnostics);
  check_range(c.grade, sensible::slope, subject, "grade", c.place, diagnostics);
  for (const WheelFactor& bump : c.bump) {
    names.wheels.find(bump.wheel, subject, bump.place, diagnostics);
    check_range(bump.factor, sensible::positive_factor, subject, "bump", bump.place, diagnostics);
  }
  check_range(c.bank, sensible::bank, subject, "bank", c.place, diagnostics);
  check_range(c.vertical, sensible::positive_factor, subject, "vertical", c.place, diagnostics);
  if (c.step) check_step(frame, names, c, diagnostics);
  if (c.nudge) {
    check_range(c.nudge->factor, sensible::positive_factor, subject, "factor", c.nudge->place,
                diagnostics);
  }
  check_node_actions(names, c, diagnostics);
  check_handling(names, c, diagnostics);
  if (!c.lift.empty()) names.wheels.find(c.lift, subject, c.place, diagnostics);

  const auto& wheels = frame.vehicle->wheels;
  const bool can_brake = std::any_of(wheels.begin(), wheels.end(),
                                     [](const Wheel& w) { return w.brake != WheelBrake::none; });
  if (c.brake != 0 && !can_brake) {
    add_error(diagnostics, c.place, braking_without_brakes(c.name));
  }
}

void check_terms(const Frame& frame, const FrameNames& names, const Case& c,
                 Diagnostics& diagnostics) {
  const std::string subject = subject_of(c);
  if (c.of.empty()) {
    add_error(diagnostics, c.place, combination_of_nothing(c.name));
  }
  for (const CaseTerm& term : c.of) {
    const int found = names.cases.find(term.name, subject, term.place, diagnostics);
    if (found >= 0 && frame.cases[found].kind == CaseKind::ride) {
      add_error(diagnostics, term.place, ride_combined(c.name, term.name));
    }
    check_range(term.factor, sensible::factor, subject, "of", term.place, diagnostics);
  }
}

// Combinations of combinations: a few levels are meant, a tower of factors would overflow.
constexpr int deepest_combination = 8;

/// Combinations as a graph: for each case the cases that it combines.
std::vector<std::vector<int>> combinations(const Frame& frame, const FrameNames& names) {
  std::vector<std::vector<int>> terms(frame.cases.size());
  for (std::size_t i = 0; i < frame.cases.size(); ++i) {
    if (frame.cases[i].kind != CaseKind::combine) continue;
    for (const CaseTerm& term : frame.cases[i].of) {
      if (const int found = names.cases.find(term.name); found >= 0) terms[i].push_back(found);
    }
  }
  return terms;
}

/// The cases from the one that closes the circle to the end of the path.
std::vector<std::string> circle_of(const Frame& frame, const std::vector<int>& path, int closing) {
  std::vector<std::string> circle;
  for (auto at = std::find(path.begin(), path.end(), closing); at != path.end(); ++at) {
    circle.push_back(frame.cases[*at].name);
  }
  return circle;
}

/// Of the plain cases that a case comes down to: is any held by supports, any by nothing?
struct Kinds {
  bool fixed = false;
  bool driven = false;
};

std::vector<Kinds> own_kinds(const Frame& frame) {
  std::vector<Kinds> kinds;
  for (const Case& c : frame.cases) {
    kinds.push_back({c.kind == CaseKind::fixed_supports,
                     c.kind == CaseKind::vehicle || c.kind == CaseKind::ride});
  }
  return kinds;
}

/// Takes in the kinds of a combination's parts; said once, where the two kinds meet.
void add_kinds(const Frame& frame, const std::vector<int>& terms, int at, std::vector<Kinds>& kinds,
               Diagnostics& diagnostics) {
  bool mixed_below = false;
  for (const int term : terms) {
    mixed_below = mixed_below || (kinds[term].fixed && kinds[term].driven);
    kinds[at].fixed = kinds[at].fixed || kinds[term].fixed;
    kinds[at].driven = kinds[at].driven || kinds[term].driven;
  }
  if (mixed_below || !kinds[at].fixed || !kinds[at].driven) return;
  add_error(diagnostics, frame.cases[at].place, static_combined_with_vehicle(frame.cases[at].name));
}

/// Depth first, without recursion: a chain may be as long as the file. A case closes one circle at
/// most, so that there are no more reports than cases.
void check_circles(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  const std::vector<std::vector<int>> terms = combinations(frame, names);
  enum class State { unseen, open, done };
  std::vector<State> state(terms.size(), State::unseen);
  std::vector<bool> reported(terms.size(), false);
  std::vector<int> depth(terms.size(), 0);  // levels of combination above plain cases
  std::vector<Kinds> kinds = own_kinds(frame);
  for (std::size_t start = 0; start < terms.size(); ++start) {
    if (state[start] != State::unseen) continue;
    std::vector<int> path = {static_cast<int>(start)};
    std::vector<std::size_t> next_term = {0};
    state[start] = State::open;
    while (!path.empty()) {
      const int at = path.back();
      if (next_term.back() == terms[at].size()) {
        state[at] = State::done;
        for (const int term : terms[at]) depth[at] = std::max(depth[at], depth[term] + 1);
        add_kinds(frame, terms[at], at, kinds, diagnostics);
        if (depth[at] == deepest_combination + 1) {
          add_error(diagnostics, frame.cases[at].place,
                    combination_too_deep(frame.cases[at].name, deepest_combination));
        }
        path.pop_back();
        next_term.pop_back();
        continue;
      }
      const int term = terms[at][next_term.back()++];
      if (state[term] == State::open && !reported[term]) {
        reported[term] = true;
        add_error(diagnostics, frame.cases[term].place,
                  combinations_in_circle(circle_of(frame, path, term)));
      }
      if (state[term] != State::unseen) continue;
      state[term] = State::open;
      path.push_back(term);
      next_term.push_back(0);
    }
  }
}

}  // namespace

void validate_cases(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  for (const Case& c : frame.cases) {
    if (c.yield_factor) {
      check_range(*c.yield_factor, sensible::positive_factor, "case " + quoted(c.name),
                  "yield_factor", c.place, diagnostics);
    }
    switch (c.kind) {
      case CaseKind::fixed_supports:
        check_static(frame, names, c, diagnostics);
        break;
      case CaseKind::vehicle:
        check_driving(frame, names, c, diagnostics);
        break;
      case CaseKind::combine:
        check_terms(frame, names, c, diagnostics);
        break;
      case CaseKind::ride:
        names.rides.find(c.ride, subject_of(c), c.place, diagnostics);
        break;
    }
  }
  check_circles(frame, names, diagnostics);
}

}  // namespace tubewright
