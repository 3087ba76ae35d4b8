// The words of the frame file and what they stand for: io/README.md lists the words, the values are
// those of cases/frame/frame.h.
#include "io/keys/choice_words.h"

#include <set>

#include "tests/catch.h"

namespace tubewright::choice_words_test {

namespace {

/// Every word has one value, every value one word, and the two lead to each other.
template <typename Value, std::size_t n>
void check_pairs(const ChoiceWords<Value, n>& table) {
  std::set<std::string> words;
  std::set<Value> values;
  for (const auto& [word, value] : table) {
    INFO(word);
    CHECK(words.insert(word).second);
    CHECK(values.insert(value).second);
    CHECK(std::string(word_for(table, value)) == word);
    CHECK(value_for(table, word) == value);
  }
  CHECK(words_in(table).size() == n);
}

}  // namespace

TEST_CASE("a word and its value lead to each other") {
  check_pairs(metal_words);
  check_pairs(shape_words);
  check_pairs(corner_words);
  check_pairs(member_kind_words);
  check_pairs(sheet_edge_words);
  check_pairs(sheet_side_words);
  check_pairs(wheel_hold_words);
  check_pairs(wheel_brake_words);
  check_pairs(axle_words);
  check_pairs(obstacle_words);
  check_pairs(ride_side_words);
  check_pairs(follower_words);
}

TEST_CASE("words are those of the value's name in the code, but for a wheel's rigid upright") {
  CHECK(value_for(metal_words, "stainless") == Metal::stainless);
  CHECK(value_for(shape_words, "flat_bar") == Shape::flat_bar);
  CHECK(value_for(corner_words, "sharp") == Corners::sharp);
  CHECK(value_for(member_kind_words, "cable") == MemberKind::cable);
  CHECK(value_for(sheet_edge_words, "clamped") == SheetEdge::clamped);
  CHECK(value_for(sheet_side_words, "bottom") == SheetSide::bottom);
  CHECK(value_for(wheel_hold_words, "rigid") == WheelHold::rigid_upright);
  CHECK(value_for(wheel_brake_words, "none") == WheelBrake::none);
  CHECK(value_for(axle_words, "rear") == Axle::rear);
}

TEST_CASE("a word that could not be read stands for the first value") {
  CHECK(value_for(axle_words, "") == Axle::front);
  CHECK(value_for(member_kind_words, "rope") == MemberKind::beam);
}

}  // namespace tubewright::choice_words_test
