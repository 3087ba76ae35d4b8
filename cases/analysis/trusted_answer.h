// Whether a solved case is an answer at all: numbers that can be, in balance, of displacements that
// a frame can have.
#pragma once

#include <optional>
#include <string>

#include "cases/frame/diagnostic.h"
#include "solver/model/model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// How far the node moves that moves most; `u`: six a node.
double greatest_movement(const Eigen::VectorXd& u);

/// Why the linear answer of a case is none: a number that is not finite, loads and forces out of
/// balance by more than a millionth, a node that moves farther than the frame is large. Nothing for
/// an answer.
std::optional<Diagnostic> why_no_answer(const Model& model, const std::string& load_case,
                                        const StaticSolution& solution);

}  // namespace tubewright
