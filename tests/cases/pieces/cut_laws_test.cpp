// Laws that every cut piece keeps, on frames drawn at random and on the examples: what the angles
// between the tubes allow, reckoned from their axes and outsides alone, and where fibres of a tube
// leave the solid of another, by the slab method (Kay and Kajiya, SIGGRAPH 1986; MEMORY).
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>
#include <random>

#include "cases/frame/find_parts.h"
#include "cases/pieces/cut_geometry.h"
#include "cases/pieces/shown_cuts.h"
#include "cases/pieces/tube_arms.h"
#include "tests/cases/pieces/example_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_laws_test {

using namespace tubewright::testing;
using Eigen::Vector3d;

namespace {

constexpr double mm = 1e-3;

/// Of uniform numbers; the standard's distributions differ between libraries.
struct Draw {
  std::mt19937 engine;
  double between(double a, double b) { return a + (b - a) * (engine() / 4294967295.0); }
  bool coin() { return engine() % 2 == 0; }
};

void add_section(Frame& f, const std::string& name, Shape shape, double height, double width) {
  SectionEntry s = f.sections.front();
  s.name = name;
  s.shape = shape;
  s.height = height * mm;
  s.width = width * mm;
  s.wall = shape == Shape::flat_bar ? 0 : 1.5 * mm;
  f.sections.push_back(s);
}

const std::vector<std::string>& sizes() {
  static const std::vector<std::string> names = {"tube",   "tube", "thin", "wide",
                                                 "oblong", "flat", "round"};
  return names;
}

Frame frame_of_sizes() {
  Frame f = empty_frame();
  add_section(f, "thin", Shape::square_tube, 20, 20);
  add_section(f, "wide", Shape::square_tube, 30, 30);
  add_section(f, "oblong", Shape::rectangular_tube, 40, 25);
  add_section(f, "flat", Shape::flat_bar, 40, 5);
  add_section(f, "round", Shape::round_tube, 25, 25);
  return f;
}

Member& add_path(Frame& f, const std::string& name, const std::vector<std::string>& nodes,
                 const std::string& section, double roll) {
  for (std::size_t i = 1; i < nodes.size(); ++i) {
    Member& m = add_member(f, name + "." + std::to_string(i), nodes[i - 1], nodes[i]);
    m.tube = name;
    m.section = section;
    m.roll = roll;
  }
  return f.members.back();
}

/// Two rails of three nodes that taper and slope, with cross tubes at every node. Every third is
/// flush or nearly so: slopes of a few degrees and one size.
Frame random_rails(unsigned seed) {
  Draw draw{std::mt19937(seed)};
  Frame f = frame_of_sizes();
  const bool nearly_flush = seed % 3 == 0;
  const double most = (nearly_flush ? 6 : 30) * degree;
  const double taper = draw.between(0, nearly_flush ? 20 * degree : most);
  const double slope = draw.between(-most, most);
  const auto size = [&] {
    return nearly_flush ? std::string("tube") : sizes()[draw.engine() % sizes().size()];
  };
  const std::string rail = size();
  const double roll = draw.coin() ? 0 : 90 * degree;
  for (int i = 0; i < 3; ++i) {
    const double x = 0.45 * i, y = 0.35 - x * std::tan(taper) / 2, z = x * std::tan(slope);
    add_node(f, "L" + std::to_string(i), x, y, z);
    add_node(f, "R" + std::to_string(i), x, -y, z);
  }
  add_path(f, "left", {"L0", "L1", "L2"}, rail, roll);
  add_path(f, "right", {"R0", "R1", "R2"}, rail, -roll);
  for (int i = 0; i < 3; ++i) {
    const std::string n = std::to_string(i);
    Member& m = add_member(f, "cross_" + n, "L" + n, "R" + n);
    m.section = size();
    m.roll = draw.coin() ? 0 : 90 * degree;
  }
  return f;
}

/// The same with a diagonal and a post.
Frame random_ladder(unsigned seed) {
  Draw draw{std::mt19937(seed + 1000)};
  Frame f = random_rails(seed);
  const auto size = [&] { return sizes()[draw.engine() % sizes().size()]; };
  add_member(f, "diagonal", "L0", "R1").section = size();
  const double x = draw.between(0.3, 0.6), y = draw.between(0, 0.3);
  add_node(f, "top", x, y, draw.between(0.4, 0.6));
  add_member(f, "post", "L1", "top").section = size();
  return f;
}

/// Two tubes of any size, turned about their axes, out of one node on a rail or in a corner of two
/// more that are nearly in line; all else at 17 degrees or more.
Frame random_star(unsigned seed) {
  Draw draw{std::mt19937(seed + 5000)};
  Frame f = frame_of_sizes();
  add_node(f, "O", 0, 0, 0);
  add_node(f, "A", -0.5, draw.between(-0.05, 0.05), 0);
  add_node(f, "B", 0.5, draw.between(-0.05, 0.05), 0.1);
  const auto size = [&] { return sizes()[draw.engine() % sizes().size()]; };
  const bool rail = draw.coin();
  if (rail) {
    f.nodes[2].at = -f.nodes[1].at;
    const std::string section = size();
    add_path(f, "rail", {"A", "O", "B"}, section, draw.between(0, 90) * degree);
  } else {
    add_member(f, "a", "A", "O").section = size();
    add_member(f, "b", "O", "B").section = size();
  }
  std::vector<Vector3d> taken = {f.nodes[1].at.normalized(), f.nodes[2].at.normalized()};
  for (int i = 0; i < 2; ++i) {
    const std::string end = "end_" + std::to_string(i);
    Vector3d at;
    const auto too_near = [&](const Vector3d& t) { return std::abs(t.dot(at)) > std::cos(0.3); };
    do {
      for (const int axis : {0, 1, 2}) at[axis] = draw.between(-1, 1);
      at.normalize();
    } while (std::any_of(taken.begin(), taken.end(), too_near));
    taken.push_back(at);
    add_node(f, end, 0.6 * at.x(), 0.6 * at.y(), 0.6 * at.z());
    Member& m = add_member(f, "arm_" + std::to_string(i), "O", end);
    m.section = size();
    m.roll = draw.between(0, 90) * degree;
  }
  return f;
}

/// All that the laws are held against.
std::vector<std::pair<std::string, Frame>> frames() {
  std::vector<std::pair<std::string, Frame>> list;
  for (const std::string& name : examples()) {
    list.emplace_back(name, example(name));
  }
  for (unsigned seed = 1; seed <= 300; ++seed) {
    list.emplace_back("ladder " + std::to_string(seed), random_ladder(seed));
    list.emplace_back("star " + std::to_string(seed), random_star(seed));
  }
  return list;
}

struct Pieces {
  UncutTubes all;
  std::vector<CutPiece> cut;
  std::vector<NodeTubes> nodes;
};

Pieces pieces_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  Pieces p{uncut_tubes(f, n), cut_straight_parts(f, n), {}};
  p.nodes = tubes_at_nodes(f, n, p.all);
  return p;
}

