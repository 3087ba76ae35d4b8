// A rigid vehicle on four tyres over a bump (V1) against an independent integration.
#include <array>

#include "solver/road/obstacles.h"
#include "solver/road/wheel_path_stream.h"
#include "tests/solver/dynamics/ride_models.h"
#include "tests/truth.h"

namespace tubewright::rigid_ride_test {

using namespace tubewright::test;

namespace {

constexpr Source v1 = rederived("V1 of the road study: RK4 with steps of 1e-5 s, script");

Structure vehicle() {
  Structure s;
  s.M = Eigen::Vector3d(120, 30, 10).asDiagonal();  // heave, pitch (nose down), roll
  s.K = Eigen::Matrix3d::Zero();
  s.coordinates.resize(4, 3);
  s.coordinates << 1, -.7, .35, 1, -.7, -.35, 1, .7, .35, 1, .7, -.35;
  s.weight = Eigen::Vector3d(-120 * gravity, 0, 0);
  return s;
}

struct Answer {
  Eigen::Vector4d most, least, off;  // N, N, s
  double up, down, pitch, roll;      // m/s2, m/s2, rad, rad
};

Answer driven(double c, bool left_only, bool bilateral) {
  constexpr double speed = 3, dt = 5e-5;
  const ModalStructure m = modal(vehicle(), 0);
  RideSystem r = m.system;
  for (int i = 0; i < 4; ++i) r.tyres.push_back({i, -1, 90e3, c});
  const GroundProfile bump = half_sine(0.02, 0.4, 5e-5);
  const GroundProfile right = left_only ? GroundProfile{} : bump;
  RideOptions o;
  o.time_step = dt;
  o.duration = 1;
  o.speed = speed;
  o.bilateral = bilateral;
  const History h =
      history(r,
              WheelPathStream(Road({bump, right}),
                              {{0, 0, {}}, {1, 0, {}}, {0, -1.4, {}}, {1, -1.4, {}}}, speed, dt),
              o);
  const Eigen::MatrixXd u = m.shapes * h.q, a = m.shapes * h.acceleration;
  Answer answer;
  answer.most = h.tyre_force.rowwise().maxCoeff();
  answer.least = h.tyre_force.rowwise().minCoeff();
  answer.off = (h.tyre_force.array() == 0).cast<double>().matrix().rowwise().sum() * dt;
  answer.up = a.row(0).maxCoeff();
  answer.down = a.row(0).minCoeff();
  answer.pitch = u.row(1).cwiseAbs().maxCoeff();
  answer.roll = u.row(2).maxCoeff();
  return answer;
}

}  // namespace

TEST_CASE("a rigid vehicle over a bump has the forces of the integration", "[truth]") {
  struct Row {
    const char* name;
    double c;
    bool left_only, bilateral;
    std::array<double, 4> most;
    double up, down, pitch, roll;  // 0: not given
    std::array<double, 4> least, off;
  };
  const std::array<Row, 6> rows = {{{"full width, c 300, bilateral",
                                     300,
                                     false,
                                     true,
                                     {1083.0, 1083.0, 1139.9, 1139.9},
                                     21.267,
                                     -19.282,
                                     .01832,
                                     0,
                                     {},
                                     {}},
                                    {"full width, c 300",
                                     300,
                                     false,
                                     false,
                                     {1304.8, 1304.8, 1303.2, 1303.2},
                                     20.452,
                                     -9.810,
                                     .02183,
                                     0,
                                     {},
                                     {.2655, .2655, .2846, .2846}},
                                    {"full width, c 0, bilateral",
                                     0,
                                     false,
                                     true,
                                     {2189.3, 2189.3, 2290.8, 2290.8},
                                     54.027,
                                     -54.027,
                                     .02053,
                                     0,
                                     {},
                                     {}},
                                    {"full width, c 0",
                                     0,
                                     false,
                                     false,
                                     {1691.9, 1691.9, 1669.7, 1669.7},
                                     30.913,
                                     -9.810,
                                     .02253,
                                     0,
                                     {},
                                     {.5881, .5881, .5214, .5214}},
                                    {"left only, c 300, bilateral",
                                     300,
                                     true,
                                     true,
                                     {924.0, 920.9, 957.6, 908.9},
                                     10.633,
                                     -9.641,
                                     0,
                                     .01975,
                                     {-503.2, -300.5, -475.3, -329.4},
                                     {}},
                                    {"left only, c 300",
                                     300,
                                     true,
                                     false,
                                     {1141.3, 996.0, 1126.9, 890.5},
                                     16.692,
                                     -9.810,
                                     0,
                                     .01987,
                                     {},
                                     {.2028, .1720, .2139, .1789}}}};
  const std::array<const char*, 4> wheels = {"FL", "FR", "RL", "RR"};
  for (const Row& row : rows) {
    const Answer ours = driven(row.c, row.left_only, row.bilateral);
    const std::string name = named("V1, ", row.name, ": ");
    for (Eigen::Index i = 0; i < 4; ++i) {
      const auto w = static_cast<size_t>(i);
      truth(name + "greatest force " + wheels[w] + ", N", v1, ours.most[i],
            within_rel(row.most[w], 1e-3));
      if (row.least[w] != 0) {
        truth(name + "least force " + wheels[w] + ", N", v1, ours.least[i],
              within_rel(row.least[w], 1e-3));
      }
      if (row.off[w] != 0) {
        truth(name + "off the ground " + wheels[w] + ", s", v1, ours.off[i],
              within_abs(row.off[w], 1e-3));
      }
    }
    truth(name + "greatest acceleration of heave, m/s2", v1, ours.up, within_rel(row.up, 1e-3));
    truth(name + "least acceleration of heave, m/s2", v1, ours.down, within_rel(row.down, 1e-3));
    if (row.pitch != 0) {
      truth(name + "greatest pitch, rad", v1, ours.pitch, within_rel(row.pitch, 1e-3));
    }
    if (row.roll != 0)
      truth(name + "greatest roll, rad", v1, ours.roll, within_rel(row.roll, 1e-3));
  }
}

}  // namespace tubewright::rigid_ride_test
