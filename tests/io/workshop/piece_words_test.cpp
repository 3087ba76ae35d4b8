#include "io/workshop/piece_words.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::piece_words_test {

namespace {

CutPlane tilted(double mitre_degrees, double bevel_slope = 0) {
  return {0.01, std::tan(mitre_degrees * std::numbers::pi / 180), bevel_slope};
}

CutList of_tubes(const std::vector<std::string>& names) {
  CutList list;
  list.tube_names = names;
  return list;
}

}  // namespace

TEST_CASE("a square cut has no angle, a plane one, a compound cut two, a notch two planes") {
  const CutList list = of_tubes({"rail"});
  const auto text = [&](std::vector<CutPlane> planes, EndKind kind) {
    TubeEnd e;
    e.kind = kind;
    e.cuts = {{std::move(planes), 0, kind}};
    return end_text(list, e);
  };
  CHECK(text({tilted(0)}, EndKind::square) == "square");
  CHECK(text({tilted(-45)}, EndKind::face) == "face 45.0");
  // tan 30 along y, then a blade that tilts by 45 degrees: slope tan 45 / cos 30 along z.
  CHECK(text({tilted(30, 1 / std::cos(std::numbers::pi / 6))}, EndKind::face) == "face 45.0/30.0");
  CHECK(text({tilted(20), tilted(-70)}, EndKind::edge) == "notch 20.0 + 70.0");
  CHECK(text({tilted(20), {1, 1e6, 0}}, EndKind::face) == "face 20.0");  // only divides
  CHECK(text({tilted(0)}, EndKind::cope) == "saddle");
}

TEST_CASE("other tubes are told once each, those it is mitred with apart") {
  const CutList list = of_tubes({"rail", "brace", "twin"});
  TubeEnd e;
  e.kind = EndKind::face;
  const auto cut = [](int against, EndKind kind) { return EndCut{{CutPlane{}}, against, kind}; };
  e.cuts = {cut(0, EndKind::face), cut(2, EndKind::mitre), cut(1, EndKind::face),
            cut(1, EndKind::face), cut(0, EndKind::face),  cut(-1, EndKind::square)};
  CHECK(other_tubes(list, e, false) == std::vector<std::string>{"brace"});
  CHECK(end_text(list, e) == "face, trim to brace, mitre to twin");
}

TEST_CASE("the turn between the ends in words") {
  const auto text = [](double degrees) {
    const double turn = degrees * std::numbers::pi / 180;
    CutPiece p;
    p.ends[0].cuts = {{{CutPlane{0, -1, 0}}, 0, EndKind::face}};
    p.ends[1].cuts = {{{CutPlane{0, -std::cos(turn), -std::sin(turn)}}, 0, EndKind::face}};
    return turn_text(p);
  };
  CHECK(text(0) == "long points on one side");
  CHECK(text(180) == "long points on opposite sides");
  CHECK_THAT(text(12.3), ContainsSubstring("12.3 clockwise"));
  CHECK_THAT(text(-90), ContainsSubstring("90.0 anticlockwise"));
  CHECK(turn_text({}).empty());
}

TEST_CASE("sizes as they are ordered: height, width, wall, material") {
  SectionEntry s;
  s.name = "own";
  s.height = 0.025;
  s.width = 0.015;
  s.wall = 0.002;
  s.material = "S235";
  s.shape = Shape::rectangular_tube;
  CHECK(size_text(s) == "25.0 x 15.0 x 2.0 S235");
  s.shape = Shape::round_tube;
  CHECK(size_text(s) == "round 25.0 x 2.0 S235");
  s.shape = Shape::properties;
  s.given.A = 216e-6;
  CHECK(size_text(s) == "own (A 216.0 mm2)");
  s.given.A = 21612.86e-6;
  CHECK(size_text(s) == "own (A 21613 mm2)");
}

TEST_CASE("names in a row") {
  CHECK(joined({}).empty());
  CHECK(joined({"a"}) == "a");
  CHECK(joined({"a", "b"}) == "a, b");
}

TEST_CASE("a bend is told by where it begins, its angle, its die and its walls") {
  CutPiece p;
  p.first_point = 0.0125;
  TubeBend b;
  b.at = 0.5125;
  b.angle = std::numbers::pi / 2;
  b.radius = 0.1;
  b.bent_to = 91.3 * std::numbers::pi / 180;
  b.die_radius = 0.0986;
  b.outer_wall = 0.00178;
  b.inner_wall = 0.00229;
  p.bends = {b};
  b.at = 0.8;
  b.turn = -std::numbers::pi / 2;
  b.bent_to = std::nan("");
  b.outer_wall = 0;
  p.bends.push_back(b);
  const std::vector<std::string> texts = bend_texts(p);
  REQUIRE(texts.size() == 2);
  CHECK(texts[0] ==
        "bend 1 at 500.0 from the first long point: 90.0 degrees, radius 100.0; over to 91.3 on a "
        "radius of 98.6; wall 1.78 outside, 2.29 inside");
  CHECK(texts[1] ==
        "bend 2 at 787.5: 90.0 degrees, radius 100.0, the tube turned by 90.0 anticlockwise");
}

}  // namespace tubewright::piece_words_test
