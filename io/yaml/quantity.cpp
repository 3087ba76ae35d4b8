#include "io/yaml/quantity.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

#include "cases/frame/wording.h"
#include "io/text/utf8.h"
#include "io/yaml/units.h"
#include "io/yaml/yaml_errors.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace measure {

// what, workshop unit, example, {length, mass, time, angle}, SI value
const Measure length{"a length", "mm", "1 in", {1, 0, 0, 0}, 1e-3};
const Measure area{"an area", "mm2", "0.3 in2", {2, 0, 0, 0}, 1e-6};
const Measure section_modulus{"a section modulus", "mm3", "0.1 in3", {3, 0, 0, 0}, 1e-9};
const Measure second_moment{"a second moment of area", "mm4", "0.1 in4", {4, 0, 0, 0}, 1e-12};
const Measure mass{"a mass", "kg", "165 lb", {0, 1, 0, 0}, 1};
const Measure density{"a density", "kg/m3", "7.85 g/cm3", {-3, 1, 0, 0}, 1};
const Measure stress{"a stress", "MPa", "29000 ksi", {-1, 1, -2, 0}, 1e6};
const Measure force{"a force", "N", "3 kN", {1, 1, -2, 0}, 1};
const Measure moment{"a moment", "N m", "150 lbf ft", {2, 1, -2, 0}, 1};
const Measure angle{"an angle", "deg", "0.1 rad", {0, 0, 0, 1}, degree};
const Measure rate{"a force per length", "N/mm", "30 lbf/in", {0, 1, -2, 0}, 1e3};
const Measure turning_rate{
    "a moment per angle", "N m/deg", "10 kN m/rad", {2, 1, -2, -1}, 1 / degree};
const Measure line_load{"a force per length", "N/mm", "3 kN/m", {0, 1, -2, 0}, 1e3};
const Measure fastener_rate{"a force per length", "kN/mm", "5000 N/mm", {0, 1, -2, 0}, 1e6};
const Measure inertia{"a mass moment of inertia", "kg m2", "70 lb ft2", {2, 1, 0, 0}, 1};
const Measure acceleration{"an acceleration", "m/s2", "32.174 ft/s2", {1, 0, -2, 0}, 1};
const Measure frequency{"a frequency", "Hz", "0.02 kHz", {0, 0, -1, 0}, 1};
const Measure multiple_of_g{"a multiple of g", "g", "0.8 g", {}, 1, true};
const Measure slope{"a slope", "%", "10 %", {}, 0.01};
const Measure share{"a share", "", "60 %", {}, 1};
const Measure number{"a number", "", "", {}, 1, true};
const Measure price{"a price", "", "", {}, 1, true};
const Measure speed{"a speed", "km/h", "3 m/s", {1, 0, -1, 0}, 1 / 3.6};
const Measure time{"a time", "s", "500 ms", {0, 0, 1, 0}, 1};
const Measure damping{"a force per speed", "N s/mm", "500 N s/m", {0, 1, -1, 0}, 1e3};
const Measure roughness{"a volume", "m3", "256e6 mm3", {3, 0, 0, 0}, 1};
}  // namespace measure

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

std::string lower(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return result;
}

// A sum or product of a few such values stays far from overflow, and nobody builds with larger.
constexpr double largest = 1e15;

/// A number at the start of a text, and what follows it.
struct Leading {
  double value = 0;
  std::string_view rest;
};

std::size_t digits_from(std::string_view text, std::size_t i) {
  while (i < text.size() && is_digit(text[i])) ++i;
  return i;
}

/// End of the longest number at the start of `text`, 0 if there is none.
std::size_t number_end(std::string_view text) {
  std::size_t i = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  const std::size_t whole = digits_from(text, i);
  std::size_t end = whole;
  std::size_t digits = whole - i;
  if (end < text.size() && text[end] == '.') {
    const std::size_t fraction = digits_from(text, end + 1);
    digits += fraction - end - 1;
    end = fraction;
  }
  if (digits == 0) return 0;
  if (end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
    i = end + 1;
    if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
    const std::size_t exponent = digits_from(text, i);
    if (exponent > i) end = exponent;
  }
  return end;
}

Diagnostic not_finite(std::string_view text) {
  return {shown(text) + " is not a finite number", "write a number"};
}

Diagnostic leading_zero(std::string_view text) {
  return {shown(text) + " starts with a zero, which some programs read in another base",
          "write the number without leading zeros"};
}

Diagnostic not_decimal(std::string_view text) {
  return {shown(text) + " is not a decimal number", "write it in decimal digits"};
}

Diagnostic separator_in_number(std::string_view text) {
  return {shown(text) + " has a separator between its digits",
          "write the digits without separators"};
}

Diagnostic comma_in_number(std::string_view text) {
  return {shown(text) + " has a comma in it", "write the decimal point as `.`, and no separators"};
}

Diagnostic number_too_large(std::string_view digits) {
  return {shown(digits) + " is too large", "the greatest number here is 1e15"};
}

Diagnostic quantity_too_large(std::string_view text, const Measure& m) {
  return {shown(text) + " is too large", std::string("the greatest value here is 1e15 ") + m.unit};
}

