#include "viz/draw/paint.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace tubewright::paint_test {

namespace {

/// CIE 1976 lightness, 0 to 100, of a colour of sRGB (IEC 61966-2-1, D65). From memory.
double lightness(vtkLookupTable& table, double value) {
  double c[3];
  table.GetColor(value, c);
  const auto linear = [](double v) {
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  const double Y = 0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2]);
  return Y > 0.008856 ? 116 * std::cbrt(Y) - 16 : 903.3 * Y;
}

}  // namespace

TEST_CASE("a scale covers its data in four or five round steps, or fewer") {
  for (double greatest = 1e-9; greatest < 1e9; greatest *= 1.37) {
    const Scale scale = round_scale(greatest, false);
    CAPTURE(greatest, scale.high());
    CHECK(scale.low() == 0);
    CHECK(scale.high() >= greatest * (1 - 1e-6));
    const double step = scale.ticks[1];
    CHECK(scale.high() - step < greatest);  // no step too many
    CHECK(scale.ticks.size() >= 3);
    CHECK(scale.ticks.size() <= 6);
    const double digit = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
    CHECK((digit == Approx(1) || digit == Approx(2) || digit == Approx(5)));
  }
}

TEST_CASE("a scale with a sign is symmetric about a zero of its own") {
  const Scale scale = round_scale(592, true);
  CHECK(scale.low() == -scale.high());
  CHECK(scale.ticks[scale.ticks.size() / 2] == 0);
}

TEST_CASE("nothing to paint still has a scale") {
  for (const double nothing : {0.0, -1.0, std::nan("")}) {
    const Scale scale = round_scale(nothing, false);
    CHECK(scale.low() == 0);
    CHECK(scale.high() == 1);
  }
}

TEST_CASE("magnitude runs along viridis, from dark to light") {
  // The ends of viridis as published with it (CC0, 2015): (0.267, 0.005, 0.329), (0.993, 0.906,
  // 0.144). From memory.
  const Quantity& stress = quantities.front();
  const auto table = colours(stress, round_scale(100, false));
  double c[3];
  table->GetColor(0, c);
  CHECK(c[0] == Approx(0.267).margin(0.003));
  CHECK(c[1] == Approx(0.005).margin(0.003));
  CHECK(c[2] == Approx(0.329).margin(0.003));
  table->GetColor(100, c);
  CHECK(c[0] == Approx(0.993).margin(0.003));
  CHECK(c[1] == Approx(0.906).margin(0.003));
  CHECK(c[2] == Approx(0.144).margin(0.003));
  double before = 0;
  for (double value = 0; value <= 100; value += 5) {
    CHECK(lightness(*table, value) > before);
    before = lightness(*table, value);
  }
}

TEST_CASE("a quantity with a sign is palest at zero and as dark on both sides") {
  const Quantity& axial = quantities[*quantity_named("axial")];
  const auto table = colours(axial, round_scale(100, true));
  for (const double value : {20.0, 50.0, 100.0}) {
    CHECK(lightness(*table, value) < lightness(*table, 0));
    CHECK(lightness(*table, value) == Approx(lightness(*table, -value)).margin(3));
  }
}

TEST_CASE("numbers come with their unit and three digits") {
  const Quantity& stress = quantities[*quantity_named("stress")];
  CHECK(with_unit(1234.5, stress) == "1234 MPa");
  CHECK(with_unit(45.06, stress) == "45.1 MPa");
  CHECK(with_unit(0.7674, quantities[*quantity_named("utilisation")]) == "0.767");
  CHECK_FALSE(quantity_named("heat"));
}

}  // namespace tubewright::paint_test
