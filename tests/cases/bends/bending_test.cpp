// Springback and walls against numbers worked out apart for this project; positions by hand.
#include "cases/bends/bending.h"

#include <numbers>

#include "cases/bends/expand_bends.h"
#include "tests/cases/small_frames.h"
#include "tests/truth.h"

namespace tubewright::bending_test {

namespace {

using namespace tubewright::testing;

constexpr double mm = 1e-3;
constexpr double right_angle = std::numbers::pi / 2;

/// One tube of three pieces and two bends of 100: forward, up, then to the left.
Frame twice_bent() {
  Frame f = empty_frame();
  add_node(f, "a", 0, 0, 0);
  add_node(f, "b", 0.5, 0, 0);
  add_node(f, "c", 0.5, 0, 0.6);
  add_node(f, "d", 0.5, 0.4, 0.6);
  for (const auto& [name, from, to] :
       {std::tuple{"t.1", "a", "b"}, std::tuple{"t.2", "b", "c"}, std::tuple{"t.3", "c", "d"}}) {
    Member& m = add_member(f, name, from, to);
    m.tube = "t";
    m.bend = 0.1;
  }
  f.members.back().bend = 0;
  REQUIRE(expand_bends(f).empty());
  return f;
}

std::vector<TubeBend> bends(const Frame& f) {
  std::vector<int> members;
  for (size_t i = 0; i < f.members.size(); ++i) members.push_back(static_cast<int>(i));
  return bends_of(f, members);
}

}  // namespace

TEST_CASE("a bend springs back as an elastic, perfectly plastic section does", "[truth]") {
  const Source apart = rederived("1/R_f = 1/R - M_p/(E I), evaluated apart");
  // f_y 300, 25x25x2: W_pl 1466.1, I 14834.92; back from the radii after springback.
  for (const auto& [under_load, after] : {std::pair{100.0, 101.432}, {50.0, 50.355}}) {
    const BentUnderLoad b = before_springback(88.729 * right_angle / 90, after * mm, 300e6,
                                              1466.1e-9, 210e9, 14834.92e-12);
    truth("radius under load for " + std::to_string(after) + " mm", apart, b.radius / mm,
          within_abs(under_load, 1e-2));
    if (under_load == 100) {
      truth("angle under load for 88.729 degrees", apart, b.angle * 90 / right_angle,
            within_abs(90, 1e-2));
    }
  }
}

TEST_CASE("walls of a bend have 1.78 and 2.29 mm for 25x2 bent to 100", "[truth]") {
  const Source apart = rederived("t R/(R +- D/2), evaluated apart");
  const std::vector<TubeBend> b = bends(twice_bent());
  REQUIRE(b.size() == 2);
  truth("outer wall, mm", apart, b[0].outer_wall / mm, within_abs(1.7778, 1e-4));
  truth("inner wall, mm", apart, b[0].inner_wall / mm, within_abs(2.2857, 1e-4));
  truth("elongation", apart, b[0].elongation, within_abs(0.125, 1e-12));
}

TEST_CASE("bends are told by place, angle and the turn of the tube between them") {
  const std::vector<TubeBend> b = bends(twice_bent());
  REQUIRE(b.size() == 2);
  CHECK(b[0].node == "b");
  CHECK_THAT(b[0].at, WithinRel(0.4, 1e-12));
  CHECK_THAT(b[0].angle, WithinRel(right_angle, 1e-9));
  CHECK(b[0].turn == 0);
  CHECK(b[1].node == "c");
  CHECK_THAT(b[1].at, WithinRel(0.4 + 0.1 * right_angle + 0.4, 1e-12));
  // Going up, the first bend's plane has its normal at -y, the second's at -x: a turn about +z from
  // -y to -x is clockwise seen from above, so against the right hand.
  CHECK_THAT(std::abs(b[1].turn), WithinRel(right_angle, 1e-9));
  CHECK(b[1].turn < 0);
  CHECK(b[0].bent_to > b[0].angle);
  CHECK(b[0].die_radius < b[0].radius);
}

TEST_CASE("an unknown yield strength leaves the springback open") {
  Frame f = twice_bent();
  MaterialEntry m;
  m.name = "mystery";
  m.properties = {210e9, 81e9, 7850, std::nan(""), std::nan("")};
  f.materials.push_back(m);
  f.sections[0].material = "mystery";
  CHECK(std::isnan(bends(f)[0].bent_to));
}

TEST_CASE("square tube is bent to three times its side, round to twice its diameter") {
  SectionEntry s;
  s.height = s.width = 0.025;
  CHECK_THAT(usual_least_radius(s), WithinRel(0.075, 1e-12));
  s.shape = Shape::round_tube;
  CHECK_THAT(usual_least_radius(s), WithinRel(0.050, 1e-12));
}

TEST_CASE("the walls' bending is that of the tightest bend") {
  CHECK_THAT(greatest_wall_bending(twice_bent()), WithinAbs(1.166, 6e-4));
  CHECK(greatest_wall_bending(empty_frame()) == 0);
}

}  // namespace tubewright::bending_test
