#include "cases/vehicle/standard_cases.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace tubewright {

namespace {

std::string short_number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", value);
  return text;
}

Case driving(const std::string& name, const std::string& note) {
  Case c;
  c.name = name;
  c.kind = CaseKind::vehicle;
  c.note = note;
  return c;
}

/// A factor with where it comes from, for the note of its case.
struct Factor {
  double value;
  std::string source;
};

Factor chosen(const std::optional<double>& given, double usual, const std::string& source) {
  return given ? Factor{*given, "given in the frame file"} : Factor{usual, source};
}

/// Of one wheel of a vehicle that was driven over what the factor stands for.
Factor with_driven(const Factor& usual, bool may_count, double driven, const std::string& over) {
  const std::string told = "driven over " + over + " this wheel has ";
  if (may_count && driven > usual.value) {
    return {driven, told + short_number(driven) + " times its load at rest; " +
                        short_number(usual.value) + " otherwise, " + usual.source};
  }
  return {usual.value,
          usual.source + "; " + told + short_number(driven) + " times its load at rest"};
}

Factor bump_factor(const Vehicle& vehicle, bool sprung) {
  return sprung
             ? chosen(vehicle.standard.bump, 3.0,
                      "as is usual for sprung road vehicles: 2.5 to 3 on roads, 4 off them "
                      "(lecture notes after Brown, Robertson & Serpento 2002; primary table not "
                      "seen)")
             : chosen(vehicle.standard.bump, 5.0,
                      "for a vehicle without springs: hub loads of 3 to 5 times body weight were "
                      "measured in off-road cycling (J. Biomech. Eng. 1999, abstract only; De "
                      "Lorenzo & "
                      "Hull, authors from memory)");
}

Factor step_factor(const Vehicle& vehicle) {
  return chosen(vehicle.standard.step, 4.5,
                "Garrett 1953, in Brown, Robertson & Serpento 2002, p. 22; heavy cars, so a rough "
                "guess here");
}

Factor nudge_factor(const Vehicle& vehicle) {
  return chosen(
      vehicle.standard.nudge, 1.75,
      "Garrett 1953, in Brown, Robertson & Serpento 2002, p. 24; others 1.4; a preliminary "
      "estimate");
}

Factor twist_factor(const Vehicle& vehicle) {
  return chosen(vehicle.standard.twist, 1.3,
                "dynamic factor of uneven roads for cars: lecture notes after Brown, Robertson & "
                "Serpento 2002; 1.3 to 1.8 elsewhere");
}

// Common practice, no source: beyond the tipping limit the inner wheels are in the air; 0.7 of
// braking and of turning lie on the friction circle.
constexpr double usual_tipping_share = 0.95;
constexpr double usual_combined_share = 0.7;
constexpr double usual_downhill = 0.10;

double hardest_turn(const Vehicle& vehicle, const VehicleFacts& facts, double limit, double g) {
  const double share = vehicle.standard.tipping.value_or(usual_tipping_share);
  return std::max(0.0, std::min(facts.friction, share * limit / g));
}

std::string turn_note(const Vehicle& vehicle, const VehicleFacts& facts, double corner,
                      double limit, double g) {
  return short_number(corner) + " g: the least of the tyres' friction " +
         short_number(facts.friction) + " and " +
         short_number(vehicle.standard.tipping.value_or(usual_tipping_share)) + " of the " +
         short_number(limit / g) + " g at which it tips (common practice, no source)";
}

void add_turns(const Vehicle& vehicle, const VehicleFacts& facts, double g,
               std::vector<Case>& cases) {
  const double left = hardest_turn(vehicle, facts, facts.tipping.left_turn, g);
  const double right = hardest_turn(vehicle, facts, facts.tipping.right_turn, g);
  cases.push_back(
      driving("left_turn", turn_note(vehicle, facts, left, facts.tipping.left_turn, g)));
  cases.back().corner = left;
  cases.push_back(
      driving("right_turn", turn_note(vehicle, facts, right, facts.tipping.right_turn, g)));
  cases.back().corner = -right;
}

/// Friction that the tyre nearest to sliding needs in the case, on a rigid vehicle.
double most_friction(const Frame& frame, const VehicleFacts& facts, const Case& c) {
  double most = 0;
  for (const TyreForce& f : tyre_forces(frame, facts.rigid, c, facts.standing, 0).wheels) {
    most = std::max(most, f.friction_used);
  }
  return most;
}

void add_braking(const Frame& frame, const VehicleFacts& facts, std::vector<Case>& cases) {
  const double g = frame.gravity;
  const double downhill = frame.vehicle->standard.downhill.value_or(usual_downhill);
  const double level = facts.braking.greatest / g;
  const Brakes brakes = brakes_of(*frame.vehicle);
  if (level <= 0 || std::count(brakes.braked.begin(), brakes.braked.end(), true) == 0) return;
  cases.push_back(driving(
      "braking", short_number(level) + " g: what these brakes reach on the level with friction " +
                     short_number(facts.friction) + " (friction: common practice, no source)"));
  cases.back().brake = level;
  const double on_slope =
      reachable_deceleration(facts.rigid, brakes, facts.friction, downhill, g).greatest / g;
  if (on_slope <= 0) return;
  for (const auto& [name, side, limit] :
       {std::tuple{"braking_left_turn", 1.0, facts.tipping.left_turn},
        std::tuple{"braking_right_turn", -1.0, facts.tipping.right_turn}}) {
    Case c = driving(name, "");
    c.grade = downhill;
    const double wanted = frame.vehicle->standard.combined.value_or(usual_combined_share);
    double share = wanted;
    for (int i = 0; i < 200; ++i, share *= 0.98) {
      c.brake = share * on_slope;
      c.corner = side * share * hardest_turn(*frame.vehicle, facts, limit, g);
      if (most_friction(frame, facts, c) <= facts.friction) break;
    }
    c.note = short_number(share) +
             " of the braking and of the turning that are reached alone, on a slope of " +
             short_number(downhill * 100) + " %; less than " + short_number(wanted) +
             " where a tyre would slide (common practice, no source)";
    cases.push_back(std::move(c));
  }
}

