// Which checks each kind gets, from forces set up by hand, and from a solved frame.
#include "cases/attachment_checks/attachment_check.h"

#include <algorithm>
#include <cmath>

#include "cases/attachment_checks/bolts.h"
#include "cases/attachment_checks/plate_on_face.h"
#include "cases/verdict/frame_studies.h"
#include "tests/cases/attachments/attachment_frames.h"

namespace tubewright::attachment_check_test {

using testing::answer_of;
using testing::cantilever_40;
using testing::expanded;
using testing::push;
using testing::tab;

namespace {

constexpr double mm = 1e-3;
constexpr double far = 25 * mm;  // of the hole from the face

Attachment of_kind(AttachmentKind kind, double at = 0.5) {
  Attachment a = tab("ear", "rail", at, Face::top);
  a.kind = kind;
  if (kind == AttachmentKind::pair) a.gap = 12 * mm;
  if (kind == AttachmentKind::cross_tab) a.length = 25 * mm;
  if (kind == AttachmentKind::nut || kind == AttachmentKind::sleeve) a.length = 16 * mm;
  return a;
}

/// Held at both ends, so that the foot is far from an open one.
Frame beam_with(Attachment a) {
  Frame f = cantilever_40();
  SupportEntry other = f.supports[0];
  other.node = "B";
  f.supports.push_back(other);
  testing::add_node(f, "C", 1, 0, 1);
  testing::add_member(f, "post", "B", "C");
  testing::add_node(f, "D", 0, 0, 1);
  testing::add_member(f, "post_2", "A", "D");
  f.attachments.push_back(std::move(a));
  return expanded(f);
}

/// A force at the hole, and what it is at the foot, without anything in the tube.
AttachmentResult under(const Frame& f, const Eigen::Vector3d& force) {
  const NumberedFrame n = build_model(f);
  AttachmentForces forces;
  forces.hole = force;
  forces.foot = -force;
  forces.foot_moment = -Eigen::Vector3d(0, 0, far).cross(force);
  const BeamEnds tubes(n.model.beams.size());
  return attachment_result(f, n, 0, forces, tubes, 1);
}

const CheckResult& check(const AttachmentResult& r, const std::string& name) {
  const auto found = std::find_if(r.checks.begin(), r.checks.end(),
                                  [&](const NamedCheck& c) { return c.name == name; });
  INFO(name);
  REQUIRE(found != r.checks.end());
  return found->result;
}

double used(const AttachmentResult& r, const std::string& name) {
  const CheckResult& c = check(r, name);
  INFO(name << ": " << c.reason);
  REQUIRE(c.utilisation);
  return *c.utilisation;
}

std::vector<std::string> names(const AttachmentResult& r) {
  std::vector<std::string> list;
  for (const NamedCheck& c : r.checks) list.push_back(c.name);
  return list;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("each kind has the checks of what can fail in it") {
  const auto of = [](AttachmentKind kind) {
    return names(under(beam_with(of_kind(kind)), {0, 0, 100}));
  };
  const Names plate = {"face", "weak_way", "weld", "plate", "bolt", "bearing", "plate_net"};
  CHECK(of(AttachmentKind::tab) == plate);
  CHECK(of(AttachmentKind::through_plate) == plate);
  CHECK(of(AttachmentKind::cross_tab) == plate);
  CHECK(of(AttachmentKind::pair) == Names{"face", "weld", "plate", "bolt", "bearing", "plate_net"});
  CHECK(of(AttachmentKind::saddle) == of(AttachmentKind::pair));
  CHECK(of(AttachmentKind::nut) == Names{"face", "weld", "bolt", "net_section"});
  CHECK(of(AttachmentKind::sleeve) == Names{"face", "weld", "bolt", "net_section"});
  CHECK(of(AttachmentKind::bolt) == Names{"face", "crushing", "bolt", "bearing", "net_section"});
}

TEST_CASE("a pull along its plate bends a tab in its plane: face by 7.5.2") {
  const Frame f = beam_with(of_kind(AttachmentKind::tab));
  const AttachmentResult r = under(f, {800, 0, 500});
  const PlatedTube t{0.040, 0.040, 0.003, 235e6, 0, false};
  const FacePlate p{0.004, 0.040, 235e6};
  CHECK_THAT(
      used(r, "face"),
      WithinRel(500 / along_plate_resistance(t, p) + 800 * far / along_plate_moment(t, p), 1e-12));
  CHECK_THAT(
      used(r, "bolt"),
      WithinRel(std::hypot(800.0, 500.0) / bolt_shear_resistance(*bolt_of(0.008, "8.8")), 1e-12));
  CHECK(!check(r, "weak_way").needed);
}

TEST_CASE("a tab that is pulled across its plane is not proven, a pair and a through plate are") {
  const Eigen::Vector3d aside(0, 400, 0);
  const AttachmentResult single = under(beam_with(of_kind(AttachmentKind::tab)), aside);
  CHECK(lacks_number(check(single, "weak_way")));
  CHECK_THAT(check(single, "weak_way").reason, ContainsSubstring("`pair`"));
  for (const AttachmentKind kind :
       {AttachmentKind::pair, AttachmentKind::saddle, AttachmentKind::through_plate}) {
    const AttachmentResult r = under(beam_with(of_kind(kind)), aside);
    CHECK(std::none_of(r.checks.begin(), r.checks.end(),
                       [](const NamedCheck& c) { return lacks_number(c.result); }));
  }
  // And the other way round: a plate across the tube takes that, but not a pull along it.
  const Frame across = beam_with(of_kind(AttachmentKind::cross_tab));
  CHECK(!check(under(across, aside), "weak_way").needed);
  CHECK(lacks_number(check(under(across, {400, 0, 0}), "weak_way")));
}

TEST_CASE("a pair takes a moment about the tube by a push and a pull, on one plate's resistance") {
  const Frame f = beam_with(of_kind(AttachmentKind::pair));
  const PlatedTube t{0.040, 0.040, 0.003, 235e6, 0, false};
  const FacePlate p{0.004, 0.040, 235e6};
  const double couple = 400 * far / 0.016;
  CHECK_THAT(used(under(f, {0, 400, 0}), "face"),
             WithinRel(2 * couple / along_plate_resistance(t, p), 1e-12));
  CHECK_THAT(used(under(f, {0, 0, 900}), "face"),
             WithinRel(900 / along_plate_resistance(t, p), 1e-12));
}

TEST_CASE("a bolt tightened across a thin tube crushes it, unless a spacer is there") {
  Attachment a = of_kind(AttachmentKind::bolt);
  const AttachmentResult r = under(beam_with(a), {0, 0, 0});
  const Bolt m8 = *bolt_of(0.008, "8.8");
  CHECK_THAT(used(r, "crushing"),
             WithinRel(usual_preload(m8) / face_under_washer(235e6, 0.003, 0.040, 0.016), 1e-12));
  CHECK(used(r, "crushing") > 1);
  a.bolt->preload = 2000;
  CHECK(used(under(beam_with(a), {0, 0, 0}), "crushing") < 1);
  a.spacer = true;
  a.bolt->preload.reset();
  CHECK(!check(under(beam_with(a), {0, 0, 0}), "crushing").needed);
}

TEST_CASE("a bolt through both walls bears on the near one with the force and its couple") {
  const Frame f = beam_with(of_kind(AttachmentKind::bolt));
  // 300 N, 25 mm out, walls 37 mm apart: 300 (1 + M/300/37), M = 300 25 at the face.
  const double near_wall = 300 + 300 * far / 0.037;
  const double bears = bearing_resistance(*bolt_of(0.008, "8.8"), 360e6, 0.003, 1, 0.020);
  CHECK_THAT(used(under(f, {300, 0, 0}), "bearing"), WithinRel(near_wall / bears, 1e-12));
}

TEST_CASE("the tube with its holes is weaker than the tube") {
  Frame f = beam_with(of_kind(AttachmentKind::bolt));
  const NumberedFrame n = build_model(f);
  BeamEnds tubes(n.model.beams.size());
  for (auto& ends : tubes) ends = {SectionForces{.N = 50e3}, SectionForces{.N = 50e3}};
  const Section& s = n.model.sections[0];
  const double share = used(attachment_result(f, n, 0, {}, tubes, 1), "net_section");
  CHECK(share > 50e3 / (s.A * 235e6));
  CHECK_THAT(
      share,
      WithinRel(50e3 / net_tension_resistance(s.A, s.A - 2 * 0.009 * 0.003, 235e6, 360e6), 1e-12));
}

TEST_CASE("compression of the tube weakens its face, and the safety factor counts once") {
  const Frame f = beam_with(of_kind(AttachmentKind::tab));
  const NumberedFrame n = build_model(f);
  BeamEnds pressed(n.model.beams.size());
  for (auto& ends : pressed) ends = {SectionForces{.N = -60e3}, SectionForces{.N = -60e3}};
  AttachmentForces forces;
  forces.hole = {0, 0, 500};
  forces.foot = -forces.hole;
  const double bare = used(under(f, {0, 0, 500}), "face");
  CHECK(used(attachment_result(f, n, 0, forces, pressed, 1), "face") > bare);
  const BeamEnds nothing(n.model.beams.size());
  CHECK_THAT(used(attachment_result(f, n, 0, forces, nothing, 1.5), "face"),
             WithinRel(1.5 * bare, 1e-12));
}

TEST_CASE("near an open end half of the face counts, at a joined or capped end all of it") {
  Frame f = cantilever_40();
  f.attachments = {tab("ear", "rail", 0.95, Face::top)};
  Frame capped = f;
  capped.members[0].capped[1] = true;
  f = expanded(f);
  capped = expanded(capped);
  CHECK_THAT(to_open_end(f, build_model(f), f.attachments[0]), WithinAbs(0.05, 1e-9));
  const double open = used(under(f, {0, 0, 500}), "face");
  CHECK_THAT(
      open, WithinRel(2 * used(under(beam_with(of_kind(AttachmentKind::tab)), {0, 0, 500}), "face"),
                      1e-12));
  // A in the cantilever is an end with nothing joined, too, but far away.
  CHECK_THAT(used(under(capped, {0, 0, 500}), "face"), WithinRel(open / 2, 1e-12));
}

TEST_CASE("without a bolt, with aluminium or without strengths there is no number, and why") {
  Attachment a = of_kind(AttachmentKind::tab);
  a.bolt.reset();
  CHECK(lacks_number(check(under(beam_with(a), {0, 0, 1}), "bolt")));
  Attachment light = of_kind(AttachmentKind::tab);
  light.material = "EN AW-6082-T6";
  const AttachmentResult r = under(beam_with(light), {0, 0, 1});
  CHECK(lacks_number(check(r, "face")));
  CHECK(nearest_limit(r.checks) == nullptr);
}

TEST_CASE("an attachment that fails fails its case and the frame") {
  Frame f = cantilever_40();
  f.attachments = {tab("ear", "rail", 0.1, Face::top)};
  f.attachments[0].bolt->diameter = 0.005;
  f.attachments[0].bolt->grade = "4.6";
  push(f, "ear", {0, 0, 3000});
  f = expanded(f);
  const FrameStudies s = answer_of(verdict_check(f));
  const CaseResult& c = s.analysis.cases[0];
  REQUIRE(c.attachments.size() == 1);
  CHECK((c.attachments[0].forces.hole - Eigen::Vector3d(0, 0, 3000)).norm() < 1e-6);
  REQUIRE(c.worst);
  CHECK(c.worst->item == "ear");
  CHECK(c.worst->check == "bolt");
  CHECK(s.verdict.answer == Verdict::Answer::fail);
}

TEST_CASE("a tab loaded across its plane leaves the frame not proven, one in its plane passes") {
  const auto answer = [](const Eigen::Vector3d& force) {
    Frame f = cantilever_40();
    f.attachments = {tab("ear", "rail", 0.1, Face::top)};
    push(f, "ear", force);
    return answer_of(verdict_check(expanded(f))).verdict;
  };
  const Verdict aside = answer({0, 300, 0});
  CHECK(aside.answer == Verdict::Answer::not_proven);
  REQUIRE(!aside.not_proven.empty());
  CHECK_THAT(aside.not_proven[0], ContainsSubstring("ear: no weak way check"));
  CHECK(answer({300, 0, 0}).answer == Verdict::Answer::pass);
}

TEST_CASE("large displacements and second order come to the same while loads are small") {
  Frame f = cantilever_40();
  f.attachments = {tab("ear", "rail", 0.3, Face::top)};
  push(f, "ear", {5, 0, -5});
  f = expanded(f);
  const auto face = [&](const AnalysisOptions& options) {
    return used(answer_of(analyse(f, {}, options)).cases[0].attachments[0], "face");
  };
  const double plain = face({});
  CHECK_THAT(face({.second_order = true}), WithinRel(plain, 1e-4));
  CHECK_THAT(face({.large_displacement = true}), WithinRel(plain, 1e-3));
}

}  // namespace tubewright::attachment_check_test
