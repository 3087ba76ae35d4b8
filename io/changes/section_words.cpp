#include "io/changes/section_words.h"

#include "io/keys/choice_words.h"
#include "io/results/json_parts.h"

namespace tubewright {

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
      break;
  }
  if (s.wall > 0) keys["wall"] = mm(s.wall);
  return keys;
}

}  // namespace tubewright
