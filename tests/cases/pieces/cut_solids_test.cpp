// The cut pieces as solids: nothing overlaps, nothing gapes. VTK's implicit functions and its
// volume of a clipped prism are the judges; the laws are those of solid bodies.
#include <cmath>
#include <random>

#include "cases/model/build_model.h"
#include "cases/pieces/cut_geometry.h"
#include "tests/cases/pieces/example_frames.h"
#include "tests/cases/pieces/piece_solids.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_solids_test {

using namespace tubewright::testing;

namespace {

constexpr double mm = 1e-3;
// A strip of 1 mm by 2.5 mm along one side of a tube of 20 mm: what a grinder takes in a moment.
constexpr double ground_off = 50 * mm * mm * mm;
constexpr double a_corner = 0.05;  // of the rim: the weld fills it

std::vector<CutPiece> pieces_of(const Frame& f) { return cut_straight_parts(f, build_model(f)); }

/// All planes of an end moved into the tube (> 0) or out of it.
void move_end(TubeEnd& e, double by) {
  for (EndCut& cut : e.cuts) {
    for (CutPlane& p : cut.planes) p.at += only_divides(p) ? 0 : by;
  }
}

bool one_plane(const TubeEnd& e) { return e.cuts.size() == 1 && e.cuts[0].planes.size() == 1; }

/// Tubes of 20 and 25 mm out of one node into directions drawn at random, at least 25 degrees
/// apart; in every second frame a rail runs through.
Frame random_node(unsigned seed) {
  std::mt19937 draw(seed);
  const auto from_minus_one = [&] { return draw() / 2147483647.5 - 1; };
  Frame f = empty_frame();
  SectionEntry thin = f.sections.front();
  thin.name = "thin";
  thin.height = thin.width = 0.020;
  f.sections.push_back(thin);
  add_node(f, "O", 0, 0, 0);
  std::vector<Eigen::Vector3d> taken;
  const auto add_arm = [&](const Eigen::Vector3d& away) {
    std::string name = "arm_" + std::to_string(taken.size());
    add_node(f, name, 0.4 * away.x(), 0.4 * away.y(), 0.4 * away.z());
    taken.push_back(away);
    return name;
  };
  if (seed % 2 == 0) {
    const std::string a = add_arm(Eigen::Vector3d::UnitX()), b = add_arm(-Eigen::Vector3d::UnitX());
    add_member(f, "rail.1", a, "O").tube = "rail";
    add_member(f, "rail.2", "O", b).tube = "rail";
  }
  while (taken.size() < 5) {
    const Eigen::Vector3d at(from_minus_one(), from_minus_one(), from_minus_one());
    const bool apart =
        at.norm() > 0.1 && std::all_of(taken.begin(), taken.end(), [&](const auto& t) {
          return t.dot(at.normalized()) < std::cos(0.44);
        });
    if (!apart) continue;
    const std::string name = add_arm(at.normalized());
    add_member(f, name, "O", name).section = draw() % 2 == 0 ? "thin" : "tube";
  }
  return f;
}

}  // namespace

TEST_CASE("no two pieces of an example take the same room") {
  for (const std::string& name : examples()) {
    const Frame f = example(name);
    for (const Overlap& o : overlaps(solids_of(f, pieces_of(f)), 0)) {
      INFO(name << ": " << o.first << " and " << o.second << ", " << o.depth / mm << " mm deep");
      CHECK(o.volume < ground_off);
    }
  }
}

TEST_CASE("every end of an example lies on what it is cut against") {
  std::size_t ends = 0;
  for (const std::string& name : examples()) {
    const Frame f = example(name);
    for (const Contact& c : contacts(solids_of(f, pieces_of(f)))) {
      INFO(name << ": " << c.piece << " end " << c.end << ", gap " << c.gap / mm);
      CHECK(c.missing <= a_corner);
      // The rest sticks out beside a narrower face, or beside a run that is drawn turned about its
      // axis (the hoop of the runabout leans both ways).
      CHECK(c.touching > 0.6);
      ++ends;
    }
  }
  CHECK(ends > 300);
}

TEST_CASE("a cut 2 mm off is found: outward it overlaps, inward it gapes") {
  const Frame f = example("01_wall_bracket");
  const std::vector<CutPiece> sound = pieces_of(f);
  std::size_t moved = 0;
  for (std::size_t i = 0; i < sound.size(); ++i) {
    for (const std::size_t end : {0u, 1u}) {
      if (sound[i].ends[end].cuts.front().against < 0) continue;
      INFO(sound[i].tube.name << " end " << end);
      std::vector<CutPiece> longer = sound, shorter = sound;
      move_end(longer[i].ends[end], -2 * mm);
      move_end(shorter[i].ends[end], 2 * mm);
      double common = 0;
      for (const Overlap& o : overlaps(solids_of(f, longer), 0)) common += o.volume;
      CHECK(common > ground_off);
      bool gapes = false;
      for (const Contact& c : contacts(solids_of(f, shorter))) {
        gapes = gapes || (c.piece == sound[i].tube.name && c.end == static_cast<int>(end) &&
                          c.missing > a_corner && c.gap > 1 * mm);
      }
      CHECK(gapes);
      ++moved;
    }
  }
  CHECK(moved == 8);
}

TEST_CASE("a cut tilted by 3 degrees is found") {
  const Frame f = example("06_flat_barrow");
  std::vector<CutPiece> pieces = pieces_of(f);
  for (CutPiece& p : pieces) {
    if (p.tube.name == "cross_C") p.ends[0].cuts[0].planes[0].mitre += std::tan(0.0524);
  }
  const auto solids = solids_of(f, pieces);
  CHECK(overlaps(solids, 0).size() == 1);
}

TEST_CASE("the volume of a piece cut by one plane an end is its section times its mean length") {
  std::size_t checked = 0;
  for (const std::string& name : examples()) {
    const Frame f = example(name);
    for (const PieceSolid& s : solids_of(f, pieces_of(f))) {
      if (s.link() || s.round || !one_plane(s.piece.ends[0]) || !one_plane(s.piece.ends[1])) {
        continue;
      }
      INFO(name << ": " << s.piece.tube.name);
      const double mean = (s.piece.long_point + s.piece.short_point) / 2;
      CHECK_THAT(7850 * clipped_volume(s), WithinRel(7850 * 4 * s.half_y * s.half_z * mean, 1e-6));
      ++checked;
    }
  }
  CHECK(checked > 50);
}

TEST_CASE("at nodes drawn at random no two pieces take the same room, and none gapes") {
  std::size_t ends = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    const Frame f = random_node(seed);
    const auto solids = solids_of(f, pieces_of(f));
    for (const Overlap& o : overlaps(solids, 0)) {
      INFO(seed << ": " << o.first << " and " << o.second << ", " << o.depth / mm << " mm deep");
      CHECK(o.depth < 0.5 * mm);
      CHECK(o.volume < 4 * ground_off);
    }
    for (const Contact& c : contacts(solids)) {
      INFO(seed << ": " << c.piece << " end " << c.end << ", gap " << c.gap / mm);
      CHECK(c.missing <= a_corner);
      ++ends;
    }
  }
  CHECK(ends > 200);
}

}  // namespace tubewright::cut_solids_test
