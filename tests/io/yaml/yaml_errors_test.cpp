// The wording of faults: every function of the header, against the form that Diagnostic asks of
// messages and advice.
#include "io/yaml/yaml_errors.h"

#include <set>

#include "io/text/utf8.h"
#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::yaml_errors_test {

namespace {

const std::vector<std::string> colours = {"red", "green", "blue", "yellow"};

/// One fault of each function by its name, with names such as a frame file has.
testing::Wordings one_of_each(const std::string& word) {
  return {{"other_encoding", other_encoding()},
          {"invalid_byte", invalid_byte('\xE4')},
          {"control_character", control_character('\x1B')},
          {"tab_in_indentation", tab_in_indentation()},
          {"too_large", too_large(16)},
          {"empty_file", empty_file()},
          {"not_yaml", not_yaml(word)},
          {"unclosed_quote", unclosed_quote()},
          {"second_document", second_document()},
          {"tag_used", tag_used()},
          {"merge_key", merge_key()},
          {"odd_key", odd_key()},
          {"alias_of_itself", alias_of_itself()},
          {"too_deep", too_deep(24)},
          {"too_many_values", too_many_values()},
          {"duplicate_key", duplicate_key(word, {7, 3})},
          {"unknown_key", unknown_key(word, "a round bar", colours)},
          {"key_of_another_kind", key_of_another_kind(word, "a round bar", colours)},
          {"stray_number", stray_number(word)},
          {"missing_key", missing_key("section `rail`", "wall", "wall thickness, mm")},
          {"no_value", no_value(word, "a length in mm")},
          {"bad_name", bad_name(word, true)},
          {"not_a_map_of_keys", not_a_map_of_keys("a list")},
          {"wrong_form", wrong_form(word, "a list", "a length in mm")},
          {"not_a_choice", not_a_choice(word, "shape", colours)},
          {"not_a_switch", not_a_switch(word)},
          {"wrong_count", wrong_count(word, 2, "three numbers, [x, y, z]")},
          {"given_twice", given_twice(word)},
          {"out_of_range", out_of_range(word, "wall", "greater than 0")},
          {"no_shear_modulus", no_shear_modulus("own")},
          {"moduli_disagree", moduli_disagree(0.3, 0.45)},
          {"reading_without_gauge", reading_without_gauge("tip")},
          {"empty_load", empty_load("rail")},
          {"joint_of_nothing", joint_of_nothing()}};
}

}  // namespace

TEST_CASE("every wording of a fault has a message and an advice in the form of the house") {
  const testing::Wordings faults = one_of_each("spam");
  testing::check_wordings("io/yaml/yaml_errors.h", faults);
  for (const auto& [name, fault] : faults) {
    for (const std::string& text : {fault.message, fault.advice}) {
      INFO(text);
      CHECK_FALSE(text.empty());
      CHECK(one_line(text, text.size()) == text);
      CHECK(text.size() <= 100);  // one line of a terminal for each
    }
  }
}

TEST_CASE("no two faults have the same message") {
  std::set<std::string> messages;
  for (const auto& [name, fault] : one_of_each("spam")) {
    INFO(name);
    CHECK(messages.insert(fault.message).second);
  }
  // The same fault of two names, bytes or places reads differently.
  CHECK(invalid_byte('\xE4').message != invalid_byte('\xE5').message);
  CHECK(control_character('\x01').message != control_character('\x7F').message);
  CHECK(duplicate_key("a", {7, 3}).advice != duplicate_key("a", {8, 3}).advice);
  CHECK(moduli_disagree(0.3, 0.45).message != moduli_disagree(0.45, 0.3).message);
}

TEST_CASE("text of the file inside a fault stays on one line and short, whatever it holds") {
  const std::string hostile = "\x1B[31m\n" + std::string(5000, 'x') + "\xFF";
  for (const auto& [name, fault] : one_of_each(hostile)) {
    INFO(name);
    for (const std::string& text : {fault.message, fault.advice}) {
      CHECK(text.find('\n') == std::string::npos);
      CHECK(text.find('\x1B') == std::string::npos);
      CHECK(text.size() <= 160);
    }
  }
  CHECK(shown("a\nb") == "`a b`");
}

TEST_CASE("a misspelt key or word is answered by the near one, another by all there are") {
  CHECK(unknown_key("gren", "a lamp", colours).advice == "did you mean `green`?");
  CHECK(unknown_key("xyzzy", "a lamp", colours).advice ==
        "a lamp has the keys `red`, `green`, `blue` and `yellow`");
  CHECK(unknown_key("gren", "a lamp", {}).advice == "a lamp has no such key");
  CHECK(not_a_choice("gren", "colour", colours).advice == "did you mean `green`?");
  CHECK(not_a_choice("xyzzy", "colour", colours).advice ==
        "write `red`, `green`, `blue` or `yellow`");
  CHECK(not_a_choice("gren", "colour", {"red", "green"}).advice == "write `red` or `green`");
  CHECK(not_a_choice("gren", "colour", colours).message == "`colour` cannot be `gren`");
}

TEST_CASE("words to choose from are joined by commas and one or") {
  CHECK(either({"a"}) == "`a`");
  CHECK(either({"a", "b"}) == "`a` or `b`");
  CHECK(either({"a", "b", "c"}) == "`a`, `b` or `c`");
}

TEST_CASE("faults tell the numbers, bytes and counts that are at fault") {
  CHECK(invalid_byte('\xE4').message == "the byte 0xE4 is not UTF-8");
  CHECK_THAT(control_character('\x07').message, ContainsSubstring("0x07"));
  CHECK_THAT(too_large(16).message, ContainsSubstring("16 MB"));
  CHECK_THAT(too_deep(24).message, ContainsSubstring("24 levels"));
  CHECK(wrong_count("at", 1, "three").message == "`at` has 1 entry");
  CHECK(wrong_count("at", 2, "three").message == "`at` has 2 entries");
  CHECK_THAT(moduli_disagree(0.3, 0.456).message, ContainsSubstring("0.30"));
  CHECK_THAT(moduli_disagree(0.3, 0.456).message, ContainsSubstring("0.46"));
  CHECK_THAT(bad_name("x y", true).advice, ContainsSubstring("spaces"));
  CHECK(bad_name("x/y", false).advice.find("spaces") == std::string::npos);
  CHECK(no_value("wall 2", "a length").advice == "is a colon missing?");
  CHECK(no_value("wall", "a length in mm").advice == "write a length in mm after the colon");
}

TEST_CASE("what the parser says is told in plain words") {
  // The messages are those of yaml-cpp 0.7 (exceptions.h).
  CHECK_THAT(not_yaml("end of map flow not found").advice, ContainsSubstring("`{` is not closed"));
  CHECK_THAT(not_yaml("end of sequence flow not found").advice,
             ContainsSubstring("`[` is not closed"));
  CHECK_THAT(not_yaml("end of map not found").advice, ContainsSubstring("indentation"));
  CHECK_THAT(not_yaml("something new").advice, ContainsSubstring("missing colon"));
  CHECK_THAT(not_yaml("something new").message, ContainsSubstring("something new"));
}

}  // namespace tubewright::yaml_errors_test
