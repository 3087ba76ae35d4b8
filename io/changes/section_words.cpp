#include "io/changes/section_words.h"

#include <cmath>
#include <tuple>

#include "io/keys/choice_words.h"
#include "io/results/json_parts.h"

namespace tubewright {

namespace {

/// Those that are known, by their keys: mm2, mm3, mm4.
nlohmann::ordered_json properties_in_mm(const Section& s) {
  constexpr double mm2 = mm_per_m * mm_per_m, mm3 = mm2 * mm_per_m, mm4 = mm2 * mm2;
  const std::tuple<const char*, double, double> properties[] = {
      {"A", s.A, mm2},   {"Iy", s.Iy, mm4},     {"Iz", s.Iz, mm4},    {"It", s.It, mm4},
      {"Wy", s.Wy, mm3}, {"Wz", s.Wz, mm3},     {"Wt", s.Wt, mm3},    {"Ay", s.Ay, mm2},
      {"Az", s.Az, mm2}, {"Wply", s.Wply, mm3}, {"Wplz", s.Wplz, mm3}};
  nlohmann::ordered_json keys = nlohmann::ordered_json::object();
  for (const auto& [key, value, unit] : properties) {
    if (value > 0 && std::isfinite(value)) keys[key] = number(value * unit);
  }
  return keys;
}

}  // namespace

nlohmann::ordered_json section_keys(const SectionEntry& s) {
  const auto mm = [](double metres) { return number(metres * mm_per_m); };
  nlohmann::ordered_json keys = {{"shape", word_for(shape_words, s.shape)}};
  switch (s.shape) {
    case Shape::square_tube:
      keys["side"] = mm(s.height);
      break;
    case Shape::rectangular_tube:
    case Shape::flat_bar:
      keys["height"] = mm(s.height);
      keys["width"] = mm(s.width);
      break;
    case Shape::round_tube:
    case Shape::round_bar:
      keys["diameter"] = mm(s.height);
      break;
    case Shape::properties:
      keys["name"] = s.name;
      keys.update(properties_in_mm(s.given));
      break;
  }
  if (s.wall > 0) keys["wall"] = mm(s.wall);
  return keys;
}

}  // namespace tubewright
