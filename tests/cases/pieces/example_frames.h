// The example frames, for tests of what is cut from them.
#pragma once

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "io/frame_file/read_frame.h"
#include "tests/catch.h"

namespace tubewright::testing {

inline const std::vector<std::string>& examples() {
  static const std::vector<std::string> names = {
      "01_wall_bracket",  "02_orchard_runabout", "03_cargo_quad",     "04_school_trike",
      "05_market_hauler", "06_flat_barrow",      "07_trailer_drawbar"};
  return names;
}

/// `name`: of a file in cases/, without its ending.
inline Frame example(const std::string& name) {
  const std::string path = std::string(TUBEWRIGHT_SOURCE_DIR) + "/cases/" + name + ".yaml";
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  const FrameReading reading = read_frame({path, text.str()});
  REQUIRE(reading.sound());
  return reading.frame;
}

}  // namespace tubewright::testing
