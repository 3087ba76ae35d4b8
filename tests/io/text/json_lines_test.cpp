// The JSON written row by row, read back by nlohmann::json and counted in lines.
#include "io/text/json_lines.h"

#include <algorithm>
#include <random>
#include <sstream>
#include <vector>

#include "tests/catch.h"

namespace tubewright::json_lines_test {

namespace {

using nlohmann::ordered_json;

/// Writes `object` entry by entry: an object that is not empty is opened or, at random, put down
/// with rows(); all else is a row.
void write(JsonLines& out, const ordered_json& object, std::mt19937& random) {
  for (const auto& [key, value] : object.items()) {
    const unsigned way = random() % 3;
    if (!value.is_object() || way == 0) {
      out.row(key, value);
    } else if (way == 1) {
      out.rows(key, value);
    } else {
      out.open(key);
      write(out, value, random);
      out.close();
    }
  }
}

ordered_json random_object(std::mt19937& random, int depth) {
  const std::vector<ordered_json> leaves = {1.5,     -3,         "a \"b\" \\ \n c", true,
                                            nullptr, {1, "two"}, "Träger"};
  ordered_json object = ordered_json::object();
  const unsigned count = random() % 4;
  for (unsigned i = 0; i < count; ++i) {
    const std::string key = "k\"" + std::to_string(i);
    if (depth > 0 && random() % 2 == 0) {
      object[key] = random_object(random, depth - 1);
    } else {
      object[key] = leaves[random() % leaves.size()];
    }
  }
  return object;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

}  // namespace

TEST_CASE("a document written row by row is read back as the tree it was written from") {
  std::mt19937 random(4);
  for (int i = 0; i < 200; ++i) {
    const ordered_json tree = random_object(random, 3);
    JsonLines out;
    write(out, tree, random);
    const std::string text = out.finish();
    INFO(text);
    const ordered_json read = ordered_json::parse(text);
    CHECK(read == tree);
    CHECK(read.dump() == tree.dump());  // also in the order of writing
    CHECK(text.ends_with("}\n"));
  }
}

TEST_CASE("each entry of a JSON document has a line of its own, indented by its depth") {
  JsonLines out;
  out.row("a", ordered_json{{"x", 1}, {"y", {2, 3}}});
  out.open("b");
  out.rows("c", ordered_json{{"p", "one"}, {"q", {{"r", 4}}}});
  out.row("d", 5);
  out.close();
  CHECK(out.finish() ==
        "{\n \"a\": {\"x\":1,\"y\":[2,3]},\n \"b\": {\n  \"c\": {\n   \"p\": \"one\",\n"
        "   \"q\": {\"r\":4}\n  },\n  \"d\": 5\n }\n}\n");

  JsonLines many;
  ordered_json object;
  for (int i = 0; i < 500; ++i) object["m" + std::to_string(i)] = {{"N", i}};
  many.rows("members", object);
  CHECK(lines_of(many.finish()).size() == 500 + 4);  // two braces more for each object
}

TEST_CASE("a list of a JSON document has an item a line, an empty one none") {
  JsonLines out;
  out.list("rows", ordered_json::array({{{"a", 1}}, "b"}));
  out.list("none", ordered_json::array());
  out.row("c", 1);
  CHECK(out.finish() ==
        "{\n \"rows\": [\n  {\"a\":1},\n  \"b\"\n ],\n \"none\": [],\n \"c\": 1\n}\n");
}

TEST_CASE("objects of a JSON document may be empty and are closed on their own line's end") {
  JsonLines nothing;
  CHECK(ordered_json::parse(nothing.finish()) == ordered_json::object());
  JsonLines out;
  out.open("a");
  out.close();
  out.rows("b", ordered_json::object());
  out.row("c", 1);
  const std::string text = out.finish();
  CHECK(text == "{\n \"a\": {},\n \"b\": {},\n \"c\": 1\n}\n");
}

TEST_CASE("bytes that are no UTF-8 become the replacement character in a JSON document") {
  JsonLines out;
  out.open("Z\xE4hler");  // Latin-1
  out.row("\xFFkey", "va\xC3lue");
  out.close();
  const auto read = nlohmann::json::parse(out.finish());
  CHECK(read["Z\uFFFDhler"]["\uFFFDkey"] == "va\uFFFDlue");
}

}  // namespace tubewright::json_lines_test
