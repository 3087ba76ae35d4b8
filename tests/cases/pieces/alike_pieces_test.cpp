// Pieces cut alike: the symmetry of a bar is the judge.
#include "cases/pieces/alike_pieces.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::alike_pieces_test {

namespace {

constexpr double mm = 1e-3;

SectionEntry section(double width, double height) {
  SectionEntry s;
  s.width = width;
  s.height = height;
  return s;
}

CutPiece piece(const CutPlane& first, const CutPlane& second, double length = 0.5) {
  CutPiece p;
  p.tube.length = length;
  p.ends[0].cuts = {{{first}, 0, EndKind::face}};
  p.ends[1].cuts = {{{second}, 0, EndKind::face}};
  return p;
}

bool alike(const CutPiece& a, const CutPiece& b, const SectionEntry& s) {
  return cut_alike(outline_of(a, s), outline_of(b, s), s);
}

const SectionEntry square = section(0.02, 0.02), flat = section(0.03, 0.02);
const CutPlane slant{0.01, 0.5, 0.2}, other{0.005, -0.3, 0.7};

}  // namespace

TEST_CASE("a piece turned about its axis is the same: by quarters if square, else by halves") {
  const CutPiece p = piece(slant, other);
  // Turned by 90 degrees y goes to z and z to -y.
  const auto quarter = [](const CutPlane& c) { return CutPlane{c.at, -c.bevel, c.mitre}; };
  const CutPiece by_90 = piece(quarter(slant), quarter(other));
  const CutPiece by_180 = piece(quarter(quarter(slant)), quarter(quarter(other)));
  CHECK(alike(p, by_90, square));
  CHECK_FALSE(alike(p, by_90, flat));
  CHECK(alike(p, by_180, square));
  CHECK(alike(p, by_180, flat));
}

TEST_CASE("a piece turned end for end is the same, its mirror image is not") {
  const CutPiece p = piece(slant, other);
  // Half a turn about y: the ends change places and z its sign.
  const auto turned = [](const CutPlane& c) { return CutPlane{c.at, c.mitre, -c.bevel}; };
  CHECK(alike(p, piece(turned(other), turned(slant)), flat));
  const auto image = [](const CutPlane& c) { return CutPlane{c.at, -c.mitre, c.bevel}; };
  const CutPiece twin = piece(image(slant), image(other));
  CHECK_FALSE(alike(p, twin, square));
  CHECK(cut_alike(mirrored(outline_of(p, square)), outline_of(twin, square), square));
}

TEST_CASE("alike is a matter of distance: no step lies between two that differ by a hair") {
  for (int i = 0; i < 200; ++i) {
    const double length = 0.5 + i * 7.3e-6;
    const CutPiece p = piece(slant, other, length);
    CHECK(alike(p, piece(slant, other, length + 0.09 * mm), square));
    CHECK_FALSE(alike(p, piece(slant, other, length + 0.11 * mm), square));
  }
}

TEST_CASE("where along the bar a piece lies does not matter") {
  const CutPiece a = piece(slant, other);
  CutPlane moved = slant;
  moved.at += 0.04;
  CHECK(alike(a, piece(moved, other, 0.54), square));
}

TEST_CASE("the mean length of planes is that along the axis") {
  CHECK_THAT(mean_length(outline_of(piece(slant, other), flat)), WithinRel(0.485, 1e-12));
}

}  // namespace tubewright::alike_pieces_test
