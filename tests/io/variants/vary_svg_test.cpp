#include "io/variants/vary_svg.h"

#include "tests/catch.h"
#include "tests/io/variants/hand_made_table.h"

namespace tubewright::vary_svg_test {

using namespace tubewright::testing;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t times = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++times;
  }
  return times;
}

double attribute(const std::string& svg, const std::string& of, const std::string& name) {
  const std::size_t at = svg.find(of);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = svg.rfind('<', at);
  const std::size_t value = svg.find(" " + name + "=\"", begin);
  REQUIRE(value != std::string::npos);
  return std::stod(svg.substr(value + name.size() + 3));
}

}  // namespace

TEST_CASE(
    "every combination with both numbers is a point, those of the front ringed and numbered") {
  const std::string svg = vary_svg(hand_made_table());
  CHECK(count(svg, "<title>number ") == 4);  // 4 has no stiffness, 5 no answer
  const std::size_t in_legend = 1;
  CHECK(count(svg, "class=\"front\"") == 3 + in_legend);
  for (const char* number : {"0", "1", "3"}) {
    CHECK(count(svg, std::string("\" text-anchor=\"middle\">") + number + "</text>") == 1);
  }
  CHECK(count(svg, "class=\"fail\"") == 1 + in_legend);
  CHECK_THAT(svg, ContainsSubstring("number 0: sections.rail.wall = 1, "));
}

TEST_CASE("heavier lies to the right, stiffer above") {
  const std::string svg = vary_svg(hand_made_table());
  const double light = attribute(svg, "number 1:", "cx"), heavy = attribute(svg, "number 3:", "cx");
  CHECK(light < heavy);
  CHECK(attribute(svg, "number 3:", "cy") < attribute(svg, "number 1:", "cy"));
}

TEST_CASE("texts of the user stay text, and nothing in the picture runs or is fetched") {
  const std::string svg = vary_svg(hand_made_table());
  CHECK_THAT(svg, ContainsSubstring("Rack, &lt;left&gt; &amp; &quot;right&quot;"));
  CHECK(count(svg, "<script") == 0);
  CHECK(count(svg, "href") == 0);
  CHECK_THAT(svg, ContainsSubstring("prefers-color-scheme: dark"));
}

TEST_CASE("without torsional stiffness the worst utilisation is the upright axis") {
  VaryTable t = hand_made_table();
  for (VaryRow& row : t.rows) row.stiffness.reset();
  judge(t);
  const std::string svg = vary_svg(t);
  CHECK_THAT(svg, ContainsSubstring("worst utilisation, 1 at the limit"));
  CHECK(count(svg, "<title>number ") == 4);
}

TEST_CASE("a picture of equal points, of a single one and of none is drawn too") {
  VaryTable t = hand_made_table();
  t.rows.resize(1);
  judge(t);
  CHECK(count(vary_svg(t), "<title>number ") == 1);
  t.rows.push_back(t.rows.front());
  judge(t);
  CHECK_THAT(vary_svg(t), !ContainsSubstring("nan") && !ContainsSubstring("none\""));
  t.rows.clear();
  judge(t);
  CHECK_THAT(vary_svg(t), ContainsSubstring("no combination has an answer"));
}

}  // namespace tubewright::vary_svg_test
