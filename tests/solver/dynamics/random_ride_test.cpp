// Rides over random roads against linear random vibration and against realisations made apart.
#include <array>
#include <complex>

#include "solver/dynamics/rainflow.h"
#include "solver/road/wheel_path_stream.h"
#include "tests/solver/dynamics/ride_models.h"
#include "tests/truth.h"

namespace tubewright::random_ride_test {

using namespace tubewright::test;

namespace {

constexpr double pi = 3.14159265358979323846;

RoadSpectrum road_of(char road_class, double least, double greatest) {
  return {*class_level(road_class), 2, least, greatest};
}

}  // namespace

TEST_CASE("Q1: a quarter car on a random road is that of linear theory", "[truth]") {
  constexpr Source q1 = rederived("Q1 of the road study: response integrated over the band");
  struct Row {
    const char* name;
    WheelContact contact;
    double acceleration, stroke, force;  // m/s2, mm, N
  };
  using Kind = WheelContact::Kind;
  const std::array<Row, 3> rows = {
      {{"point", {Kind::point, 0}, 2.524552, 3.593328, 167.7259},
       {"patch of 60 mm", {Kind::patch, .06}, 2.364656, 3.550727, 148.3970},
       {"patch of 100 mm", {Kind::patch, .1}, 2.139053, 3.485549, 123.2925}}};
  constexpr double ms = 40, mu = 6, ks = 12e3, cs = 500, kt = 120e3, speed = 20 / 3.6, dt = 4e-4;
  const RideSystem r = quarter_car(ms, mu, ks, cs, kt, 0);
  for (const Row& row : rows) {
    RandomRoadOptions options;
    options.seed = 8608;
    RideOptions o;
    o.time_step = dt;
    o.duration = 100;
    o.speed = speed;
    o.bilateral = true;
    double a2 = 0, s2 = 0, f2 = 0, count = 0;
    const auto end =
        ride(r,
             WheelPathStream(Road(random_road(road_of('C', .02, 10), options), 0.005),
                             {{0, 0, row.contact}}, speed, dt),
             o, [&](const RideBlock& b) {
               if (static_cast<double>(b.first) * dt < 3) return;
               const Eigen::ArrayXd stroke = (r.modes.row(1) * b.displacement).transpose();
               const Eigen::ArrayXd rate = (r.modes.row(1) * b.rate).transpose();
               const Eigen::ArrayXd body = (-ks * stroke - cs * rate) / ms;
               a2 += (body - gravity).square().sum();
               s2 += (stroke + ms * gravity / ks).square().sum();
               f2 += (b.tyre_force.row(0).array() - (ms + mu) * gravity).square().sum();
               count += static_cast<double>(stroke.size());
             });
    REQUIRE(end.has_value());
    const std::string name = named("Q1, ", row.name, ", 97 s: ");
    truth(name + "sigma of acceleration, m/s2", q1, std::sqrt(a2 / count),
          within_rel(row.acceleration, 0.03));
    truth(name + "sigma of spring stroke, mm", q1, 1e3 * std::sqrt(s2 / count),
          within_rel(row.stroke, 0.03));
    truth(name + "sigma of tyre force, N", q1, std::sqrt(f2 / count), within_rel(row.force, 0.03));
  }
}

TEST_CASE("a bilateral ride is what its modes' transfer functions make of each harmonic") {
  // One harmonic, then the steady state in closed form.
  constexpr double m = 40, k = 90e3, c = 300, speed = 5, dt = 2e-4;
  const RideSystem r = one_mass(m, k, c);
  for (const double n : {0.3, 1.5, 4.0}) {
    const double w = 2 * pi * n * speed;
    GroundProfile wave;
    for (int i = 0; i <= 40000; ++i) {
      wave.x.push_back(i * 1e-3);
      wave.z.push_back(2e-3 * std::sin(2 * pi * n * wave.x.back()));
    }
    RideOptions o;
    o.time_step = dt;
    o.duration = 6;
    o.speed = speed;
    o.bilateral = true;
    const History h = history(r, WheelPathStream(Road({wave}), {{0, 0, {}}}, speed, dt), o);
    const std::complex<double> tyre(k, c * w);
    const double theirs = 2e-3 * std::abs(-m * w * w * tyre / (tyre - m * w * w));
    const Eigen::VectorXd late = h.tyre_force.row(0).tail(10000).transpose();
    CHECK_THAT((late.maxCoeff() - late.minCoeff()) / 2, WithinRel(theirs, 5e-3));
  }
}

TEST_CASE("Q2: one mass on a road of class B, step by step, and its cycles", "[truth]") {
  constexpr Source q2 = rederived("Q2 of the road study: the same realisation, independent script");
  constexpr double m = 40, k = 90e3, c = 300, speed = 5, dt = 2.5e-4;
  RandomRoadOptions options;
  options.lines = 2000;
  options.seed = 8608;
  options.ramp = 5;
  const RandomRoad road = evenly_spaced_road(road_of('B', .02, 4.02), options);
  const RideSystem r = one_mass(m, k, c);
  struct Row {
    const char* name;
    bool bilateral;
    double acceleration, force, most, third, fifth;
  };
  for (const Row& row :
       {Row{"bilateral", true, 4.59752, 183.901, 988.17, 5.8559e10, 3.3173e16},
        Row{"unilateral", false, 4.55267, 182.107, 939.08, 5.2701e10, 2.5559e16}}) {
    RideOptions o;
    o.time_step = dt;
    o.duration = 40;
    o.speed = speed;
    o.bilateral = row.bilateral;
    const History h = history(r, WheelPathStream(Road(road, 0.01), {{0, 0, {}}}, speed, dt), o);
    const Eigen::Index late = h.q.cols() - 8000;
    const Eigen::VectorXd F = h.tyre_force.row(0).tail(late).transpose();
    const Eigen::VectorXd a = (r.modes.row(0) * h.acceleration.rightCols(late)).transpose();
    const std::string name = named("Q2, ", row.name, ": ");
    truth(name + "sigma of acceleration, m/s2", q2, deviation(a),
          within_rel(row.acceleration, 1e-2));
    truth(name + "sigma of force, N", q2, deviation(F), within_rel(row.force, 1e-2));
    truth(name + "greatest force, N", q2, F.maxCoeff(), within_rel(row.most, 1e-2));
    if (row.bilateral) {
      truth(name + "least force, N", q2, F.minCoeff(), within_rel(-179.05, 2e-2));
    } else {
      truth(name + "off the ground, %", q2, 100 * (F.array() == 0).cast<double>().mean(),
            within_abs(1.81, 0.05));
    }
    double third = 0, fifth = 0;
    const std::vector<double> all(h.tyre_force.data(), h.tyre_force.data() + h.tyre_force.size());
    for (const Cycle& cycle : rainflow(all, Residue::half_cycles)) {
      third += cycle.count * std::pow(cycle.range, 3);
      fifth += cycle.count * std::pow(cycle.range, 5);
    }
    truth(name + "sum of n r^3 of the force, N3", q2, third, within_rel(row.third, 0.02));
    truth(name + "sum of n r^5 of the force, N5", q2, fifth, within_rel(row.fifth, 0.03));
  }
}

TEST_CASE("wheels leave a rough road as often as in the study", "[truth]") {
  constexpr Source study = rederived("road study 2.8: mean of five seeds, independent script");
  struct Row {
    const char* name;
    RideSystem system;
    double kmh, factor, off, sigma;
  };
  const double tyre_damping = 2 * .03 * std::sqrt(120e3 * 6);
  const std::array<Row, 3> rows = {
      {{"rigid, 120 N/mm", one_mass(46, 120e3, 2 * .08 * std::sqrt(120e3 * 46)), 20, 4.95, 26, .93},
       {"rigid, 60 N/mm", one_mass(46, 60e3, 2 * .08 * std::sqrt(60e3 * 46)), 20, 3.24, 8, .61},
       {"sprung, 120 N/mm", quarter_car(40, 6, 12e3, 500, 120e3, tyre_damping), 20, 1.81, 0, .21}}};
  for (const Row& row : rows) {
    const double speed = row.kmh / 3.6, weight = 46 * gravity;
    double factor = 0, off = 0, variance = 0;
    constexpr int seeds = 5;
    for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
      RandomRoadOptions options;
      options.lines = 1000;
      options.seed = seed;
      RideOptions o;
      o.time_step = 5e-4;
      o.duration = 60;
      o.speed = speed;
      double most = 0, count = 0, square = 0, air = 0;
      const auto end =
          ride(row.system,
               WheelPathStream(Road(random_road(road_of('C', .02, 4.02), options), 0.01),
                               {{0, 0, {WheelContact::Kind::patch, .1}}}, speed, o.time_step),
               o, [&](const RideBlock& b) {
                 const auto F = b.tyre_force.row(0).array();
                 most = std::max(most, F.maxCoeff());
                 square += (F - weight).square().sum();
                 air += (F == 0).cast<double>().sum();
                 count += static_cast<double>(F.size());
               });
      REQUIRE(end.has_value());
      factor += most / weight / seeds;
      off += 100 * air / count / seeds;
      variance += square / count / (weight * weight) / seeds;
    }
    const std::string name = named(row.name, ", class C, ", row.kmh, " km/h: ");
    truth(name + "peak by static", study, factor, within_rel(row.factor, 0.12));
    truth(name + "off the ground, %", study, off, within_abs(row.off, 2));
    truth(name + "sigma of force by static", study, std::sqrt(variance),
          within_abs(row.sigma, 0.05));
  }
}

}  // namespace tubewright::random_ride_test
