// A floor of sheet on a grid of tubes, for tests.
#pragma once

#include <string>

#include "tests/cases/clad_frames.h"

namespace tubewright::testing {

/// A grid of `columns` by `rows` bays of 500 by 400 mm in 25 mm tube, rails through all bays; its
/// panels p_i_j in the sheet `floor`, 4 mm rivets every 40 mm, 13.1 mm above the axes.
inline Frame floor_grid(int columns, int rows) {
  Frame f = empty_frame();
  const auto node = [](int i, int j) { return "n" + std::to_string(i) + "_" + std::to_string(j); };
  for (int j = 0; j <= rows; ++j) {
    for (int i = 0; i <= columns; ++i) add_node(f, node(i, j), 0.5 * i, 0.4 * j, 0);
  }
  for (int j = 0; j <= rows; ++j) {
    const std::string rail = "rail" + std::to_string(j);
    for (int i = 0; i < columns; ++i) {
      add_member(f, rail + "." + std::to_string(i + 1), node(i, j), node(i + 1, j)).tube = rail;
    }
  }
  for (int i = 0; i <= columns; ++i) {
    for (int j = 0; j < rows; ++j) {
      add_member(f, "cross" + std::to_string(i) + "_" + std::to_string(j), node(i, j),
                 node(i, j + 1));
    }
  }
  Sheet& sheet = add_sheet(f, "floor");
  sheet.rivet = rivets(0.004, 0.040);
  sheet.offset = 0.0131;
  for (int j = 0; j < rows; ++j) {
    for (int i = 0; i < columns; ++i) {
      add_panel(f, "p" + std::to_string(i) + "_" + std::to_string(j), "floor",
                {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)});
    }
  }
  return f;
}

}  // namespace tubewright::testing
