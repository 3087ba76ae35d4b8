// Throats that welds need beyond the wall of their tube: EN 1993-1-8 7.3.1(4) asks for welds as
// strong as the wall (cases/checks/end_weld.h). The checks count on them where no throat is given.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

struct WeldThroat {
  std::string section;
  double throat = 0;  ///< m, the greatest that any of `members` asks for
  std::vector<std::string> members;
};

/// By section, in the order of the file; members without a `weld_throat` only. Empty where the
/// wall is enough, as of S235 and S275 on their like.
std::vector<WeldThroat> weld_throats(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
