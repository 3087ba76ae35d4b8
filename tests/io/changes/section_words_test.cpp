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
}

}  // namespace tubewright::section_words_tests
