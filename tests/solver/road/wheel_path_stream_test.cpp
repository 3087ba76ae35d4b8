// Paths of all wheels, block by block, against the path over the whole road.
#include "solver/road/wheel_path_stream.h"

#include <vector>

#include "solver/road/obstacles.h"
#include "tests/catch.h"

namespace tubewright::wheel_path_stream_test {

namespace {

constexpr double speed = 5, time_step = 4e-4, wheelbase = 1.2;

RandomRoad random_tracks() {
  RandomRoadOptions o;
  o.tracks = {-0.35, 0.35};
  o.lines = 80;
  RoadSpectrum s;
  s.level = *class_level('D');
  return random_road(s, o);
}

std::vector<RoadWheel> wheels() {
  const WheelContact circle{WheelContact::Kind::circle, 0.25},
      patch{WheelContact::Kind::patch, 0.1};
  return {{0, 0, circle}, {1, 0, patch}, {0, -wheelbase, circle}, {1, -wheelbase, {}}};
}

}  // namespace

TEST_CASE("a wheel behind follows the one before it, a wheelbase later") {
  WheelPathStream stream(Road(random_tracks()), wheels(), speed, time_step);
  constexpr Eigen::Index later = 600;  // wheelbase/(speed time_step)
  constexpr Eigen::Index count = 5000, block = 250;
  Eigen::MatrixXd height(4, count), slope(4, count);
  for (Eigen::Index k = 0; k < count; k += block) {
    stream(k, height.middleCols(k, block), slope.middleCols(k, block));
  }
  for (Eigen::Index k = 0; k + later < count; k += 13) {
    CHECK_THAT(height(2, k + later), WithinAbs(height(0, k), 1e-10));
  }
  CHECK(height.leftCols(100).cwiseAbs().maxCoeff() < 1e-3);
  CHECK(height.cwiseAbs().maxCoeff() > 5e-3);
}

TEST_CASE("the stream is the path over the whole road, whatever its blocks") {
  Road whole(random_tracks());
  whole.cover(-2, 12);
  for (const Eigen::Index block : {1, 7, 256, 2000}) {
    WheelPathStream stream(Road(random_tracks()), wheels(), speed, time_step);
    Eigen::MatrixXd height(4, 4000), slope(4, 4000);
    for (Eigen::Index k = 0; k < 4000; k += block) {
      const Eigen::Index n = std::min(block, 4000 - k);
      stream(k, height.middleCols(k, n), slope.middleCols(k, n));
    }
    for (size_t i = 0; i < 4; ++i) {
      const RoadWheel w = wheels()[i];
      std::vector<double> x, z(4000), s(4000);
      for (int k = 0; k < 4000; ++k) x.push_back(w.x + speed * (k * time_step));
      wheel_path(whole.window(w.track), w.contact, x.data(), 4000, z.data(), s.data());
      for (int k = 0; k < 4000; k += 17) {
        CHECK_THAT(height(static_cast<Eigen::Index>(i), k),
                   WithinAbs(z[static_cast<size_t>(k)], 1e-12));
      }
    }
  }
}

TEST_CASE("a vehicle that stands, a wheel alone and no wheel at all have paths") {
  WheelPathStream stands(Road({edge(0.1)}), {{0, 1, {}}, {0, -1, {}}}, 0, 1e-3);
  Eigen::MatrixXd height(2, 3), slope(2, 3);
  stands(5, height, slope);
  CHECK(height.row(0) == Eigen::RowVector3d::Constant(0.1));
  CHECK(height.row(1).isZero(0));
  WheelPathStream none(Road({GroundProfile{}}), {}, 3, 1e-3);
  Eigen::MatrixXd empty(0, 3), also(0, 3);
  none(0, empty, also);
}

}  // namespace tubewright::wheel_path_stream_test
