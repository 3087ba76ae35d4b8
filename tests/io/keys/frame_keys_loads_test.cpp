// The keys of what the frame has to do, against the data they fill: defaults as in the structs of
// cases/frame/frame.h, words those that the reader knows.
#include <algorithm>
#include <set>

#include "cases/frame/frame.h"
#include "io/keys/choice_words.h"
#include "io/keys/frame_key_parts.h"
#include "tests/catch.h"

namespace tubewright::frame_keys_loads_test {

namespace {

/// The table's kinds are made anew at each call: this one lives as long as the program.
const ValueKind& kept(const SharedKind& kind) {
  static std::vector<SharedKind> kinds;
  kinds.push_back(kind);
  return *kind;
}

const KeyGroup& group_of(const ValueKind& kind, const std::string& word) {
  const auto& groups = kind.groups;
  const auto found =
      std::find_if(groups.begin(), groups.end(), [&](const KeyGroup& g) { return g.word == word; });
  REQUIRE(found != groups.end());
  return *found;
}

const Key& key_of(const KeyGroup& group, const std::string& name) {
  const Key* key = find_key(group, name);
  INFO(name);
  REQUIRE(key != nullptr);
  return *key;
}

/// What stands in for an absent quantity, SI.
double default_of(const KeyGroup& group, const std::string& name) {
  const Key& key = key_of(group, name);
  const QuantityReading reading = read_quantity(key.otherwise, false, *key.kind->measure);
  INFO(name);
  REQUIRE(reading.has_value());
  return *reading;
}

}  // namespace

TEST_CASE("every load case says its kind and may be rare, have a factor and a note") {
  const ValueKind& cases = *kept(cases_kind()).element;
  std::set<std::string> words;
  for (const KeyGroup& group : cases.groups) {
    INFO(group.title);
    words.insert(group.word);
    CHECK(group.keys.front().name == "kind");
    CHECK(group.keys.front().required);
    for (const char* name : {"rare", "yield_factor", "note"}) {
      CHECK_FALSE(key_of(group, name).required);
    }
    CHECK(key_of(group, "rare").otherwise == "false");
  }
  CHECK(words == std::set<std::string>{"static", "vehicle", "combine", "ride"});
}

TEST_CASE("what a load case does not say is what a case of plain data is without") {
  const KeyGroup& vehicle = group_of(*kept(cases_kind()).element, "vehicle");
  const Case plain;
  CHECK(default_of(vehicle, "brake") == plain.brake);
  CHECK(default_of(vehicle, "corner") == plain.corner);
  CHECK(default_of(vehicle, "grade") == plain.grade);
  CHECK(default_of(vehicle, "bank") == plain.bank);
  CHECK(default_of(vehicle, "vertical") == plain.vertical);
  const KeyGroup& roll_centre =
      key_of(kept(vehicle_kind()).groups[0], "roll_centre").kind->groups[0];
  CHECK(default_of(roll_centre, "front") == Vehicle().roll_centre_front);
  CHECK(default_of(roll_centre, "rear") == Vehicle().roll_centre_rear);
}

TEST_CASE("stock and life are by default what their plain data are") {
  const KeyGroup& stock = kept(stock_kind()).groups[0];
  CHECK_THAT(default_of(stock, "length"), WithinRel(Stock().length, 1e-15));
  CHECK_THAT(default_of(stock, "kerf"), WithinRel(Stock().kerf, 1e-15));
  CHECK_THAT(default_of(stock, "end_trim"), WithinRel(Stock().end_trim, 1e-15));
  const KeyGroup& life = kept(life_kind()).groups[0];
  CHECK_THAT(default_of(life, "category"), WithinRel(Life().category, 1e-15));
  CHECK((key_of(life, "design").otherwise == "damage_tolerant") == Life().damage_tolerant);
  CHECK((key_of(life, "consequence").otherwise == "high") == Life().high_consequence);
}

TEST_CASE("wheels are told by words that the reader knows, gauges by directions in their order") {
  const KeyGroup& vehicle = kept(vehicle_kind()).groups[0];
  const KeyGroup& wheel = key_of(vehicle, "wheels").kind->element->groups[0];
  CHECK(key_of(wheel, "hold").kind->words == words_in(wheel_hold_words));
  CHECK(key_of(wheel, "brake").kind->words == words_in(wheel_brake_words));
  CHECK(key_of(wheel, "axle").kind->words == words_in(axle_words));
  CHECK(key_of(wheel, "hold").otherwise == word_for(wheel_hold_words, Wheel().hold));
  CHECK(key_of(wheel, "brake").otherwise == word_for(wheel_brake_words, Wheel().brake));
  const Key& gauges = key_of(kept(bench_test_kind()).groups[0], "gauges");
  CHECK(gauges.kind->element->words ==
        std::vector<std::string>(direction_names.begin(), direction_names.begin() + 3));
}

TEST_CASE("a bar of stock has the sizes of a section's shape and may have a price") {
  const ValueKind& sizes = *key_of(kept(stock_kind()).groups[0], "sizes").kind->element;
  CHECK(sizes.groups.size() == shape_words.size());
  for (const KeyGroup& size : sizes.groups) {
    INFO(size.title);
    if (size.word == "properties") continue;
    CHECK(size.title == shape_title(size.word));
    const std::vector<Key> shape = shape_keys(size.word);
    REQUIRE(size.keys.size() == shape.size() + 1);
    for (std::size_t i = 0; i < shape.size(); ++i) CHECK(size.keys[i].name == shape[i].name);
    CHECK(size.keys.back().name == "price");
    CHECK_FALSE(size.keys.back().required);
  }
}

TEST_CASE("a stock size of given properties needs its area alone") {
  const ValueKind& sizes = *key_of(kept(stock_kind()).groups[0], "sizes").kind->element;
  const auto size = std::find_if(sizes.groups.begin(), sizes.groups.end(),
                                 [](const KeyGroup& g) { return g.word == "properties"; });
  REQUIRE(size != sizes.groups.end());
  std::vector<std::string> names;
  for (const Key& key : size->keys) {
    names.push_back(key.name);
    INFO(key.name);
    CHECK(key.required == (key.name == "shape" || key.name == "A"));
    const bool may_stay = !key.required && key.name != "price";
    CHECK(key.help.ends_with("; absent: that of the section") == may_stay);
  }
  CHECK(names == std::vector<std::string>{"shape", "A", "Iy", "Iz", "It", "Wy", "Wz", "Wt", "Ay",
                                          "Az", "Wply", "Wplz", "price"});
}

TEST_CASE("shares and fractions are bounded to 0 and 1") {
  const auto check_share = [](const Key& key) {
    INFO(key.name);
    CHECK(key.kind->bounds.least == 0);
    CHECK(key.kind->bounds.most == 1);
  };
  const KeyGroup& vehicle = kept(vehicle_kind()).groups[0];
  check_share(key_of(vehicle, "brake_front_share"));
  check_share(key_of(vehicle, "roll_stiffness_front_share"));
  const KeyGroup& standard = key_of(vehicle, "standard_cases").kind->groups[0];
  check_share(key_of(standard, "tipping"));
  check_share(key_of(standard, "combined"));
  const KeyGroup& events = group_of(*kept(cases_kind()).element, "vehicle");
  check_share(key_of(key_of(events, "jack").kind->groups[0], "share"));
  const KeyGroup& point = key_of(group_of(*kept(cases_kind()).element, "static"), "point_loads")
                              .kind->element->element->groups[0];
  check_share(key_of(point, "at"));
}

}  // namespace tubewright::frame_keys_loads_test
