#include "io/variants/vary_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/io/variants/hand_made_table.h"

namespace tubewright::vary_json_test {

using namespace tubewright::testing;
using nlohmann::json;

namespace {

/// The answers of all shards.
std::vector<VaryFile> parts_of(const VaryTable& whole, std::size_t count) {
  std::vector<VaryFile> files;
  for (std::size_t i = 0; i < count; ++i) {
    VaryTable part = whole;
    part.shard = Shard{i, count};
    std::erase_if(part.rows, [&](const VaryRow& row) { return row.combination % count != i; });
    judge(part);
    files.push_back({"part_" + std::to_string(i) + ".json", vary_json(part)});
  }
  return files;
}

std::string fault(const std::vector<VaryFile>& files) {
  const auto outcome = merged_tables(files);
  REQUIRE(outcome.error() != nullptr);
  return text_of(*outcome.error());
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  REQUIRE(text.find(what) != std::string::npos);
  return text.replace(text.find(what), what.size(), by);
}

}  // namespace

TEST_CASE("JSON has a row a combination with the keys of the contract, null where there is none") {
  const json answer = json::parse(vary_json(hand_made_table()));
  CHECK(answer["frame"] == "Rack, <left> & \"right\"");
  CHECK(answer["passes"] == true);
  CHECK(answer["combinations"] == 6);
  CHECK(answer["shard"].is_null());
  CHECK(answer["lightest"] == 1);
  CHECK(answer["front"] == json::array({0, 1, 3}));
  REQUIRE(answer["vary"].size() == 6);
  const json row = answer["vary"][1];
  CHECK(row["combination"] == 1);
  CHECK(row["set"] == json{{"sections.rail.wall", 1}, {"sections.sill.material", "a, \"b\""}});
  CHECK(row["mass"] == 11);
  CHECK(row["stiffness"] == 100.0 / 3);
  CHECK(row["frequency"] == 21);
  CHECK(row["utilisation"] == 0.5);
  CHECK(row["item"] == "rail");
  CHECK(row["verdict"] == "pass");
  CHECK_FALSE(row.contains("reason"));
  const json none = answer["vary"][5];
  for (const char* key : {"mass", "stiffness", "frequency", "utilisation", "item"}) {
    CHECK(none[key].is_null());
  }
  CHECK(none["verdict"] == "no_answer");
  CHECK(none["reason"] == "node `A` can slide, along x");
}

TEST_CASE("the parts put together are one run's answer to the last byte, in any order and number") {
  const VaryTable whole = hand_made_table();
  for (const std::size_t count : {1U, 2U, 3U, 7U}) {
    std::vector<VaryFile> files = parts_of(whole, count);
    std::reverse(files.begin(), files.end());
    files.push_back(files.front());  // one was run again
    const VaryTable merged = answer_of(merged_tables(files));
    CHECK(vary_json(merged) == vary_json(whole));
    CHECK(merged.rows == whole.rows);
  }
  CHECK(vary_json(answer_of(merged_tables({{"whole.json", vary_json(whole)}}))) ==
        vary_json(whole));
}

TEST_CASE("parts that are missing, changed or of another question are told") {
  const VaryTable whole = hand_made_table();
  const std::vector<VaryFile> parts = parts_of(whole, 3);
  CHECK_THAT(fault({parts[0], parts[2]}),
             ContainsSubstring("2 of 6 combinations are missing, number 1 the first"));
  VaryTable changed = whole;
  changed.rows[1].mass = 11.5;
  judge(changed);
  CHECK_THAT(fault({parts[0], parts[1], parts[2], parts_of(changed, 3)[1]}),
             ContainsSubstring("combination 1 is told differently"));
  VaryTable other = whole;
  other.fingerprint = fingerprint_of("another file");
  CHECK_THAT(fault({parts[0], parts_of(other, 3)[1], parts[2]}),
             ContainsSubstring("different questions"));
  other = whole;
  other.variables[0].values[0] = {"1.1"};
  CHECK_THAT(fault({parts[0], parts_of(other, 3)[1]}), ContainsSubstring("different questions"));
}

TEST_CASE("what is no answer of vary is told, all files at once") {
  const std::string sound = vary_json(hand_made_table());
  const std::vector<std::string> texts = {
      "",
      "[]",
      "{}",
      "{\"schema\": 1}",
      sound.substr(0, sound.size() / 2),
      replaced(sound, "\"mass\":10.0", "\"mass\":\"ten\""),
      replaced(sound, "\"combination\":5", "\"combination\":6"),
      replaced(sound, "\"path\"", "\"road\""),
      replaced(sound, "\"values\":[1.0,1.5,2.0]", "\"values\":[]"),
      replaced(sound, "\"in_quotes\":[1]", "\"in_quotes\":[9]")};
  std::vector<VaryFile> files;
  for (const std::string& text : texts) files.push_back({"odd.json", text});
  const std::string told = fault(files);
  CHECK(static_cast<std::size_t>(std::count(told.begin(), told.end(), '\n')) == texts.size());
  CHECK_THAT(told, ContainsSubstring("`odd.json` is no answer of `vary --json`"));
  CHECK_THAT(fault({{"old.json", replaced(sound, "\"version\": \"", "\"version\": \"0.")}}),
             ContainsSubstring("another version"));
}

}  // namespace tubewright::vary_json_test
