// What is welded in a frame, to what, and how far its heat goes.
#include "cases/checks/welded_ends.h"

#include <cmath>

#include "cases/frame/built_in_materials.h"
#include "cases/pieces/cut_tubes.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::welded_ends_test {

using namespace tubewright::testing;

namespace {

constexpr Source en_1993 = from_memory("EN 1993-1-8 4.5.3.2(6), Table 4.1; EN 1993-1-1 Table 3.1");
constexpr Source full_strength =
    seen_in("EN 1993-1-8 7.3.1(4): sqrt(2) beta_w gamma_M2 f_y/f_u walls");
constexpr Source heat = from_memory("EN 1999-1-1 6.1.6.3: 30 mm beside the weld");

std::vector<std::array<WeldedEnd, 2>> ends_of(const Frame& f) {
  return welded_ends(f, build_model(f));
}

void add_section(Frame& f, const std::string& name, double side, double wall,
                 const std::string& material) {
  SectionEntry s = f.sections.front();
  s.name = name;
  s.height = s.width = side;
  s.wall = wall;
  s.material = material;
  f.sections.push_back(s);
}

/// A rail A-B-C, one path, and a post on its middle.
Frame rail_with_post(double z_of_C = 0) {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 1, 0, z_of_C);
  add_node(f, "top", 0.5, 0.4, 0);
  add_section(f, "post", 0.020, 0.0015, "S235");
  add_member(f, "rail.1", "A", "B").tube = "rail";
  add_member(f, "rail.2", "B", "C").tube = "rail";
  add_member(f, "post", "B", "top").section = "post";
  return f;
}

}  // namespace

TEST_CASE("a path is welded where it turns, as it is cut there") {
  // Where `cut` begins a new piece (cut_tubes.h) there is a weld.
  for (const double degrees : {0.0, 0.4, 0.6, 10.0}) {
    INFO(degrees);
    const Frame f = rail_with_post(0.5 * std::tan(degrees * degree));
    const auto ends = ends_of(f);
    const bool cut = cut_tubes(f, build_model(f)).size() == 3;
    CHECK(cut == (degrees > 0.5));
    CHECK(ends[0][1].welded == cut);
    CHECK(ends[1][0].welded == cut);
    CHECK(ends[2][0].welded);
    CHECK(ends[2][0].on_tube);
    CHECK_FALSE(ends[2][1].on_tube);
  }
}

TEST_CASE("an end that nothing holds or loads is no weld, one on a support or under a load is") {
  Frame f = rail_with_post(0);
  auto ends = ends_of(f);
  CHECK_FALSE(ends[0][0].welded);
  CHECK_FALSE(ends[1][1].welded);
  CHECK_FALSE(ends[2][1].welded);
  f.supports.push_back({"A", {}, {}, {}});
  add_case(f, "push").forces.push_back({"top", {}, {}});
  ends = ends_of(f);
  CHECK(ends[0][0].welded);
  CHECK_FALSE(ends[1][1].welded);
  CHECK(ends[2][1].welded);
}

TEST_CASE("of two paths that cross the smaller is cut and welded") {
  for (const bool bigger_first : {true, false}) {
    Frame f = empty_frame();
    add_section(f, "small", 0.020, 0.0015, "S235");
    for (const auto& [name, x, y] :
         {std::tuple{"W", -1, 0}, {"E", 1, 0}, {"S", 0, -1}, {"N", 0, 1}, {"O", 0, 0}}) {
      add_node(f, name, x, y, 0);
    }
    const auto path = [&](const char* name, const char* from, const char* to, const char* section) {
      for (const auto& [a, b] : {std::pair{from, "O"}, {"O", to}}) {
        Member& m = add_member(f, std::string(name) + a, a, b);
        m.tube = name;
        m.section = section;
      }
    };
    path("first", "W", "E", bigger_first ? "tube" : "small");
    path("second", "S", "N", bigger_first ? "small" : "tube");
    const auto ends = ends_of(f);
    CHECK(cut_tubes(f, build_model(f)).size() == 3);
    CHECK(ends[0][1].welded == !bigger_first);
    CHECK(ends[1][0].welded == !bigger_first);
    CHECK(ends[2][1].welded == bigger_first);
    CHECK(ends[3][0].welded == bigger_first);
  }
}

