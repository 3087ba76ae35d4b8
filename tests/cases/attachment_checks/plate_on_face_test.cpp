#include "cases/attachment_checks/plate_on_face.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::plate_on_face_test {

namespace {

constexpr double mm = 1e-3, MPa = 1e6;
constexpr Source table_7_13 = seen_in("EN 1993-1-8 Table 7.13 (eurocode.us), worked by hand");
constexpr Source as_t_joint = rederived("EN 1993-1-8 Table 7.14 with beta = t1/b0, by hand");

PlatedTube tube(double side, double wall, double n = 0) {
  return {side * mm, side * mm, wall * mm, 235 * MPa, n, false};
}

FacePlate plate(double thickness, double size) { return {thickness * mm, size * mm, 235 * MPa}; }

struct Row {
  double side, wall, thickness, length, N, M;  // mm, N, N m
};

}  // namespace

TEST_CASE("a plate along a tube holds what Table 7.13 says", "[truth]") {
  constexpr Row rows[] = {{30, 2, 4, 40, 6931.2, 152.724},
                          {40, 2, 4, 40, 6052.3, 139.846},
                          {40, 3, 5, 50, 15087.0, 419.474},
                          {50, 3, 6, 60, 14786.6, 496.472}};
  for (const Row& r : rows) {
    const PlatedTube t = tube(r.side, r.wall);
    const FacePlate p = plate(r.thickness, r.length);
    const std::string what = named("tab ", r.thickness, " x ", r.length, " on ", r.side, " x ",
                                   r.side, " x ", r.wall, " S235: ");
    truth(what + "push, N", table_7_13, along_plate_resistance(t, p), within_abs(r.N, 0.06));
    truth(what + "moment in its plane, N m", as_t_joint, along_plate_moment(t, p),
          within_abs(r.M, 6e-4));
  }
}

TEST_CASE("a plate across a tube holds the least of four", "[truth]") {
  const AcrossPlate a = across_plate_resistance(tube(40, 2), plate(4, 25));
  truth("b_eff of a plate 25 wide on 40 x 2, mm", table_7_13, a.effective / mm,
        within_abs(6.25, 1e-6));
  truth("plate 4 x 25 across a 40 x 2: the plate, N", table_7_13, a.plate, within_abs(5875, 0.1));
  truth("plate 4 x 25 across a 40 x 2: punching, N", table_7_13, a.punching,
        within_abs(8954.7, 0.1));
  truth("plate 4 x 25 across a 40 x 2: the face folds, N",
        seen_in("Packer, steeltubeinstitute.org, transverse plates"), a.face,
        within_abs(6641.4, 0.1));
  CHECK(a.least() == a.plate);
  const AcrossPlate full = across_plate_resistance(tube(40, 2), plate(4, 40));
  truth("plate 4 x 40 across a 40 x 2: side walls, N", table_7_13, full.side_wall,
        within_abs(13160, 0.1));
}

TEST_CASE("compression weakens the face by k_m, never below nothing as k_n would", "[truth]") {
  const FacePlate p = plate(4, 40);
  const double full = along_plate_resistance(tube(40, 2), p);
  truth("k_m at n = 0.45", from_memory("EN 1993-1-8 Table 7.13: 1.3 (1 - n)"),
        along_plate_resistance(tube(40, 2, 0.45), p) / full, within_rel(0.715, 1e-9));
  CHECK(along_plate_resistance(tube(40, 2, 0.2), p) == full);
  CHECK(along_plate_resistance(tube(40, 2, -0.5), p) == full);
}

TEST_CASE("a plate through the tube holds twice as much, an open end halves it") {
  const PlatedTube t = tube(40, 3);
  const FacePlate p = plate(4, 40);
  const double one = *along_plate_check(t, p, 1000, 20).utilisation;
  CHECK_THAT(*along_plate_check(t, p, 1000, 20, 2).utilisation, WithinRel(one / 2, 1e-12));
  PlatedTube at_end = t;
  at_end.open_end = true;
  CHECK_THAT(*along_plate_check(at_end, p, 1000, 20).utilisation, WithinRel(one * 2, 1e-12));
}

