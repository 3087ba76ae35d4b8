#include "io/keys/frame_schema.h"

#include <fstream>
#include <functional>
#include <iterator>
#include <nlohmann/json.hpp>
#include <regex>

#include "io/keys/frame_keys.h"
#include "tests/catch.h"

namespace tubewright::frame_schema_test {

namespace {

void for_each_key(const KeyGroup& group, const std::function<void(const Key&)>& visit);

void for_each_key(const ValueKind& kind, const std::function<void(const Key&)>& visit) {
  for (const KeyGroup& group : kind.groups) for_each_key(group, visit);
  for (const SharedKind& part : {kind.element, kind.scalar, kind.list, kind.map}) {
    if (part != nullptr) for_each_key(*part, visit);
  }
}

void for_each_key(const KeyGroup& group, const std::function<void(const Key&)>& visit) {
  for (const Key& key : group.keys) {
    visit(key);
    for_each_key(*key.kind, visit);
  }
}

}  // namespace

TEST_CASE("the committed schema is the one that the reader's table makes") {
  std::ifstream file(std::string(TUBEWRIGHT_SOURCE_DIR) + "/io/frame.schema.json");
  REQUIRE(file.good());
  const std::string committed(std::istreambuf_iterator<char>(file), {});
  CHECK(committed == frame_schema());  // after a change: `tubewright schema > io/frame.schema.json`
}

TEST_CASE("every key of the table has a kind and a line of help") {
  int count = 0;
  for_each_key(frame_keys(), [&](const Key& key) {
    ++count;
    INFO(key.name);
    REQUIRE(key.kind != nullptr);
    CHECK(key.help.size() > 3);
    CHECK(key.help.back() != '.');
    CHECK_FALSE((key.required && !key.otherwise.empty()));
  });
  CHECK(count > 150);
}

TEST_CASE("the schema knows every unit that the reader knows, and no other") {
  const auto schema = nlohmann::json::parse(frame_schema());
  const std::regex with_unit(schema["definitions"]["with_unit"]["pattern"].get<std::string>());
  for (const std::string& symbol : unit_symbols()) {
    CHECK(std::regex_match("1 " + symbol, with_unit));
  }
  for (const char* text :
       {"25mm", "-1.5e3 N m/deg", "7.85 g/cm3", "3 kip*ft", "1 N/mm^2", ".5 m"}) {
    INFO(text);
    CHECK(std::regex_match(text, with_unit));
  }
  for (const char* text : {"25", "025 mm", "1 mm/", "1 furlong", "mm", "12_000 mm", "1,5 mm"}) {
    INFO(text);
    CHECK_FALSE(std::regex_match(text, with_unit));
  }
}

}  // namespace tubewright::frame_schema_test
