#include "io/summary/ranked_rows.h"

#include <algorithm>
#include <numeric>

namespace tubewright {

std::vector<std::size_t> worst_first(std::size_t count,
                                     const std::function<double(std::size_t)>& utilisation) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return utilisation(a) > utilisation(b); });
  return order;
}

std::string rest_line(std::size_t count, std::size_t shown) {
  if (count <= shown) return {};
  return std::string(26, ' ') + "and " + std::to_string(count - shown) +
         " more, none of them nearer its limit\n";
}

}  // namespace tubewright
