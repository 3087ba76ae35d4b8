// The rows of joint_stiffness.csv for tests.
#pragma once

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "cases/joint_stiffness/tube_on_tube.h"
#include "solver/model/section_shapes.h"

namespace tubewright::test {

/// One joint: its words, its numbers by the names of the columns.
struct StiffnessRow {
  std::string use, kind, end;
  std::map<std::string, double> number;

  double at(const std::string& column) const { return number.at(column); }
};

inline std::vector<StiffnessRow> stiffness_rows() {
  std::ifstream in(TUBEWRIGHT_SOURCE_DIR "/tests/joint_models/joint_stiffness.csv");
  const auto split = [](const std::string& line) {
    std::vector<std::string> words;
    std::istringstream text(line);
    for (std::string word; std::getline(text, word, ',');) words.push_back(word);
    return words;
  };
  std::string line;
  if (!std::getline(in, line)) throw std::runtime_error("no joint_stiffness.csv");
  const auto names = split(line);
  std::vector<StiffnessRow> rows;
  while (std::getline(in, line)) {
    const auto words = split(line);
    StiffnessRow row;
    for (std::size_t k = 0; k < names.size(); ++k) {
      if (names[k] == "use") {
        row.use = words.at(k);
      } else if (names[k] == "kind") {
        row.kind = words.at(k);
      } else if (names[k] == "end") {
        row.end = words.at(k);
      } else {
        row.number[names[k]] = std::stod(words.at(k));
      }
    }
    rows.push_back(row);
  }
  return rows;
}

/// The joint of a row with a wall of 1 m; E = 1 Pa makes its springs k/(E t0^3) and k/(E t0).
inline TubeOnTube joint_of(const StiffnessRow& r) {
  TubeOnTube j;
  const double t = r.at("t0");
  j.chord_width = r.at("b0") / t;
  j.chord_depth = r.at("h0") / t;
  j.chord_wall = 1;
  j.brace_width = r.at("b1") / t;
  j.brace_depth = r.at("h1") / t;
  j.brace_wall = r.at("t1") / t;
  j.angle = std::min(r.at("angle"), 180 - r.at("angle")) * std::numbers::pi / 180;
  j.end = r.end == "open"     ? ChordEnd::open
          : r.end == "capped" ? ChordEnd::capped
                              : ChordEnd::through;
  return j;
}

/// Flexibility of the brace from the chord's axis to its face, which the beams of a joint have.
struct StubFlexibility {
  double out_of_plane, in_plane, axial;
};
inline StubFlexibility stub_of(const TubeOnTube& j) {
  const double t = j.brace_wall;
  const Section s = hollow_rectangle(j.brace_depth, j.brace_width, t, {2 * t, t}, 0.3);
  const double length = j.chord_depth / 2 / std::sin(j.angle);
  return {length / s.Iz, length / s.Iy, length / s.A};
}

}  // namespace tubewright::test
