#include "cases/lint/lint.h"

#include <array>
#include <cmath>
#include <limits>

#include "cases/frame/mirror.h"
#include "cases/validate/validate.h"
#include "tests/cases/attachments/attachment_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_test {

using testing::add_member;
using testing::add_node;
using testing::braced_rectangle;
using testing::empty_frame;
using testing::rectangle;
using testing::text_of;

namespace {

std::string doubts(const Frame& f) {
  const Diagnostics faults = validate(f);
  INFO(text_of(faults));
  REQUIRE(faults.empty());
  const Diagnostics diagnostics = lint(f);
  for (const Diagnostic& p : diagnostics) CHECK(p.severity == Severity::warning);
  return text_of(diagnostics);
}

/// A cubic lattice of n x n x n cells of 100 mm, tubes of 25 mm along the edges and, if `braced`,
/// along one diagonal of every face.
Frame lattice(int n, bool braced) {
  Frame f = empty_frame();
  const auto name = [](int i, int j, int k) {
    return std::to_string(i) + "_" + std::to_string(j) + "_" + std::to_string(k);
  };
  std::vector<std::array<int, 3>> steps = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  if (braced) steps.insert(steps.end(), {{1, 1, 0}, {0, 1, 1}, {1, 0, 1}});
  for (int i = 0; i <= n; ++i) {
    for (int j = 0; j <= n; ++j) {
      for (int k = 0; k <= n; ++k) {
        add_node(f, name(i, j, k), 0.1 * i, 0.1 * j, 0.1 * k);
        for (const auto& [a, b, c] : steps) {
          if (i + a > n || j + b > n || k + c > n) continue;
          add_member(f, "m" + std::to_string(f.members.size()), name(i, j, k),
                     name(i + a, j + b, k + c));
        }
      }
    }
  }
  return f;
}

}  // namespace

TEST_CASE("a triangulated frame raises no doubt") { CHECK(doubts(braced_rectangle()).empty()); }

TEST_CASE("a bay without a diagonal is named by its corners, once") {
  const Diagnostics diagnostics = lint(rectangle());
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message == "bay `A`, `B`, `C` and `D` has neither a diagonal nor a panel");
}

TEST_CASE("a diagonal of any kind but a spring braces a bay, and so does a panel") {
  for (const MemberKind kind : {MemberKind::link, MemberKind::cable}) {
    Frame f = braced_rectangle();
    f.members[4].kind = kind;
    CHECK(doubts(f).empty());
  }
  Frame f = braced_rectangle();
  f.members[4].kind = MemberKind::spring;
  f.members[4].section.clear();
  f.members[4].rate = 1e5;
  CHECK_THAT(doubts(f), ContainsSubstring("bay"));

  f = rectangle();
  Sheet sheet;
  sheet.name = "s";
  sheet.material = "S235";
  sheet.thickness = 0.001;
  sheet.offset = 0.013;  // on tubes of 25 mm
  f.sheets.push_back(sheet);
  PanelEntry p;
  p.name = "p";
  p.corners = {"B", "C", "D", "A"};
  p.sheet = "s";
  f.panels.push_back(p);
  CHECK(doubts(f).empty());
}

TEST_CASE("a side of a bay may be several members in line, and a brace may end on it") {
  Frame f = rectangle();
  f.members.erase(f.members.begin());
  add_node(f, "M", 0.3, 0, 0);
  add_member(f, "AM", "A", "M");
  add_member(f, "MB", "M", "B");
  CHECK_THAT(doubts(f), ContainsSubstring("bay `A`, `B`, `C` and `D`"));
  add_member(f, "MC", "M", "C");
  CHECK_THAT(doubts(f), ContainsSubstring("bay `A`, `D`, `C` and `M`"));
  add_member(f, "MD", "M", "D");
  CHECK(doubts(f).empty());
}

