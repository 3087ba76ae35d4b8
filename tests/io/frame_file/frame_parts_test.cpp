// What the readers of a frame's parts share: axes against a rotation of Eigen, words and sizes.
#include "io/frame_file/frame_parts.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <random>

#include "io/keys/frame_kinds.h"
#include "tests/catch.h"

namespace tubewright::frame_parts_test {

namespace {

CheckedValue vector_value(const Eigen::Vector3d& v) {
  CheckedValue value;
  value.vector = {v.x(), v.y(), v.z()};
  return value;
}

/// A bar of stock as the reader checks it.
CheckedValue size_of(const std::string& text) {
  Diagnostics diagnostics;
  const auto root = parse_strict_yaml(
      "frame: S\nnodes: {A: [0, 0, 0]}\nmembers: {m: {from: A, to: A, section: s}}\n"
      "stock: {sizes: [" +
          text + "]}\n",
      diagnostics);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, diagnostics);
  INFO(text);
  REQUIRE(diagnostics.empty());
  return top["stock"]["sizes"].items.at(0);
}

}  // namespace

TEST_CASE("axes of SAE J670 are those of ISO 8855 after half a turn about the forward axis") {
  // x forward, y right, z down against x forward, y left, z up.
  const Eigen::Matrix3d half_turn =
      Eigen::AngleAxisd(std::numbers::pi, Eigen::Vector3d::UnitX()).toRotationMatrix();
  const FileAxes iso{false}, sae{true};
  std::mt19937 random(8);
  std::uniform_real_distribution<double> u(-10, 10);
  for (int i = 0; i < 50; ++i) {
    const Eigen::Vector3d a(u(random), u(random), u(random)), b(u(random), u(random), u(random));
    const Eigen::Vector3d A = sae.vector(vector_value(a)), B = sae.vector(vector_value(b));
    CHECK((A - half_turn * a).norm() < 1e-12);
    CHECK(iso.vector(vector_value(a)) == a);
    CHECK(sae.vector(vector_value(A)) == a);  // two half turns
    // A proper rotation: moments, as products of arms and forces, turn like forces.
    CHECK((A.cross(B) - sae.vector(vector_value(a.cross(b)))).norm() < 1e-12);
    for (int d = 0; d < 6; ++d) {
      CHECK(sae.component(d, a[d % 3]) == A[d % 3]);
      CHECK(iso.component(d, a[d % 3]) == a[d % 3]);
    }
  }
}

TEST_CASE("nothing turned is nothing, without a minus sign") {
  for (int d = 0; d < 6; ++d) CHECK_FALSE(std::signbit(FileAxes{true}.component(d, 0.0)));
}

TEST_CASE("an optional number is there only where it was given") {
  CheckedValue value;
  value.number = 7;  // a default
  CHECK_FALSE(number_if_given(value));
  value.given = true;
  CHECK(number_if_given(value) == 7.0);
}

TEST_CASE("texts of a list keep their order") {
  CheckedValue list;
  for (const char* text : {"B", "A", "C"}) {
    list.items.emplace_back();
    list.items.back().text = text;
  }
  CHECK(texts(list) == std::vector<std::string>{"B", "A", "C"});
  CHECK(texts({}).empty());
}

TEST_CASE("a square is as high as wide, a round too, and only tubes have a wall") {
  const struct {
    const char* text;
    Shape shape;
    double height, width, wall;
  } table[] = {
      {"{shape: square_tube, side: 25, wall: 2}", Shape::square_tube, 0.025, 0.025, 0.002},
      {"{shape: rectangular_tube, height: 40, width: 20, wall: 1.5}", Shape::rectangular_tube,
       0.040, 0.020, 0.0015},
      {"{shape: round_tube, diameter: 30, wall: 3}", Shape::round_tube, 0.030, 0.030, 0.003},
      {"{shape: round_bar, diameter: 8}", Shape::round_bar, 0.008, 0.008, 0},
      {"{shape: flat_bar, height: 50, width: 5}", Shape::flat_bar, 0.050, 0.005, 0},
  };
  for (const auto& row : table) {
    INFO(row.text);
    const ShapeSizes sizes = shape_sizes(size_of(row.text));
    CHECK(sizes.shape == row.shape);
    CHECK_THAT(sizes.height, WithinAbs(row.height, 1e-12));
    CHECK_THAT(sizes.width, WithinAbs(row.width, 1e-12));
    CHECK_THAT(sizes.wall, WithinAbs(row.wall, 1e-12));
  }
}

}  // namespace tubewright::frame_parts_test
