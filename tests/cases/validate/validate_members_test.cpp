// Nodes and members that cannot be, against the rank of what releases leave of a member's joints.
#include <Eigen/LU>
#include <limits>

#include "cases/frame/sensible_ranges.h"
#include "cases/frame/wording.h"
#include "cases/validate/validate_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_members_test {

using testing::add_member;
using testing::add_node;
using testing::braced_rectangle;
using testing::text_of;

namespace {

Diagnostics faults(const Frame& f) {
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  REQUIRE(diagnostics.empty());
  validate_members(f, names, diagnostics);
  return diagnostics;
}

/// Displacement along direction `d` (Fx Fy Fz Mx My Mz) of the point at `x` of a rigid bar, by the
/// six motions of the bar: three translations, three rotations about its start.
Eigen::RowVectorXd motion_at(double x, int d) {
  Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(6);
  row[d] = 1;
  if (d == 1) row[5] = x;   // w x r: a turn about z moves the point along y,
  if (d == 2) row[4] = -x;  // one about y along -z
  return row;
}

/// A bit of `released` for each of Fx to Mz at the start, then at the end.
bool can_move(unsigned released) {
  Eigen::MatrixXd held = Eigen::MatrixXd::Zero(12, 6);
  for (int i = 0; i < 12; ++i) {
    if ((released >> i & 1u) == 0) held.row(i) = motion_at(i < 6 ? 0 : 1, i % 6);
  }
  return Eigen::FullPivLU<Eigen::MatrixXd>(held).rank() < 6;
}

}  // namespace

// A bar is held by its joints if no rigid motion of it leaves all joined directions at rest.
TEST_CASE(
    "a member is called loose exactly when its joints leave it a rigid motion, in all 4096 sets") {
  Frame f = braced_rectangle();
  f.members.resize(1);
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  int wrong = 0, loose = 0;
  for (unsigned released = 0; released < 4096; ++released) {
    f.members[0].release_from = f.members[0].release_to = welded;
    for (int i = 0; i < 12; ++i) {
      EndConnection& end = i < 6 ? f.members[0].release_from : f.members[0].release_to;
      if ((released >> i & 1u) != 0) end[i % 6] = 0;
    }
    diagnostics.clear();
    validate_members(f, names, diagnostics);
    const bool called_loose =
        diagnostics.size() == 1 &&
        diagnostics[0].message.find(" is loose: its releases") != std::string::npos;
    wrong += called_loose == can_move(released) && diagnostics.size() <= 1 ? 0 : 1;
    loose += called_loose ? 1 : 0;
  }
  CHECK(wrong == 0);
  CHECK((loose > 0 && loose < 4096));
}

TEST_CASE(
    "a spring in a joint holds a member as a weld does, but must be of a stiffness above zero") {
  Frame f = braced_rectangle();
  Member& m = f.members[4];
  m.release_from[3] = m.release_to[3] = 0;
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("let it spin about its own axis"));
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("keep `Mx` at one end"));
  m.release_to[3] = 50;
  CHECK(faults(f).empty());
  for (const double bad : {-50.0, 1e-9, 1e300, std::numeric_limits<double>::quiet_NaN()}) {
    m.release_to[3] = bad;
    const Diagnostics diagnostics = faults(f);
    REQUIRE(diagnostics.size() == 1);
    CHECK(diagnostics[0].message == "member `AC` has an impossible `release_to`");
  }
}

TEST_CASE("a member with an end that does not exist is told so once for each such end") {
  Frame f = braced_rectangle();
  f.members[4].from = f.members[4].to = "X";
  CHECK(faults(f).size() == 1);
  f.members[4].to = "Y";
  const Diagnostics diagnostics = faults(f);
  REQUIRE(diagnostics.size() == 2);
  CHECK(diagnostics[0].message == "member `AC` names node `X`, which does not exist");
  CHECK(diagnostics[1].message == "member `AC` names node `Y`, which does not exist");
  CHECK(diagnostics[0].place.line == f.members[4].place.line);
}

// shortest_member: a millionth of the frame's size, here the diagonal of 0.3, 0.4, 1.2 m: 1.3 m.
TEST_CASE("how short a member may be goes by the size of the frame") {
  for (const auto& [length, sound] : {std::pair{1.2e-6, false}, {1.4e-6, true}}) {
    Frame f = braced_rectangle();
    f.nodes[1].at = {0.3, 0, 0};
    f.nodes[2].at = {0.3, 0.4, 1.2};
    add_node(f, "A2", length, 0, 0);
    add_member(f, "dot", "A2", "A");
    const std::string text = text_of(faults(f));
    CHECK(text.empty() == sound);
    if (!sound) CHECK_THAT(text, ContainsSubstring("`A2` and `A` are in the same place"));
  }
}

TEST_CASE("each kind of member needs its section or its rate, and only beams may have releases") {
  for (const MemberKind kind :
       {MemberKind::beam, MemberKind::link, MemberKind::cable, MemberKind::spring}) {
    const bool spring = kind == MemberKind::spring;
    Frame f = braced_rectangle();
    Member& m = f.members[4];
    m.kind = kind;
    m.rate = 1e4;
    m.section = spring ? "" : "tube";
    CHECK(faults(f).empty());
    m.section = spring ? "tube" : "pipe";
    CHECK_THAT(text_of(faults(f)), ContainsSubstring(spring ? "is a spring and has no section"
                                                            : "names section `pipe`"));
    m.section = spring ? "" : "tube";
    m.release_from[5] = 0;
    CHECK(faults(f).empty() == (kind == MemberKind::beam));
  }
}

TEST_CASE("roll, buckling length and throat of a weld are reported by the key they stand under") {
  Frame f = braced_rectangle();
  f.members[0].roll = 101;
  f.members[1].buckling_length = {0.09, 1.0};
  f.members[2].buckling_length = {101.0, 101.0};  // one number in the file: one fault
  f.members[3].weld_throat = 0;
  f.members[4].buckling_length = {0.1, 100.0};
  const Diagnostics diagnostics = faults(f);
  std::string messages;
  for (const Diagnostic& p : diagnostics) messages += p.message + "; ";
  CHECK(messages ==
        "member `AB` has an impossible `roll`; member `BC` has an impossible `buckling_length`; "
        "member `CD` has an impossible `buckling_length`; member `DA` has an impossible "
        "`weld_throat`; ");
}

TEST_CASE("a node may be a kilometre away and no further, in any direction") {
  for (int axis = 0; axis < 3; ++axis) {
    for (const double sign : {-1.0, 1.0}) {
      Frame f = braced_rectangle();
      Diagnostics diagnostics;
      f.nodes[2].at[axis] = sign * 1000;
      validate_nodes(f, diagnostics);
      CHECK(diagnostics.empty());
      f.nodes[2].at[axis] = sign * 1000.1;
      validate_nodes(f, diagnostics);
      REQUIRE(diagnostics.size() == 1);
      CHECK(diagnostics[0].message == "node `C` is in an impossible place");
      CHECK(diagnostics[0].place.line == f.nodes[2].place.line);
    }
  }
  Diagnostics diagnostics;
  validate_nodes(Frame{}, diagnostics);
  CHECK(text_of(diagnostics) ==
        "the frame has no nodes | give the joints of the tubes under `nodes`\n");
}

}  // namespace tubewright::validate_members_test
