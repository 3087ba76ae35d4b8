// Which of many variants are worth a look.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace tubewright {

/// What a variant is chosen by. Units are the caller's, the same for all.
struct Standing {
  double mass = 0;                    ///< the less the better
  std::optional<double> stiffness;    ///< the more the better; none is worse than any
  std::optional<double> utilisation;  ///< the less the better; none is worse than any
};

/// The Pareto front: those that no other is as good as in everything and better in something. Of
/// equals all stand on it.
std::vector<bool> pareto_front(const std::vector<Standing>& variants);

/// Place of the lightest of those marked in `wanted`; of several the stiffest, then the first.
/// Requires: as many marks as variants.
std::optional<std::size_t> lightest(const std::vector<Standing>& variants,
                                    const std::vector<bool>& wanted);

}  // namespace tubewright
