// What tables of the items nearest their limits have in common.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace tubewright {

/// Numbers of `count` items, the greatest utilisation first, equal ones in order.
std::vector<std::size_t> worst_first(std::size_t count,
                                     const std::function<double(std::size_t)>& utilisation);

/// "and 3 more, none of them nearer its limit", a line below the rows shown of `count`; empty if
/// all are.
std::string rest_line(std::size_t count, std::size_t shown);

}  // namespace tubewright
