#include <limits>

#include "cases/validate/validate.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_sections_test {

using testing::braced_rectangle;
using testing::text_of;

namespace {

std::string faults_of_section(const SectionEntry& s) {
  Frame f = braced_rectangle();
  f.sections[0] = s;
  f.sections[0].name = "tube";
  f.sections[0].material = "S235";
  return text_of(validate(f));
}

SectionEntry square(double side, double wall, Corners corners = Corners::cold_formed) {
  SectionEntry s;
  s.height = s.width = side;
  s.wall = wall;
  s.corners = corners;
  return s;
}

std::string faults_of_material(const Material& properties) {
  Frame f = braced_rectangle();
  MaterialEntry m;
  m.name = "mine";
  m.properties = properties;
  f.materials.push_back(m);
  return text_of(validate(f));
}

const Material steel = {210e9, 81e9, 7850, 235e6, 360e6};

}  // namespace

TEST_CASE("a wall is thicker than nothing and thinner than half the side") {
  CHECK(faults_of_section(square(0.025, 0.002)).empty());
  for (const double wall : {0.0, -0.002, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK_THAT(faults_of_section(square(0.025, wall)),
               ContainsSubstring("section `tube` has an impossible `wall`"));
  }
  CHECK_THAT(faults_of_section(square(0.025, 0.0125, Corners::sharp)),
             ContainsSubstring("has a wall of 12.5 mm but is only 25 mm wide"));
  SectionEntry flat = square(0.040, 0.006);
  flat.shape = Shape::rectangular_tube;
  flat.width = 0.010;
  CHECK_THAT(faults_of_section(flat), ContainsSubstring("has a wall of 6 mm but is only 10 mm"));
}

// EN 10219-2: r_o = 2.0 T up to 6 mm, 2.5 T up to 10 mm, 3.0 T above; EN 10210-2: r_o = 1.5 T,
// r_i = 1.0 T (MEMORY). Two outer corners fit into the side, two inner ones into the hole.
TEST_CASE("the standard's corner radii must fit into the side") {
  CHECK(faults_of_section(square(0.020, 0.005)).empty());  // 2 x 2.0 x 5 = 20
  CHECK_THAT(faults_of_section(square(0.0199, 0.005)),
             ContainsSubstring("need a side of at least 20 mm (EN 10219-2)"));
  CHECK(faults_of_section(square(0.040, 0.008)).empty());  // 2 x 2.5 x 8 = 40
  CHECK_THAT(faults_of_section(square(0.039, 0.008)), ContainsSubstring("at least 40 mm"));
  CHECK(faults_of_section(square(0.020, 0.005, Corners::hot_finished)).empty());
  CHECK_THAT(faults_of_section(square(0.0199, 0.005, Corners::hot_finished)),
             ContainsSubstring("EN 10210-2"));
  CHECK(faults_of_section(square(0.0199, 0.005, Corners::sharp)).empty());
}

TEST_CASE("a round tube has no corners and a bar no wall") {
  SectionEntry s;
  s.shape = Shape::round_tube;
  s.height = s.width = 0.0213;
  s.wall = 0.010;
  CHECK(faults_of_section(s).empty());
  s.shape = Shape::round_bar;
  s.wall = 0;
  CHECK(faults_of_section(s).empty());
  s.height = s.width = 0;
  CHECK_THAT(faults_of_section(s), ContainsSubstring("impossible `diameter`"));
  s.shape = Shape::flat_bar;
  s.height = 0.02;
  CHECK_THAT(faults_of_section(s), ContainsSubstring("impossible `width`"));
}

TEST_CASE("given properties are above zero, those that may be absent only if given") {
  SectionEntry s;
  s.shape = Shape::properties;
  s.given = {173.7e-6, 14835e-12, 14835e-12, 25256e-12, 1187e-9, 1187e-9,
             1804e-9,  0,         0,         rigid,     rigid,   {}};
  CHECK(faults_of_section(s).empty());
  for (double Section::*property :
       {&Section::A, &Section::Iy, &Section::Iz, &Section::It, &Section::Wy, &Section::Wz,
        &Section::Wt, &Section::Wply, &Section::Wplz, &Section::Ay, &Section::Az}) {
    for (const double value : {-1e-6, 1e300, std::numeric_limits<double>::quiet_NaN()}) {
      SectionEntry bad = s;
      bad.given.*property = value;
      CHECK_THAT(faults_of_section(bad), ContainsSubstring("has an impossible"));
    }
  }
}

// Isotropic elasticity: -1 < nu <= 1/2, that is E/3 <= G (thermodynamics).
TEST_CASE("a material is stiff, heavy and no softer in shear than an incompressible one") {
  CHECK(faults_of_material(steel).empty());
  Material rubber = steel;
  rubber.G = rubber.E / 3;
  CHECK(faults_of_material(rubber).empty());
  rubber.G = rubber.E / 3.1;
  CHECK_THAT(faults_of_material(rubber), ContainsSubstring("too small a `G`"));
  for (double Material::*property : {&Material::E, &Material::G, &Material::density}) {
    for (const double value : {0.0, -1.0, 1e300}) {
      Material bad = steel;
      bad.*property = value;
      CHECK_THAT(faults_of_material(bad), ContainsSubstring("material `mine` has an impossible"));
    }
  }
}

TEST_CASE("strengths may be unknown, but not zero, and nothing breaks before it yields") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Material m = steel;
  m.yield = m.ultimate = nan;
  CHECK(faults_of_material(m).empty());
  m.yield = 0;
  CHECK_THAT(faults_of_material(m), ContainsSubstring("impossible `yield`"));
  m.yield = 360e6;
  m.ultimate = 235e6;
  CHECK_THAT(faults_of_material(m), ContainsSubstring("breaks before it yields"));
}

}  // namespace tubewright::validate_sections_test
