// A frame that can move, or cables that do not settle, told to its builder.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/statics/statics.h"

namespace tubewright {

/// One error for each free motion: the node, the direction, what else moves, what to do.
Diagnostics failure_diagnostics(const Frame& frame, const NumberedFrame& numbered,
                                const StaticFailure& failure, const std::string& case_name);

/// The same of a model whose tubes are cut: the nodes inside them have no name, so what moves there
/// is told by a node of the frame.
Diagnostics failure_of_cut_frame(const Frame& frame, const NumberedFrame& numbered,
                                 Mechanism mechanism);

}  // namespace tubewright
