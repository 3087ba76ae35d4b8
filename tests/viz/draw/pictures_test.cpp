// Pictures where there is nothing to draw; tests/program/pictures_test.py looks at drawn ones.
#include "viz/draw/pictures.h"

#include "tests/catch.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::pictures_test {

TEST_CASE("without load cases no picture is written and no display is needed") {
  const Scratch scratch("pictures");
  write_pictures({}, scratch.path);
  CHECK(files_in(scratch.path).empty());
  CHECK_NOTHROW(write_pictures({}, scratch.path / "missing"));
}

}  // namespace tubewright::pictures_test
