#include "io/variants/vary_output.h"

#include <algorithm>
#include <sstream>

#include "tests/catch.h"
#include "tests/io/variants/hand_made_table.h"

namespace tubewright::vary_output_test {

using namespace tubewright::testing;

namespace {

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string row_of(const std::string& text, const std::string& number) {
  for (const std::string& line : split(text)) {
    std::istringstream words(line.substr(std::min<std::size_t>(1, line.size())));
    std::string first;
    words >> first;
    if (first == number) return line;
  }
  return "";
}

}  // namespace

TEST_CASE("the first line says in words which combination is the lightest that passes") {
  CHECK(vary_line(hand_made_table()) ==
        "The lightest of the 6 combinations that passes is number 1, sections.rail.wall = 1, "
        "sections.sill.material = a, \"b\": 11.00 kg, 33.3 N m/deg, worst 0.50 (yield of rail in "
        "brake)\n");
}

TEST_CASE("where none passes the first line says what they come to") {
  VaryTable t = hand_made_table();
  for (VaryRow& row : t.rows) {
    if (row.verdict == "pass") row.verdict = "fail";
  }
  judge(t);
  CHECK(vary_line(t) ==
        "None of the 6 combinations passes: 4 fail, 1 is not proven, 1 has no answer\n");
}

TEST_CASE("a shard says of which part it speaks, an empty one that it is empty") {
  VaryTable t = hand_made_table();
  t.shard = Shard{1, 3};
  std::erase_if(t.rows, [](const VaryRow& row) { return row.combination % 3 != 1; });
  judge(t);
  CHECK(vary_line(t).starts_with("The lightest of the 2 of 6 combinations in shard 1/3 that "));
  t.shard = Shard{8, 9};
  t.rows.clear();
  judge(t);
  CHECK(vary_line(t) == "Shard 8/9 holds none of the 6 combinations\n");
  CHECK(vary_text(t) == vary_line(t));
}

TEST_CASE("the table marks the front and has every number of a row") {
  const std::string text = vary_text(hand_made_table());
  const std::string first = row_of(text, "0"), worse = row_of(text, "2");
  CHECK(first.starts_with("*"));
  CHECK(worse.starts_with(" "));
  for (const char* cell :
       {"S235", "10.00", "100.0", "20.0", "1.25", "FAIL", "yield of rail in brake"}) {
    CHECK_THAT(first, ContainsSubstring(cell));
  }
  CHECK_THAT(row_of(text, "4"), ContainsSubstring("not proven"));
  CHECK_THAT(row_of(text, "5"), ContainsSubstring("no answer"));
  CHECK_THAT(text, ContainsSubstring("number 5: node `A` can slide, along x"));
  CHECK_THAT(text, ContainsSubstring("Bear in mind"));
}

TEST_CASE("headings are the ends of the paths that tell them apart") {
  VaryTable t = hand_made_table();
  t.variables[1].path = "sections.sill.wall";
  CHECK_THAT(vary_text(t), ContainsSubstring("  rail.wall  sill.wall  "));
  t.variables[1].path = "nodes.A.z";
  CHECK_THAT(vary_text(t), ContainsSubstring("  wall") && ContainsSubstring("  z  ") &&
                               ContainsSubstring("varied: sections.rail.wall, nodes.A.z"));
}

TEST_CASE("without torsion there is no column of dashes for it") {
  VaryTable t = hand_made_table();
  CHECK_THAT(vary_text(t), ContainsSubstring("N m/deg"));
  for (VaryRow& row : t.rows) row.stiffness.reset();
  judge(t);
  CHECK_THAT(vary_text(t), !ContainsSubstring("N m/deg"));
}

TEST_CASE("of many combinations the table has the front, the lightest and how many are left out") {
  VaryTable t;
  t.variables = {{"a.b", std::vector<SetValue>(500, SetValue{"1"})}};
  for (std::size_t k = 0; k < 500; ++k) {
    // Only the first is on the front, and it fails; number 400 passes.
    t.rows.push_back({k,
                      1.0 + static_cast<double>(k),
                      {},
                      {},
                      2.0 + static_cast<double>(k),
                      "yield",
                      "m",
                      "c",
                      k == 400 ? "pass" : "fail",
                      ""});
  }
  judge(t);
  const std::string text = vary_text(t);
  CHECK(row_of(text, "0").starts_with("*"));
  CHECK_FALSE(row_of(text, "400").empty());
  CHECK(row_of(text, "1").empty());
  CHECK_THAT(text, ContainsSubstring("498 more are not shown"));
}

TEST_CASE("CSV has a heading and a line a combination, texts with commas in quotation marks") {
  const std::vector<std::string> lines = split(vary_csv(hand_made_table()));
  REQUIRE(lines.size() == 7);
  CHECK(lines[0] ==
        "combination,sections.rail.wall,sections.sill.material,mass,stiffness,frequency,"
        "utilisation,item,check,case,verdict,reason");
  CHECK(lines[1] == "0,1,S235,10,100,20,1.25,rail,yield,brake,fail,");
  CHECK(lines[2] == "1,1,\"a, \"\"b\"\"\",11,33.333333333333336,21,0.5,rail,yield,brake,pass,");
  CHECK(lines[6] == "5,2,\"a, \"\"b\"\"\",,,,,,,,no_answer,\"node `A` can slide, along x\"");
}

}  // namespace tubewright::vary_output_test
