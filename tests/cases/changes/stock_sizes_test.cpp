#include "cases/changes/stock_sizes.h"

#include "cases/frame/built_in_materials.h"
#include "cases/frame/section_of.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::stock_sizes_tests {

using namespace tubewright::testing;

namespace {

Frame with_stock(std::vector<StockSize> sizes) {
  Frame f = empty_frame();
  f.stock = Stock{};
  f.stock->sizes = std::move(sizes);
  return f;
}

StockSize square(double side, double wall, std::optional<double> price = {}) {
  return {Shape::square_tube, side, side, wall, price};
}

}  // namespace

TEST_CASE("the next size is the next by area, whatever side and wall make it") {
  const Frame f = with_stock({square(0.040, 0.002),
                              square(0.030, 0.0015),
                              square(0.025, 0.002),
                              square(0.025, 0.0025),
                              square(0.020, 0.002),
                              {Shape::round_tube, 0.026, 0.026, 0.0021, {}}});
  const NextSizes next = next_sizes(f, f.sections.front());
  REQUIRE(next.up);
  REQUIRE(next.down);
  CHECK(next.up->height == 0.025);
  CHECK(next.up->wall == 0.0025);
  CHECK(next.down->height == 0.030);
  CHECK(next.down->wall == 0.0015);
}

TEST_CASE("the biggest has no next up, the smallest no next down, given properties neither") {
  const Frame f = with_stock({square(0.025, 0.002)});
  CHECK_FALSE(next_sizes(f, f.sections.front()).up);
  CHECK_FALSE(next_sizes(f, f.sections.front()).down);
  SectionEntry given;
  given.shape = Shape::properties;
  given.material = "S235";
  CHECK_FALSE(next_sizes(empty_frame(), given).up);
}

TEST_CASE("a file that names no sizes gets the common ones, each of which has a section") {
  const Frame f = empty_frame();
  const std::vector<StockSize> sizes = stock_sizes(f);
  CHECK(sizes.size() > 40);
  for (const StockSize& size : sizes) {
    SectionEntry s = f.sections.front();
    s.shape = size.shape;
    CHECK(section_of(in_size(s, size), find_material(f, "S235")->properties).A > 0);
  }
  CHECK(next_sizes(f, f.sections.front()).up);
  CHECK(next_sizes(f, f.sections.front()).down);
}

TEST_CASE("a size of given properties leaves the section what it does not give itself") {
  SectionEntry own;
  own.shape = Shape::properties;
  own.given = {1e-4, 2e-8, 3e-8, 4e-8, 5e-6, 6e-6, 7e-6, 8e-6, 9e-6, 1e-5, rigid, {}};
  StockSize size{Shape::properties, 0, 0, 0, 4.0};
  size.given.A = 2e-4;
  size.given.Iz = 5e-8;
  size.given.Ay = size.given.Az = rigid;  // as the reader has what is not given
  const SectionEntry made = in_size(own, size);
  CHECK(made.given.A == 2e-4);
  CHECK(made.given.Iz == 5e-8);
  CHECK(made.given.Iy == own.given.Iy);
  CHECK(made.given.It == own.given.It);
  CHECK(made.given.Wplz == own.given.Wplz);
  CHECK(made.given.Ay == own.given.Ay);
  CHECK(made.given.Az == rigid);
  size.given.Ay = 1.5e-5;
  CHECK(in_size(own, size).given.Ay == 1.5e-5);
  CHECK(made.height == own.height);
}

TEST_CASE("the price a metre is that of a bar over its length, where there is one") {
  Frame f = with_stock({square(0.025, 0.002, 18)});
  f.stock->length = 6;
  CHECK(price_per_metre(f, f.sections.front()) == 3);
  f.sections.front().wall = 0.003;
  CHECK_FALSE(price_per_metre(f, f.sections.front()));
  CHECK_FALSE(price_per_metre(empty_frame(), f.sections.front()));
}

}  // namespace tubewright::stock_sizes_tests
