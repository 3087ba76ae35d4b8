// scaffold, replaced by the table
#pragma once
#include <optional>
#include <string>

#include "solver/model/model.h"

namespace tubewright {

enum class ChordEnd { through, open, capped };

struct TubeOnTube {
  double chord_width = 0, chord_depth = 0, chord_wall = 0;
  double brace_width = 0, brace_depth = 0, brace_wall = 0;
  double angle = 0;
  ChordEnd end = ChordEnd::through;
  bool beside = false;
};

struct JointStiffness {
  double out_of_plane = rigid, in_plane = rigid, axial = rigid;
};

struct TableStiffness {
  std::optional<JointStiffness> stiffness;
  std::string why;
};

TableStiffness tube_on_tube(const TubeOnTube& t, double E);

}  // namespace tubewright
