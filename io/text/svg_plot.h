// What every plot in SVG is made of.
#pragma once

#include <string>
#include <vector>

namespace tubewright {

/// From the first line of the file to the title on its paper: `title` at the left edge, and what
/// every plot looks like, light or dark as the reader's screen. `style`: more of it, as CSS.
/// Classes: paper, faint, title, grid. Ends with a line end; the file ends with </svg>.
std::string svg_start(double width, double height, double left_edge, const std::string& title,
                      const std::string& shown, const std::string& style);

/// ` name="12.3"`.
std::string svg_attribute(const char* name, double value);

/// Text at a place; `more`: further attributes, each after a space.
std::string svg_word(double x, double y, const std::string& text, const std::string& more = "");

/// An axis with marks at round numbers, 1, 2 or 5 times a power of ten apart, that holds
/// `least` .. `most` between two places in pixels. Requires: finite numbers.
struct PlotAxis {
  PlotAxis(double least, double most, double from_pixel, double to_pixel);

  double at(double value) const { return from + (to - from) * (value - low) / (high - low); }
  std::vector<double> marks() const;
  int decimals() const;  ///< that the marks are written with

  double low = 0, high = 1, step = 1, from = 0, to = 1;
};

}  // namespace tubewright