double radius_of(const HalfSizes& h) { return h.round ? h.y : std::hypot(h.y, h.z); }

/// How far along an arm a tube of radius `own` is cut off by the face of another that it meets most
/// squarely.
double to_face(const Eigen::Matrix3d& axes, const HalfSizes& its, const Vector3d& away,
               double own) {
  const double by_y = std::abs(axes.row(1).dot(away)), by_z = std::abs(axes.row(2).dot(away));
  const double square = std::max(by_y, by_z), size = by_y > by_z ? its.y : its.z;
  return (size + own * std::sqrt(1 - square * square)) / square;
}

/// How far from its node an arm can be in touch with the tubes there: two cylinders round both at
/// the angle between them; or cut along the face that it meets most squarely, as far as the arm is
/// wide; or as long as the others need to stand on its own face. Tubes within 10 degrees are not
/// cut against each other.
double farthest_touch(const Pieces& p, const TubeArm& arm, const NodeTubes& here) {
  double farthest = 0;
  const Eigen::Matrix3d& own_axes = p.all.tube(arm.tube).axes;
  const HalfSizes& half = p.all.half_of(arm.tube);
  const double own = radius_of(half);
  const auto meet = [&](int other) {
    const Eigen::Matrix3d& axes = p.all.tube(other).axes;
    const HalfSizes& its = p.all.half_of(other);
    const Vector3d along = axes.row(0);
    const double cosine = std::abs(along.dot(arm.away)), sine = along.cross(arm.away).norm();
    if (other == arm.tube || sine < std::sin(spliced_within)) return;
    if (p.all.link[static_cast<std::size_t>(other)]) return;
    const double cylinders = (own * cosine + radius_of(its)) / sine;
    const double for_others =
        to_face(own_axes, half, along, radius_of(its)) * cosine + radius_of(its);
    farthest = std::max({farthest, cylinders, to_face(axes, its, arm.away, own), for_others});
  };
  for (const int t : here.through) meet(t);
  for (const TubeArm& a : here.arms) meet(a.tube);
  return farthest;
}

