// Where a path turns by so little that one may not think of a cut: a mitre is cut and welded there
// all the same.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/frame/layout.h"
#include "solver/model/angle.h"

namespace tubewright {

/// Below this a turn is told; above, nobody overlooks it (judgement).
constexpr double clearly_meant = 30 * degree;

struct SmallKink {
  std::size_t after = 0;  ///< member: the piece that begins there
  std::string node;
  double angle = 0;  ///< rad
};

/// In the order of the members. Turns below half a tenth of a degree are slips of rounding.
std::vector<SmallKink> small_kinks(const Frame& frame, const Layout& layout);

}  // namespace tubewright
