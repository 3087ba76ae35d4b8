// From a load case as its builder wrote it to the actions on the numbered model.
#pragma once

#include <map>
#include <string>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/model/actions.h"

namespace tubewright {

struct PlaceAlong {
  int member = 0;  ///< place in Frame::members
  double at = 0;   ///< fraction of it, from its start
};

/// Where on which piece a fraction of a member or of a whole tube (path) is.
PlaceAlong place_along(const Frame& frame, const NumberedFrame& numbered, const std::string& tube,
                       double at);

/// The actions of a static case, or of a combination of such: forces and moments on nodes, loads
/// along members, the weight of tubes, panels and carried masses in the case's gravity, and the
/// prescribed displacements of the supports. A combination sums its parts' actions times their
/// factors, prescribed displacements included, and is solved afresh: with slack cables the sum of
/// the parts' results would be wrong. Requires: needs_vehicle() is false; names exist.
Actions case_actions(const Frame& frame, const NumberedFrame& numbered, const Case& load_case);

/// The loads within members of a case as they are.
void add_point_loads(const Frame& frame, const NumberedFrame& numbered, const Case& load_case,
                     Actions& actions);

/// Factor of each case that is not itself a combination.
using Factors = std::map<std::string, double>;

/// What a case comes down to: itself, or its parts with their factors, combinations opened.
Factors basic_cases(const Frame& frame, const Case& load_case);

/// True if the case is of kind vehicle or combines one that is.
bool needs_vehicle(const Frame& frame, const Case& load_case);

/// The case of that name, or nullptr.
const Case* find_case(const Frame& frame, const std::string& name);

}  // namespace tubewright
