#include "cases/vehicle/wheel_loads.h"

#include <algorithm>
#include <cmath>

#include "solver/linear_algebra/dense.h"

namespace tubewright {

Eigen::Vector2d axle_middle(const RigidVehicle& v, Axle axle) {
  Eigen::Vector2d sum = Eigen::Vector2d::Zero();
  int count = 0;
  for (size_t i = 0; i < v.contact.size(); ++i) {
    if (v.axle[i] != axle) continue;
    sum += v.contact[i].head<2>();
    ++count;
  }
  return count > 0 ? Eigen::Vector2d(sum / count) : Eigen::Vector2d(v.centre.head<2>());
}

double road_height(const RigidVehicle& v) {
  double sum = 0;
  for (const Eigen::Vector3d& c : v.contact) sum += c.z();
  return v.contact.empty() ? v.centre.z() : sum / static_cast<double>(v.contact.size());
}

namespace {

/// What the loads of the wheels must add up to, in the plane of the road.
struct Demand {
  std::vector<Eigen::Vector2d> at;  ///< contacts, from below the centre of mass
  double total = 0;                 ///< sum N = -m b_z
  /// sum N (x, y) = m h (b_x, b_y): the tyres' forces in the road act h below the centre of mass
  Eigen::Vector2d moment = Eigen::Vector2d::Zero();
};

Demand demand_of(const RigidVehicle& v, const Eigen::Vector3d& b) {
  Demand d;
  for (const Eigen::Vector3d& c : v.contact) d.at.emplace_back(c.head<2>() - v.centre.head<2>());
  d.total = -v.mass * b.z();
  d.moment = v.mass * (v.centre.z() - road_height(v)) * b.head<2>();
  return d;
}

/// F_yf of F_yf + F_yr = `side`, x_f F_yf + x_r F_yr + brake_yaw = 0, axles at `front` and `rear`
/// ahead of the centre of mass.
double front_side_force(double front, double rear, double side, double brake_yaw) {
  return front == rear ? side / 2 : (-rear * side - brake_yaw) / (front - rear);
}

size_t left_front_wheel(const RigidVehicle& v) {
  std::optional<size_t> found;
  for (size_t i = 0; i < v.contact.size(); ++i) {
    if (v.axle[i] != Axle::front) continue;
    if (!found || v.contact[i].y() > v.contact[*found].y()) found = i;
  }
  return found.value_or(0);
}

/// The change of four loads that leaves sum N, sum N x and sum N y as they are: cofactors of the
/// three equations, that is the area of the triangle of the other three contacts, sign alternating.
std::vector<double> cross_pattern(const RigidVehicle& v, const Demand& d) {
  std::vector<double> pattern;
  double greatest = 0;
  for (size_t i = 0; i < 4; ++i) {
    std::vector<Eigen::Vector2d> p = d.at;
    p.erase(p.begin() + static_cast<std::ptrdiff_t>(i));
    const Eigen::Vector2d u = p[1] - p[0], w = p[2] - p[0];
    pattern.push_back((i % 2 == 0 ? 1 : -1) * (u.x() * w.y() - u.y() * w.x()));
    greatest = std::max(greatest, std::abs(pattern[i]));
  }
  double scale = pattern[left_front_wheel(v)];
  constexpr double rounding = 1e-9;  // the other three in a row: this wheel's load is fixed
  if (std::abs(scale) <= rounding * greatest) scale = greatest > 0 ? greatest : 1;
  for (double& p : pattern) p /= scale;
  return pattern;
}

/// One linear equation for the loads of four wheels.
struct Equation {
  Eigen::RowVector4d left = Eigen::RowVector4d::Zero();
  double right = 0;
};

/// The axles' roll moments R = sum N (y - y of the axle), less R_geo = -F_y h_rc, are as lambda to
/// 1 - lambda: (1 - lambda) (R_f - R_f,geo) = lambda (R_r - R_r,geo). Multiplied out, so that
/// lambda may be 0 or 1. Source: see the header.
Equation roll_shared(const RigidVehicle& v, const Eigen::Vector3d& b, double brake_yaw) {
  const double lambda = v.front_roll_share;
  const double side = -v.mass * b.y();
  const double front_side =
      front_side_force(axle_middle(v, Axle::front).x() - v.centre.x(),
                       axle_middle(v, Axle::rear).x() - v.centre.x(), side, brake_yaw);
  const double front_middle = axle_middle(v, Axle::front).y();
  const double rear_middle = axle_middle(v, Axle::rear).y();
  Equation e;
  for (size_t i = 0; i < 4; ++i) {
    const double y = v.contact[i].y();
    e.left[i] =
        v.axle[i] == Axle::front ? (1 - lambda) * (y - front_middle) : -lambda * (y - rear_middle);
  }
  e.right = lambda * (side - front_side) * v.rear_roll_centre -
            (1 - lambda) * front_side * v.front_roll_centre;
  return e;
}

/// Requires three or four wheels. `fourth` goes beside the three equations of equilibrium.
std::vector<double> balanced_loads(const Demand& d, const Equation& fourth) {
  Eigen::Matrix4d A = Eigen::Matrix4d::Zero();
  for (size_t i = 0; i < d.at.size(); ++i) A.col(i).head<3>() << 1, d.at[i];
  A.row(3) = fourth.left;
  const Eigen::Vector4d right(d.total, d.moment.x(), d.moment.y(), fourth.right);
  // Full pivoting: finite even where wheels stand on each other.
  const Eigen::Vector4d N = solve_general(A, right);
  return {N.data(), N.data() + d.at.size()};
}

/// Three on the ground: the fourth equation says that the other one has no load.
Equation without_load(const std::vector<bool>& lifted) {
  const auto off = std::find(lifted.begin(), lifted.end(), true) - lifted.begin();
  Equation e;
  e.left[off] = 1;  // the spare place when the vehicle has three wheels
  return e;
}

/// The wheel that pulls down most. Of four, the one that needs the greatest change of cross-weight
/// to come to zero: less would leave its diagonal partner pulling. Three have no such choice.
std::optional<size_t> pulling_wheel(const std::vector<double>& normal,
                                    const std::vector<double>& pattern, double total) {
  constexpr double rounding = 1e-12;  // of the whole load
  std::optional<size_t> worst;
  double greatest = 0;
  for (size_t i = 0; i < normal.size(); ++i) {
    if (normal[i] >= -rounding * total) continue;
    const double pull = -normal[i] / (pattern.empty() ? 1 : std::abs(pattern[i]));
    if (worst && pull <= greatest) continue;
    worst = i;
    greatest = pull;
  }
  return worst;
}

/// Balanced about the axis in the road plane square to the line of the two contacts. Beyond the end
/// of that line the nearer wheel carries all.
void share_between(size_t i, size_t j, const Demand& d, WheelLoads& loads) {
  const Eigen::Vector2d line = d.at[j] - d.at[i];
  const double length_squared = line.squaredNorm();
  const double at_j =
      length_squared > 0 ? line.dot(d.moment - d.total * d.at[i]) / length_squared : d.total / 2;
  loads.normal[j] = std::clamp(at_j, 0.0, d.total);
  loads.normal[i] = d.total - loads.normal[j];
  for (const size_t k : {i, j}) loads.lifted[k] = loads.normal[k] == 0;
}

void turn_over(const Demand& d, WheelLoads& loads) {
  loads.tips = true;
  std::vector<size_t> ground;
  for (size_t i = 0; i < loads.lifted.size(); ++i) {
    if (!loads.lifted[i]) ground.push_back(i);
  }
  if (ground.size() == 1) loads.normal[ground[0]] = d.total;
  if (ground.size() == 2) share_between(ground[0], ground[1], d, loads);
}

}  // namespace

WheelLoads wheel_loads(const RigidVehicle& vehicle, const Eigen::Vector3d& body_force,
                       const std::vector<bool>& held_off, double cross_weight, double brake_yaw) {
  const size_t wheels = vehicle.contact.size();
  const Demand demand = demand_of(vehicle, body_force);
  WheelLoads loads;
  loads.normal.assign(wheels, 0);
  loads.lifted = held_off.empty() ? std::vector<bool>(wheels, false) : held_off;
  if (!(demand.total > 0)) {
    loads.lifted.assign(wheels, true);
    loads.tips = true;
    return loads;
  }
  auto ground = std::count(loads.lifted.begin(), loads.lifted.end(), false);
  for (; ground >= 3; --ground) {
    std::vector<double> pattern;
    if (ground == 4) pattern = cross_pattern(vehicle, demand);
    std::vector<double> normal =
        balanced_loads(demand, ground == 4 ? roll_shared(vehicle, body_force, brake_yaw)
                                           : without_load(loads.lifted));
    for (size_t i = 0; i < pattern.size(); ++i) normal[i] += cross_weight * pattern[i];
    if (const auto pulling = pulling_wheel(normal, pattern, demand.total)) {
      loads.lifted[*pulling] = true;
      continue;
    }
    for (size_t i = 0; i < wheels; ++i) {
      loads.normal[i] = loads.lifted[i] ? 0 : std::max(0.0, normal[i]);
    }
    loads.cross_pattern = pattern;
    return loads;
  }
  turn_over(demand, loads);
  return loads;
}

double brake_yaw_moment(const RigidVehicle& vehicle, const std::vector<double>& brake) {
  double moment = 0;
  for (size_t i = 0; i < brake.size(); ++i) {
    moment += brake[i] * (vehicle.contact[i].y() - vehicle.centre.y());
  }
  return moment;
}

std::vector<double> side_forces(const RigidVehicle& vehicle, const WheelLoads& loads,
                                const Eigen::Vector3d& body_force, double brake_yaw) {
  struct OnAxle {
    double load = 0, moment = 0;  // sum N and sum N x, x ahead of the centre of mass
    double middle() const { return moment / load; }
  } front, rear;
  for (size_t i = 0; i < loads.normal.size(); ++i) {
    OnAxle& axle = vehicle.axle[i] == Axle::front ? front : rear;
    axle.load += loads.normal[i];
    axle.moment += loads.normal[i] * (vehicle.contact[i].x() - vehicle.centre.x());
  }
  const double total = -vehicle.mass * body_force.y();
  double on_front = !(rear.load > 0) ? total : 0;
  if (front.load > 0 && rear.load > 0) {
    on_front = front_side_force(front.middle(), rear.middle(), total, brake_yaw);
  }
  std::vector<double> side;
  for (size_t i = 0; i < loads.normal.size(); ++i) {
    const bool is_front = vehicle.axle[i] == Axle::front;
    const double axle_load = is_front ? front.load : rear.load;
    const double on_axle = is_front ? on_front : total - on_front;
    side.push_back(axle_load > 0 ? on_axle * (loads.normal[i] / axle_load) : 0);
  }
  return side;
}

}  // namespace tubewright
