#include "io/frame_file/profile_file.h"

#include "tests/catch.h"

namespace tubewright::profile_file_test {

namespace {

std::string why(const std::string& text) {
  const auto read = read_profile(text);
  return read.error() == nullptr ? "" : *read.error();
}

}  // namespace

TEST_CASE("a profile is read with any usual separator, heading, comments and edges") {
  for (const char* text :
       {"x, left, right\n0,0,1\n1000,-20,2.5\n1000,5e1,+2\n", "0;0;1\r\n1000;-20;2.5\r\n1000;50;2",
        "# mm\n0\t0\t1\n\n1000 -20 2.5\n1000 50 2\n",
        "\xEF\xBB\xBFx left right\n0 0 1\n1000 -20 "
        "2.5\n1000 50 2\n"}) {
    INFO(text);
    const auto rows = read_profile(text);
    REQUIRE(rows);
    REQUIRE(rows->size() == 3);
    CHECK((*rows)[1].x == 1);
    CHECK((*rows)[1].left == -0.02);
    CHECK((*rows)[2].left == 0.05);
    CHECK((*rows)[0].right == 0.001);
  }
}

TEST_CASE("what is no profile is told with its line") {
  CHECK(why("0,0,0\n1,2\n") == "line 2 has 2 numbers, not three");
  CHECK(why("0,0,0\n1,x,3\n") == "line 2 has `x`, which is no number");
  CHECK(why("0,0,0\n5,0,0\n1,0,0\n") == "line 3 goes back: x is less than before");
  CHECK(why("0,0,0\nnan,0,0\n") == "line 2 has a number that is no place on a road");
  CHECK(why("0,0,0\n1e300,0,0\n") == "line 2 has a number that is no place on a road");
  CHECK(why("0,0,0\n") == "it has fewer than two rows");
  CHECK(why("") == "it has fewer than two rows");
  CHECK(why("3,0,0\n3,1,1\n") == "it has no length");
  CHECK(why("x,y\nleft,right,x\n") == "line 2 has `left`, which is no number");
}

}  // namespace tubewright::profile_file_test
