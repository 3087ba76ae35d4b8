// How the joints of a frame were taken, as text and JSON.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "cases/joint_stiffness/joint_springs.h"

namespace tubewright {

/// Lines of a summary, wrapped to the terminal; empty: nothing is welded to anything.
std::string joints_lines(const JointSummary& joints, const std::string& indent);

/// {model, ends_sprung, ends_taken_as_rigid: {reason: [NAME at NODE]}}
nlohmann::ordered_json joints_json(const JointSummary& joints);

}  // namespace tubewright
