// Numbers and quantities as text: "25", "1 in", "29000 ksi", "500 N m/deg", into SI.
//
// A unit is a product of unit symbols with powers, `kN m`, `kg/m3`, `mm^2`, `N·m/deg`, and is
// checked for its dimension. Pounds, inches and kips: NIST Special Publication 811 (2008), B.8.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// Exponents of length, mass, time and plane angle. Angle counts as a dimension of its own, so that
/// N m/deg is not taken for N m.
struct Dimension {
  int length = 0;
  int mass = 0;
  int time = 0;
  int angle = 0;

  bool operator==(const Dimension&) const = default;
};

/// A kind of quantity that keys of the frame file hold.
struct Measure {
  const char* what;       ///< "a length"
  const char* unit;       ///< workshop unit of a bare number: "mm", "" for a plain number
  const char* with_unit;  ///< an example in another unit: "1 in"
  Dimension dimension;
  double to_si;                ///< SI value of one workshop unit
  bool only_own_unit = false;  ///< no unit but `unit` is meant
};

namespace measure {
extern const Measure length, area, section_modulus, second_moment, mass, density, stress, force,
    moment, angle, rate, turning_rate, line_load, fastener_rate, inertia, acceleration, frequency,
    multiple_of_g, slope, share, number, price, speed, time, damping, roughness;
}  // namespace measure

/// A value in SI units, or what is wrong.
using QuantityReading = Outcome<double, Diagnostic>;

/// A plain number: decimal point, optional exponent, no leading zeros, finite.
QuantityReading read_number(std::string_view text);

/// A bare number in the measure's own unit, or a number with a unit. `in_quotes`: the text stood in
/// quotation marks, where a bare number is a mistake.
QuantityReading read_quantity(std::string_view text, bool in_quotes, const Measure& measure);

/// Text that read_number() accepts or rejects as a number, rather than a word: it starts like one.
bool looks_like_number(std::string_view text);

/// Every unit symbol known.
std::vector<std::string> unit_symbols();

}  // namespace tubewright
