// Spans of values in the text they were parsed from.
#include "io/yaml/source_text.h"

#include "tests/catch.h"

namespace tubewright::source_text_test {

namespace {

struct Parsed {
  SourceText source;
  YamlNode root;
};

Parsed parsed(const std::string& text) {
  Diagnostics diagnostics;
  auto root = parse_strict_yaml(text, diagnostics);
  REQUIRE(root);
  return {SourceText(text), *root};
}

std::string text_at(const Parsed& p, const TextSpan& span) {
  return p.source.text().substr(span.begin, span.end - span.begin);
}

}  // namespace

TEST_CASE("each way to write a value is told, and its span is the value alone") {
  const Parsed p = parsed(
      "plain: 25 mm   # remark\n"
      "double: \"a \\\" b\" # remark\n"
      "'single' : 'it''s'\n"
      "über: &x  30\n"
      "alias: *x\n"
      "flow: {a: '}', b: [1, \"]\"], # } remark\n  c: 2}   # more\n"
      "block:\n  d: 1\n  e: two words # remark\n");
  const std::pair<Writing, const char*> expected[] = {
      {Writing::plain, "25 mm"},  {Writing::quoted, "a \\\" b"},
      {Writing::quoted, "it''s"}, {Writing::plain, "30"},
      {Writing::alias, "*x"},     {Writing::flow, "{a: '}', b: [1, \"]\"], # } remark\n  c: 2}"},
      {Writing::block, "d"}};
  REQUIRE(p.root.entries.size() == std::size(expected));
  for (std::size_t i = 0; i < std::size(expected); ++i) {
    INFO(p.root.entries[i].key);
    const auto value = p.source.value_of(p.root.entries[i]);
    REQUIRE(value);
    CHECK(value->writing == expected[i].first);
    CHECK(text_at(p, value->span) == expected[i].second);
  }
  const auto end = p.source.end_of(p.root.entries.back());
  REQUIRE(end);
  CHECK(p.source.text().substr(*end - 3, 3) == "rds");
  CHECK(p.source.line_end(*end) == p.source.text().size() - 1);
  CHECK(p.source.indent_at(*end) == "  ");
}

TEST_CASE("values over several lines are left alone") {
  const Parsed p = parsed("folded: two\n  words\nliteral: |\n  text\nlast: 1\n");
  CHECK_FALSE(p.source.value_of(p.root.entries[0]));
  CHECK_FALSE(p.source.value_of(p.root.entries[1]));
  CHECK(p.source.value_of(p.root.entries[2]));
}

TEST_CASE("lines end as the first one does") {
  CHECK(SourceText("a: 1\nb: 2\n").new_line() == "\n");
  CHECK(SourceText("a: 1\r\nb: 2\r\n").new_line() == "\r\n");
  CHECK(SourceText("a: 1").new_line() == "\n");
  const SourceText windows("a: 1\r\nb: 2");
  CHECK(windows.line_end(0) == 4);
  CHECK(windows.line_end(6) == windows.text().size());
}

TEST_CASE("edits are made wherever they stand, twice the same once, two at one place not at all") {
  const std::string text = "one two three";
  CHECK(with_edits(text, {}) == text);
  CHECK(with_edits(text, {{{8, 13}, "drei"}, {{0, 3}, "eins"}}) == "eins two drei");
  CHECK(with_edits(text, {{{4, 7}, "zwei"}, {{4, 7}, "zwei"}}) == "one zwei three");
  CHECK_FALSE(with_edits(text, {{{4, 7}, "zwei"}, {{4, 7}, "deux"}}));
  CHECK_FALSE(with_edits(text, {{{4, 9}, "zwei"}, {{6, 8}, "deux"}}));
  CHECK(with_edits(text, {{{3, 3}, ","}, {{3, 3}, ";"}}) == "one,; two three");
}

}  // namespace tubewright::source_text_test
