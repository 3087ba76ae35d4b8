#include "io/yaml/yaml_errors.h"

#include <algorithm>
#include <array>
#include <cstdio>

#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "io/text/utf8.h"

namespace tubewright {
namespace {

std::string in_hexadecimal(char byte) {
  std::array<char, 8> digits{};
  std::snprintf(digits.data(), digits.size(), "0x%02X", static_cast<unsigned char>(byte));
  return digits.data();
}

std::string to_two_decimals(double value) {
  std::array<char, 32> digits{};
  std::snprintf(digits.data(), digits.size(), "%.2f", value);
  return digits.data();
}

/// What the parser's terse messages mean to somebody who does not know it.
std::string explained(const std::string& parser_message) {
  struct Explanation {
    const char* part;
    const char* meaning;
  };
  static constexpr std::array<Explanation, 9> explanations = {{
      {"end of map flow not found", "a `{` is not closed by `}`, or a comma is missing"},
      {"end of sequence flow not found", "a `[` is not closed by `]`, or a comma is missing"},
      {"end of map not found", "the indentation does not match the lines above"},
      {"end of sequence not found", "the indentation does not match the lines above"},
      {"illegal map value", "is the indentation right, and is there a colon in the line above?"},
      {"illegal flow end", "this bracket does not match the one opened before it"},
      {"referenced anchor is not defined", "an alias `*name` needs an anchor `&name` before it"},
      {"illegal EOF", "the text ends in the middle of a value"},
      {"unknown escape character", "write `\\\\` for a backslash, or use single quotes"},
  }};
  for (const Explanation& e : explanations) {
    if (parser_message.find(e.part) != std::string::npos) return e.meaning;
  }
  return "look for a missing colon, comma, quote or bracket near here";
}

}  // namespace

std::string shown(std::string_view text) { return quoted(one_line(text)); }

std::string either(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += quoted(words[i]);
  }
  return text;
}

Diagnostic other_encoding() { return {"the file is in UTF-16", "save it as UTF-8"}; }

Diagnostic invalid_byte(char byte) {
  return {"the byte " + in_hexadecimal(byte) + " is not UTF-8", "save the file as UTF-8"};
}

Diagnostic control_character(char c) {
  return {"control character " + in_hexadecimal(c) + " in the text", "remove it"};
}

Diagnostic tab_in_indentation() { return {"a tab in the indentation", "indent with spaces"}; }

Diagnostic too_large(std::size_t megabytes) {
  return {"the file is larger than " + std::to_string(megabytes) + " MB",
          "a frame of 100 000 members takes about 6 MB; is this a frame file?"};
}

Diagnostic empty_file() {
  return {"the file is empty", "start with `frame: TITLE`; `tubewright start FILE` writes one"};
}

Diagnostic not_yaml(const std::string& parser_message) {
  return {"cannot read this as YAML: " + one_line(parser_message), explained(parser_message)};
}

Diagnostic unclosed_quote() {
  return {"a quotation mark is opened and never closed", "close it on this line"};
}

Diagnostic second_document() {
  return {"a second document begins here", "put one frame in one file"};
}

Diagnostic tag_used() {
  return {"tags are not used in frame files", "remove the word that starts with `!`"};
}

Diagnostic merge_key() {
  return {"merge keys `<<` are not supported",
          "write the keys out, or use an alias for a whole value"};
}

Diagnostic odd_key() {
  return {"a key must be a plain word", "write `name: value`; put `{` and `[` after the colon"};
}

Diagnostic alias_of_itself() { return {"an alias inside its own anchor", "write the value out"}; }

Diagnostic too_deep(int levels) {
  return {"nested more than " + std::to_string(levels) + " levels deep",
          "a frame file needs fewer than ten levels"};
}

Diagnostic too_many_values() {
  return {"more than two million values, counting what aliases repeat",
          "use fewer aliases of large values"};
}

Diagnostic duplicate_key(std::string_view key, const SourceLocation& first) {
  return {"key " + shown(key) + " is given twice",
          "first given in line " + std::to_string(first.line) + "; remove one of them"};
}

