// One mass, or a sprung one, over bumps, edges and holes against tables worked out apart.
#include <array>

#include "solver/road/obstacles.h"
#include "solver/road/wheel_path_stream.h"
#include "tests/solver/dynamics/ride_models.h"
#include "tests/truth.h"

namespace tubewright::shock_ride_test {

using namespace tubewright::test;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr Source shock = rederived("undamped mass over a bump, exact first-order hold, script");
constexpr Source closed_form = rederived("undamped mass, closed form");
constexpr Source integrated =
    rederived("RK4, unilateral contact, rigid wheel of radius 0.25 m, independent script");

/// Extremes of force/(k h) and height/h of a mass of frequency 1 over a bump of duration T.
struct Shock {
  double greatest = 0, least = 0, height = 0;
};

Shock shock_of(bool half, double T, double zeta) {
  constexpr double m = 50, h = 0.02, dt = 1e-4;  // s, of a period of 1 s
  const double k = m * std::pow(2 * pi, 2), c = 2 * zeta * std::sqrt(k * m);
  RideSystem r = one_mass(m, k, c, 0);
  RideOptions o;
  o.time_step = dt;
  o.duration = T + 2;
  o.bilateral = true;
  o.speed = 1;
  o.start = at_rest(r);
  const GroundProfile bump = half ? half_sine(h, T, 1e-4) : versed_sine(h, T, 1e-4);
  const History a = history(r, WheelPathStream(Road({bump}), {{0, 0, {}}}, 1, dt), o);
  const Eigen::VectorXd w = r.modes.row(0) * a.q;
  return {a.tyre_force.maxCoeff() / (k * h), a.tyre_force.minCoeff() / (k * h),
          w.cwiseAbs().maxCoeff() / h};
}

struct Event {
  const char* name;
  GroundProfile ground;
};

/// Greatest force of the wheel over the static one.
double peak_factor(const RideSystem& r, const GroundProfile& obstacle, double speed,
                   double static_force) {
  constexpr double dt = 1e-4;
  RideOptions o;
  o.time_step = dt;
  o.speed = speed;
  o.duration = 1.2 / speed + 1;
  const WheelContact circle{WheelContact::Kind::circle, 0.25};
  double most = 0;
  const auto end =
      ride(r, WheelPathStream(Road({obstacle}), {{0, -0.3, circle}}, speed, dt), o,
           [&](const RideBlock& b) { most = std::max(most, b.tyre_force.maxCoeff()); });
  REQUIRE(end.has_value());
  return most / static_force;
}

}  // namespace

TEST_CASE("a mass over a bump has the force and the height of the shock tables", "[truth]") {
  struct Row {
    double fT;
    std::array<double, 5> half, versed;  // F max, F min, x max, damped F max, F min
  };
  const std::array<Row, 7> rows = {
      {{0.2, {.9209, -.7705, .7705, .9237, -.7987}, {.9457, -.6123, .6123, .9793, -.5731}},
       {0.5,
        {1.5708, -1.5708, 1.5708, 1.2564, -1.5341},
        {1.3333, -1.3333, 1.3333, 1.0664, -1.2512}},
       {0.8,
        {1.6595, -1.6595, 1.7683, 1.3285, -1.1351},
        {1.6327, -1.6327, 1.6601, 1.3062, -1.2651}},
       {1.0, {1.3333, -1.3333, 1.7321, 1.0701, -.9144}, {1.5708, -1.5708, 1.7051, 1.2572, -1.0742}},
       {1.5, {.3143, -.5000, 1.5000, .2937, -.4229}, {.8000, -.8000, 1.5625, .6455, -.5708}},
       {2.0, {.5333, -.5333, 1.2681, .3805, -.3251}, {.1875, -.3333, 1.3333, .1740, -.2882}},
       {3.0, {.3429, -.3429, 1.1699, .2218, -.1895}, {.0962, -.0962, 1.0000, .0893, -.0789}}}};
  for (const Row& row : rows) {
    for (const bool half : {true, false}) {
      const auto& theirs = half ? row.half : row.versed;
      const Shock free = shock_of(half, row.fT, 0), damped = shock_of(half, row.fT, 0.05);
      const std::string name = named(half ? "half sine" : "versed sine", ", f T = ", row.fT, ": ");
      truth(name + "greatest force by k h", shock, free.greatest, within_abs(theirs[0], 3e-4));
      truth(name + "least force by k h", shock, free.least, within_abs(theirs[1], 3e-4));
      truth(name + "greatest height by h", shock, free.height, within_abs(theirs[2], 3e-4));
      truth(name + "greatest force by k h, zeta .05", shock, damped.greatest,
            within_abs(theirs[3], 2e-3));
      truth(name + "least force by k h, zeta .05", shock, damped.least,
            within_abs(theirs[4], 3e-3));
    }
  }
}