/// The perimeter of a section cut as steeply as the steepest of the planes of its end.
double perimeter_at_slope(const HalfSizes& half, const TubeEnd& e) {
  const ConvexPolygon outline = section_polygon(half);
  double sum = 0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Eigen::Vector2d side = outline[(k + 1) % outline.size()] - outline[k];
    double longest = side.norm();
    for (const EndCut& cut : e.cuts) {
      for (const CutPlane& plane : cut.planes) {
        if (only_divides(plane)) continue;
        const double rise = Eigen::Vector2d(plane.mitre, plane.bevel).dot(side);
        longest = std::max(longest, std::hypot(side.norm(), rise));
      }
    }
    sum += longest;
  }
  return sum;
}

/// How far along the line at + t away, |t| < 1 m, leaves a prism; nothing where it misses it.
struct Left {
  double at = 0;
  int axis = 1;  ///< by the faces square to y or to z
};

std::optional<Left> leaves(const Eigen::Matrix3d& axes, const HalfSizes& half, const Vector3d& at,
                           const Vector3d& away) {
  double in = -1;
  Left out{1, 1};
  for (const int axis : {1, 2}) {
    const double size = axis == 1 ? half.y : half.z;
    const double here = axes.row(axis).dot(at), rate = axes.row(axis).dot(away);
    if (std::abs(rate) < 1e-12) {
      if (std::abs(here) > size) return std::nullopt;
      continue;
    }
    in = std::max(in, (-here - std::copysign(size, rate)) / rate);
    const double past = (-here + std::copysign(size, rate)) / rate;
    if (past < out.at) out = {past, axis};
  }
  if (in >= out.at) return std::nullopt;
  return out;
}

}  // namespace

TEST_CASE("no end is farther from its node, either way, than the tubes there touch each other") {
  for (const auto& [name, f] : frames()) {
    const Pieces p = pieces_of(f);
    for (const NodeTubes& here : p.nodes) {
      for (const TubeArm& arm : here.arms) {
        const CutPiece& piece = p.cut[static_cast<std::size_t>(arm.tube)];
        const TubeEnd& e = piece.ends[static_cast<std::size_t>(arm.end)];
        const double most = farthest_touch(p, arm, here) + 1e-9;
        for (const Eigen::Vector2d& at : section_polygon(p.all.half_of(arm.tube))) {
          INFO(name << ": " << piece.tube.name << " end " << arm.end << " mm "
                    << e.begin(at.x(), at.y()) / mm << " of " << most / mm);
          CHECK(std::abs(e.begin(at.x(), at.y())) <= most);
        }
      }
    }
  }
}

TEST_CASE("a piece is no longer than its nodes are apart and its ends may stand over") {
  for (const auto& [name, f] : frames()) {
    const Pieces p = pieces_of(f);
    std::vector<double> over(p.cut.size(), 0);
    for (const NodeTubes& here : p.nodes) {
      for (const TubeArm& arm : here.arms) {
        over[static_cast<std::size_t>(arm.tube)] += farthest_touch(p, arm, here);
      }
    }
    for (std::size_t i = 0; i < p.cut.size(); ++i) {
      const CutPiece& piece = p.cut[i];
      INFO(name << ": " << piece.tube.name << " " << piece.long_point / mm << "/"
                << piece.short_point / mm);
      CHECK(piece.long_point <= piece.tube.length + over[i] + 1e-9);
      CHECK(piece.short_point >= piece.tube.length - over[i] - 1e-9);
      CHECK(piece.short_point <= piece.long_point + 1e-12);
    }
  }
}

TEST_CASE("the points of an end are no farther apart than its steepest cut sets them") {
  int ends = 0;
  for (const auto& [name, f] : frames()) {
    const Pieces p = pieces_of(f);
    for (std::size_t i = 0; i < p.cut.size(); ++i) {
      for (const TubeEnd& e : p.cut[i].ends) {
        double steepest = 0, least = 1, greatest = -1;
        bool stepped = false;
        for (const EndCut& cut : e.cuts) {
          for (const CutPlane& plane : cut.planes) {
            stepped = stepped || only_divides(plane);
            if (!only_divides(plane)) {
              steepest = std::max(steepest, std::hypot(plane.mitre, plane.bevel));
            }
          }
        }
        for (const Eigen::Vector2d& at : section_polygon(p.all.half[i])) {
          least = std::min(least, e.begin(at.x(), at.y()));
          greatest = std::max(greatest, e.begin(at.x(), at.y()));
        }
        if (stepped) continue;
        INFO(name << ": " << p.cut[i].tube.name << " " << least / mm << " to " << greatest / mm);
        CHECK(greatest - least <= 2 * radius_of(p.all.half[i]) * steepest + 1e-9);
        // Half of the 10 degrees between tubes that are mitred at least: 1 / tan 5.
        CHECK(steepest <= 11.5);
        ++ends;
      }
    }
  }
  CHECK(ends > 3000);
}

