#include "viz/draw/paint.h"

#include <vtkCellData.h>
#include <vtkDataArray.h>
#include <vtkIdList.h>
#include <vtkNew.h>
#include <vtkPointData.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

#include "viz/files/draw_program.h"

namespace tubewright {

namespace {

using Colour = std::array<double, 3>;

constexpr Colour rgb(std::uint32_t hex) {
  return {((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0};
}

/// Viridis (CC0), ten of its colours; between them straight lines.
constexpr std::array<Colour, 10> viridis = {
    rgb(0x440154), rgb(0x482878), rgb(0x3e4a89), rgb(0x31688e), rgb(0x26828e),
    rgb(0x1f9e89), rgb(0x35b779), rgb(0x6dcd59), rgb(0xb4de2c), rgb(0xfde725)};

/// Of equal lightness at equal distance from zero.
constexpr std::array<Colour, 9> diverging = {rgb(0x4f2f88), rgb(0x7561ae), rgb(0xa19acc),
                                             rgb(0xc9c6e0), rgb(0xeceae6), rgb(0xe4c69a),
                                             rgb(0xc6924a), rgb(0x9a6410), rgb(0x5c3b00)};

template <std::size_t n>
Colour along(const std::array<Colour, n>& map, double share) {
  const double place = share * (n - 1);
  const std::size_t i = std::min(static_cast<std::size_t>(place), n - 2);
  Colour mixed{};
  for (std::size_t c = 0; c < mixed.size(); ++c)
    mixed[c] = std::lerp(map[i][c], map[i + 1][c], place - static_cast<double>(i));
  return mixed;
}

}  // namespace

const std::array<Quantity, 4> quantities = {
    {{drawn_quantities[0], "von_mises", "von Mises stress", "MPa", false},
     {drawn_quantities[1], "utilisation", "share of the yield limit", "", false},
     {drawn_quantities[2], "axial_force", "axial force, tension +", "N", true},
     {drawn_quantities[3], "stress_normal", "stress along the tube, tension +", "MPa", true}}};

std::optional<std::size_t> quantity_named(std::string_view key) {
  for (std::size_t i = 0; i < quantities.size(); ++i)
    if (quantities[i].key == key) return i;
  return std::nullopt;
}

Scale round_scale(double greatest, bool has_sign) {
  constexpr double most_steps = 5;  // from zero
  if (!(greatest > 0)) greatest = 1;
  const double least = greatest / most_steps;
  const double decade = std::pow(10.0, std::floor(std::log10(least)));
  double step = 10 * decade;
  for (const double factor : {5.0, 2.0, 1.0})
    if (factor * decade >= least * (1 - 1e-9)) step = factor * decade;
  const int steps = static_cast<int>(std::ceil(greatest / step - 1e-9));
  Scale scale;
  for (int i = has_sign ? -steps : 0; i <= steps; ++i) scale.ticks.push_back(i * step);
  return scale;
}

vtkSmartPointer<vtkLookupTable> colours(const Quantity& quantity, const Scale& scale) {
  constexpr int count = 256;
  auto table = vtkSmartPointer<vtkLookupTable>::New();
  table->SetNumberOfTableValues(count);
  table->SetTableRange(scale.low(), scale.high());
  for (int i = 0; i < count; ++i) {
    const double share = i / (count - 1.0);
    const Colour c = quantity.has_sign ? along(diverging, share) : along(viridis, share);
    table->SetTableValue(i, c[0], c[1], c[2]);
  }
  return table;
}

std::string with_unit(double value, const Quantity& quantity) {
  char text[40];
  std::snprintf(text, sizeof text, std::abs(value) >= 100 ? "%.0f" : "%.3g", value);
  return quantity.unit[0] == '\0' ? text : std::string(text) + " " + quantity.unit;
}

WorstPlace worst_place(const DrawnCase& drawn, const Quantity& quantity) {
  WorstPlace worst;
  vtkDataArray* values = drawn.skin->GetPointData()->GetArray(quantity.array);
  for (vtkIdType i = 0; values != nullptr && i < values->GetNumberOfTuples(); ++i) {
    const double value = values->GetTuple1(i);
    if (worst.point >= 0 && std::abs(value) <= std::abs(worst.value)) continue;
    worst.point = i;
    worst.value = value;
  }
  vtkDataArray* members = drawn.skin->GetCellData()->GetArray("member");
  if (worst.point < 0 || members == nullptr) return worst;
  vtkNew<vtkIdList> cells;
  drawn.skin->GetPointCells(worst.point, cells);
  if (cells->GetNumberOfIds() == 0) return worst;
  const auto member = static_cast<std::size_t>(members->GetTuple1(cells->GetId(0)));
  if (member < drawn.member_names.size()) worst.member = drawn.member_names[member];
  return worst;
}

}  // namespace tubewright
