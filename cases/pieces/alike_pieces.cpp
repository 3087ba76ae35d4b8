#include "cases/pieces/alike_pieces.h"

#include <algorithm>
#include <cmath>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

/// A quarter turn about x: corners move on by one.
PieceOutline turned(const PieceOutline& o) {
  PieceOutline r = o;
  for (OutlineBend& b : r.bends) b.towards -= 90 * degree;
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = o.begin[(k + 2) % 8];
    r.end[k] = o.end[(k + 2) % 8];
  }
  return r;
}

/// Half a turn about y: x and z change sign.
PieceOutline end_for_end(const PieceOutline& o) {
  constexpr std::array<size_t, 8> other = {6, 5, 4, 3, 2, 1, 0, 7};
  PieceOutline r;
  for (auto b = o.bends.rbegin(); b != o.bends.rend(); ++b) {
    r.bends.push_back({-b->end, -b->begin, b->radius, -b->towards});
  }
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = -o.end[other[k]];
    r.end[k] = -o.begin[other[k]];
  }
  return r;
}

bool same_bend(const OutlineBend& a, const OutlineBend& b, double ahead) {
  constexpr double same_way = 0.1 * degree;
  return std::abs(a.begin - b.begin - ahead) <= cut_alike_within &&
         std::abs(a.end - b.end - ahead) <= cut_alike_within &&
         std::abs(a.radius - b.radius) <= cut_alike_within &&
         std::abs(std::remainder(a.towards - b.towards, 360 * degree)) <= same_way;
}

/// With both pushed along until they begin at one place.
bool one_on_the_other(const PieceOutline& a, const PieceOutline& b) {
  const double ahead = *std::min_element(a.begin.begin(), a.begin.end()) -
                       *std::min_element(b.begin.begin(), b.begin.end());
  const auto near = [&](double p, double q) { return std::abs(p - q - ahead) <= cut_alike_within; };
  const auto bent_alike = [&](const OutlineBend& p, const OutlineBend& q) {
    return same_bend(p, q, ahead);
  };
  return std::equal(a.bends.begin(), a.bends.end(), b.bends.begin(), b.bends.end(), bent_alike) &&
         std::equal(a.begin.begin(), a.begin.end(), b.begin.begin(), near) &&
         std::equal(a.end.begin(), a.end.end(), b.end.begin(), near);
}

}  // namespace

PieceOutline outline_of(const CutPiece& p, const SectionEntry& s) {
  constexpr std::array<std::array<double, 2>, 8> signs = {
      {{1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}}};
  PieceOutline o;
  for (size_t k = 0; k < 8; ++k) {
    const double y = signs[k][0] * s.width / 2, z = signs[k][1] * s.height / 2;
    o.begin[k] = p.ends[0].begin(y, z);
    o.end[k] = p.tube.length - p.ends[1].begin(y, z);
  }
  for (const TubeBend& b : p.bends) {
    o.bends.push_back({b.at, b.at + b.radius * b.angle, b.radius, b.towards});
  }
  return o;
}

double mean_length(const PieceOutline& o) {
  double sum = 0;
  for (size_t k = 0; k < 8; ++k) sum += o.end[k] - o.begin[k];
  return sum / 8;
}

PieceOutline mirrored(const PieceOutline& o) {
  constexpr std::array<size_t, 8> other = {2, 1, 0, 7, 6, 5, 4, 3};
  PieceOutline r = o;
  for (OutlineBend& b : r.bends) b.towards = 180 * degree - b.towards;
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = o.begin[other[k]];
    r.end[k] = o.end[other[k]];
  }
  return r;
}

bool cut_alike(const PieceOutline& a, const PieceOutline& b, const SectionEntry& s) {
  const int step = std::abs(s.width - s.height) < 1e-9 ? 1 : 2;  // a rectangle takes half turns
  PieceOutline laid = b;
  for (int flip = 0; flip < 2; ++flip) {
    for (int quarter = 0; quarter < 4; quarter += step) {
      if (one_on_the_other(a, laid)) return true;
      for (int i = 0; i < step; ++i) laid = turned(laid);
    }
    laid = end_for_end(laid);
  }
  return false;
}

}  // namespace tubewright