TEST_CASE("a pin is no weld") {
  Frame f = rail_with_post();
  f.members[2].release_from.fill(0);
  CHECK_FALSE(ends_of(f)[2][0].welded);
  CHECK(ends_of(f)[0][1].heated == 0);
  f.members[2].release_from[5] = 100;
  CHECK(ends_of(f)[2][0].welded);
}

TEST_CASE("the weakest of what is joined counts, on every end that meets there", "[truth]") {
  // EN 1993-1-8 4.5.3.2(6): f_u of the weaker part joined; Table 4.1 beta_w; EN 1993-1-1 Table 3.1
  // (all MEMORY): S235 360 and 0.8, S355 510 and 0.9.
  Frame f = rail_with_post();
  CHECK(ends_of(f)[2][0].weld.fu == 360e6);
  f.sections[1].material = "S355";
  const WeldedEnd mixed = ends_of(f)[2][0];
  CHECK(mixed.weld.fu == 360e6);
  truth("S355 on S235: beta_w", en_1993, mixed.weld.beta_w, within_rel(0.8, 1e-12));
  // As strong as a wall of S355, with that: sqrt(2) 0.8 1.25 355/360 = 1.394 walls.
  truth("S355 on S235: least throat, m", full_strength, mixed.weld.least_throat,
        within_rel(1.5e-3 * 1.3946, 1e-3));
  f.sections[0].material = "S355";
  const WeldedEnd both = ends_of(f)[2][0];
  CHECK(both.weld.fu == 510e6);
  CHECK_THAT(both.weld.beta_w, WithinRel(0.9, 1e-12));
  truth("S355 on S355: least throat, m", full_strength, both.weld.least_throat,
        within_rel(1.5e-3 * 1.107, 1e-3));
  CHECK(ends_of(f)[2][1].weld.least_throat == 0);  // on nothing
  f.sections[0].material = "EN AW-6082-T6";
  CHECK_FALSE(ends_of(f)[2][0].obstacle.empty());
}

TEST_CASE("a given filler counts at the ends of its tube") {
  Frame f = rail_with_post();
  f.sections[0].material = f.sections[1].material = "4130";
  CHECK_THAT(ends_of(f)[2][0].weld.fu, WithinRel(515.25e6, 1e-9));  // ordinary wire, end_weld_test
  f.sections[1].weld_filler = 620e6;
  CHECK_THAT(ends_of(f)[2][0].weld.fu, WithinRel(620.25e6, 1e-9));
  CHECK_THAT(ends_of(f)[0][0].weld.fu, WithinRel(515.25e6, 1e-9));
}

TEST_CASE("a weld is as thick as the wall, or as strong where that is more", "[truth]") {
  // 0.92, 0.96, 1.10 walls: EN 1993-1-8 7.3.1(4) (MEMORY); 4130 with wire of 480 MPa: sqrt(2) 1.25
  // 435/515.25 = 1.492.
  const auto throat = [](const char* name) {
    return usual_throat(*find_material(empty_frame(), name), 0.002);
  };
  CHECK(throat("S235") == 0.002);
  CHECK(throat("S275") == 0.002);
  CHECK_THAT(throat("S355"), WithinRel(1.107 * 0.002, 1e-3));
  truth("4130 with wire of 480 MPa, wall 2 mm: throat, m", full_strength, throat("4130"),
        within_rel(1.492 * 0.002, 1e-3));
  CHECK(throat("EN AW-6082-T6") == 0.002);
}

TEST_CASE("heat goes from the face over the weld's leg and 30 mm on, in every tube there",
          "[truth]") {
  const auto ends = ends_of(rail_with_post());
  // The rail, in its own axis: half the post's 20 mm, sqrt(2) times the greatest throat, 2 mm.
  truth("heat from the axis of a 20 mm post in its rail, m", heat, ends[0][1].heated,
        within_rel(0.010 + std::sqrt(2.0) * 0.002 + 0.030, 1e-9));
  CHECK(ends[1][0].heated == ends[0][1].heated);
  CHECK_FALSE(ends[0][1].welded);
  truth("heat from the axis of a 25 mm rail in its post, m", heat, ends[2][0].heated,
        within_rel(0.0125 + std::sqrt(2.0) * 0.002 + 0.030, 1e-9));
}

}  // namespace tubewright::welded_ends_test
