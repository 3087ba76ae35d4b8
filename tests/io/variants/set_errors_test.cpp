// The wording of faults in `--set` and `--shard`, against the form of the house.
#include "io/variants/set_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::set_errors_test {

TEST_CASE("every wording of a faulty --set or --shard has the form of the house") {
  testing::check_wordings("io/variants/set_errors.h",
                          {{"of_set", of_set("a.b=c", {"`c` is not a length", "write a number"})},
                           {"no_assignment", no_assignment("a")},
                           {"set_over_lines", set_over_lines("a=\nb")},
                           {"quotation_not_closed", quotation_not_closed("a='b")},
                           {"empty_value", empty_value("a=")},
                           {"range_without_count", range_without_count("1..2")},
                           {"range_of_no_count", range_of_no_count("1..2/x", "x")},
                           {"range_of_one", range_of_one("1..1/3")},
                           {"too_many_values_in_range", too_many_values_in_range("1..2/9", 8)},
                           {"range_of_no_numbers", range_of_no_numbers("a..2/3", "a")},
                           {"range_of_two_units", range_of_two_units("1 in..2 mm/3", "in", "mm")},
                           {"no_shard", no_shard("a")},
                           {"too_many_shards", too_many_shards("0/9", 8)},
                           {"shard_outside", shard_outside("9/9", 9)},
                           {"no_such_part", no_such_part("a.b", "a", "", {"c"})},
                           {"no_such_entry", no_such_entry("a.b", "b", "a", 3, true)},
                           {"nothing_below", nothing_below("a.b", "a")},
                           {"set_twice", set_twice("a", "a.b")},
                           {"nothing_to_vary", nothing_to_vary("sections.rail.wall")},
                           {"too_many_combinations", too_many_combinations(9, 8, 2)}});
}

TEST_CASE("a misspelt part of a path is answered by the near one, another by those there are") {
  CHECK(no_such_part("sections.ral.wall", "ral", "sections", {"rail", "sill"}).advice ==
        "did you mean `rail`?");
  CHECK(no_such_part("sections.x.wall", "x", "sections", {"rail", "sill"}).advice ==
        "it has `rail` and `sill`");
  const std::vector<std::string> many(20, "rail");
  CHECK(no_such_part("sections.x.wall", "x", "sections", many).advice.ends_with("and 12 more"));
  CHECK(no_such_entry("a.q", "q", "a", 3, true).advice == "its entries are 0 to 2, or x, y and z");
  CHECK(no_such_entry("a.4", "4", "a", 4, false).advice == "its entries are 0 to 3");
}

TEST_CASE("too many combinations are answered by a number of shards, if there is one") {
  CHECK_THAT(too_many_combinations(250000, 100000, 3).advice, ContainsSubstring("`--shard 0/3`"));
  CHECK(too_many_combinations(250000, 100000, 0).advice == "take fewer values");
}

}  // namespace tubewright::set_errors_test