TEST_CASE("a rung divides a bay into two") {
  Frame f = rectangle();
  f.members.erase(f.members.begin());      // AB
  f.members.erase(f.members.begin() + 1);  // CD
  add_node(f, "M", 0.3, 0, 0);
  add_node(f, "N", 0.3, 0.4, 0);
  add_member(f, "AM", "A", "M");
  add_member(f, "MB", "M", "B");
  add_member(f, "CN", "C", "N");
  add_member(f, "ND", "N", "D");
  add_member(f, "MN", "M", "N");
  const Diagnostics diagnostics = lint(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.size() == 2);
  CHECK_THAT(diagnostics[0].message, ContainsSubstring("`A`, `D`, `N` and `M`"));
  CHECK_THAT(diagnostics[1].message, ContainsSubstring("`B`, `C`, `N` and `M`"));
}

TEST_CASE("two crossed diagonals joined in the middle brace a bay") {
  Frame f = rectangle();
  add_node(f, "X", 0.3, 0.2, 0);
  for (const char* corner : {"A", "B", "C", "D"}) {
    add_member(f, std::string("X") + corner, "X", corner);
  }
  CHECK(doubts(f).empty());
}

TEST_CASE("four members that do not lie in a plane are no bay") {
  Frame f = rectangle();
  f.nodes[2].at.z() = 0.3;
  CHECK(doubts(f).empty());
}

// Euler: a cube has six faces, a lattice of 8 cells 36. Maxwell: 27 nodes and 54 bars leave 3 x 27
// - 6
// - 54 = 21 motions, so far fewer braces than faces do, the straight tubes helping.
TEST_CASE("every open face of a cube is a bay, of a lattice those that brace all of it") {
  CHECK(lint(lattice(1, false)).size() == 6);
  CHECK(doubts(lattice(2, true)).empty());

  Frame f = lattice(2, false);
  const Diagnostics open = lint(f);
  CHECK((open.size() > 12 && open.size() <= 21));
  for (const Diagnostic& d : open) {
    std::vector<std::string> names;  // every second part between backticks
    for (std::size_t at = d.message.find('`'); at != std::string::npos;
         at = d.message.find('`', at + 1)) {
      const std::size_t end = d.message.find('`', at + 1);
      names.push_back(d.message.substr(at + 1, end - at - 1));
      at = end;
    }
    REQUIRE(names.size() == 4);
    add_member(f, "brace" + names[0] + names[2], names[0], names[2]);
  }
  CHECK(doubts(f).empty());
}

// Two flat trusses that share one edge, with struts between their outer edges at both ends, are an
// open section: they twist as an angle does, until the third wall is closed or one end is made
// rigid by a strut out of both walls.
TEST_CASE("the open side of two braced walls is a bay until one end is stiff against twisting") {
  Frame f = empty_frame();
  for (int i = 0; i <= 3; ++i) {
    const std::string n = std::to_string(i);
    add_node(f, "S" + n, 0.4 * i, 0.35, 0);
    add_node(f, "K" + n, 0.4 * i, 0, 0);
    add_member(f, "floor" + n, "S" + n, "K" + n);
    if (i == 3) continue;
    add_node(f, "T" + n, 0.4 * i, 0.35, 0.3);
    add_member(f, "post" + n, "S" + n, "T" + n);
  }
  for (const auto& [from, to] : {std::pair{"S0", "S1"},
                                 {"S1", "S2"},
                                 {"S2", "S3"},
                                 {"K0", "K1"},
                                 {"K1", "K2"},
                                 {"K2", "K3"},
                                 {"T0", "T1"},
                                 {"T1", "T2"},
                                 {"K0", "S1"},
                                 {"S1", "K2"},
                                 {"K2", "S3"},
                                 {"T0", "S1"},
                                 {"S1", "T2"},
                                 {"T2", "S3"},
                                 {"K0", "T0"},
                                 {"K2", "T2"}}) {
    add_member(f, std::string(from) + to, from, to);
  }
  CHECK_THAT(doubts(f), ContainsSubstring("bay `K0`, `T0`, `T2` and `K2`"));
  add_member(f, "stiff_end", "T2", "K3");
  CHECK(doubts(f) == "");
}

