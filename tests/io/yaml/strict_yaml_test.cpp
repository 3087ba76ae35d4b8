#include "io/yaml/strict_yaml.h"

#include <yaml-cpp/yaml.h>

#include "tests/catch.h"

namespace tubewright::strict_yaml_test {

namespace {

YamlNode parsed(const std::string& text) {
  Problems problems;
  std::optional<YamlNode> root = parse_strict_yaml(text, problems);
  INFO(text);
  REQUIRE(root.has_value());
  REQUIRE(problems.empty());
  return *std::move(root);
}

/// The same tree in the parser library's own form: what it makes of the text by itself.
bool same(const YamlNode& ours, const YAML::Node& theirs) {
  switch (ours.form) {
    case YamlForm::empty:
      return theirs.IsNull();
    case YamlForm::scalar:
      return theirs.IsScalar() && theirs.Scalar() == ours.text;
    case YamlForm::list: {
      if (!theirs.IsSequence() || theirs.size() != ours.items.size()) return false;
      for (std::size_t i = 0; i < ours.items.size(); ++i) {
        if (!same(ours.items[i], theirs[i])) return false;
      }
      return true;
    }
    case YamlForm::map: {
      if (!theirs.IsMap() || theirs.size() != ours.entries.size()) return false;
      std::size_t i = 0;
      for (const auto& entry : theirs) {
        if (entry.first.Scalar() != ours.entries[i].key) return false;
        if (!same(ours.entries[i].value, entry.second)) return false;
        ++i;
      }
      return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("the tree is the one that the parser library builds") {
  for (const char* text : {
           "a: 1\nb: [x, \"y, z\", {c: d}]\n",
           "a:\n  - 1\n  - b: 2\n    c: 3\n  - [4]\n",
           "a: &v {x: 1, y: [2, 3]}\nb: *v\nc: [*v, *v]\n",
           "a: 'it''s'\nb: \"two\\nlines\"\nc: plain words # comment\n",
           "a: |\n  kept\n  lines\nb: >\n  folded\n  lines\n",
           "a: \"over\n  two lines\"\nb: over\n  two lines\n",
           "%YAML 1.2\n---\na: ~\nb:\nc: null\n...\n",
           "{a: 1, b: {c: [], d: {}}}",
           "\xEF\xBB\xBF"
           "a: Träger\r\nb: 管\r\n",
       }) {
    INFO(text);
    std::string plain = text;
    if (plain.starts_with("\xEF\xBB\xBF")) plain.erase(0, 3);
    CHECK(same(parsed(text), YAML::Load(plain)));
  }
}

TEST_CASE("places count lines and characters from 1") {
  const YamlNode root = parsed("ä: 1\nb: [ö, 'x', {c: d}]\n");
  CHECK(root.entries[0].value.place.column == 4);
  const YamlNode& list = root.entries[1].value;
  CHECK(list.place.line == 2);
  CHECK(list.place.column == 4);
  CHECK(list.items[0].place.column == 5);
  CHECK(list.items[1].place.column == 8);
  CHECK(list.items[2].entries[0].place.column == 14);
  CHECK(list.items[1].in_quotes);
  CHECK_FALSE(list.items[0].in_quotes);
}

TEST_CASE("nothing in a scalar is guessed") {
  for (const char* word : {"yes", "010", ".nan", "0x10", "1e3", "12:30:45", "2001-01-01", "true"}) {
    CHECK(parsed(std::string("a: ") + word).entries[0].value.text == word);
  }
}

TEST_CASE("a quote that closes is never taken for an open one") {
  for (const char* text : {"a: 'x'", "a: ''", "a: \"\"", "a: ''''", "a: \"\\\"\"", "a: \"\\\\\"",
                           "a: &n 'x'", "a: &n\n  \"x\"", "a: x'", "a: x\"y", "'a': 1"}) {
    parsed(text);
  }
}

}  // namespace tubewright::strict_yaml_test
