// Walls of bent tubes against the table worked out apart for this project, and limits.
#include "cases/bends/bent_walls.h"

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::bent_walls_test {

namespace {

constexpr double mm = 1e-3;

}  // namespace

TEST_CASE("a square tube keeps the share of EI that its curved walls leave", "[truth]") {
  const Source strip = rederived("strip on an elastic foundation, evaluated apart");
  struct Row {
    double side, wall, radius, share, across;
  };
  for (const Row& r : {Row{25, 2, 50, 0.8015, 1.747},
                       {25, 2, 100, 0.9309, 1.166},
                       {25, 2, 200, 0.9808, 0.640},
                       {30, 2, 100, 0.8688, 1.520},
                       {40, 2, 150, 0.8243, 1.683},
                       {40, 3, 150, 0.9123, 1.293}}) {
    const BentWalls w = bent_box(r.side * mm, r.side * mm, r.wall * mm, r.radius * mm);
    const std::string tube = std::to_string(static_cast<int>(r.side)) + "x" +
                             std::to_string(static_cast<int>(r.wall)) + " bent to " +
                             std::to_string(static_cast<int>(r.radius));
    truth("share of EI, " + tube, strip, w.in_plane, within_abs(r.share, 6e-5));
    truth("stress across the wall, " + tube, strip, w.across, within_abs(r.across, 6e-4));
    CHECK(w.out_of_plane == 1);
    CHECK_THAT(w.stress_in_plane * w.in_plane, WithinRel(1.0, 1e-12));
  }
}

TEST_CASE("a round tube ovalises as von Karman, Clark and Reissner have it", "[truth]") {
  const Source theory = from_memory("T. von Karman 1911; R. A. Clark, E. Reissner 1951");
  for (const auto& [radius, softer] :
       {std::pair{50, 2.1821}, {75, 1.5475}, {100, 1.3164}, {150, 1.1434}, {200, 1.0812}}) {
    const BentWalls w = bent_round_tube(25 * mm, 2 * mm, radius * mm);
    truth("softening, round 25x2 bent to " + std::to_string(radius), theory, 1 / w.in_plane,
          within_abs(softer, 6e-5));
    CHECK(w.out_of_plane == w.in_plane);
    CHECK(w.stress_in_plane >= 1);
  }
}

TEST_CASE("the flatter a bend, the less its walls give way") {
  double softest = 0;
  for (double radius = 0.03; radius < 100; radius *= 1.3) {
    const BentWalls box = bent_box(0.030, 0.020, 0.0015, radius);
    CHECK(box.in_plane > softest);
    CHECK(box.in_plane <= 1);
    softest = box.in_plane;
  }
  CHECK_THAT(softest, WithinAbs(1, 1e-4));
  CHECK_THAT(bent_round_tube(0.025, 0.002, 100).in_plane, WithinAbs(1, 1e-4));
  CHECK(bent_round_tube(0.025, 0.002, 100).stress_in_plane == 1);
}

TEST_CASE("the plane of the bend decides which walls are curved; bars keep everything") {
  SectionEntry s;
  s.shape = Shape::rectangular_tube;
  s.height = 0.050;
  s.width = 0.025;
  s.wall = 0.002;
  const auto upright = bent_walls(s, 0.15, true), flat = bent_walls(s, 0.15, false);
  REQUIRE((upright && flat));
  CHECK(upright->in_plane == bent_box(0.050, 0.025, 0.002, 0.15).in_plane);
  CHECK(flat->in_plane == bent_box(0.025, 0.050, 0.002, 0.15).in_plane);
  CHECK(upright->in_plane > flat->in_plane);
  s.shape = Shape::flat_bar;
  CHECK(bent_walls(s, 0.15, true)->in_plane == 1);
  s.shape = Shape::properties;
  CHECK(!bent_walls(s, 0.15, true));
}

}  // namespace tubewright::bent_walls_test
