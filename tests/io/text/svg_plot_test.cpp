#include "io/text/svg_plot.h"

#include "tests/catch.h"

namespace tubewright::svg_plot_test {

using Catch::Matchers::WithinAbs;

TEST_CASE("an axis has four to eleven marks at round numbers and holds what it is for") {
  for (const auto& [least, most] : {std::pair{0.0, 1929.0}, {-3.2, 0.4}, {0.1, 0.11}, {7.0, 7.0}}) {
    const PlotAxis axis(least, most, 500, 100);
    const std::vector<double> marks = axis.marks();
    INFO(least << " to " << most);
    CHECK(marks.size() >= 4);
    CHECK(marks.size() <= 11);
    CHECK(axis.low <= least);
    CHECK(axis.high >= most);
    CHECK_THAT(axis.at(marks.front()), WithinAbs(500, 1e-9));
    CHECK_THAT(axis.at(marks.back()), WithinAbs(100, 1e-6));
  }
  CHECK(PlotAxis(0, 60, 0, 1).decimals() == 0);
  CHECK(PlotAxis(0, 2.7, 0, 1).decimals() == 1);
}

TEST_CASE("words are escaped and stand where they are put") {
  CHECK(svg_word(1, 2.25, "a < b", " class=\"faint\"") ==
        "<text x=\"1.0\" y=\"2.2\" class=\"faint\">a &lt; b</text>\n");
}

}  // namespace tubewright::svg_plot_test
