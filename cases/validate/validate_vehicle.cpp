// Wheels, axles and shares.
#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <unordered_set>

#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {
namespace {

// Wheels nearer to each other than this cannot be two wheels of an axle, or two axles.
constexpr double closest_wheels = 0.01;  // m

void check_carrier(const Wheel& w, const FrameNames& names, const std::string& subject,
                   Diagnostics& diagnostics) {
  if (w.carrier.empty()) {
    add_error(diagnostics, w.place, wheel_on_nothing(w.name));
  }
  std::unordered_set<std::string> seen;
  for (const std::string& node : w.carrier) {
    joined_node(names, node, subject, w.place, diagnostics);
    if (!seen.insert(node).second) {
      add_error(diagnostics, w.place, node_listed_twice(subject, node, "carrier"));
    }
  }
}

void check_brake_mount(const Wheel& w, const FrameNames& names, const std::string& subject,
                       Diagnostics& diagnostics) {
  for (const std::string& node : w.brake_mount) {
    joined_node(names, node, subject, w.place, diagnostics);
  }
  if (!w.brake_mount.empty() && w.brake != WheelBrake::inboard) {
    add_error(diagnostics, w.place, mount_without_inboard_brake(w.name));
  }
}

/// A rigid upright is moved by one of its nodes, so only one of them can be held, and none can
/// belong to two uprights.
void check_uprights(const Frame& frame, Diagnostics& diagnostics) {
  std::unordered_map<std::string, std::string> upright_of;
  for (const Wheel& w : frame.vehicle->wheels) {
    if (!has_rigid_upright(w)) continue;
    int held = 0;
    for (const std::string& node : w.carrier) {
      const auto [other, is_new] = upright_of.emplace(node, w.name);
      if (!is_new && other->second != w.name) {
        add_error(diagnostics, w.place, node_of_two_uprights(node, other->second, w.name));
      }
      for (const SupportEntry& s : frame.supports) held += s.node == node;
    }
    if (held > 1) {
      add_error(diagnostics, w.place, upright_supported_twice(w.name, held));
    }
  }
}

void check_wheel(const Wheel& w, const FrameNames& names, Diagnostics& diagnostics) {
  const std::string subject = "wheel " + quoted(w.name);
  check_brake_mount(w, names, subject, diagnostics);
  bool placed = true;
  for (int d = 0; d < 3 && placed; ++d) {
    placed =
        check_range(w.contact[d], sensible::coordinate, subject, "contact", w.place, diagnostics) &&
        check_range(w.centre[d], sensible::coordinate, subject, "centre", w.place, diagnostics);
  }
  if (placed && w.centre.z() - w.contact.z() < sensible::size.least) {
    add_error(diagnostics, w.place, contact_above_centre(w.name));
  }
  check_carrier(w, names, subject, diagnostics);
}

std::vector<const Wheel*> wheels_of(const Vehicle& v, Axle axle) {
  std::vector<const Wheel*> wheels;
  for (const Wheel& w : v.wheels) {
    if (w.axle == axle) wheels.push_back(&w);
  }
  return wheels;
}

double mean_x(const std::vector<const Wheel*>& wheels) {
  double sum = 0;
  for (const Wheel* w : wheels) sum += w->contact.x();
  return sum / static_cast<double>(wheels.size());
}

void check_axles(const Vehicle& v, Diagnostics& diagnostics) {
  if (v.wheels.size() != 3 && v.wheels.size() != 4) {
    add_error(diagnostics, v.place, wrong_wheel_count(v.wheels.size()));
    return;
  }
  const auto front = wheels_of(v, Axle::front), rear = wheels_of(v, Axle::rear);
  for (const auto& [axle, name] : {std::pair{&front, "front"}, std::pair{&rear, "rear"}}) {
    if (axle->empty() || axle->size() > 2) {
      add_error(diagnostics, v.place, wrong_wheels_of_axle(name, axle->size()));
      return;
    }
    if (axle->size() == 2 &&
        std::abs((*axle)[0]->contact.y() - (*axle)[1]->contact.y()) < closest_wheels) {
      add_error(diagnostics, (*axle)[1]->place,
                axle_without_track((*axle)[0]->name, (*axle)[1]->name));
    }
  }
  if (!(mean_x(front) - mean_x(rear) >= closest_wheels)) {
    add_error(diagnostics, v.place, axles_exchanged());
  }
}

bool any_brake(const Vehicle& v, Axle axle) {
  return std::any_of(v.wheels.begin(), v.wheels.end(), [axle](const Wheel& w) {
    return w.axle == axle && w.brake != WheelBrake::none;
  });
}

void check_shares(const Vehicle& v, Diagnostics& diagnostics) {
  const std::string subject = "the vehicle";
  const auto check = [&](const std::optional<double>& value, const Range& range, const char* key) {
    return !value || check_range(*value, range, subject, key, v.place, diagnostics);
  };
  check(v.roll_stiffness_front_share, sensible::share, "roll_stiffness_front_share");
  check(v.tyre_rate, sensible::stiffness, "tyre_rate");
  check(v.friction, sensible::positive_factor, "friction");
  const StandardFactors& s = v.standard;
  check(s.bump, sensible::positive_factor, "bump");
  check(s.step_height, sensible::size, "step_height");
  check(s.step, sensible::positive_factor, "step");
  check(s.nudge, sensible::positive_factor, "nudge");
  check(s.twist, sensible::positive_factor, "twist");
  check(s.tipping, sensible::share, "tipping");
  check(s.combined, sensible::share, "combined");
  check(s.downhill, sensible::slope, "downhill");
  check_range(v.roll_centre_front, sensible::displacement, subject, "roll_centre.front", v.place,
              diagnostics);
  check_range(v.roll_centre_rear, sensible::displacement, subject, "roll_centre.rear", v.place,
              diagnostics);
  if (!check(v.brake_front_share, sensible::share, "brake_front_share")) return;
  if (!v.brake_front_share) return;
  for (const auto& [axle, name, share] :
       {std::tuple{Axle::front, "front", *v.brake_front_share},
        std::tuple{Axle::rear, "rear", 1 - *v.brake_front_share}}) {
    if (share <= 0 || any_brake(v, axle)) continue;
    // With no brake at all the share does not matter; a case that brakes is reported for itself.
    if (!any_brake(v, Axle::front) && !any_brake(v, Axle::rear)) continue;
    add_error(diagnostics, v.place, share_without_brake(name));
  }
}

}  // namespace

void validate_vehicle(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  if (!frame.vehicle) return;
  for (const Wheel& w : frame.vehicle->wheels) check_wheel(w, names, diagnostics);
  check_uprights(frame, diagnostics);
  check_axles(*frame.vehicle, diagnostics);
  check_shares(*frame.vehicle, diagnostics);
}

}  // namespace tubewright
