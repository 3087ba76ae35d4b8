#include "io/yaml/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "cases/frame/frame.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "io/text/utf8.h"
#include "solver/model/angle.h"

namespace tubewright {
namespace {

constexpr Dimension plain{0, 0, 0, 0};
constexpr Dimension metre{1, 0, 0, 0};
constexpr Dimension kilogram{0, 1, 0, 0};
constexpr Dimension second{0, 0, 1, 0};
constexpr Dimension radian{0, 0, 0, 1};
constexpr Dimension newton{1, 1, -2, 0};
constexpr Dimension newton_metre{2, 1, -2, 0};
constexpr Dimension pascal{-1, 1, -2, 0};
constexpr Dimension hertz{0, 0, -1, 0};

// NIST SP 811 (2008) appendix B.8: the inch and the pound are exact by definition, the others
// follow from them and from the standard acceleration of free fall.
constexpr double inch = 0.0254;
constexpr double pound = 0.45359237;
constexpr double pound_force = pound * standard_gravity;

struct UnitSymbol {
  const char* symbol;
  Dimension dimension;
  double to_si;
};

constexpr std::array unit_table = std::to_array<UnitSymbol>({
    {"mm", metre, 1e-3},
    {"cm", metre, 1e-2},
    {"dm", metre, 1e-1},
    {"m", metre, 1},
    {"km", metre, 1e3},
    {"um", metre, 1e-6},
    {"in", metre, inch},
    {"ft", metre, 12 * inch},
    {"kg", kilogram, 1},
    {"g", kilogram, 1e-3},
    {"t", kilogram, 1e3},
    {"lb", kilogram, pound},
    {"oz", kilogram, pound / 16},
    {"N", newton, 1},
    {"daN", newton, 10},
    {"kN", newton, 1e3},
    {"MN", newton, 1e6},
    {"lbf", newton, pound_force},
    {"kgf", newton, standard_gravity},
    {"kip", newton, 1000 * pound_force},
    {"Nm", newton_metre, 1},
    {"kNm", newton_metre, 1e3},
    {"Nmm", newton_metre, 1e-3},
    {"Pa", pascal, 1},
    {"kPa", pascal, 1e3},
    {"MPa", pascal, 1e6},
    {"GPa", pascal, 1e9},
    {"bar", pascal, 1e5},
    {"psi", pascal, pound_force / (inch * inch)},
    {"ksi", pascal, 1000 * pound_force / (inch * inch)},
    {"deg", radian, degree},
    {"rad", radian, 1},
    {"mrad", radian, 1e-3},
    {"s", second, 1},
    {"ms", second, 1e-3},
    {"h", second, 3600},
    {"Hz", hertz, 1},
    {"kHz", hertz, 1e3},
    {"%", plain, 0.01},
});

/// Signs that a keyboard makes hard to type, as the plain letters they stand for.
std::string in_plain_letters(std::string_view text) {
  static constexpr std::array<std::array<std::string_view, 2>, 8> replacements = {{{"²", "2"},
                                                                                   {"³", "3"},
                                                                                   {"⁴", "4"},
                                                                                   {"·", "*"},
                                                                                   {"⋅", "*"},
                                                                                   {"°", "deg"},
                                                                                   {"µ", "u"},
                                                                                   {"μ", "u"}}};
  std::string plain_text;
  for (std::size_t i = 0; i < text.size();) {
    const auto* const found =
        std::find_if(replacements.begin(), replacements.end(),
                     [&](const auto& r) { return text.substr(i).starts_with(r[0]); });
    if (found == replacements.end()) {
      plain_text += text[i++];
    } else {
      plain_text += (*found)[1];
      i += (*found)[0].size();
    }
  }
  return plain_text;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%'; }

/// What people write for the symbols.
std::string symbol_meant(const std::string& name) {
  static const std::map<std::string, std::string> symbols = {
      {"inch", "in"},  {"inches", "in"}, {"foot", "ft"},  {"feet", "ft"},    {"lbs", "lb"},
      {"pound", "lb"}, {"pounds", "lb"}, {"kips", "kip"}, {"degree", "deg"}, {"degrees", "deg"},
      {"metre", "m"},  {"meter", "m"},   {"newton", "N"}, {"kilo", "kg"},    {"tonne", "t"},
  };
  const auto found = symbols.find(name);
  return found == symbols.end() ? "" : "did you mean " + quoted(found->second) + "?";
}

Diagnostic unknown_unit(std::string_view symbol) {
  const std::string name = one_line(symbol);
  std::string advice = symbol_meant(name);
  if (advice.empty()) advice = did_you_mean(name, unit_symbols());
  if (advice.empty()) advice = "units are mm, m, in, kg, lb, N, kN, lbf, MPa, deg and the like";
  return {"unknown unit " + quoted(name), advice};
}

Diagnostic bad_expression(std::string_view text) {
  return {"cannot read the unit " + quoted(one_line(text)),
          "write it like `N/mm2`, `kN m` or `N m/deg`"};
}

/// Reads the factors of an expression one after the other.
struct UnitScanner {
  std::string_view text;
  std::size_t at = 0;

  bool done() const { return at >= text.size(); }
  void skip_spaces() {
    while (!done() && text[at] == ' ') ++at;
  }
  std::string_view letters() {
    const std::size_t begin = at;
    while (!done() && is_letter(text[at])) ++at;
    return text.substr(begin, at - begin);
  }
  /// The power after a symbol, 1 if there is none, 0 if it cannot be read.
  int power() {
    const bool marked = !done() && text[at] == '^';
    if (marked) ++at;
    const bool negative = marked && !done() && text[at] == '-';
    if (negative) ++at;
    const bool digit = !done() && text[at] >= '1' && text[at] <= '9';
    if (!digit) return marked ? 0 : 1;
    const int value = text[at++] - '0';
    return negative ? -value : value;
  }
};

void multiply(Unit& unit, const UnitSymbol& symbol, int power) {
  unit.dimension.length += power * symbol.dimension.length;
  unit.dimension.mass += power * symbol.dimension.mass;
  unit.dimension.time += power * symbol.dimension.time;
  unit.dimension.angle += power * symbol.dimension.angle;
  unit.to_si *= std::pow(symbol.to_si, power);
}

}  // namespace

std::vector<std::string> unit_symbols() {
  std::vector<std::string> symbols;
  for (const UnitSymbol& u : unit_table) symbols.emplace_back(u.symbol);
  return symbols;
}

Outcome<Unit, Diagnostic> read_unit(std::string_view text) {
  constexpr int most_factors = 8;
  const std::string plain_text = in_plain_letters(text);
  UnitScanner scanner{plain_text};
  Unit unit;
  bool dividing = false;
  for (int factors = 0;; ++factors) {
    scanner.skip_spaces();
    const std::string_view symbol = scanner.letters();
    if (symbol.empty() || factors == most_factors) return bad_expression(text);
    const auto* const known = std::find_if(unit_table.begin(), unit_table.end(),
                                           [&](const UnitSymbol& u) { return u.symbol == symbol; });
    if (known == unit_table.end()) return unknown_unit(symbol);
    const int power = scanner.power();
    if (power == 0) return bad_expression(text);
    multiply(unit, *known, dividing ? -power : power);

    const std::size_t end = scanner.at;
    scanner.skip_spaces();
    if (scanner.done()) return unit;
    const char mark = plain_text[scanner.at];
    const bool product = mark == '*' || (is_letter(mark) && scanner.at > end);
    // ISO 80000-1: no product after a solidus; `N/mm m` could mean either.
    if (mark != '/' && (!product || dividing)) return bad_expression(text);
    dividing = mark == '/';
    if (mark == '/' || mark == '*') ++scanner.at;
  }
}

}  // namespace tubewright
