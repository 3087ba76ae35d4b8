#include "io/text/text_layout.h"

#include <limits>

#include "tests/catch.h"

namespace tubewright::text_layout_test {

TEST_CASE("a number that rounds to nothing has no minus sign") {
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(fixed(-0.006, 2) == "-0.01");
  CHECK(fixed(-0.0, 0) == "0");
}

TEST_CASE("numbers too long for a column turn to powers of ten") {
  CHECK(fixed(1e300, 2) == "1.000e+300");
  CHECK(fixed(123456789, 0) == "123456789");
}

TEST_CASE("a number that does not exist reads none") {
  CHECK(fixed(std::numeric_limits<double>::quiet_NaN(), 2) == "none");
  CHECK(fixed(-std::numeric_limits<double>::infinity(), 2) == "none");
}

TEST_CASE("three digits are shown whatever the magnitude") {
  CHECK(decimals_for(123.4) == 0);
  CHECK(decimals_for(12.34) == 1);
  CHECK(decimals_for(-1.234) == 2);
  CHECK(decimals_for(0.01234) == 4);
  CHECK(decimals_for(1e-20) == 6);
  CHECK(decimals_for(0) == 2);
}

TEST_CASE("rounding never hides on which side of its limit a utilisation is") {
  CHECK(utilisation_text(0.87) == "0.87");
  CHECK(utilisation_text(1) == "1.00");
  CHECK(utilisation_text(1.0004) == "1.000400");
  CHECK(utilisation_text(0.9999) == "0.999900");
}

TEST_CASE("a paragraph is broken at spaces and hangs under its first line") {
  const std::string word(60, 'x');
  CHECK(wrapped("- ", word + " " + word) == "- " + word + "\n  " + word + "\n");
  CHECK(wrapped("- ", "short  text") == "- short text\n");
  CHECK(wrapped("- ", std::string(150, 'y')) == "- " + std::string(150, 'y') + "\n");
}

TEST_CASE("a key is told in words") {
  CHECK(in_words("rivet_shear") == "rivet shear");
  CHECK(in_words("a_b_c") == "a b c");
  CHECK(in_words("yield") == "yield");
}

TEST_CASE("padding keeps text that is too long") {
  CHECK(left("ab", 4) == "ab  ");
  CHECK(right("ab", 4) == "  ab");
  CHECK(left("abcde", 4) == "abcde");
  CHECK(right("abcde", 4) == "abcde");
}

}  // namespace tubewright::text_layout_test