TEST_CASE("mirrored bays, crossings and idle nodes are named on one side only") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "B_l", 0.6, 0.3, 0);
  add_node(f, "C_l", 0.6, 0.6, 0);
  add_node(f, "D_l", 0, 0.6, 0);
  add_node(f, "idle_l", 3, 0.6, 0);
  add_member(f, "m1_l", "A_l", "B_l");
  add_member(f, "m2_l", "B_l", "C_l");
  add_member(f, "m3_l", "C_l", "D_l");
  add_member(f, "m4_l", "D_l", "A_l");
  REQUIRE(expand_mirror(f).empty());
  CHECK(lint(f).size() == 2);
}

TEST_CASE("nodes that nearly coincide are doubted unless a member joins them") {
  Frame f = braced_rectangle();
  add_node(f, "B2", 0.6, 0, 0.003);
  add_node(f, "E", 1.0, 0, 0.4);
  add_member(f, "far", "E", "B2");
  add_member(f, "back", "E", "A");
  CHECK_THAT(doubts(f), ContainsSubstring("nodes `B` and `B2` nearly coincide, 3 mm apart"));
  add_member(f, "stub", "B", "B2");
  CHECK(doubts(f).empty());
}

TEST_CASE("members that cross without a joint are doubted, those that pass clear are not") {
  for (const auto& [lift, crosses] : {std::pair{0.0, true}, {0.015, true}, {0.030, false}}) {
    Frame f = braced_rectangle();
    add_node(f, "B1", 0.6, 0, lift);
    add_node(f, "D1", 0, 0.4, lift);
    if (lift == 0) {
      add_member(f, "BD", "B", "D");
    } else {
      add_member(f, "BD", "B1", "D1");
      add_member(f, "up_B", "B", "B1");
      add_member(f, "up_D", "D", "D1");
    }
    const std::string text = doubts(f);
    INFO(lift << text);
    const bool found = text.find("members `AC` and `BD` cross without a joint") != text.npos;
    CHECK(found == crosses);
  }
}

TEST_CASE("tubes that run through each other side by side are doubted") {
  Frame f = braced_rectangle();
  add_node(f, "P", 0.1, -0.010, 0);
  add_node(f, "Q", 0.5, -0.010, 0);
  add_node(f, "R", 0.3, -0.3, 0);
  add_member(f, "PQ", "P", "Q");
  add_member(f, "QR", "Q", "R");
  add_member(f, "RP", "R", "P");
  CHECK_THAT(doubts(f), ContainsSubstring("members `AB` and `PQ` cross without a joint"));
}

TEST_CASE("cables may cross") {
  Frame f = braced_rectangle();
  add_member(f, "BD", "B", "D").kind = MemberKind::cable;
  CHECK(doubts(f).empty());
}

TEST_CASE("a node on a member that it does not belong to is doubted") {
  for (const auto& [off, word] :
       {std::pair{0.0, "lies on"}, {0.002, "lies on"}, {0.0125, "touches"}}) {
    Frame f = braced_rectangle();
    add_node(f, "T", 0.2, -off, 0);
    add_node(f, "U", 0.2, -0.5, 0);
    add_member(f, "TU", "T", "U");
    CHECK_THAT(doubts(f), ContainsSubstring(std::string("node `T` ") + word +
                                            " member `AB` but is not joined to it"));
    CHECK_THAT(doubts(f), ContainsSubstring("`path: [A, T, B]`"));
  }
  Frame f = braced_rectangle();
  add_node(f, "T", 0.2, -0.020, 0);
  add_node(f, "U", 0.2, -0.5, 0);
  add_member(f, "TU", "T", "U");
  f.supports.push_back({"U", {true, true, true, true, true, true}, {}, {}});
  f.supports.push_back({"T", {true, true, true, true, true, true}, {}, {}});
  CHECK(doubts(f).empty());
}

