#include "io/variants/frame_figure.h"

#include <cstdio>
#include <regex>
#include <utility>

#include "tests/catch.h"
#include "tests/io/variants/hand_made_comparison.h"

namespace tubewright::frame_figure_test {

using namespace tubewright::testing;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t times = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++times;
  }
  return times;
}

/// The line that is drawn for a tube.
std::string drawn(const std::string& svg, const std::string& tube) {
  const std::regex line("d=\"([^\"]*)\"><title>" + tube + "</title>");
  std::smatch found;
  REQUIRE(std::regex_search(svg, found, line));
  return found[1];
}

}  // namespace

TEST_CASE("every tube is a line with its name, of the class of what became of it") {
  const auto [a, b] = frame_figures(hand_made_comparison());
  CHECK(count(a, "<path ") == 4);
  CHECK(count(b, "<path ") == 5);
  CHECK(count(a, "class=\"other\"") == 0);
  CHECK(count(b, "class=\"other\"") == 1);
  CHECK_THAT(b, ContainsSubstring("<title>AC</title>"));
  CHECK(count(a, "class=\"resized\"") == 2);
  CHECK(count(b, "class=\"resized\"") == 2);
  CHECK(count(b, "class=\"moved\"") == 2);  // at the node D
  CHECK_THAT(b, ContainsSubstring("aria-label=\"Rack &lt;b&gt; &amp; co\""));
}

TEST_CASE("both frames are drawn from one side at one scale, so that what stays lies alike") {
  const auto [a, b] = frame_figures(hand_made_comparison());
  CHECK(drawn(a, "AB") == drawn(b, "AB"));
  CHECK(drawn(a, "CD") != drawn(b, "CD"));
  const std::regex box("viewBox=\"[^\"]*\"");
  std::smatch first, second;
  REQUIRE(std::regex_search(a, first, box));
  REQUIRE(std::regex_search(b, second, box));
  CHECK(first.str() == second.str());
}

TEST_CASE("up is up on the paper, and what is near the front lies lower") {
  Comparison c = hand_made_comparison();
  for (Frame& f : c.frames) {
    f.members.clear();
    add_node(f, "P", 0, 0, 1);
    add_member(f, "up", "A", "P");
    add_member(f, "forward", "A", "B");
  }
  c.result.changes = frame_changes(c.frames[0], c.frames[1]);
  const std::string svg = frame_figures(c)[0];
  const auto ends = [&](const std::string& tube) {
    double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
    REQUIRE(std::sscanf(drawn(svg, tube).c_str(), "M%lf %lfL%lf %lf", &x1, &y1, &x2, &y2) == 4);
    return std::pair(x2 - x1, y2 - y1);
  };
  CHECK_THAT(ends("up").first, WithinAbs(0, 0.11));
  CHECK(ends("up").second < 0);
  CHECK(ends("forward").second > 0);
}

}  // namespace tubewright::frame_figure_test
