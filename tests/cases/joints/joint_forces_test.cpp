// Section forces of a frame in the directions of its joints, against statics.
#include "cases/joints/joint_forces.h"

#include <cmath>
#include <limits>

#include "cases/analysis/analysis.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::joint_forces_test {

using namespace tubewright::testing;

namespace {

/// A tube A-B-C along x, fixed at both ends, with a post on B that is 0.2 m high.
Frame post_on_chord() {
  Frame f = empty_frame();
  add_node(f, "A", -0.3, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_node(f, "C", 0.3, 0, 0);
  add_node(f, "D", 0, 0, 0.2);
  add_member(f, "chord.1", "A", "B").tube = "chord";
  add_member(f, "chord.2", "B", "C").tube = "chord";
  add_member(f, "post", "B", "D");
  for (const char* end : {"A", "C"}) {
    f.supports.push_back({end, {true, true, true, true, true, true}, {}, {}});
  }
  f.limits.yield_factor = 1;
  return f;
}

struct Solved {
  Frame frame;
  NumberedFrame numbered;
  std::vector<MemberFacts> facts;
  std::vector<std::array<JointEnd, 2>> ends;
  BeamEnds forces;

  explicit Solved(const Frame& f)
      : frame(f),
        numbered(build_model(f)),
        facts(member_facts(f, numbered)),
        ends(joint_ends(f, numbered)),
        forces(beam_ends(answer_of(analyse(f)).cases[0].solution.beams)) {}

  StandingTube post(double factor = 1) const {
    const size_t post_member = 2;
    for (const auto& end : ends[post_member]) {
      if (end.on.empty()) continue;
      return standing_tube({numbered, facts, forces, factor}, end.on[0].joint->tubes[0]);
    }
    FAIL("the post stands on nothing");
    return {};
  }
};

}  // namespace

TEST_CASE("forces on a post become its axial force and moments at the chord") {
  Frame f = post_on_chord();
  add_case(f, "push").forces.push_back({"D", {300, 500, -2000}, {}});
  const Solved s(f);
  const StandingTube t = s.post();
  CHECK_THAT(t.brace.N, WithinRel(-2000, 1e-9));
  CHECK_THAT(std::abs(t.brace.M_ip), WithinRel(300 * 0.2, 1e-9));
  CHECK_THAT(std::abs(t.brace.M_op), WithinRel(500 * 0.2, 1e-9));
  CHECK_THAT(std::abs(t.chord_moment), WithinRel(500 * 0.2, 1e-9));
  CHECK_THAT(s.post(1.5).brace.N, WithinRel(-3000, 1e-9));
  CHECK_THAT(t.brace.angle, WithinRel(std::acos(0.0), 1e-9));
  CHECK(t.brace.b1 == 0.025);
  CHECK_FALSE(t.secondary);
}

TEST_CASE("it does not matter from which end a tube is drawn") {
  Frame f = post_on_chord();
  add_case(f, "push").forces.push_back({"D", {300, 500, -2000}, {}});
  Frame drawn_down = f;
  std::swap(drawn_down.members[2].from, drawn_down.members[2].to);
  const StandingTube up = Solved(f).post(), down = Solved(drawn_down).post();
  CHECK_THAT(down.brace.N, WithinRel(up.brace.N, 1e-9));
  CHECK_THAT(down.brace.M_ip, WithinRel(up.brace.M_ip, 1e-9));
  CHECK_THAT(down.brace.M_op, WithinRel(up.brace.M_op, 1e-9));
  CHECK_THAT(down.chord_moment, WithinRel(up.chord_moment, 1e-9));
}

TEST_CASE("the chord's stress is the greatest compression on either side") {
  Frame f = post_on_chord();
  add_case(f, "pull").forces.push_back({"B", {4000, 0, 0}, {}});
  const Solved s(f);
  const JointEnd& end = s.ends[2][0];
  const ChordTube c = chord_tube({s.numbered, s.facts, s.forces, 1}, *end.on[0].joint);
  // Half of it is pulled in front of the joint, half pushed behind.
  CHECK_THAT(c.stress, WithinRel(2000 / s.facts[0].section.A, 1e-6));
  CHECK_THAT(c.axial_share, WithinRel(2000 / (s.facts[0].section.A * 235e6), 1e-6));
  CHECK(c.height == 0.025);
  CHECK(c.wall == 0.002);
}

TEST_CASE("a load along a tube makes its moments primary") {
  Frame f = post_on_chord();
  add_member(f, "stay", "A", "D");
  add_case(f, "pull").forces.push_back({"D", {100, 0, 0}, {}});
  CHECK(Solved(f).post().secondary);
  LineLoad wind;
  wind.member = "post";
  wind.load = {500, 0, 0};
  f.cases[0].line_loads.push_back(wind);
  CHECK_FALSE(Solved(f).post().secondary);
}

TEST_CASE("aluminium has what the heat of the weld leaves, over 1.1") {
  MemberFacts f;
  f.material.yield = 250e6;
  CHECK(joint_strength(f) == 250e6);
  f.metal = Metal::aluminium;
  CHECK(std::isnan(joint_strength(f)));
  f.heat_affected.yield = 110e6;
  CHECK_THAT(joint_strength(f), WithinRel(100e6, 1e-12));  // gamma_M1 of EN 1999-1-1, MEMORY
}

}  // namespace tubewright::joint_forces_test
