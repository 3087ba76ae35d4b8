#include "cases/validate/validate.h"

#include <limits>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_test {

using testing::add_case;
using testing::add_member;
using testing::add_node;
using testing::braced_rectangle;
using testing::empty_frame;
using testing::text_of;

TEST_CASE("a sound frame has no faults") { CHECK(text_of(validate(braced_rectangle())).empty()); }

TEST_CASE("an empty frame is told what it lacks") {
  const std::string text = text_of(validate(Frame{}));
  CHECK_THAT(text, ContainsSubstring("the frame has no nodes"));
  CHECK_THAT(text, ContainsSubstring("the frame has no members"));
}

TEST_CASE("every name that leads nowhere is reported, with the nearest that does") {
  Frame f = braced_rectangle();
  f.members[0].to = "Bb";
  f.members[1].section = "tubes";
  f.sections[0].material = "s235";
  SupportEntry s;
  s.node = "Aa";
  s.restrained[0] = true;
  f.supports.push_back(s);
  CarriedMass load;
  load.name = "load";
  load.mass = 10;
  load.on = {"A", "E"};
  f.masses.push_back(load);
  Case& push = add_case(f, "push");
  push.forces.push_back({"Cc", {0, 0, -100}, {}});
  push.line_loads.push_back({"ACC", {0, 0, -100}, {}});
  add_case(f, "sum", CaseKind::combine).of.push_back({"posh", 1, {}});
  const std::string text = text_of(validate(f));
  INFO(text);
  for (const char* part :
       {"member `AB` names node `Bb`, which does not exist | did you mean `B`?",
        "member `BC` names section `tubes`, which does not exist | did you mean `tube`?",
        "section `tube` names material `s235`, which does not exist | did you mean `S235`?",
        "`supports` names node `Aa`, which does not exist | did you mean `A`?",
        "mass `load` names node `E`, which does not exist | define it under `nodes`",
        "case `push` names node `Cc`, which does not exist | did you mean `C`?",
        "case `push` names member `ACC`, which does not exist | did you mean `AC`?",
        "case `sum` names case `posh`, which does not exist | did you mean `push`?"}) {
    CHECK_THAT(text, ContainsSubstring(part));
  }
}

TEST_CASE("faults come in the order of the file, those without a place last") {
  Frame f = braced_rectangle();
  f.members[3].section = "x1y2z3";
  f.members[0].section = "u1v2w3";
  f.nodes[0].at.x() = 1e300;
  f.limits.yield_factor = -1;
  const Problems problems = validate(f);
  INFO(text_of(problems));
  REQUIRE(problems.size() == 4);
  CHECK(problems[0].place.line < problems[1].place.line);
  CHECK(problems[1].place.line < problems[2].place.line);
  CHECK(problems[3].place.line == 0);
}

TEST_CASE("a fault of a path is reported once, not for every piece") {
  Frame f = braced_rectangle();
  for (const int i : {0, 1, 2}) {
    f.members[i].tube = "ring";
    f.members[i].name = "ring." + std::to_string(i + 1);
    f.members[i].section = "q";
    f.members[i].place = f.members[0].place;
  }
  CHECK(validate(f).size() == 1);
}

TEST_CASE("a piece of a path that has the name of another member is reported") {
  Frame f = braced_rectangle();
  f.members[1].name = "AB";
  const Problems problems = validate(f);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message == "member `AB` is given twice");
  CHECK(problems[0].place.line == f.members[1].place.line);
}

TEST_CASE("a load may name a whole tube as well as one of its pieces") {
  Frame f = braced_rectangle();
  f.members[0].tube = "ring";
  f.members[0].name = "ring.1";
  Case& c = add_case(f, "c");
  c.line_loads = {{"ring", {0, 0, -1}, {}}, {"ring.1", {0, 0, -1}, {}}};
  CHECK(text_of(validate(f)).empty());
}

TEST_CASE("supports, masses and loads on a node that no member joins are reported") {
  Frame f = braced_rectangle();
  add_node(f, "away", 2, 0, 0);
  SupportEntry s;
  s.node = "away";
  s.restrained[0] = true;
  f.supports.push_back(s);
  add_case(f, "push").forces.push_back({"away", {0, 0, -100}, {}});
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("`supports` names node `away`, which no member joins"));
  CHECK_THAT(text, ContainsSubstring("case `push` names node `away`, which no member joins"));
}

TEST_CASE("a support that holds nothing, or displaces what it does not hold, is reported") {
  Frame f = braced_rectangle();
  SupportEntry s;
  s.node = "A";
  s.displacement[2] = -0.002;
  f.supports.push_back(s);
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("support `A` holds nothing"));
  CHECK_THAT(text, ContainsSubstring("support `A` displaces `z` without holding it"));
}

TEST_CASE("a mass must weigh something and rest on different nodes") {
  Frame f = braced_rectangle();
  CarriedMass m;
  m.name = "cargo";
  f.masses.push_back(m);
  m.name = "driver";
  m.mass = 75;
  m.on = {"A", "A"};
  f.masses.push_back(m);
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("mass `cargo` has an impossible `mass`"));
  CHECK_THAT(text, ContainsSubstring("mass `cargo` rests on nothing"));
  CHECK_THAT(text, ContainsSubstring("mass `driver` names node `A` twice under `on`"));
}

TEST_CASE("a member needs two different places") {
  Frame f = braced_rectangle();
  f.members[4].to = "A";
  CHECK_THAT(text_of(validate(f)),
             ContainsSubstring("member `AC` starts and ends at the same node `A`"));
  f = braced_rectangle();
  add_node(f, "A2", 1e-9, 0, 0);  // a nanometre in a frame of 0.7 m
  add_member(f, "dot", "A", "A2");
  CHECK_THAT(text_of(validate(f)),
             ContainsSubstring("member `dot` has no length: `A` and `A2` are in the same place"));
}