void add_bumps(const Vehicle& vehicle, const VehicleFacts& facts, const DrivenFactors* driven,
               std::vector<Case>& cases) {
  Factor usual = bump_factor(vehicle, facts.sprung);
  const bool may_count = !facts.sprung && !vehicle.standard.bump;
  const auto of_wheel = [&](size_t w, bool axle) {
    if (driven == nullptr) return usual;
    return with_driven(usual, may_count, (axle ? driven->axle_bump : driven->bump)[w],
                       driven->bump_words + (axle ? " across the road" : " on its side"));
  };
  const auto note = [](const Factor& factor) {
    return short_number(factor.value) + " times the static load, " + factor.source;
  };
  for (size_t w = 0; w < vehicle.wheels.size(); ++w) {
    const Wheel& wheel = vehicle.wheels[w];
    const Factor factor = of_wheel(w, false);
    Case c = driving("bump_" + wheel.name, note(factor));
    c.bump.push_back({wheel.name, factor.value, {}});
    cases.push_back(std::move(c));
  }
  for (const auto& [axle, name] : {std::pair{Axle::front, "front"}, {Axle::rear, "rear"}}) {
    Case c = driving(std::string("bump_") + name + "_axle", "");
    Factor greatest{0, ""};
    for (size_t w = 0; w < vehicle.wheels.size(); ++w) {
      if (vehicle.wheels[w].axle != axle) continue;
      const Factor factor = of_wheel(w, true);
      c.bump.push_back({vehicle.wheels[w].name, factor.value, {}});
      if (factor.value > greatest.value) greatest = factor;
    }
    c.note = note(greatest);
    if (c.bump.size() > 1) cases.push_back(std::move(c));
  }
}

void add_kerbs(const Vehicle& vehicle, const VehicleFacts& facts, const DrivenFactors* driven,
               std::vector<Case>& cases) {
  const bool may_count = !facts.sprung && !vehicle.standard.step;
  for (size_t i = 0; i < vehicle.wheels.size(); ++i) {
    const Wheel& w = vehicle.wheels[i];
    if (w.axle != Axle::front) continue;
    const double height = standard_step(vehicle, w);
    Factor factor = step_factor(vehicle);
    if (driven != nullptr) {
      factor = with_driven(factor, may_count, driven->step[i], driven->step_words);
    }
    Case c = driving("step_" + w.name, "a step of " + short_number(height * 1e3) +
                                           " mm met at speed, dynamic factor " +
                                           short_number(factor.value) + " (" + factor.source + ")");
    c.step = StepStrike{w.name, height, factor.value, {}};
    c.rare = true;
    cases.push_back(std::move(c));
  }
  for (const bool left : {true, false}) {
    const Factor factor = nudge_factor(vehicle);
    Case c = driving(left ? "nudge_left" : "nudge_right",
                     "sliding sideways against a kerb, factor " + short_number(factor.value) +
                         " (" + factor.source + ")");
    c.nudge = KerbNudge{left, factor.value, {}};
    c.rare = true;
    cases.push_back(std::move(c));
  }
}

/// The wheels of the axle whose load times track is the smaller: those that lift first.
void add_twists(const Vehicle& vehicle, const VehicleFacts& facts, std::vector<Case>& cases) {
  if (vehicle.wheels.size() != 4) return;
  const auto load_times_track = [&](Axle axle) {
    double load = 0;
    std::vector<double> y;
    for (size_t i = 0; i < vehicle.wheels.size(); ++i) {
      if (vehicle.wheels[i].axle != axle) continue;
      load += facts.standing[i];
      y.push_back(vehicle.wheels[i].contact.y());
    }
    return load * std::abs(y.back() - y.front());
  };
  const Axle lighter =
      load_times_track(Axle::front) <= load_times_track(Axle::rear) ? Axle::front : Axle::rear;
  for (const Wheel& w : vehicle.wheels) {
    if (w.axle != lighter) continue;
    const Factor factor = twist_factor(vehicle);
    Case c =
        driving("twist_" + w.name, "this wheel just off the ground, all loads times " +
                                       short_number(factor.value) + " (" + factor.source + ")");
    c.lift = w.name;
    c.vertical = factor.value;
    cases.push_back(std::move(c));
  }
}

}  // namespace

double standard_step(const Vehicle& vehicle, const Wheel& wheel) {
  constexpr double usual_step = 0.05;  // m
  return std::min(vehicle.standard.step_height.value_or(usual_step), wheel_radius(wheel) / 2);
}

std::vector<Case> standard_cases(const Frame& frame, const VehicleFacts& facts,
                                 const DrivenFactors* driven) {
  const Vehicle& vehicle = *frame.vehicle;
  std::vector<Case> cases;
  cases.push_back(
      driving("standing", "at rest on the level, to compare with scales under the wheels"));
  add_braking(frame, facts, cases);
  add_turns(vehicle, facts, frame.gravity, cases);
  add_bumps(vehicle, facts, driven, cases);
  add_kerbs(vehicle, facts, driven, cases);
  add_twists(vehicle, facts, cases);
  if (driven != nullptr) {
    for (Case& c : cases) {
      if (!c.bump.empty() || c.step) c.doubts = driven->doubts;
    }
  }
  return cases;
}

}  // namespace tubewright
