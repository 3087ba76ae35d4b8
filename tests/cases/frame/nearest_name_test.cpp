#include "cases/frame/nearest_name.h"

#include "tests/catch.h"

namespace tubewright::nearest_name_test {

TEST_CASE("a misspelt name finds the one that was meant") {
  const std::vector<std::string> known = {"sill_left", "sill_right", "rail", "hoop"};
  CHECK(nearest_name("sill_lfet", known) == "sill_left");  // two letters swapped
  CHECK(nearest_name("sil_right", known) == "sill_right");
  CHECK(nearest_name("raill", known) == "rail");
  CHECK(nearest_name("hop", known) == "hoop");
}

// Optimal string alignment counts a swap of neighbours as one edit (F. J. Damerau, Comm. ACM 7
// (1964) 171): of three letters one may be wrong, so only a swap counted once is near enough.
TEST_CASE("two neighbouring letters swapped are one mistake") {
  CHECK(nearest_name("abc", {"acb"}) == "acb");
  CHECK(nearest_name("abc", {"cba"}).empty());
}

// The textbook pair: kitten -> sitting takes three edits (R. A. Wagner, M. J. Fischer, J. ACM 21
// (1974) 168 gives the recurrence; the pair is common knowledge). Seven letters allow two.
TEST_CASE("a name is near only within a third of the longer word") {
  CHECK(nearest_name("kitten", {"sitting"}).empty());
  CHECK(nearest_name("sittin", {"sitting"}) == "sitting");
  CHECK(nearest_name("mitting", {"sitting"}) == "sitting");
  CHECK(nearest_name("kiting", {"sitting"}) == "sitting");
}

TEST_CASE("capitals do not matter") { CHECK(nearest_name("s235", {"S275", "S235"}) == "S235"); }

TEST_CASE("the nearest wins, and of equals the first") {
  CHECK(nearest_name("rear_axle", {"rear_axes", "rear_axl"}) == "rear_axl");
  CHECK(nearest_name("A1", {"A2", "A3"}) == "A2");
}

TEST_CASE("names that share nothing are not near") {
  CHECK(nearest_name("Q", {"A", "B"}).empty());
  CHECK(nearest_name("", {"A"}).empty());
  CHECK(nearest_name("A", {}).empty());
  CHECK(nearest_name("A", {""}).empty());
}

TEST_CASE("a word of a million letters is answered at once") {
  const std::string endless(1000000, 'x');
  CHECK(nearest_name(endless, {endless + "y", "x"}).empty());
}

TEST_CASE("the suggestion is a question, or nothing") {
  CHECK(did_you_mean("widht", {"width"}) == "did you mean `width`?");
  CHECK(did_you_mean("zzz", {"width"}).empty());
}

}  // namespace tubewright::nearest_name_test
