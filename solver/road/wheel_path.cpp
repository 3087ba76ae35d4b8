#include "solver/road/wheel_path.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <vector>

namespace tubewright {

namespace {

/// Straight pieces of a profile, the level ones before it and behind it among them: piece i goes
/// from vertex i - 1 to vertex i.
class Pieces {
 public:
  explicit Pieces(const GroundProfile& profile) : p_(profile) {}

  std::ptrdiff_t count() const { return size() + 1; }
  double begin(std::ptrdiff_t i) const {
    return i == 0 ? -std::numeric_limits<double>::infinity() : p_.x[index(i - 1)];
  }
  double end(std::ptrdiff_t i) const {
    return i == size() ? std::numeric_limits<double>::infinity() : p_.x[index(i)];
  }
  bool level(std::ptrdiff_t i) const { return i == 0 || i == size(); }
  double first_height(std::ptrdiff_t i) const {
    if (p_.z.empty()) return 0;
    return p_.z[index(i == 0 ? 0 : i - 1)];
  }
  double last_height(std::ptrdiff_t i) const {
    if (p_.z.empty()) return 0;
    return p_.z[index(i == size() ? i - 1 : i)];
  }
  /// 0 for a vertical edge, and for one that is as good as that.
  double slope(std::ptrdiff_t i) const {
    constexpr double vertical = 1e9;
    if (level(i) || end(i) == begin(i)) return 0;
    const double rise = (last_height(i) - first_height(i)) / (end(i) - begin(i));
    return std::abs(rise) < vertical ? rise : 0;
  }
  double height(std::ptrdiff_t i, double x) const {
    if (level(i) || end(i) == begin(i)) return first_height(i);
    const double share = (x - begin(i)) / (end(i) - begin(i));
    return first_height(i) + share * (last_height(i) - first_height(i));
  }

  /// First piece that ends behind x.
  std::ptrdiff_t at(double x) const {
    return std::upper_bound(p_.x.begin(), p_.x.end(), x) - p_.x.begin();
  }
  /// First piece that ends at x or behind it.
  std::ptrdiff_t reaching(double x) const {
    return std::lower_bound(p_.x.begin(), p_.x.end(), x) - p_.x.begin();
  }

 private:
  static size_t index(std::ptrdiff_t i) { return static_cast<size_t>(i); }
  std::ptrdiff_t size() const { return static_cast<std::ptrdiff_t>(p_.x.size()); }

  const GroundProfile& p_;
};

struct PathPoint {
  double height = -std::numeric_limits<double>::infinity();
  double slope = 0;
};

// A circle
// --------

/// One piece of the ground, and the sine and cosine of its slope.
struct CirclePiece {
  double begin, end, first_height, last_height, slope, sine, cosine;
};

/// Also of what a division by zero gives.
double cut_off(double slope) { return std::clamp(slope, -steepest_path, steepest_path); }

class Circle {
 public:
  Circle(const Pieces& pieces, double radius, double from, double to)
      : radius_(radius), first_(pieces.reaching(from - radius)) {
    const std::ptrdiff_t last = pieces.at(to + radius);
    for (std::ptrdiff_t i = first_; i <= last; ++i) {
      const double rise = pieces.slope(i), secant = std::sqrt(1 + rise * rise);
      CirclePiece p{
          pieces.begin(i), pieces.end(i), pieces.first_height(i), pieces.last_height(i), rise,
          rise / secant,   1 / secant};
      // Of an edge only its top is touched.
      if (p.end == p.begin)
        p.first_height = p.last_height = std::max(p.first_height, p.last_height);
      pieces_.push_back(p);
    }
  }

  std::ptrdiff_t count() const { return static_cast<std::ptrdiff_t>(pieces_.size()); }

  /// Highest over one piece.
  PathPoint over(std::ptrdiff_t i, double x) const {
    const CirclePiece& p = pieces_[static_cast<size_t>(i)];
    const double tangent = x + radius_ * p.sine;
    double contact = p.end, ground = p.last_height;
    if (tangent <= p.begin) {
      contact = p.begin;
      ground = p.first_height;
    } else if (tangent < p.end) {
      const double rise = p.slope == 0 ? 0 : p.slope * (tangent - p.begin);
      return {p.first_height + rise - radius_ * (1 - p.cosine), cut_off(p.slope)};
    }
    const double s = contact - x, square = radius_ * radius_ - s * s;
    if (square < 0) return {};
    const double rise = std::sqrt(square);
    return {ground - (radius_ - rise), cut_off(s / rise)};
  }

