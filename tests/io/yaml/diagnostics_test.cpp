#include "io/yaml/diagnostics.h"

#include "io/text/utf8.h"
#include "tests/catch.h"

namespace tubewright::diagnostics_test {

namespace {

std::string shown(const std::string& text, Place place, const std::string& message = "wrong",
                  const std::string& advice = "mend it") {
  return render(Problem{Severity::error, place, message, advice}, {"f.yaml", text});
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
  CHECK(render(Problem{Severity::warning, {}, "`limits` is odd", "look again"}, {"f.yaml", "a"}) ==
        "f.yaml: warning: `limits` is odd\n     | look again\n");
}

TEST_CASE("many problems are cut with a count of the rest") {
  const Problems problems(most_problems_shown + 7,
                          Problem{Severity::error, {1, 1}, "wrong", "mend it"});
  const std::string out = render(problems, {"f.yaml", "a"});
  CHECK(std::count(out.begin(), out.end(), '^') == static_cast<int>(most_problems_shown));
  CHECK_THAT(out, ContainsSubstring("f.yaml: 7 more like these are not shown\n"));
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

}  // namespace tubewright::diagnostics_test
