// The short names for kinds of value, each against the form, the bounds and the words it stands
// for.
#include "io/keys/frame_kinds.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::frame_kinds_test {

namespace {

using Words = std::vector<std::string>;
constexpr double infinity = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("kinds of single values have their form and say what is expected") {
  CHECK(kinds::text()->form == ValueForm::text);
  CHECK(kinds::flag()->form == ValueForm::flag);
  CHECK(kinds::flag()->expected == "`true` or `false`");
  const SharedKind plain = kinds::name("a node name");
  const SharedKind spaced = kinds::name_with_spaces("a material name");
  CHECK(plain->form == ValueForm::name);
  CHECK(spaced->form == ValueForm::name);
  CHECK_FALSE(plain->spaces_in_names);
  CHECK(spaced->spaces_in_names);
  CHECK(spaced->expected == "a material name");
  const SharedKind choice = kinds::choice({"front", "rear"});
  CHECK(choice->form == ValueForm::choice);
  CHECK(choice->words == Words{"front", "rear"});
  CHECK(choice->expected == "`front` or `rear`");
}

TEST_CASE("kinds of numbers have a measure and bounds and are expected in its unit") {
  const SharedKind size = kinds::quantity(measure::length, kinds::positive);
  CHECK(size->form == ValueForm::quantity);
  CHECK(size->measure == &measure::length);
  CHECK(size->expected == "a length in mm");
  CHECK(size->words.empty());
  CHECK(kinds::quantity(measure::number)->expected == "a number");
  CHECK(kinds::quantity(measure::number)->bounds.least == -infinity);
  CHECK(kinds::quantity(measure::number)->bounds.most == infinity);
  const SharedKind share = kinds::quantity_or(measure::share, kinds::zero_to_one, "ideal");
  CHECK(share->form == ValueForm::quantity);
  CHECK(share->words == Words{"ideal"});
  CHECK(share->expected == "a share or `ideal`");
  const SharedKind place = kinds::vector(measure::force, kinds::not_negative);
  CHECK(place->form == ValueForm::vector);
  CHECK(place->expected == "three numbers, [x, y, z] in N");
  CHECK(place->bounds.least == 0);
}

TEST_CASE("the bounds of numbers are what their words say") {
  CHECK(kinds::positive.least > 0);
  CHECK(kinds::positive.least <= 1e-6);  // nothing that can be measured is refused
  CHECK(std::isfinite(1e15 / kinds::positive.least));
  CHECK(kinds::positive.most == infinity);
  CHECK(std::string(kinds::positive.in_words) == "greater than 0");
  CHECK(kinds::not_negative.least == 0);
  CHECK_FALSE(kinds::not_negative.least_excluded);
  CHECK(std::string(kinds::not_negative.in_words) == "0 or more");
  CHECK(kinds::zero_to_one.least == 0);
  CHECK(kinds::zero_to_one.most == 1);
  CHECK(std::string(kinds::zero_to_one.in_words) == "between 0 and 1");
  // A stable isotropic solid: K = E/(3(1 - 2 nu)) and G = E/(2(1 + nu)) above 0; 0.5 is the limit
  // of a solid that keeps its volume.
  CHECK(kinds::poisson.least == -1);
  CHECK(kinds::poisson.least_excluded);
  CHECK(kinds::poisson.most == 0.5);
}

TEST_CASE("lists, maps and groups hold what they were made with") {
  const SharedKind node = kinds::name("a node name");
  const SharedKind pair = kinds::list_of(node, 2, 3, "two nodes");
  CHECK(pair->form == ValueForm::list);
  CHECK(pair->element == node);
  CHECK(pair->least == 2);
  CHECK(pair->most == 3);
  CHECK_FALSE(pair->repeats);
  const SharedKind path = kinds::sequence_of(node, 2, "a path");
  CHECK(path->form == ValueForm::list);
  CHECK(path->repeats);
  CHECK(path->least == 2);
  CHECK(path->most == std::numeric_limits<std::size_t>::max());
  CHECK(kinds::sequence_of(node, 2, "two", 2)->most == 2);
  const SharedKind map = kinds::entries_of(node, "a map", 1);
  CHECK(map->form == ValueForm::entries);
  CHECK(map->least == 1);
  CHECK_FALSE(map->spaces_in_names);
  CHECK(kinds::named_entries_with_spaces(node, "a map")->spaces_in_names);
  CHECK(kinds::named_entries_with_spaces(node, "a map")->form == ValueForm::entries);

  const SharedKind group =
      kinds::group("wheel", "a wheel", {{"axle", node, kinds::required, "", "help"}});
  CHECK(group->form == ValueForm::group);
  REQUIRE(group->groups.size() == 1);
  CHECK(group->groups[0].noun == "wheel");
  CHECK(group->groups[0].title == "a wheel");
  CHECK(group->groups[0].keys[0].required);
  const SharedKind either_of =
      kinds::variants({group->groups[0], group->groups[0]}, "kind", "beam");
  CHECK(either_of->form == ValueForm::variants);
  CHECK(either_of->groups.size() == 2);
  CHECK(either_of->chosen_by == "kind");
  CHECK(either_of->chosen_otherwise == "beam");
  CHECK(kinds::variants({}, "kind")->chosen_otherwise.empty());
  const SharedKind forms = kinds::by_form(node, pair, map, "any");
  CHECK(forms->form == ValueForm::by_form);
  CHECK(forms->scalar == node);
  CHECK(forms->list == pair);
  CHECK(forms->map == map);
  CHECK(forms->expected == "any");
}

}  // namespace tubewright::frame_kinds_test
