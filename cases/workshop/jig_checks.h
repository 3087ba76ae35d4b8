// What to measure on the jig: the diagonals of four-sided bays.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// Both diagonals of a four-sided bay between its nodes: equal or given, whatever else is measured.
struct JigCheck {
  std::array<int, 4> nodes{};          ///< in order round the bay
  std::array<std::string, 4> corners;  ///< their names
  double first = 0;                    ///< from corner 0 to 2, m
  double second = 0;                   ///< from corner 1 to 3
};

std::vector<JigCheck> jig_checks(const Frame& frame);

/// Those with all corners among some nodes, which are ascending.
std::vector<JigCheck> checks_among(const std::vector<JigCheck>& checks,
                                   const std::vector<int>& nodes);

}  // namespace tubewright
