#include "io/variants/vary_table.h"

#include <numbers>

#include "tests/catch.h"
#include "tests/io/variants/hand_made_table.h"

namespace tubewright::vary_table_test {

using namespace tubewright::testing;

TEST_CASE("a row has the numbers in workshop units and the verdict as JSON has it") {
  FrameNumbers n;
  n.mass = 12.5;
  n.stiffness = 180 * 400 / std::numbers::pi;
  n.worst = WorstOfAll{"brake", "yield", "rail", 0.5};
  n.verdict = Verdict::Answer::pass;
  const VaryRow row = vary_row(7, n);
  CHECK(row.combination == 7);
  CHECK(row.mass == 12.5);
  REQUIRE(row.stiffness);
  CHECK_THAT(*row.stiffness, WithinRel(400, 1e-12));
  CHECK_FALSE(row.frequency);
  CHECK(row.utilisation == 0.5);
  CHECK(row.item == "rail");
  CHECK(row.check == "yield");
  CHECK(row.load_case == "brake");
  CHECK(row.verdict == "pass");
  CHECK(row.reason.empty());
}

TEST_CASE("a row without answer says why and has no numbers") {
  const VaryRow row = vary_row(2, Diagnostics{{"node `A` can slide", "hold it"}});
  CHECK(row.verdict == "no_answer");
  CHECK(row.reason == "node `A` can slide");
  CHECK_FALSE(row.mass);
}

TEST_CASE("the lightest that passes is found, and the front among all that were answered") {
  const VaryTable t = hand_made_table();
  CHECK(t.lightest == 1U);
  CHECK(t.front == std::vector<bool>{true, true, false, true, false, false});
  CHECK(vary_passes(t));
}

TEST_CASE("where nothing passes the answer says so, but for a shard, which is a part of it") {
  VaryTable t = hand_made_table();
  for (VaryRow& row : t.rows) row.verdict = "fail";
  judge(t);
  CHECK_FALSE(t.lightest);
  CHECK_FALSE(vary_passes(t));
  t.shard = Shard{0, 2};
  CHECK(vary_passes(t));
}

TEST_CASE("the setting of a combination is told by its paths and values") {
  const VaryTable t = hand_made_table();
  CHECK(setting_text(t, 4) == "sections.rail.wall = 2, sections.sill.material = S235");
  CHECK(values_of(t, 1) == std::vector<std::string>{"1", "a, \"b\""});
}

TEST_CASE("the fingerprint of a text is that of FNV-1a") {
  // Test vectors of the function's authors (from memory).
  CHECK(fingerprint_of("") == "cbf29ce484222325");
  CHECK(fingerprint_of("a") == "af63dc4c8601ec8c");
  CHECK(fingerprint_of("foobar") == "85944171f73967e8");
}

}  // namespace tubewright::vary_table_test