TEST_CASE("at its resistance a plate is at its limit, pushed or pulled") {
  const PlatedTube t = tube(40, 3);
  const FacePlate p = plate(4, 40);
  const double N = along_plate_resistance(t, p), M = along_plate_moment(t, p);
  CHECK_THAT(*along_plate_check(t, p, -N, 0).utilisation, WithinRel(1.0, 1e-12));
  CHECK_THAT(*along_plate_check(t, p, N / 2, -M / 2).utilisation, WithinRel(1.0, 1e-12));
  const FacePlate across = plate(4, 25);
  const double N_across = across_plate_resistance(t, across).least();
  CHECK_THAT(*across_plate_check(t, across, N_across, 0).utilisation, WithinRel(1.0, 1e-12));
  CHECK_THAT(*across_plate_check(t, across, 0, across_plate_moment(t, across)).utilisation,
             WithinRel(1.0, 1e-12));
}

TEST_CASE("within the standard's range it is proof, outside a comparison that says why") {
  const FacePlate p = plate(4, 40);
  CHECK(!along_plate_check(tube(40, 2.5), p, 1000, 0).comparison);
  const auto told = [&](const PlatedTube& t, const FacePlate& q, double M) {
    const CheckResult r = along_plate_check(t, q, 1000, M);
    CHECK(r.comparison);
    return r.reason;
  };
  CHECK_THAT(told(tube(40, 2), p, 0), ContainsSubstring("walls under 2.5 mm"));
  CHECK_THAT(told(tube(120, 3), p, 0), ContainsSubstring("too thin for its width"));
  CHECK_THAT(told(tube(30, 2.5), plate(8, 40), 0), ContainsSubstring("a fifth of the face"));
  CHECK_THAT(told(tube(40, 2.5), p, 10), ContainsSubstring("pattern of a T joint"));
  CHECK_THAT(across_plate_check(tube(60, 3), plate(4, 25), 1000, 0).reason,
             ContainsSubstring("narrower than half the face"));
  CHECK(!across_plate_check(tube(40, 2.5), plate(4, 25), 1000, 0).comparison);
}

TEST_CASE("a saddle stands on the side walls: Tables 7.11 and 7.14", "[truth]") {
  // 40 x 40 x 3, h1 40: walls 11.33 t deep, 2 h1 + 10 t0 = 110 mm, f_y t 705 N/mm.
  const PlatedTube t = tube(40, 3);
  constexpr Source side_walls = from_memory("EN 1993-1-8 Tables 7.11 and 7.14, worked by hand");
  // lambda_bar = 3.46 (40/3 - 2)/(pi sqrt(210000/235)) = 0.41754, curve c: chi = 0.88800
  const double lambda = 3.46 * (40.0 / 3 - 2) / (std::numbers::pi * std::sqrt(210000.0 / 235));
  const double phi = 0.5 * (1 + 0.49 * (lambda - 0.2) + lambda * lambda);
  const double chi = 1 / (phi + std::sqrt(phi * phi - lambda * lambda));
  truth("share of a saddle 40 long on 40 x 3 under 10 kN", side_walls,
        *walls_beside_check(t, 210e9, 40 * mm, 10e3, 0, 0).utilisation,
        within_rel(10e3 / (chi * 705 * 110), 1e-6));
  truth("share of it under 100 N m along the tube: 0.5 f_y t (h1 + 5 t)^2", side_walls,
        *walls_beside_check(t, 210e9, 40 * mm, 0, 100, 0).utilisation,
        within_rel(100e3 / (0.5 * 705 * 55 * 55), 1e-6));
  // About the tube: f_y t (b0 - t)(h1 + 5 t) = 1434.7 N m, distortion 2 f_y t (h1 t + sqrt(b h t (b
  // + h))) = 2 705 (120 + 619.68) = 1042.9 N m.
  truth("share of it under 100 N m about the tube: the section distorts", side_walls,
        *walls_beside_check(t, 210e9, 40 * mm, 0, 0, 100).utilisation,
        within_rel(100e3 / (2 * 705 * (120 + std::sqrt(1600.0 * 3 * 80))), 1e-6));
  CHECK(walls_beside_check(t, 210e9, 40 * mm, 1, 0, 0).comparison);
}

TEST_CASE("a plate turned about its own foot has no number, but advice") {
  const CheckResult none = weak_way_check(1, 100, "use a pair");
  CHECK(!none.needed);
  const CheckResult turned = weak_way_check(-3, 100, "use a pair");
  CHECK(turned.needed);
  CHECK(!turned.utilisation);
  CHECK_THAT(turned.reason, ContainsSubstring("use a pair"));
}

TEST_CASE("without a yield strength there is no number") {
  PlatedTube t = tube(40, 3);
  t.fy = std::nan("");
  CHECK(!along_plate_check(t, plate(4, 40), 1000, 0).utilisation);
  CHECK(!across_plate_check(t, plate(4, 25), 1000, 0).utilisation);
}

}  // namespace tubewright::plate_on_face_test
