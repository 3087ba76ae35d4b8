// Choices near to one that passes: a good one to start the search from, and the nearest cheaper.
#pragma once

#include <optional>

#include "cases/sizing/choice_search.h"

namespace tubewright {

/// From a choice that passes to cheaper ones that do, entry by entry and by exchanges between two
/// lists, until none is found or the time is up. No proof of anything.
Choice lighter_choice(const ChoiceSearch& search, const Choice& from, double seconds);

/// Of all choices that cost less than `cost` that which costs most, whether it passes or not, to a
/// millionth where there are very many; none: there is none.
std::optional<Choice> nearest_cheaper(const ChoiceSearch& search, double cost);

}  // namespace tubewright