TEST_CASE("numbers beyond all measure and numbers that are none are reported, not computed with") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double wild : {1e300, -1e300, nan, std::numeric_limits<double>::infinity()}) {
    Frame f = braced_rectangle();
    f.nodes[1].at.y() = wild;
    CHECK_THAT(text_of(validate(f)), ContainsSubstring("node `B` is in an impossible place"));

    f = braced_rectangle();
    f.gravity = wild;
    CHECK_FALSE(validate(f).empty());

    f = braced_rectangle();
    Case& c = add_case(f, "push");
    c.forces.push_back({"A", {0, wild, 0}, {}});
    c.moments.push_back({"A", {0, wild, 0}, {}});
    c.line_loads.push_back({"AC", {wild, 0, 0}, {}});
    c.gravity.z() = wild;
    CHECK(validate(f).size() == 4);
  }
}

TEST_CASE("a point load lies on its member") {
  Frame f = braced_rectangle();
  PointLoad load;
  load.member = "AC";
  load.at = 1.5;
  add_case(f, "push").point_loads.push_back(load);
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("fraction of the length between 0 and 1"));
}

TEST_CASE("a load along a member that only pulls or pushes is refused with a way out") {
  for (const MemberKind kind : {MemberKind::link, MemberKind::cable, MemberKind::spring}) {
    Frame f = braced_rectangle();
    f.members[4].kind = kind;
    if (kind == MemberKind::spring) {
      f.members[4].section.clear();
      f.members[4].rate = 1e5;
    }
    CHECK(validate(f).empty());
    Case& c = add_case(f, "push");
    c.line_loads.push_back({"AC", {0, 0, -1}, {}});
    PointLoad point;
    point.member = "AC";
    c.point_loads.push_back(point);
    const Problems problems = validate(f);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].message == "case `push` loads member `AC`, which carries axial force only");
    CHECK_THAT(problems[0].advice, ContainsSubstring("`forces`"));
  }
}

// A beam turns about its own axis if Mx is free at both ends, slides if Fx is, and with two hinges
// and a third freedom in one plane it is a mechanism in that plane (law of statics).
TEST_CASE("releases that leave a member loose are reported, others are not") {
  struct Row {
    std::vector<int> from, to;
    const char* motion;
  };
  const Row rows[] = {
      {{3}, {3}, "spin about its own axis"},
      {{0}, {0}, "slide along its own axis"},
      {{5, 1}, {5}, "swing freely in its x-y plane"},
      {{4}, {4, 2}, "swing freely in its x-z plane"},
      {{4, 5}, {4, 5}, nullptr},
      {{3, 4, 5}, {4, 5}, nullptr},
      {{2, 4}, {}, nullptr},
  };
  for (const Row& row : rows) {
    Frame f = braced_rectangle();
    for (const int d : row.from) f.members[4].release_from[d] = 0;
    for (const int d : row.to) f.members[4].release_to[d] = 0;
    const std::string text = text_of(validate(f));
    if (row.motion == nullptr) {
      CHECK(text.empty());
    } else {
      CHECK_THAT(text, ContainsSubstring(row.motion));
    }
  }
}

TEST_CASE("only beams have releases, only springs a rate, and no spring a section") {
  Frame f = braced_rectangle();
  f.members[4].kind = MemberKind::link;
  f.members[4].release_to[4] = 0;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("is a link and has no releases"));
  f = braced_rectangle();
  f.members[4].kind = MemberKind::spring;
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("has an impossible `rate`"));
  CHECK_THAT(text, ContainsSubstring("is a spring and has no section"));
}

TEST_CASE("a negative joint stiffness is refused") {
  Frame f = braced_rectangle();
  f.members[4].release_to[4] = -500;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("has an impossible `release_to`"));
}

TEST_CASE("ten thousand misspelt names are answered in a moment") {
  Frame f = empty_frame();
  for (int i = 0; i < 10000; ++i) {
    add_node(f, "node_number_" + std::to_string(i), i, 0, 0);
    add_member(f, "m" + std::to_string(i), "no_node_" + std::to_string(i),
               "nobody_" + std::to_string(i));
  }
  f.nodes.resize(900);
  CHECK(validate(f).size() == 20000);
}

TEST_CASE("a life needs a spectrum it can have, each cycle of one kind") {
  Frame f = braced_rectangle();
  f.life = Life{};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("`life` has no `spectrum`"));
  f.life->spectrum.push_back({"", "", 0, 100, {}});
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("either `case` or `vertical`"));
  f.life->spectrum = {{"bump", "", 1, 100, {}}};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("either `case` or `vertical`"));
  f.life->spectrum = {{"", "", 1, 100, {}}};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("there is none"));
  f.life->spectrum = {{"bump", "", 0, -1, {}}};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("how often it happens"));
  f.life->spectrum = {{"bump", "", 0, 1000, {}}};
  CHECK(text_of(validate(f)).empty());
}

TEST_CASE("factors of the checks must be possible") {
  Frame f = braced_rectangle();
  f.members[0].buckling_length = {1.0, 0.0};
  f.members[1].weld_throat = -0.003;
  add_case(f, "push").yield_factor = std::numeric_limits<double>::quiet_NaN();
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("a factor of 0.1 to 100"));
  CHECK_THAT(text, ContainsSubstring("weld_throat"));
  CHECK_THAT(text, ContainsSubstring("yield_factor"));
}

}  // namespace tubewright::validate_test
