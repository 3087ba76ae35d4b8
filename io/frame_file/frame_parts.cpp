#include "io/frame_file/frame_parts.h"

namespace tubewright {

Eigen::Vector3d FileAxes::vector(const CheckedValue& value) const {
  const auto& v = value.vector;
  return {component(0, v[0]), component(1, v[1]), component(2, v[2])};
}

double FileAxes::component(int direction, double value) const {
  const bool turned = sae_j670 && direction % 3 != 0;
  return turned ? 0.0 - value : value;  // 0 - 0 is +0
}

std::optional<double> number_if_given(const CheckedValue& value) {
  return value.given ? std::optional(value.number) : std::nullopt;
}

std::vector<std::string> texts(const CheckedValue& list) {
  std::vector<std::string> result;
  result.reserve(list.items.size());
  for (const CheckedValue& item : list.items) result.push_back(item.text);
  return result;
}

ShapeSizes shape_sizes(const CheckedValue& group) {
  const std::string& shape = group["shape"].text;
  if (shape == "square_tube") {
    const double side = group["side"].number;
    return {Shape::square_tube, side, side, group["wall"].number};
  }
  if (shape == "rectangular_tube") {
    return {Shape::rectangular_tube, group["height"].number, group["width"].number,
            group["wall"].number};
  }
  if (shape == "properties") return {Shape::properties, 0, 0, 0};
  if (shape == "flat_bar") {
    return {Shape::flat_bar, group["height"].number, group["width"].number, 0};
  }
  const double diameter = group["diameter"].number;
  if (shape == "round_bar") return {Shape::round_bar, diameter, diameter, 0};
  return {Shape::round_tube, diameter, diameter, group["wall"].number};
}

Section given_properties(const CheckedValue& v) {
  Section s;
  s.A = v["A"].number;
  s.Iy = v["Iy"].number;
  s.Iz = v["Iz"].number;
  s.It = v["It"].number;
  s.Wy = v["Wy"].number;
  s.Wz = v["Wz"].number;
  s.Wt = v["Wt"].number;
  s.Wply = v["Wply"].number;
  s.Wplz = v["Wplz"].number;
  s.Ay = number_if_given(v["Ay"]).value_or(rigid);
  s.Az = number_if_given(v["Az"]).value_or(rigid);
  return s;
}

}  // namespace tubewright