Diagnostic unknown_key(std::string_view key, const std::string& title,
                       const std::vector<std::string>& known) {
  if (known.empty()) return {"unknown key " + shown(key), title + " has no such key"};
  std::string advice = did_you_mean(key, known);
  if (advice.empty()) advice = title + " has the keys " + quoted_list(known);
  return {"unknown key " + shown(key), advice};
}

Diagnostic key_of_another_kind(std::string_view key, const std::string& title,
                               const std::vector<std::string>& known) {
  return {"the key " + shown(key) + " does not belong to " + title,
          title + " has the keys " + quoted_list(known)};
}

Diagnostic stray_number(std::string_view key) {
  return {"the number " + shown(key) + " belongs to no key",
          "write the decimal point as `.`, or a list in brackets"};
}

Diagnostic missing_key(const std::string& owner, const std::string& key, const std::string& help) {
  return {owner + " has no " + quoted(key), "add " + quoted(key + ":") + ", " + help};
}

Diagnostic no_value(const std::string& key, const std::string& expected) {
  if (key.find(' ') != std::string::npos) {
    return {shown(key) + " has no value", "is a colon missing?"};
  }
  return {shown(key) + " has no value", "write " + expected + " after the colon"};
}

Diagnostic bad_name(std::string_view name, bool spaces_allowed) {
  return {shown(name) + " cannot be a name", std::string("use letters, digits, `_`, `-` and `.`") +
                                                 (spaces_allowed ? ", and spaces between" : "")};
}

Diagnostic not_a_map_of_keys(const std::string& found) {
  return {"the file holds " + found + " instead of keys with values",
          "start with `frame: TITLE`; `tubewright start FILE` writes an example"};
}

Diagnostic wrong_form(const std::string& key, const std::string& found,
                      const std::string& expected) {
  return {shown(key) + " is " + found, "write " + expected};
}

Diagnostic not_a_choice(std::string_view text, const std::string& key,
                        const std::vector<std::string>& words) {
  constexpr std::size_t few = 3;
  std::string advice = words.size() > few ? did_you_mean(text, words) : "";
  if (advice.empty()) advice = "write " + either(words);
  return {shown(key) + " cannot be " + shown(text), advice};
}

Diagnostic not_a_switch(std::string_view text) {
  return {shown(text) + " is neither `true` nor `false`", "write `true` or `false`"};
}

Diagnostic wrong_count(const std::string& key, std::size_t found, const std::string& expected) {
  return {shown(key) + " has " + std::to_string(found) + (found == 1 ? " entry" : " entries"),
          "write " + expected};
}

Diagnostic given_twice(std::string_view item) {
  return {shown(item) + " is listed twice", "remove one of them"};
}

Diagnostic out_of_range(std::string_view text, const std::string& key, const std::string& range) {
  return {shown(key) + " cannot be " + shown(text), "it must be " + range};
}

Diagnostic no_shear_modulus(const std::string& material) {
  return {"material " + quoted(material) + " has neither `G` nor `nu`",
          "add the shear modulus `G` in MPa, or Poisson's ratio `nu`"};
}

Diagnostic moduli_disagree(double nu_given, double nu_from_moduli) {
  return {"`nu` is " + to_two_decimals(nu_given) + ", but `E` and `G` make it " +
              to_two_decimals(nu_from_moduli),
          "remove `nu` or `G`: nu = E/(2 G) - 1"};
}

Diagnostic reading_without_gauge(const std::string& node) {
  return {"a reading at " + quoted(node) + ", where no gauge stands",
          "add it to `gauges` with its direction"};
}

Diagnostic empty_load(const std::string& member) {
  return {"a load on " + quoted(member) + " with neither `force` nor `moment`",
          "add `force: [x, y, z]` in N or `moment: [x, y, z]` in N m"};
}

Diagnostic joint_of_nothing() {
  return {"`joint` has neither `rivet` nor `bond`",
          "add one of them, or remove `joint` for a perfect edge"};
}

}  // namespace tubewright
