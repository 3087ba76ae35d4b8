// A gusset as a bar, against the plate itself meshed in plane stress between the same tubes.
#include "cases/attachments/gusset_plate.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "cases/analysis/analysis.h"
#include "cases/attachments/face_stiffness.h"
#include "cases/frame/built_in_materials.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/truth.h"

namespace tubewright::gusset_plate_test {

using testing::CornerAnswer;
using testing::expanded;
using testing::gusset_frame;
using testing::GussetCorner;
using testing::GussetMesh;

namespace {

constexpr double degree = std::numbers::pi / 180, mm = 1e-3;
constexpr Source mesh = rederived("plate meshed in plane stress between beams, gusset_mesh.h");

Analysis solved(const Frame& f) {
  Result<Analysis> outcome = analyse(f);
  if (const auto* diagnostics = outcome.error()) FAIL(testing::text_of(*diagnostics));
  return std::move(*outcome.get());
}

/// How far the loaded end moves or turns, and the force in the bar.
CornerAnswer ours(Frame f, bool turned) {
  Case c;
  c.name = "load";
  const Eigen::Vector3d load = turned ? Eigen::Vector3d(0, -1, 0) : Eigen::Vector3d(0, 0, 1);
  (turned ? c.moments : c.forces).push_back({"A", load, {}});
  f.cases.push_back(c);
  const Analysis a = solved(expanded(std::move(f)));
  const auto u = a.cases[0].solution.displacements.segment<6>(6);  // of A
  return {turned ? -u[4] : u[2], a.cases[0].gussets.empty() ? 0 : a.cases[0].gussets[0].force};
}

/// Ends joined as rigidly as the mesh's, whatever the joints of the frame.
void hold_rigidly(Frame& f) {
  for (Member& m : f.members) {
    for (EndConnection* end : {&m.release_from, &m.release_to}) (*end)[4] = (*end)[5] = 1e12;
  }
}

struct Gain {
  double share = 0;      ///< of what the plate takes off the flexibility the bar takes
  double resultant = 0;  ///< force in the bar over the plate's resultant
};

Gain gain_of(const GussetCorner& c, bool turned, bool faces_give) {
  Frame with = gusset_frame(c);
  GussetCorner meshed = c;
  if (faces_give) {
    with.joint_flexibility = 1;
    hold_rigidly(with);
    const Frame placed = expanded(with);
    const double nu = poisson_ratio(find_material(placed, "S235")->properties);
    for (std::size_t k = 0; k < 2; ++k) {
      const TubeWall face{c.side * mm, c.wall * mm, c.E * 1e6, nu};
      const double leg = placed.gussets[0].legs[k].length;
      meshed.face[k] = push_stiffness(face, tab_push_coefficient(leg / clear_width(face))) / 1e3;
    }
  }
  Frame without = with;
  without.gussets.clear();
  constexpr int steps = 8;  // twice as many move the answer by 0.1 %
  const auto answer = [&](const GussetMesh& m) { return turned ? m.turn() : m.push(); };
  const CornerAnswer bare = answer(GussetMesh(meshed, steps, false));
  const CornerAnswer plated = answer(GussetMesh(meshed, steps, true));
  const CornerAnswer our_bare = ours(without, turned), our_plated = ours(with, turned);
  const double per_unit = turned ? 1e-3 : 1;  // N m, and the mesh's N mm
  return {(1 - our_plated.moves / our_bare.moves) / (1 - plated.moves / bare.moves),
          std::abs(our_plated.resultant) * per_unit / plated.resultant};
}

}  // namespace

TEST_CASE("the mesh of a gusset converges and is symmetric in its two tubes") {
  const GussetCorner c;
  const double coarse = GussetMesh(c, 4, true).push().moves;
  const double fine = GussetMesh(c, 8, true).push().moves;
  CHECK_THAT(coarse, WithinRel(fine, 0.001));
  // Maxwell: turned at its end by a moment, the same whichever leg is called the first.
  GussetCorner a, b;
  a.first_leg = b.second_leg = 80;
  a.second_leg = b.first_leg = 40;
  CHECK_THAT(GussetMesh(a, 4, true).turn().moves,
             WithinRel(GussetMesh(b, 4, true).turn().moves, 1e-9));
}

TEST_CASE("a bar along its free edge takes what a gusset takes off a corner, within a fifth",
          "[truth]") {
  struct Row {
    double side, wall, first, second, thickness, angle;
  };
  for (const Row& r :
       {Row{40, 3, 60, 60, 4, 90}, Row{25, 2, 50, 50, 3, 90}, Row{30, 2, 80, 40, 3, 90},
        Row{25, 2, 40, 40, 3, 60}, Row{25, 2, 60, 60, 3, 120}, Row{40, 3, 100, 100, 6, 90}}) {
    GussetCorner c;
    c.side = r.side;
    c.wall = r.wall;
    c.first_leg = r.first;
    c.second_leg = r.second;
    c.thickness = r.thickness;
    c.angle = r.angle * degree;
    for (const bool faces_give : {false, true}) {
      const Gain gain = gain_of(c, false, faces_give);
      const std::string what =
          named(r.first, " x ", r.second, " x ", r.thickness, " at ", r.angle, " degrees on ",
                r.side, " x ", r.wall, faces_give ? ", faces giving way" : "");
      truth("gusset " + what + ": gain of stiffness over the plate's", mesh, gain.share,
            within_abs(1, 0.2));
      // Too much force in the bar is safe for its checks.
      truth("gusset " + what + ": its force over the plate's", mesh, gain.resultant,
            not_below(0.85, 1.8));
      const Gain turned = gain_of(c, true, faces_give);
      CHECK_THAT(turned.share, WithinAbs(1, 0.2));
      CHECK(turned.resultant > 0.85);
    }
  }
}

TEST_CASE("legs begin where the faces meet", "[truth]") {
  constexpr Source geometry = rederived("geometry by hand");
  const auto square = leg_starts({0.040, 0.030}, 0);
  truth("start of a leg along a tube 40 deep, by the other's 30, mm", geometry, square[0] / mm,
        within_rel(15, 1e-12));
  truth("and along the other, mm", geometry, square[1] / mm, within_rel(20, 1e-12));
  // Two tubes 25 deep at 60 degrees: 12.5/tan 30 degrees.
  truth("start of a leg at 60 degrees, mm", geometry, leg_starts({0.025, 0.025}, 0.5)[0] / mm,
        within_rel(21.650635, 1e-7));
}

TEST_CASE("a gusset's sizes: free edge, height, mass, the line of its bar", "[truth]") {
  constexpr Source geometry = rederived("geometry by hand");
  GussetCorner c;
  c.first_leg = 80;
  c.second_leg = 60;
  const Frame f = expanded(gusset_frame(c));
  const GussetPlate p = gusset_plate(f, f.gussets[0]);
  truth("free edge of legs 80 and 60, mm", geometry, p.free_edge / mm, within_rel(100, 1e-12));
  truth("its corner over that, mm", geometry, p.height / mm, within_rel(48, 1e-12));
  truth("its mass, 4 mm, 7850 kg/m3, g", geometry, p.mass * 1e3, within_rel(75.36, 1e-9));
  truth("E t h/L_e, kN/mm", geometry, p.stiffness / 1e6, within_rel(210 * 4 * 0.48, 1e-9));
  CHECK((p.corner - Eigen::Vector3d(0.020, 0, 0.020)).norm() < 1e-12);
  // From (100, 0) to (0, 80): the corner (20, 20) is (80 x 100 - 80 x 20 - 100 x 20)/128.06 off.
  truth("its corner from the bar, mm", geometry, p.bar_off / mm,
        within_rel(4400 / 128.0624847, 1e-8));
  truth("push of 1 N off the first face", geometry, p.push[0], within_rel(80 / 128.0624847, 1e-8));
  // The line crosses the first face, 20 mm up, 25 mm before the axis node: 40 - 25 from the middle.
  truth("lever of that about the leg's middle, mm", geometry, p.lever[0] / mm,
        within_rel(15, 1e-9));
}

TEST_CASE("a gusset weighs, on the nodes of its corner") {
  const GussetCorner c;
  const Frame with = expanded(gusset_frame(c));
  Frame without = with;
  without.gussets.clear();
  const MassSummary heavy = mass_summary(with, build_model(with));
  const MassSummary light = mass_summary(without, build_model(without));
  CHECK_THAT(heavy.total - light.total, WithinRel(0.060 * 0.060 / 2 * 0.004 * 7850, 1e-9));
  CHECK(heavy.tubes > light.tubes);
}

TEST_CASE("plates at the sides are two, in line with the outer faces, on no face that gives way") {
  Frame f = gusset_frame({});
  f.gussets[0].at_sides = true;
  f = expanded(f);
  const GussetPlate p = gusset_plate(f, f.gussets[0]);
  CHECK(p.plates == 2);
  CHECK(p.face_give == 0);
  const std::vector<double> offsets = plate_offsets(f, f.gussets[0]);
  REQUIRE(offsets.size() == 2);
  CHECK_THAT(offsets[1], WithinRel(0.018, 1e-12));
  CHECK(offsets[0] == -offsets[1]);
  f.gussets[0].at_sides = false;
  CHECK_THAT(p.stiffness, WithinRel(2 * gusset_plate(f, f.gussets[0]).stiffness, 1e-12));
}

TEST_CASE("a larger tube moves the ends of the legs with its face") {
  Frame f = expanded(gusset_frame({}));
  f.sections.push_back(f.sections[0]);
  f.sections.back().name = "larger";
  f.sections.back().height = f.sections.back().width = 0.060;
  f.gussets[0].legs[1].section = "larger";
  move_to_leg_ends(f, f.gussets[0]);
  const auto at = [&](const std::string& name) {
    for (const Node& n : f.nodes)
      if (n.name == name) return n.at;
    return Eigen::Vector3d(0, 0, 0);
  };
  CHECK_THAT(at("g.1").x(), WithinRel(0.090, 1e-12));  // 30 + 60
  CHECK_THAT(at("g.2").z(), WithinRel(0.080, 1e-12));  // 20 + 60
}

}  // namespace tubewright::gusset_plate_test
