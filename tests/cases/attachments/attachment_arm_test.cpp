// The arm in a solved frame: statics puts the moment of an offset hole into the tube, and the hole
// gives way by face and plate in series.
#include "cases/attachments/attachment_arm.h"

#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/attachments/face_stiffness.h"
#include "tests/cases/attachments/attachment_frames.h"
#include "tests/truth.h"

namespace tubewright::attachment_arm_test {

using testing::cantilever_40;
using testing::expanded;
using testing::push;
using testing::tab;

namespace {

Analysis solved(const Frame& f) {
  Result<Analysis> outcome = analyse(f);
  if (const auto* diagnostics = outcome.error()) FAIL(testing::text_of(*diagnostics));
  return std::move(*outcome.get());
}

Eigen::Vector3d moved(const Analysis& a, const std::string& node) {
  for (size_t n = 0; n < a.frame.nodes.size(); ++n) {
    if (a.frame.nodes[n].name != node) continue;
    return a.cases[0].solution.displacements.segment<3>(6 * static_cast<Eigen::Index>(n));
  }
  FAIL("no node " + node);
  return {};
}

Frame with_tab(Face face, const Eigen::Vector3d& force, double flexibility) {
  Frame f = cantilever_40();
  f.joint_flexibility = flexibility;
  f.attachments = {tab("ear", "rail", 0.5, face)};
  push(f, "ear", force);
  return expanded(f);
}

constexpr Source statics = rederived("statics by hand");
constexpr double kN = 1e3;

}  // namespace

TEST_CASE("a pull along the tube below it bends the tube by its offset from the axis", "[truth]") {
  const Analysis a = solved(with_tab(Face::bottom, {kN, 0, 0}, 1));
  const Vector6 root = a.cases[0].members[0].from;  // joint on member
  truth("axial force of the tube, N", statics, root[0], within_rel(-1000, 1e-9));
  truth("moment at its root, 1 kN 45 mm below the axis, N m", statics, std::abs(root[4]),
        within_rel(45, 1e-9));
  CHECK_THAT(a.cases[0].members[1].N, WithinAbs(0, 1e-6));  // beyond the tab
}

TEST_CASE("a push on a tab gives way by the face and the plate in series", "[truth]") {
  const Analysis a = solved(with_tab(Face::top, {0, 0, -kN}, 1));
  const Analysis rigid_face = solved(with_tab(Face::top, {0, 0, -kN}, rigid_joints));
  const double soft = -(moved(a, "ear") - moved(a, "ear.axis")).z();
  const double stiff = -(moved(rigid_face, "ear") - moved(rigid_face, "ear.axis")).z();
  // 40 x 40 x 3: b 37 mm, D = 210000 27/(12 0.91) N mm, C_N between 209 and 265 by logarithms.
  // The steel's own Poisson's ratio is 0.296.
  const double D = 210e9 * 27e-9 / (12 * 0.91), b = 0.037;
  const double C_N = 209 * std::pow(265.0 / 209, (40.0 / 37 - 1) / 0.5);
  truth("what the face adds to the way of a tab under 1 kN, mm",
        rederived("N b^2/(C_N D), by hand"), (soft - stiff) * 1e3,
        within_rel(kN * b * b / (C_N * D) * 1e3, 4e-3));
  // Rigid: the plate of 160 mm2, and the solid block of 1600 mm2 inside the tube.
  truth("shortening of plate and block, mm", rederived("N L/(E A), by hand"), stiff * 1e3,
        within_rel(kN * (0.025 / 160e-6 + 0.020 / 1600e-6) / 210e9 * 1e3, 1e-6));
}

TEST_CASE("a tab bends the weak way like the plate that it is", "[truth]") {
  const Analysis a = solved(with_tab(Face::top, {0, kN / 10, 0}, rigid_joints));
  const Eigen::Vector3d from_face = moved(a, "ear") - moved(a, "ear.face");
  // Turned with the foot, too: the twist of the tube at the foot times 25 mm.
  size_t foot = 0;
  while (a.frame.nodes[foot].name != "ear.face") ++foot;
  const double turn = a.cases[0].solution.displacements[6 * static_cast<Eigen::Index>(foot) + 3];
  const double bent = from_face.y() + turn * 0.025;  // u_y = -theta_x z
  const double I = 0.040 * std::pow(0.004, 3) / 12, A = 160e-6, G = 210e9 / 2.6;
  const double k = 10 * 1.3 / (12 + 11 * 0.3);  // Cowper, rectangle
  truth("100 N across a tab 4 x 40, 25 mm out: its tip, mm",
        rederived("F L^3/(3 E I) + F L/(k G A), Cowper's k"), bent * 1e3,
        within_rel((100 * std::pow(0.025, 3) / (3 * 210e9 * I) + 100 * 0.025 / (k * G * A)) * 1e3,
                   1e-2));
}

TEST_CASE("an attachment that carries nothing changes nothing else") {
  Frame bare = cantilever_40();
  push(bare, "B", {0, 100, -kN});
  Frame f = bare;
  f.attachments = {tab("ear", "rail", 0.3, Face::left), tab("lug", "rail", 0.6, Face::bottom)};
  const Analysis without = solved(bare), with = solved(expanded(f));
  CHECK((moved(with, "B") - moved(without, "B")).norm() < 1e-9 * moved(without, "B").norm());
  CHECK((with.cases[0].members[0].from - without.cases[0].members[0].from).norm() < 1e-6);
  CHECK_THAT(with.mass.tubes, WithinRel(without.mass.tubes, 1e-12));
  CHECK_THAT(*with.cases[0].members[0].checks.yield.utilisation,
             WithinRel(*without.cases[0].members[0].checks.yield.utilisation, 1e-9));
}

TEST_CASE("a tube buckles at its own length whatever hangs on it") {
  Frame bare = cantilever_40();
  push(bare, "B", {-kN, 0, 0});
  Frame f = bare;
  f.attachments = {tab("ear", "rail", 0.5, Face::left)};
  const Analysis without = solved(bare), with = solved(expanded(f));
  CHECK_THAT(*with.cases[0].members[0].checks.buckling.utilisation,
             WithinRel(*without.cases[0].members[0].checks.buckling.utilisation, 0.02));
}

TEST_CASE("a longer foot, a through plate and a pair are never softer than a single tab") {
  const Frame f = with_tab(Face::top, {0, 0, 0}, 1);
  const Attachment& single = f.attachments[0];
  const Eigen::Vector3d foot(0.5, 0, 0.02), hole(0.5, 0, 0.045);
  const JointFlexibility base = attachment_arm(f, single, foot, hole).face;
  for (const AttachmentKind kind : {AttachmentKind::through_plate, AttachmentKind::pair}) {
    Attachment other = single;
    other.kind = kind;
    other.gap = 0.016;
    const JointFlexibility face = attachment_arm(f, other, foot, hole).face;
    CHECK(face.axial <= base.axial);
    CHECK(face.bending[0] <= base.bending[0]);
    CHECK(face.bending[1] <= base.bending[1]);
  }
  Attachment longer = single;
  longer.length = 0.060;
  CHECK(attachment_arm(f, longer, foot, hole).face.axial < base.axial);
}

TEST_CASE("a saddle stands on walls that do not give") {
  const Frame f = with_tab(Face::top, {0, 0, 0}, 1);
  Attachment saddle = f.attachments[0];
  saddle.kind = AttachmentKind::saddle;
  CHECK(attachment_arm(f, saddle, {0.5, 0, 0.02}, {0.5, 0, 0.045}).face.none());
}

TEST_CASE("every kind has a section and a face that gives way") {
  const Frame f = with_tab(Face::top, {0, 0, 0}, 1);
  const Eigen::Vector3d foot(0.5, 0, 0.02), hole(0.5, 0, 0.045);
  for (const AttachmentKind kind :
       {AttachmentKind::tab, AttachmentKind::cross_tab, AttachmentKind::pair,
        AttachmentKind::through_plate, AttachmentKind::nut, AttachmentKind::sleeve,
        AttachmentKind::bolt}) {
    Attachment a = f.attachments[0];
    a.kind = kind;
    a.gap = 0.012;
    a.length = 0.020;
    const AttachmentArm arm = attachment_arm(f, a, foot, hole);
    for (const double value :
         {arm.plate.A, arm.plate.Iy, arm.plate.Iz, arm.plate.It, arm.face.axial,
          arm.face.bending[0], arm.face.bending[1], arm.block.Iy}) {
      CHECK(value > 0);
      CHECK(std::isfinite(value));
    }
  }
}

}  // namespace tubewright::attachment_arm_test
