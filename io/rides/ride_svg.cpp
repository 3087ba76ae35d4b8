#include "io/rides/ride_svg.h"

#include <algorithm>
#include <cmath>

#include "io/text/markup.h"
#include "io/text/svg_plot.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

constexpr double width = 900, left_edge = 90, right_edge = 860;  // pixels
constexpr double first_top = 94, band_height = 130, band_gap = 46;

constexpr const char* style = R"(:root { --force: #3d86bd; --standard: #c2410c; }
@media (prefers-color-scheme: dark) { :root { --force: #5ea7db; --standard: #fb923c; } }
.force { fill: var(--force); stroke: var(--force); } .rest { stroke: var(--ink); }
.standard { stroke: var(--standard); stroke-dasharray: 6 4; }
)";

std::string line(const char* kind, double x1, double y1, double x2, double y2) {
  return "<line class=\"" + std::string(kind) + "\"" + svg_attribute("x1", x1) +
         svg_attribute("y1", y1) + svg_attribute("x2", x2) + svg_attribute("y2", y2) + "/>\n";
}

/// Along the greatest forces and back along the least.
std::string band(const RideResult& ride, size_t wheel, const PlotAxis& x, const PlotAxis& y) {
  std::string there, back;
  for (size_t k = 0; k < ride.trace.time.size(); ++k) {
    const double least = ride.trace.least[wheel][k], greatest = ride.trace.greatest[wheel][k];
    if (!std::isfinite(least)) continue;  // no step fell into this part
    const std::string px = fixed(x.at(ride.trace.time[k]), 1) + " ";
    there += (there.empty() ? "M" : "L") + px + fixed(y.at(greatest), 1);
    back.insert(0, "L" + px + fixed(y.at(least), 1));
  }
  return there.empty() ? "" : "<path class=\"force\" d=\"" + there + back + "Z\"/>\n";
}

}  // namespace

std::string ride_svg(const RideResult& ride) {
  const double height =
      first_top + static_cast<double>(ride.wheels.size()) * (band_height + band_gap) + 30;
  const std::string name = one_line(ride.name, 60);
  std::string svg =
      svg_start(width, height, left_edge, "wheel forces of ride " + name, "Ride " + name, style) +
      svg_word(left_edge, 52,
               "force of each wheel, N; line: at rest; dashed: what the standard set of cases "
               "counts with",
               " class=\"faint\"");
  double most = 0;
  for (const RideWheel& w : ride.wheels) {
    most = std::max({most, w.peak, w.standing * w.standard_factor});
  }
  const PlotAxis x(0, std::max(ride.duration, 1e-9), left_edge, right_edge);
  double top = first_top;
  for (size_t w = 0; w < ride.wheels.size(); ++w, top += band_height + band_gap) {
    const RideWheel& wheel = ride.wheels[w];
    const PlotAxis y(0, std::max(most, 1.0), top + band_height, top);
    for (const double mark : y.marks()) {
      svg += line("grid", left_edge, y.at(mark), right_edge, y.at(mark)) +
             svg_word(left_edge - 10, y.at(mark) + 5, fixed(mark, y.decimals()),
                      " class=\"faint\" text-anchor=\"end\"");
    }
    svg += band(ride, w, x, y) +
           line("rest", left_edge, y.at(wheel.standing), right_edge, y.at(wheel.standing));
    if (wheel.standard_factor > 0) {
      const double there = y.at(wheel.standing * wheel.standard_factor);
      svg += line("standard", left_edge, there, right_edge, there);
    }
    svg += svg_word(left_edge, top - 8,
                    one_line(wheel.name, 40) + ", at most " + fixed(wheel.peak, 0) + " N, " +
                        fixed(wheel.factor, 2) + " times its load at rest");
  }
  const double bottom = top - band_gap;
  for (const double mark : x.marks()) {
    svg += svg_word(x.at(mark), bottom + 22, fixed(mark, x.decimals()),
                    " class=\"faint\" text-anchor=\"middle\"");
  }
  return svg +
         svg_word((left_edge + right_edge) / 2, bottom + 44, "time, s",
                  " class=\"faint\" text-anchor=\"middle\"") +
         "</svg>\n";
}

}  // namespace tubewright
