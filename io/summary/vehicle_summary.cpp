#include "io/summary/vehicle_summary.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "io/results/analysis_parts.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

std::string in_g(double acceleration, double g) {
  return std::isfinite(acceleration) ? fixed(acceleration / g, 2) + " g" : "never";
}

std::string vector_in(const Eigen::Vector3d& v, int decimals) {
  return "x " + fixed(v.x(), decimals) + ", y " + fixed(v.y(), decimals) + ", z " +
         fixed(v.z(), decimals);
}

std::size_t wheel_name_width(const Vehicle& vehicle) {
  std::size_t width = 5;
  for (const Wheel& w : vehicle.wheels)
    width = std::max(width, std::min<std::size_t>(w.name.size(), 24));
  return width;
}

std::string wheel_rows(const Vehicle& vehicle, const DrivingState& driving, double friction,
                       Paint paint) {
  const std::size_t width = wheel_name_width(vehicle);
  std::string text =
      paint.faint("  " + left("wheel", width) + right("along x", 12) + right("across y", 12) +
                  right("load z", 12) + right("friction", 10)) +
      '\n';
  for (std::size_t w = 0; w < vehicle.wheels.size(); ++w) {
    const TyreForce& f = driving.wheels[w];
    const Eigen::Vector3d force = f.total();
    text += "  " + left(vehicle.wheels[w].name, width) + right(fixed(force.x(), 1) + " N", 12) +
            right(fixed(force.y(), 1) + " N", 12) + right(fixed(force.z(), 1) + " N", 12) +
            right(fixed(f.friction_used, 2), 10);
    if (f.lifted) text += "  off the ground";
    if (f.friction_used > friction + 0.005) text += "  slides: the tyre has " + fixed(friction, 2);
    text += '\n';
  }
  return text;
}

std::string axle_line(const Vehicle& vehicle, const std::vector<TyreForce>& wheels,
                      double friction) {
  const double front = axle_friction(vehicle, Axle::front, wheels);
  const double rear = axle_friction(vehicle, Axle::rear, wheels);
  if (front < 0.005 && rear < 0.005) return {};
  return "  axles need    friction " + fixed(front, 2) + " in front, " + fixed(rear, 2) +
         " behind, and have " + fixed(friction, 2) + '\n';
}

std::string balance_lines(const Balance& b, bool tips, double g, bool large) {
  std::string text;
  if (tips) {
    text += wrapped("  ",
                    "What stays on the ground cannot balance the vehicle: it turns over. "
                    "These are the loads of the first moment.");
  }
  text += "  accelerates   " + vector_in(b.acceleration / g, 3) + " g\n";
  const Eigen::Vector3d turning = b.angular * 180 / std::numbers::pi;
  if (turning.norm() > 0.05) text += "  turns faster  " + vector_in(turning, 1) + " deg/s2\n";
  char restraint[64];
  std::snprintf(restraint, sizeof restraint, "  restraint     takes %.0e N, ", b.restraint_force);
  return text + restraint +
         (large ? "which the balance of the undeformed frame lacks\n" : "must be nothing\n");
}

/// The links and springs pulled or pushed most.
std::string link_lines(const Analysis& analysis, const CaseResult& result) {
  constexpr std::size_t most = 6;
  std::vector<std::size_t> links;
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    if (analysis.frame.members[i].kind != MemberKind::beam && !result.members[i].slack)
      links.push_back(i);
  }
  if (links.empty()) return {};
  std::stable_sort(links.begin(), links.end(), [&](std::size_t a, std::size_t b) {
    return std::abs(result.members[a].N) > std::abs(result.members[b].N);
  });
  std::string list;
  for (std::size_t k = 0; k < std::min(most, links.size()); ++k) {
    if (k > 0) list += ", ";
    list +=
        analysis.frame.members[links[k]].name + " " + fixed(result.members[links[k]].N, 0) + " N";
  }
  if (links.size() > most) list += " and " + std::to_string(links.size() - most) + " less";
  return wrapped("  links pull    ", list);
}

std::string pick_up_lines(const Analysis& analysis, const CaseResult& result) {
  const auto greatest = std::max_element(
      result.pick_ups.begin(), result.pick_ups.end(),
      [](const PickUp& a, const PickUp& b) { return a.force.norm() < b.force.norm(); });
  if (greatest == result.pick_ups.end()) return {};
  return "  pick-up       " + analysis.frame.nodes[static_cast<std::size_t>(greatest->node)].name +
         " takes most, " + fixed(greatest->force.norm(), 0) + " N (" +
         vector_in(greatest->force, 0) + ")\n";
}

}  // namespace

std::string vehicle_lines(const Analysis& analysis) {
  if (!analysis.vehicle) return {};
  const VehicleFacts& v = *analysis.vehicle;
  const double g = analysis.frame.gravity;
  std::string standing;
  for (std::size_t w = 0; w < v.standing.size(); ++w) {
    standing += (w == 0 ? "" : ", ") + analysis.frame.vehicle->wheels[w].name + " " +
                fixed(v.standing[w], 0) + " N";
  }
  std::string text = wrapped("stands on     ", standing);
  text += "brakes reach  " + in_g(v.braking.greatest, g) + " on the level with friction " +
          fixed(v.friction, 2) + "; limit: " + braking_limit_words(v.braking.limit) + '\n';
  text += "tips over at  braking " + in_g(v.tipping.braking, g) + ", left turn " +
          in_g(v.tipping.left_turn, g) + ", right turn " + in_g(v.tipping.right_turn, g) + '\n';
  return text;
}

std::string driving_lines(const Analysis& analysis, const CaseResult& result, Paint paint) {
  if (!result.driving || !analysis.vehicle) return {};
  const DrivingState& driving = *result.driving;
  return wheel_rows(*analysis.frame.vehicle, driving, analysis.vehicle->friction, paint) +
         axle_line(*analysis.frame.vehicle, driving.wheels, analysis.vehicle->friction) +
         balance_lines(driving.balance, driving.tips, analysis.frame.gravity,
                       result.large.has_value()) +
         link_lines(analysis, result) + pick_up_lines(analysis, result);
}

}  // namespace tubewright
