// What the tubes are painted by, in which colours, from which number to which.
#pragma once

#include <vtkLookupTable.h>
#include <vtkSmartPointer.h>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "viz/draw/load_set.h"

namespace tubewright {

struct Quantity {
  const char* key;    ///< as typed: `--colour stress`
  const char* array;  ///< point array of the skin
  const char* title;
  const char* unit;  ///< empty: a ratio
  bool has_sign;     ///< painted from - to +, pale at zero
};

/// The one that pictures are painted by comes first.
extern const std::array<Quantity, 4> quantities;

std::optional<std::size_t> quantity_named(std::string_view key);

/// Round values that cover the data: low, ..., high in equal steps of 1, 2 or 5 times a power of
/// ten.
struct Scale {
  std::vector<double> ticks;
  double low() const { return ticks.front(); }
  double high() const { return ticks.back(); }
};

/// Requires finite numbers, greatest >= 0. From 0, or from -greatest where `has_sign`; 0 to 1 if
/// there is nothing to paint.
Scale round_scale(double greatest, bool has_sign);

/// Viridis for magnitude; violet over pale to ochre for what has a sign: as in the report.
vtkSmartPointer<vtkLookupTable> colours(const Quantity& quantity, const Scale& scale);

/// "150 MPa", "0.83"; three digits.
std::string with_unit(double value, const Quantity& quantity);

/// The point of the skin where the quantity is greatest in size, and the member it lies on.
struct WorstPlace {
  vtkIdType point = -1;  ///< -1: no skin
  double value = 0;
  std::string member;
};

WorstPlace worst_place(const DrawnCase& drawn, const Quantity& quantity);

}  // namespace tubewright
