#include "io/text/svg_plot.h"

#include <algorithm>
#include <cmath>

#include "io/text/markup.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

constexpr const char* common_style = R"(:root { color-scheme: light dark; --paper: #ffffff;
  --ink: #1d232b; --faint: #5c6773; --grid: #dfe3e8; }
@media (prefers-color-scheme: dark) { :root { --paper: #14181d; --ink: #e6e9ed; --faint: #9aa5b1;
  --grid: #2c333b; } }
.paper { fill: var(--paper); } text { fill: var(--ink); font: 14px sans-serif; }
.faint { fill: var(--faint); } .title { font-size: 18px; font-weight: bold; }
.grid { stroke: var(--grid); }
)";

}  // namespace

std::string svg_start(double width, double height, double left_edge, const std::string& title,
                      const std::string& shown, const std::string& style) {
  constexpr double title_line = 30;
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
         "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"" +
         svg_attribute("width", width) + svg_attribute("height", height) + " viewBox=\"0 0 " +
         fixed(width, 0) + " " + fixed(height, 0) + "\">\n<title>" + escaped(title) +
         "</title>\n<style>\n" + common_style + style +
         "</style>\n<rect class=\"paper\" width=\"100%\" height=\"100%\"/>\n" +
         svg_word(left_edge, title_line, shown, " class=\"title\"");
}

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
