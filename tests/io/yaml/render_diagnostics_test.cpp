#include "io/yaml/render_diagnostics.h"

#include "io/text/utf8.h"
#include "tests/catch.h"

namespace tubewright::render_diagnostics_test {

namespace {

std::string shown(const std::string& text, SourceLocation place,
                  const std::string& message = "wrong", const std::string& advice = "mend it") {
  return render(Diagnostic{Severity::error, place, message, advice}, {"f.yaml", text});
}

}  // namespace

TEST_CASE("a problem is shown with its line, a caret run and the advice") {
  CHECK(shown("a: 1\nrail:\n    widht: 25\n", {3, 5}, "unknown key `widht`",
              "did you mean `width`?") ==
        "f.yaml:3:5: error: unknown key `widht`\n"
        "   3 |     widht: 25\n"
        "     |     ^^^^^ did you mean `width`?\n");
}

TEST_CASE("the caret run covers what is at fault") {
  CHECK_THAT(shown("a: {side: twenty five, b: 1}", {1, 11}), ContainsSubstring("^^^^^^^^^^^ mend"));
  CHECK_THAT(shown("a: EN AW-5754  # sheet", {1, 4}), ContainsSubstring("|    ^^^^^^^^^^ mend"));
  CHECK_THAT(shown("a: [1, 2]", {1, 4}), ContainsSubstring("|    ^ mend"));
  CHECK_THAT(shown("a: \"x, y\"", {1, 4}), ContainsSubstring("|    ^^^^^^ mend"));
  CHECK_THAT(shown("", {1, 1}), ContainsSubstring("| ^ mend"));
  CHECK_THAT(shown("a", {7, 30}), ContainsSubstring("   7 | \n     | ^ mend"));
}

TEST_CASE("the caret stands right after tabs and wide characters") {
  CHECK(shown("Träger: x", {1, 9}) ==
        "f.yaml:1:9: error: wrong\n   1 | Träger: x\n     |         ^ mend it\n");
  CHECK(shown("管: x", {1, 4}) == "f.yaml:1:4: error: wrong\n   1 | 管: x\n     |     ^ mend it\n");
  CHECK(shown("a:\tx", {1, 4}) == "f.yaml:1:4: error: wrong\n   1 | a: x\n     |    ^ mend it\n");
}

TEST_CASE("Windows line ends and a byte order mark do not show") {
  CHECK(shown("\xEF\xBB\xBF"
              "a: x\r\nb: y\r\n",
              {1, 4}) == "f.yaml:1:4: error: wrong\n   1 | a: x\n     |    ^ mend it\n");
}

TEST_CASE("of a very long line the part round the fault is shown") {
  const std::string text = std::string(5000, 'a') + ", bad, " + std::string(5000, 'b');
  const std::string out = shown(text, {1, 5003});
  CHECK(out.size() < 400);
  CHECK_THAT(out, ContainsSubstring("…aaa"));
  CHECK_THAT(out, ContainsSubstring(", bad, bbb"));
  CHECK_THAT(out, ContainsSubstring("bbb…\n"));
  CHECK_THAT(out, ContainsSubstring(" ^^^ mend it"));
}

TEST_CASE("a problem without a place names the file only") {
  CHECK(render(Diagnostic{Severity::warning, {}, "`limits` is odd", "look again"},
               {"f.yaml", "a"}) == "f.yaml: warning: `limits` is odd\n     | look again\n");
}

TEST_CASE("many problems are cut with a count of the rest") {
  const Diagnostics diagnostics(most_diagnostics_shown + 7,
                                Diagnostic{Severity::error, {1, 1}, "wrong", "mend it"});
  const std::string out = render(diagnostics, {"f.yaml", "a"});
  CHECK(std::count(out.begin(), out.end(), '^') == static_cast<int>(most_diagnostics_shown));
  CHECK_THAT(out, ContainsSubstring("f.yaml: 7 more like these are not shown\n"));
}

namespace {

Diagnostic doubt(int line, const std::string& message, const std::string& advice = "mend it") {
  return {Severity::warning, {line, 1}, message, advice};
}

std::string by_kind(const Diagnostics& diagnostics) {
  return render_by_kind(diagnostics, {"f.yaml", "a: 1\nb: 2\nc: 3\n"});
}

}  // namespace

TEST_CASE("warnings that differ in names and numbers alone stand in one block, each once") {
  CHECK(by_kind({doubt(1, "node `a` is 2 mm off", "move it by 2 mm"), doubt(2, "tube `x` is odd"),
                 doubt(3, "node `c` is 12.5 mm off", "move it by 12.5 mm"),
                 doubt(1, "node `a` is 2 mm off", "move it by 2 mm")}) ==
        "f.yaml:1:1: warning: node `a` is 2 mm off\n"
        "   1 | a: 1\n"
        "     | ^ move it by 2 mm\n"
        "f.yaml:3:1: likewise: node `c` is 12.5 mm off\n"
        "f.yaml:2:1: warning: tube `x` is odd\n"
        "   2 | b: 2\n"
        "     | ^ mend it\n");
}

TEST_CASE("warnings that say or advise something else are blocks of their own") {
  for (const Diagnostic& other :
       {doubt(2, "node `b` is on"), doubt(2, "node `b` is off", "wait")}) {
    const std::string out = by_kind({doubt(1, "node `a` is off"), other});
    CHECK_THAT(out, ContainsSubstring("f.yaml:2:1: warning: "));
    CHECK_THAT(out, !ContainsSubstring("likewise"));
  }
}

TEST_CASE("advice that names something else is told with its place, and lists of names are names") {
  const std::string out = by_kind({doubt(1, "bay `a`, `b` and `c` folds", "join `a` and `c`"),
                                   doubt(2, "bay `d` and `e` folds", "join `d` and `e`"),
                                   doubt(3, "bay `f` folds", "join `f` and `g`")});
  CHECK_THAT(out, ContainsSubstring("f.yaml:2:1: likewise: bay `d` and `e` folds; join `d`"));
  CHECK_THAT(out, ContainsSubstring("f.yaml:3:1: likewise: bay `f` folds; join `f`"));
}

TEST_CASE("many warnings of a kind are cut with a count of the rest, other kinds still told") {
  Diagnostics many;
  for (int i = 0; i < 100; ++i)
    many.push_back(doubt(1, "node `n" + std::to_string(i) + "` is off"));
  many.push_back(doubt(2, "tube `x` is odd"));
  const std::string out = by_kind(many);
  CHECK_THAT(out, ContainsSubstring("f.yaml: " + std::to_string(99 - most_places_shown) +
                                    " more like these are not shown\n"));
  CHECK_THAT(out, ContainsSubstring("tube `x` is odd"));
  CHECK(by_kind({}).empty());
}

// RFC 3629, section 4 gives the valid byte sequences.
TEST_CASE("UTF-8 is accepted as RFC 3629 defines it") {
  CHECK(character_length("a", 0) == 1);
  CHECK(character_length("é", 0) == 2);
  CHECK(character_length("€", 0) == 3);
  CHECK(character_length("\xF4\x8F\xBF\xBF", 0) == 4);  // U+10FFFF
  CHECK(character_length("\xF4\x90\x80\x80", 0) == 0);  // above it
  CHECK(character_length("\xC0\xAF", 0) == 0);          // overlong
  CHECK(character_length("\xE0\x9F\xBF", 0) == 0);      // overlong
  CHECK(character_length("\xED\xA0\x80", 0) == 0);      // surrogate
  CHECK(character_length("\xC3", 0) == 0);              // cut off
  CHECK(character_length("\x80", 0) == 0);              // no first byte
}

TEST_CASE("text in messages cannot drive a terminal") {
  CHECK(one_line("a\x1B[31m\n\xFF") == "a?[31m ?");
  CHECK(one_line("abcdef", 3) == "abc…");
}

}  // namespace tubewright::render_diagnostics_test