TEST_CASE("no weld is longer than the section's perimeter at the slope of its cut") {
  int welds = 0;
  for (const auto& [name, f] : frames()) {
    const Pieces p = pieces_of(f);
    for (std::size_t i = 0; i < p.cut.size(); ++i) {
      for (const TubeEnd& e : p.cut[i].ends) {
        const double most = perimeter_at_slope(p.all.half[i], e);
        INFO(name << ": " << p.cut[i].tube.name << " " << e.weld_length / mm << " of "
                  << most / mm);
        CHECK(e.weld_length <= most + 1e-9);
        welds += e.weld_length > 0;
      }
    }
  }
  CHECK(welds > 3000);
}

TEST_CASE("fibres of a tube on a rail begin where they leave it") {
  Draw draw{std::mt19937(7)};
  int fibres = 0, ends = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const Pieces p = pieces_of(random_rails(seed));
    for (const NodeTubes& here : p.nodes) {
      // One tube on one that runs through, not round.
      if (here.through.size() != 1 || here.arms.size() != 1) continue;
      const int rail = here.through.front();
      const TubeArm& arm = here.arms.front();
      const HalfSizes &half = p.all.half_of(arm.tube), &its = p.all.half_of(rail);
      if (its.round || half.round) continue;
      const Eigen::Matrix3d &axes = p.all.tube(arm.tube).axes, &theirs = p.all.tube(rail).axes;
      const bool by_y =
          std::abs(theirs.row(1).dot(arm.away)) > std::abs(theirs.row(2).dot(arm.away));
      const TubeEnd& e =
          p.cut[static_cast<std::size_t>(arm.tube)].ends[static_cast<std::size_t>(arm.end)];
      ++ends;
      for (int k = 0; k < 200; ++k) {
        const double y = half.y * draw.between(-1, 1), z = half.z * draw.between(-1, 1);
        const Vector3d at = axes.transpose() * Vector3d(0, y, z);
        const std::optional<Left> left = leaves(theirs, its, at, arm.away);
        if (!left) continue;
        INFO(seed << ": " << p.all.tube(arm.tube).name << " " << e.begin(y, z) / mm << " leaves "
                  << left->at / mm);
        CHECK(e.begin(y, z) > left->at - 1.05 * shows);  // not inside it
        const bool first_face = (left->axis == 1) == by_y;
        if (first_face) CHECK(e.begin(y, z) < left->at + 1e-9);  // not short of it
        ++fibres;
      }
    }
  }
  CHECK(ends > 200);
  CHECK(fibres > 10000);
}

TEST_CASE("between rails of one size that slope and taper a cross tube is cut along their faces") {
  // 25 mm on 25 mm, rails that rise by 4.6 and draw in by 11.3 degrees: each end of a level tube is
  // 25 tan 11.3 = 5.0 mm longer on one side, whatever reaches over the rail's upper edge.
  Frame f = empty_frame();
  const double taper = std::atan(0.2), slope = std::atan(0.08);
  for (int i = 0; i < 3; ++i) {
    const double x = 0.3 * (i - 1), y = 0.25 - 0.2 * x, z = 0.08 * x;
    add_node(f, "L" + std::to_string(i), x, y, z);
    add_node(f, "R" + std::to_string(i), x, -y, z);
  }
  add_path(f, "left", {"L0", "L1", "L2"}, "tube", 0);
  add_path(f, "right", {"R0", "R1", "R2"}, "tube", 0);
  add_member(f, "cross", "L1", "R1");
  const Pieces p = pieces_of(f);
  const CutPiece& cross = p.cut.back();
  REQUIRE(cross.tube.name == "cross");
  // The rail's face stands 12.5 mm off its axis, level, turned by the taper as seen from above.
  const double middle = 0.5 - 25 * mm / std::cos(taper);
  CHECK_THAT(cross.long_point, WithinAbs(middle + 25 * mm * std::tan(taper), 0.1 * mm));
  CHECK_THAT(cross.short_point, WithinAbs(middle - 25 * mm * std::tan(taper), 0.1 * mm));
  CHECK_THAT(cross.weld_length, WithinAbs(2 * (50 * mm + 50 * mm / std::cos(taper)), 0.1 * mm));
  CHECK(slope > 0);
}

}  // namespace tubewright::cut_laws_test