Diagnostic number_in_quotes(std::string_view text) {
  return {"the number " + shown(text) + " stands in quotes, as text",
          "remove the quotes, or add a unit"};
}

/// The traps of numbers in text: other bases, separators, words for infinity.
std::optional<Diagnostic> number_trap(std::string_view text) {
  std::string_view unsigned_text = text;
  if (!text.empty() && (text[0] == '-' || text[0] == '+')) unsigned_text.remove_prefix(1);
  const std::string word = lower(unsigned_text);
  if (word == ".nan" || word == "nan" || word == ".inf" || word == "inf" || word == "infinity") {
    return not_finite(text);
  }
  if (unsigned_text.size() < 2 || !is_digit(unsigned_text[0])) return {};
  if (unsigned_text[0] == '0' && is_digit(unsigned_text[1])) {
    return leading_zero(text);
  }
  if (unsigned_text[0] == '0' && (word[1] == 'x' || word[1] == 'o')) {
    return not_decimal(text);
  }
  const std::size_t end = number_end(text);
  if (end + 1 < text.size() && is_digit(text[end + 1])) {
    if (text[end] == '_' || text[end] == '\'') return separator_in_number(text);
    if (text[end] == ',') return comma_in_number(text);
  }
  return {};
}

/// "write a number in mm, or a length such as `1 in`".
std::string how_to_write(const Measure& m) {
  if (m.unit[0] == '\0') return "write a plain number";
  std::string text = std::string("write a number in ") + m.unit;
  if (!m.only_own_unit) text += std::string(", or ") + m.what + " such as `" + m.with_unit + "`";
  return text;
}

Diagnostic not_a_quantity(std::string_view text, const Measure& m) {
  const std::string word = lower(text);
  std::string advice = how_to_write(m);
  if (word == "yes" || word == "no" || word == "true" || word == "false") {
    advice += "; `true` and `false` are for switches";
  }
  return {shown(text) + " is not " + m.what, advice};
}

/// Digits that std::from_chars() found too large or too small for a double: which of them?
bool rounds_to_zero(std::string_view digits) {
  const std::size_t exponent = digits.find_first_of("eE");
  if (exponent != std::string_view::npos) return digits[exponent + 1] == '-';
  return digits.find_first_of("123456789") > digits.find('.');
}

Outcome<Leading, Diagnostic> leading_number(std::string_view text, const Measure& m) {
  if (auto trap = number_trap(text)) return *std::move(trap);
  const std::size_t end = number_end(text);
  if (end == 0) return not_a_quantity(text, m);
  const std::string_view digits = text.substr(text[0] == '+' ? 1 : 0, end - (text[0] == '+'));
  Leading number{0, text.substr(end)};
  const auto [stop, error] =
      std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
  const bool out_of_range = error == std::errc::result_out_of_range;
  if (out_of_range && rounds_to_zero(digits)) {
    number.value = 0;
  } else if (out_of_range || std::abs(number.value) > largest) {
    return number_too_large(digits);
  }
  return number;
}

std::string name_of(const Dimension& dimension) {
  using namespace measure;
  for (const Measure* m :
       {&length, &area, &section_modulus, &second_moment, &mass, &density, &stress, &force, &moment,
        &angle, &rate, &turning_rate, &inertia, &acceleration, &frequency}) {
    if (m->dimension == dimension) return m->what;
  }
  return dimension == Dimension{} ? "a plain number" : "another kind of quantity";
}

Diagnostic wrong_kind(std::string_view text, const Unit& unit, const Measure& m) {
  std::string advice = how_to_write(m);
  if (&m == &measure::force && unit.dimension == measure::mass.dimension) {
    advice = "write a number in N; pounds of force are `lbf`";
  } else if (&m == &measure::mass && unit.dimension == measure::force.dimension) {
    advice = "write a number in kg; pounds of mass are `lb`";
  }
  return {shown(text) + " is " + name_of(unit.dimension) + ", not " + m.what, advice};
}

QuantityReading with_unit(std::string_view text, const Leading& number, std::string_view unit_text,
                          const Measure& m) {
  if (m.only_own_unit) {
    if (unit_text == m.unit) return number.value * m.to_si;
    return not_a_quantity(text, m);
  }
  auto read = read_unit(unit_text);
  if (auto* diagnostic = read.error()) return std::move(*diagnostic);
  const Unit& unit = *read;
  if (unit.dimension != m.dimension) return wrong_kind(text, unit, m);
  const double si = number.value * unit.to_si;
  if (!(std::abs(si) <= largest * m.to_si)) return quantity_too_large(text, m);
  return si;
}

}  // namespace

QuantityReading read_number(std::string_view text) {
  return read_quantity(text, false, measure::number);
}

QuantityReading read_quantity(std::string_view text, bool in_quotes, const Measure& m) {
  text = trimmed(text);
  auto read = leading_number(text, m);
  if (auto* diagnostic = read.error()) return std::move(*diagnostic);
  const Leading& number = *read;
  const std::string_view unit_text = trimmed(number.rest);
  if (!unit_text.empty()) return with_unit(text, number, unit_text, m);
  if (in_quotes) return number_in_quotes(text);
  return number.value * m.to_si;
}

bool looks_like_number(std::string_view text) {
  return number_end(text) > 0 || number_trap(text).has_value();
}

}  // namespace tubewright
