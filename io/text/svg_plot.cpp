#include "io/text/svg_plot.h"

#include <algorithm>
#include <cmath>

#include "io/text/markup.h"
#include "io/text/text_layout.h"

namespace tubewright {

std::string svg_attribute(const char* name, double value) {
  return " " + std::string(name) + "=\"" + fixed(value, 1) + "\"";
}

std::string svg_word(double x, double y, const std::string& text, const std::string& more) {
  return "<text" + svg_attribute("x", x) + svg_attribute("y", y) + more + ">" + escaped(text) +
         "</text>\n";
}

PlotAxis::PlotAxis(double least, double most, double from_pixel, double to_pixel)
    : from(from_pixel), to(to_pixel) {
  const double around = std::max({std::abs(least), std::abs(most), 1e-9});
  if (most - least < 1e-6 * around) {  // a single value stands in the middle
    least -= 0.05 * around;
    most += 0.05 * around;
  }
  constexpr double about = 6;
  const double rough = (most - least) / about;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  const double lead = rough / power;
  step = power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
  low = step * std::floor(least / step);
  high = step * std::ceil(most / step);
}

std::vector<double> PlotAxis::marks() const {
  std::vector<double> list;
  const auto count = static_cast<int>(std::lround((high - low) / step));
  for (int i = 0; i <= count; ++i) list.push_back(low + i * step);
  return list;
}

int PlotAxis::decimals() const {
  return std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
}

}  // namespace tubewright
