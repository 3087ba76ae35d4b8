// The frame as a drawing: laws of graphs and of boxes, and tubes in line against random chains.
#include "cases/frame/layout.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <limits>
#include <numeric>
#include <random>

#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::layout_test {

using testing::add_member;
using testing::add_node;
using testing::braced_rectangle;
using testing::empty_frame;
using testing::open_box;

namespace {

/// `pieces` tubes end to end from (1, 2, 3) to (3, 1, 4), named 0, 1, ..., listed and drawn anyhow.
Frame chain(unsigned seed, int pieces) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> u(0, 1);
  Frame f = empty_frame();
  std::vector<double> at = {0, 1};
  for (int i = 1; i < pieces; ++i) at.push_back(u(random));
  std::sort(at.begin(), at.end());
  for (int i = 0; i <= pieces; ++i) {
    add_node(f, "n" + std::to_string(i), 1 + 2 * at[i], 2 - at[i], 3 + at[i]);
    if (i == 0) continue;
    const std::string here = "n" + std::to_string(i - 1), next = "n" + std::to_string(i);
    const bool forward = u(random) < 0.5;
    add_member(f, std::to_string(i - 1), forward ? here : next, forward ? next : here);
  }
  std::shuffle(f.members.begin(), f.members.end(), random);
  return f;
}

std::string names(const Frame& f, const std::vector<int>& members) {
  std::string text;
  for (const int m : members) text += f.members[m].name + ' ';
  return text;
}

}  // namespace

TEST_CASE("a frame is as large as the diagonal of its box, less what lies beyond all measure") {
  Frame f = empty_frame();
  add_node(f, "A", -1, 2, 0);
  CHECK(layout_of(f).size == 0);
  add_node(f, "B", 1, 5, 6);  // 2, 3, 6: diagonal 7 (a Pythagorean quadruple)
  add_node(f, "C", 0, 3, 1);
  CHECK_THAT(layout_of(f).size, WithinRel(7.0, 1e-12));
  add_node(f, "far", 0, 1e9, 0);
  add_node(f, "none", 0, 0, std::numeric_limits<double>::quiet_NaN());
  CHECK_THAT(layout_of(f).size, WithinRel(7.0, 1e-12));
  CHECK(layout_of(Frame{}).size == 0);
}

TEST_CASE("every member with length stands at its two nodes and nowhere else") {
  const Frame f = open_box();
  const Layout l = layout_of(f);
  std::size_t ends = 0;
  for (std::size_t n = 0; n < f.nodes.size(); ++n) {
    CHECK(l.at[n] == f.nodes[n].at);
    ends += l.members_at[n].size();
    for (const int m : l.members_at[n]) {
      const Member& member = f.members[m];
      const std::string& other = f.nodes[l.other_end(m, static_cast<int>(n))].name;
      CHECK((member.from == f.nodes[n].name ? member.to : member.from) == other);
    }
  }
  CHECK(ends == 2 * f.members.size());  // the handshake lemma
}

TEST_CASE("a member with an unknown end, or shorter than a millionth of the frame, has no length") {
  Frame f = braced_rectangle();  // its size is 0.72 m
  f.members[0].to = "nowhere";
  f.members[1].to = f.members[1].from;
  add_node(f, "near", 0.5e-6, 0, 0);
  add_node(f, "apart", 1e-6, 0, 0);
  add_member(f, "too_short", "A", "near");
  add_member(f, "short", "A", "apart");
  const Layout l = layout_of(f);
  constexpr std::array<int, 2> none = {-1, -1};
  for (std::size_t m = 0; m < f.members.size(); ++m) {
    const std::string& name = f.members[m].name;
    INFO(name);
    CHECK((l.ends[m] == none) == (name == "AB" || name == "BC" || name == "too_short"));
  }
}

TEST_CASE(
    "tubes end to end are found in order from either end, however they are listed and drawn") {
  const unsigned seed = GENERATE(1u, 2u, 3u, 4u, 5u);
  const int pieces = 1 + static_cast<int>(2 * seed);
  const Frame f = chain(seed, pieces);
  const Layout l = layout_of(f);
  std::string there, back;
  for (int i = 0; i < pieces; ++i) {
    there += std::to_string(i) + ' ';
    back = std::to_string(i) + ' ' + back;
  }
  CHECK(names(f, members_in_line(f, l, 0, pieces)) == there);
  CHECK(names(f, members_in_line(f, l, pieces, 0)) == back);
  CHECK(members_in_line(f, l, 1, 1).empty());
}

TEST_CASE("a gap, a kink, a cable or a spring in a row of tubes ends the line") {
  for (int piece = 0; piece < 3; ++piece) {
    for (const char* fault : {"gap", "kink", "cable", "spring", "link"}) {
      Frame f = chain(7, 3);
      const auto m = std::find_if(f.members.begin(), f.members.end(), [&](const Member& candidate) {
        return candidate.name == std::to_string(piece);
      });
      if (fault == std::string("gap")) f.members.erase(m);
      if (fault == std::string("kink")) f.nodes[piece == 0 ? 1 : piece].at.y() += 0.3;
      if (fault == std::string("cable")) m->kind = MemberKind::cable;
      if (fault == std::string("spring")) m->kind = MemberKind::spring;
      if (fault == std::string("link")) m->kind = MemberKind::link;  // pulls and pushes as a tube
      const std::size_t found = members_in_line(f, layout_of(f), 0, 3).size();
      INFO(fault << ' ' << piece);
      CHECK(found == (fault == std::string("link") ? 3 : 0));
    }
  }
}

TEST_CASE("of tubes side by side one that reaches all the way is taken") {
  for (const bool first : {true, false}) {
    Frame f = chain(8, 3);
    add_member(f, "long", "n3", "n0");
    if (first) std::rotate(f.members.begin(), f.members.end() - 1, f.members.end());
    CHECK(names(f, members_in_line(f, layout_of(f), 0, 3)) == "long ");
  }
}

}  // namespace tubewright::layout_test
