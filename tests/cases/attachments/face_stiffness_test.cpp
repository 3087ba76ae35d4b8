// Against the table that was computed for this project by plate elements, change by change.
#include "cases/attachments/face_stiffness.h"

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::face_stiffness_test {

namespace {

constexpr Source plate =
    rederived("unfolded four-wall Kirchhoff plate on rigid corner lines, bicubic elements");

}  // namespace

TEST_CASE("the face is as stiff as plate elements have it", "[truth]") {
  truth("C_M of a square foot, side/b 0.3", plate, square_turn_coefficient(0.3),
        within_rel(20.6, 1e-12));
  truth("C_M of a square foot, side/b 0.8", plate, square_turn_coefficient(0.8),
        within_rel(718, 1e-12));
  truth("C_N of a square foot, side/b 0.5", plate, square_push_coefficient(0.5),
        within_rel(568, 1e-12));
  truth("C_N of a square foot, side/b 0.7", plate, square_push_coefficient(0.7),
        within_rel(2404, 1e-12));
  truth("C_M of a tab as long as the face is wide", plate, tab_turn_coefficient(1),
        within_rel(61.3, 1e-12));
  truth("C_M of a tab twice as long", plate, tab_turn_coefficient(2), within_rel(222, 1e-12));
  truth("C_N of a tab half as long", plate, tab_push_coefficient(0.5), within_rel(152, 1e-12));
  truth("C_N of a plate across, width/b 0.5", plate, cross_push_coefficient(0.5),
        within_rel(319, 1e-12));
  // 40 x 40 x 2, a tab 40 long: E 210 GPa, nu 0.3, b 38 mm.
  const TubeWall face{0.040, 0.002, 210e9, 0.3};
  truth("push on a 40 x 2 by a tab as long as b, kN/mm", plate,
        push_stiffness(face, tab_push_coefficient(1)) * 1e-6, within_abs(22.3, 0.05));
}

TEST_CASE("a longer or wider foot is never softer, within and beyond the table") {
  double (*const coefficients[])(double) = {tab_push_coefficient,    tab_turn_coefficient,
                                            tab_twist_coefficient,   cross_push_coefficient,
                                            square_push_coefficient, square_turn_coefficient};
  for (const auto coefficient : coefficients) {
    for (double size = 0.05; size < 3; size += 0.05) {
      INFO(size);
      CHECK(coefficient(size) > 0);
      CHECK(coefficient(size + 0.05) >= coefficient(size));
    }
  }
}

TEST_CASE("beyond the table the nearest size counts") {
  CHECK(tab_push_coefficient(0.1) == 152);
  CHECK(square_turn_coefficient(0.95) == 718);
}

TEST_CASE("stiffness grows with the cube of the wall and falls with the width") {
  const TubeWall thin{0.042, 0.002, 210e9, 0.3}, thick{0.044, 0.004, 210e9, 0.3};  // b the same
  CHECK_THAT(push_stiffness(thick, 100), WithinRel(8 * push_stiffness(thin, 100), 1e-12));
  CHECK_THAT(turn_stiffness(thick, 100), WithinRel(8 * turn_stiffness(thin, 100), 1e-12));
  const TubeWall wide{0.082, 0.002, 210e9, 0.3};
  CHECK_THAT(push_stiffness(wide, 100), WithinRel(push_stiffness(thin, 100) / 4, 1e-12));
}

}  // namespace tubewright::face_stiffness_test