TEST_CASE("two members between the same nodes are doubted, a spring beside a tube is not") {
  Frame f = braced_rectangle();
  add_member(f, "CA", "C", "A");
  CHECK_THAT(doubts(f), ContainsSubstring("members `AC` and `CA` join the same two nodes"));
  f.members.back().kind = MemberKind::spring;
  f.members.back().section.clear();
  f.members.back().rate = 1e4;
  CHECK(doubts(f).empty());
}

TEST_CASE("nodes and sections that nothing uses are doubted") {
  Frame f = braced_rectangle();
  add_node(f, "idle", 3, 0, 0);
  f.sections.push_back(f.sections[0]);
  f.sections[1].name = "spare";
  const std::string text = doubts(f);
  CHECK_THAT(text, ContainsSubstring("node `idle` is used by no member"));
  CHECK_THAT(text, ContainsSubstring("section `spare` is used by no member"));
}

TEST_CASE("a material of unknown strength is doubted where it is used") {
  Frame f = braced_rectangle();
  MaterialEntry bamboo;
  bamboo.name = "mine";
  bamboo.properties = {70e9, 27e9, 2700, std::numeric_limits<double>::quiet_NaN(),
                       std::numeric_limits<double>::quiet_NaN()};
  f.materials.push_back(bamboo);
  CHECK(doubts(f).empty());
  f.sections[0].material = "mine";
  CHECK_THAT(doubts(f), ContainsSubstring("material `mine` has no yield strength"));
}

TEST_CASE("doubts come in the order of the file") {
  Frame f = rectangle();
  add_node(f, "idle", 3, 0, 0);
  f.sections.push_back(f.sections[0]);
  f.sections[1].name = "spare";
  const Diagnostics diagnostics = lint(f);
  REQUIRE(diagnostics.size() == 3);
  CHECK(diagnostics[0].place.line <= diagnostics[1].place.line);
  CHECK(diagnostics[1].place.line <= diagnostics[2].place.line);
}

TEST_CASE("a hundred doubts of a kind are enough") {
  const Diagnostics diagnostics = lint(lattice(6, false));
  CHECK(diagnostics.size() == 100);
  CHECK_THAT(diagnostics.back().advice, ContainsSubstring("there are more of this kind"));
}

TEST_CASE("three thousand spokes at one hub and three thousand tubes in one place are no trouble") {
  Frame f = empty_frame();
  add_node(f, "hub", 0, 0, 0);
  for (int i = 0; i < 3000; ++i) {
    const double turn = 1e-3 * i, height = 1e-4 * i;
    add_node(f, "n" + std::to_string(i), std::cos(turn), std::sin(turn), height);
    add_member(f, "m" + std::to_string(i), "hub", "n" + std::to_string(i));
  }
  CHECK(lint(f).size() <= 700);
  for (Member& m : f.members) m.to = "n0";
  CHECK(lint(f).size() <= 700);
}

TEST_CASE("a lattice with a diagonal in every face raises no doubt") {
  CHECK(lint(lattice(4, true)).empty());
}

TEST_CASE("attachments, and links that end at them, raise no doubt") {
  Frame f = braced_rectangle();
  add_node(f, "G", 0.3, 0, -0.5);
  f.attachments = {testing::tab("ear", "AB", 0.5, Face::bottom),
                   testing::tab("stop", "CD", 0.3, Face::top)};
  add_member(f, "rod", "ear", "G").kind = MemberKind::link;
  SupportEntry held;
  held.node = "G";
  held.restrained = {true, true, true, false, false, false};
  f.supports.push_back(held);
  CHECK(doubts(testing::expanded(f)) == "");
}

}  // namespace tubewright::lint_test
