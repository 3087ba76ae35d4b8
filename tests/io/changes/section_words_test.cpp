#include "io/changes/section_words.h"

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::section_words_tests {

using namespace tubewright::testing;

TEST_CASE("a section has the keys that the frame file gives it") {
  SectionEntry s = empty_frame().sections.front();
  CHECK(section_keys(s).dump() == R"({"shape":"square_tube","side":25.0,"wall":2.0})");
  s.shape = Shape::rectangular_tube;
  s.width = 0.015;
  CHECK(section_keys(s).dump() ==
        R"({"shape":"rectangular_tube","height":25.0,"width":15.0,"wall":2.0})");
  s.shape = Shape::round_tube;
  CHECK(section_keys(s).dump() == R"({"shape":"round_tube","diameter":25.0,"wall":2.0})");
  s.shape = Shape::round_bar;
  s.wall = 0;
  CHECK(section_keys(s).dump() == R"({"shape":"round_bar","diameter":25.0})");
  s.shape = Shape::properties;
  CHECK(section_keys(s).dump() == R"({"shape":"properties","name":"tube"})");
  s.given.A = 250e-6;
  s.given.Iy = 3e-8;
  s.given.Wplz = 1.6e-6;
  s.given.Ay = s.given.Az = rigid;
  const auto keys = section_keys(s);
  CHECK(keys.size() == 5);
  CHECK_THAT(keys.at("A").get<double>(), WithinRel(250.0, 1e-12));
  CHECK_THAT(keys.at("Iy").get<double>(), WithinRel(30000.0, 1e-12));
  CHECK_THAT(keys.at("Wplz").get<double>(), WithinRel(1600.0, 1e-12));
}

}  // namespace tubewright::section_words_tests
