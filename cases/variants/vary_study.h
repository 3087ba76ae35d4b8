// Many variants of one frame, each in its numbers.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "cases/analysis/tell_step.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/variants/frame_numbers.h"

namespace tubewright {

/// Makes a variant, with its load cases, or says why there is no such frame. Called by several
/// threads at once.
using MakeVariant = std::function<Result<Frame>(std::size_t combination)>;

/// One entry for each of `combinations`, in their order: its numbers, or why it has none, a
/// mechanism for instance. Works on all processors; the numbers do not depend on how many.
std::vector<Result<FrameNumbers>> vary_study(const std::vector<std::size_t>& combinations,
                                             const MakeVariant& make,
                                             const TellStep& tell = tell_nobody);

}  // namespace tubewright
