// How large a model is.
#pragma once

#include "solver/model/model.h"

namespace tubewright {

/// Diagonal of the box round the nodes, m; 0 without nodes.
double model_size(const Model& model);

}  // namespace tubewright