  /// Answers for places first .. last whose contacts lie on pieces low .. high.
  void solve(const double* x, std::ptrdiff_t first, std::ptrdiff_t last, std::ptrdiff_t low,
             std::ptrdiff_t high, double* height, double* slope) const {
    while (first <= last) {
      const std::ptrdiff_t middle = first + (last - first) / 2;
      PathPoint best;
      std::ptrdiff_t where = low;
      for (std::ptrdiff_t i = low; i <= high; ++i) {
        const PathPoint p = over(i, x[middle]);
        if (p.height > best.height) {
          best = p;
          where = i;
        }
      }
      height[middle] = best.height;
      slope[middle] = best.slope;
      solve(x, first, middle - 1, low, where, height, slope);
      first = middle + 1;
      low = where;
    }
  }

 private:
  double radius_;
  std::ptrdiff_t first_;
  std::vector<CirclePiece> pieces_;
};

/// So many places at once that the ground under all of them is little more than under one.
constexpr std::ptrdiff_t circle_places = 256;

void circle_path(const GroundProfile& profile, double radius, const double* x, std::ptrdiff_t count,
                 double* height, double* slope) {
  const Pieces pieces(profile);
  for (std::ptrdiff_t k = 0; k < count; k += circle_places) {
    const std::ptrdiff_t places = std::min(circle_places, count - k);
    const Circle circle(pieces, radius, x[k], x[k + places - 1]);
    circle.solve(x + k, 0, places - 1, 0, circle.count() - 1, height + k, slope + k);
  }
}

// A point and a patch
// -------------------

void point_path(const GroundProfile& profile, const double* x, std::ptrdiff_t count, double* height,
                double* slope) {
  const Pieces pieces(profile);
  if (count == 0) return;
  std::ptrdiff_t i = pieces.at(x[0]);
  for (std::ptrdiff_t k = 0; k < count; ++k) {
    while (x[k] >= pieces.end(i)) ++i;
    height[k] = pieces.height(i, x[k]);
    slope[k] = pieces.slope(i);
  }
}

/// Integral of the ground over from .. to, both on piece i.
double integral_on(const Pieces& pieces, std::ptrdiff_t i, double from, double to) {
  return to > from ? (to - from) * (pieces.height(i, from) + pieces.height(i, to)) / 2 : 0;
}

/// The integral goes on from place to place: what leaves behind is taken off, what comes is added.
/// It is made anew at every so many places, so that rounding does not gather.
constexpr std::ptrdiff_t patch_places = 64;

double integral(const Pieces& pieces, double from, double to) {
  std::ptrdiff_t i = pieces.at(from);
  double sum = 0;
  while (pieces.end(i) < to) {
    sum += integral_on(pieces, i, from, pieces.end(i));
    from = pieces.end(i);
    ++i;
  }
  return sum + integral_on(pieces, i, from, to);
}

/// Walks along the pieces and gives the integral from where it was.
struct Walk {
  double x;
  std::ptrdiff_t piece;

  double to(const Pieces& pieces, double end) {
    double sum = 0;
    while (pieces.end(piece) <= end) {
      sum += integral_on(pieces, piece, x, pieces.end(piece));
      x = pieces.end(piece);
      ++piece;
    }
    sum += integral_on(pieces, piece, x, end);
    x = end;
    return sum;
  }
};

void patch_path(const GroundProfile& profile, double length, const double* x, std::ptrdiff_t count,
                double* height, double* slope) {
  const Pieces pieces(profile);
  double sum = 0;
  Walk back{0, 0}, front{0, 0};
  for (std::ptrdiff_t k = 0; k < count; ++k) {
    const double from = x[k] - length / 2, to = x[k] + length / 2;
    if (k % patch_places == 0) {
      sum = integral(pieces, from, to);
      back = {from, pieces.at(from)};
      front = {to, pieces.at(to)};
    } else {
      const double gone = back.to(pieces, from), come = front.to(pieces, to);
      sum += come - gone;
    }
    height[k] = sum / length;
    slope[k] = (pieces.height(front.piece, to) - pieces.height(back.piece, from)) / length;
  }
}

}  // namespace

void wheel_path(const GroundProfile& profile, const WheelContact& contact, const double* x,
                std::ptrdiff_t count, double* height, double* slope) {
  assert(contact.kind == WheelContact::Kind::point || contact.length > 0);
  switch (contact.kind) {
    case WheelContact::Kind::point:
      return point_path(profile, x, count, height, slope);
    case WheelContact::Kind::circle:
      return circle_path(profile, contact.length, x, count, height, slope);
    case WheelContact::Kind::patch:
      return patch_path(profile, contact.length, x, count, height, slope);
  }
}

}  // namespace tubewright