TEST_CASE("ground that rises under a mass lifts it by up to twice its height", "[truth]") {
  constexpr double m = 40, f = 5, h = 0.01, dt = 1e-4;
  const double k = m * std::pow(2 * pi * f, 2);
  const RideSystem r = one_mass(m, k, 0, 0);
  RideOptions o;
  o.time_step = dt;
  o.duration = 1;
  o.bilateral = true;
  o.start = at_rest(r);
  const auto lifted = [&](double rise) {
    const History a = history(
        r, ground(dt, [=](double t) { return rise > 0 ? h * std::min(1.0, t / rise) : h; }), o);
    return (r.modes.row(0) * a.q).maxCoeff() / h;
  };
  truth("sudden step: greatest height by h", closed_form, lifted(0), within_rel(2, 1e-5));
  for (const auto& [share, theirs] : {std::pair{.1, 1.9836},
                                      {.25, 1.9003},
                                      {.5, 1.6366},
                                      {.75, 1.3001},
                                      {1., 1.0000},
                                      {1.5, 1.2122}}) {
    truth(named("ramp of ", share, " periods: greatest height by h"), closed_form,
          lifted(share / f), within_abs(theirs, 1.5e-4));
  }
}

TEST_CASE("a dropped mass has the force of its fall", "[truth]") {
  constexpr double m = 40, k = 9e4;
  const double sag = m * gravity / k;
  const auto factor = [&](double fall, double zeta) {
    const RideSystem r = one_mass(m, k, 2 * zeta * std::sqrt(k * m));
    RideOptions o;
    o.time_step = 2e-5;
    o.duration = 0.3;
    o.start = at_rest(r);
    o.start->displacement = r.modes.transpose() * Eigen::Vector2d(fall * sag * m, 0);
    return history(r, level_ground(), o).tyre_force.maxCoeff() / (m * gravity);
  };
  for (const auto& [fall, theirs] :
       {std::pair{.5, 2.4142}, {1., 2.7321}, {2., 3.2361}, {5., 4.3166}, {10., 5.5826}}) {
    truth(named("drop of ", fall, " static deflections: force by weight"), closed_form,
          factor(fall, 0), within_abs(theirs, 3e-4));
  }
  constexpr Source damped = rederived("drop on a damped tyre, independent script");
  for (const auto& [zeta, theirs] : {std::pair{.05, 3.9972}, {.1, 3.7459}, {.2, 3.3997}}) {
    truth(named("drop of 5 static deflections, zeta ", zeta, ": force by weight"), damped,
          factor(5, zeta), within_abs(theirs, 2e-3));
  }
}

TEST_CASE("single obstacles give the peaks of the table", "[truth]") {
  const std::array<Event, 4> events = {{{"edge 20 mm", edge(0.02)},
                                        {"edge 50 mm", edge(0.05)},
                                        {"pothole 50 x 300 mm", pothole(0.05, 0.3)},
                                        {"board 25 x 150 mm", pothole(-0.025, 0.15)}}};
  const std::array<double, 5> speeds = {5, 10, 15, 20, 25};
  struct Wheel {
    const char* name;
    RideSystem system;
    std::vector<std::array<double, 5>> factors;  // one an event; the board's is not for 60 N/mm
  };
  const auto rigid = [](double k) { return one_mass(46, k, 2 * .08 * std::sqrt(k * 46)); };
  const double tyre_damping = 2 * .03 * std::sqrt(120e3 * 6);
  const std::array<Wheel, 3> wheels = {{{"rigid, 120 N/mm",
                                         rigid(120e3),
                                         {{3.67, 4.63, 4.97, 5.45, 5.80},
                                          {6.23, 9.36, 10.49, 10.90, 11.29},
                                          {8.96, 6.82, 5.14, 3.93, 3.19},
                                          {3.41, 6.55, 6.80, 6.90, 6.94}}},
                                        {"rigid, 60 N/mm",
                                         rigid(60e3),
                                         {{2.51, 2.94, 3.27, 3.50, 3.68},
                                          {4.25, 5.54, 5.84, 6.39, 6.83},
                                          {5.77, 4.38, 3.21, 2.53, 2.18}}},
                                        {"sprung, 120 N/mm",
                                         quarter_car(40, 6, 12e3, 500, 120e3, tyre_damping),
                                         {{2.08, 2.89, 3.51, 3.99, 4.37},
                                          {2.94, 4.49, 5.75, 6.81, 7.69},
                                          {3.80, 4.43, 4.61, 4.56, 4.37},
                                          {2.23, 3.18, 3.93, 4.52, 4.99}}}}};
  for (const Wheel& w : wheels) {
    for (size_t e = 0; e < w.factors.size(); ++e) {
      for (size_t s = 0; s < speeds.size(); ++s) {
        truth(named(w.name, ", ", events[e].name, ", ", speeds[s], " km/h: peak by static"),
              integrated, peak_factor(w.system, events[e].ground, speeds[s] / 3.6, 46 * gravity),
              within_rel(w.factors[e][s], 0.02));
      }
    }
  }
}

}  // namespace tubewright::shock_ride_test
