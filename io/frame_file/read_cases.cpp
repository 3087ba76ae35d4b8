// What the frame has to do: the vehicle and the load cases.
#include "io/frame_file/frame_parts.h"
#include "io/keys/choice_words.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

std::vector<NodeAction> node_actions(const CheckedValue& map, const FileAxes& axes) {
  std::vector<NodeAction> actions;
  for (const NamedValue& entry : map.entries) {
    actions.push_back({entry.name, axes.vector(entry.value), entry.place});
  }
  return actions;
}

void add_point_loads(const NamedValue& entry, const FileAxes& axes, Case& c,
                     Diagnostics& diagnostics) {
  for (const CheckedValue& v : entry.value.items) {
    if (v.group == nullptr) continue;
    if (!v["force"].given && !v["moment"].given) {
      diagnostics.push_back(error_at(v.place, empty_load(entry.name)));
    }
    c.point_loads.push_back(
        {entry.name, v["at"].number, axes.vector(v["force"]), axes.vector(v["moment"]), v.place});
  }
}

void read_static_case(const CheckedValue& v, const FileAxes& axes, Case& c,
                      Diagnostics& diagnostics) {
  c.kind = CaseKind::fixed_supports;
  c.forces = node_actions(v["forces"], axes);
  c.moments = node_actions(v["moments"], axes);
  for (const NamedValue& entry : v["line_loads"].entries) {
    c.line_loads.push_back({entry.name, axes.vector(entry.value), entry.place});
  }
  for (const NamedValue& entry : v["point_loads"].entries) {
    add_point_loads(entry, axes, c, diagnostics);
  }
  c.gravity = axes.vector(v["gravity"]);
}

void read_vehicle_case(const CheckedValue& v, const FileAxes& axes, Case& c) {
  c.kind = CaseKind::vehicle;
  c.brake = v["brake"].number;
  c.corner = v["corner"].number;
  c.grade = v["grade"].number;
  for (const NamedValue& entry : v["bump"].entries) {
    c.bump.push_back({entry.name, entry.value.number, entry.place});
  }
  if (const CheckedValue& step = v["step"]; step.group != nullptr) {
    c.step =
        StepStrike{step["wheel"].text, step["height"].number, step["factor"].number, step.place};
  }
  c.lift = v["lift"].text;
  if (const CheckedValue& nudge = v["nudge"]; nudge.group != nullptr) {
    // SAE J670 has y to the right, but left and right are the driver's in either.
    c.nudge = KerbNudge{nudge["side"].index == 0, nudge["factor"].number, nudge.place};
  }
  if (const CheckedValue& tow = v["tow"]; tow.group != nullptr) {
    c.tow = Tow{texts(tow["at"]), tow["pull"].number, tow.place};
  }
  if (const CheckedValue& jack = v["jack"]; jack.group != nullptr) {
    c.jack = Jack{texts(jack["at"]), jack["share"].number, jack.place};
  }
  if (const CheckedValue& tie = v["tie_down"]; tie.group != nullptr) {
    c.tie_down = TieDown{texts(tie["at"]), tie["forward"].number, tie["left"].number, tie.place};
  }
  if (const CheckedValue& roll = v["roll_over"]; roll.group != nullptr) {
    c.roll_over = RollOver{texts(roll["at"]), roll["force"].number, roll["angle"].number,
                           axes.component(1, roll["side"].number), roll.place};
  }
  c.bank = v["bank"].number;
  c.vertical = v["vertical"].number;
  c.forces = node_actions(v["forces"], axes);
  c.moments = node_actions(v["moments"], axes);
}

void read_combined_case(const CheckedValue& v, Case& c) {
  c.kind = CaseKind::combine;
  for (const NamedValue& entry : v["of"].entries) {
    c.of.push_back({entry.name, entry.value.number, entry.place});
  }
}

void read_ride_case(const CheckedValue& v, Case& c) {
  c.kind = CaseKind::ride;
  c.ride = v["ride"].text;
}

Wheel wheel(const NamedValue& entry, const FileAxes& axes) {
  Wheel w;
  w.name = entry.name;
  w.place = entry.place;
  const CheckedValue& v = entry.value;
  if (v.group == nullptr) return w;
  w.contact = axes.vector(v["contact"]);
  w.centre = axes.vector(v["centre"]);
  w.carrier = texts(v["carrier"]);
  w.hold = value_for(wheel_hold_words, v["hold"].text);
  w.brake = value_for(wheel_brake_words, v["brake"].text);
  w.brake_mount = texts(v["brake_mount"]);
  w.axle = value_for(axle_words, v["axle"].text);
  w.radius = number_if_given(v["radius"]);
  w.tyre_rate = number_if_given(v["tyre_rate"]);
  w.tyre_damping = number_if_given(v["tyre_damping"]);
  return w;
}

}  // namespace

void read_vehicle(const CheckedValue& top, const FileAxes& axes, Frame& frame) {
  const CheckedValue& v = top["vehicle"];
  if (v.group == nullptr) return;
  Vehicle vehicle;
  vehicle.place = v.place;
  for (const NamedValue& entry : v["wheels"].entries) {
    vehicle.wheels.push_back(wheel(entry, axes));
  }
  vehicle.brake_ideal = v["brake_front_share"].text == "ideal";
  if (!vehicle.brake_ideal) vehicle.brake_front_share = number_if_given(v["brake_front_share"]);
  vehicle.roll_stiffness_front_share = number_if_given(v["roll_stiffness_front_share"]);
  if (const CheckedValue& centre = v["roll_centre"]; centre.group != nullptr) {
    vehicle.roll_centre_front = centre["front"].number;
    vehicle.roll_centre_rear = centre["rear"].number;
  }
  vehicle.tyre_rate = number_if_given(v["tyre_rate"]);
  vehicle.tyre_damping = number_if_given(v["tyre_damping"]);
  vehicle.tyre_damping_ratio = v["tyre_damping_ratio"].number;
  vehicle.structural_damping = v["structural_damping"].number;
  vehicle.friction = number_if_given(v["friction"]);
  if (const CheckedValue& s = v["standard_cases"]; s.group != nullptr) {
    StandardFactors& f = vehicle.standard;
    f.bump = number_if_given(s["bump"]);
    f.step_height = number_if_given(s["step_height"]);
    f.step = number_if_given(s["step"]);
    f.nudge = number_if_given(s["nudge"]);
    f.twist = number_if_given(s["twist"]);
    f.tipping = number_if_given(s["tipping"]);
    f.combined = number_if_given(s["combined"]);
    f.downhill = number_if_given(s["downhill"]);
  }
  frame.vehicle = std::move(vehicle);
}

void read_cases(const CheckedValue& top, const FileAxes& axes, Frame& frame,
                Diagnostics& diagnostics) {
  for (const NamedValue& entry : top["cases"].entries) {
    const CheckedValue& v = entry.value;
    Case c;
    c.name = entry.name;
    c.place = entry.place;
    if (v.group != nullptr) {
      c.rare = v["rare"].index == 1;
      c.yield_factor = number_if_given(v["yield_factor"]);
      c.note = v["note"].text;
      if (v.group->word == "static") read_static_case(v, axes, c, diagnostics);
      if (v.group->word == "vehicle") read_vehicle_case(v, axes, c);
      if (v.group->word == "combine") read_combined_case(v, c);
      if (v.group->word == "ride") read_ride_case(v, c);
    }
    frame.cases.push_back(std::move(c));
  }
}

}  // namespace tubewright
