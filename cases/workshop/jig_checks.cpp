#include "cases/workshop/jig_checks.h"

#include <algorithm>
#include <iterator>

#include "cases/frame/bays.h"
#include "cases/frame/layout.h"

namespace tubewright {

std::vector<JigCheck> jig_checks(const Frame& frame) {
  const Layout layout = layout_of(frame);
  std::vector<JigCheck> checks;
  for (const Bay& bay : four_sided_bays(frame, layout)) {
    JigCheck c;
    c.nodes = bay.corners;
    for (size_t k = 0; k < 4; ++k) {
      c.corners[k] = frame.nodes[static_cast<size_t>(bay.corners[k])].name;
    }
    const auto apart = [&](size_t a, size_t b) {
      return (layout.at[static_cast<size_t>(bay.corners[a])] -
              layout.at[static_cast<size_t>(bay.corners[b])])
          .norm();
    };
    c.first = apart(0, 2);
    c.second = apart(1, 3);
    checks.push_back(std::move(c));
  }
  return checks;
}

std::vector<JigCheck> checks_among(const std::vector<JigCheck>& checks,
                                   const std::vector<int>& nodes) {
  std::vector<JigCheck> among;
  std::copy_if(checks.begin(), checks.end(), std::back_inserter(among), [&](const JigCheck& c) {
    return std::all_of(c.nodes.begin(), c.nodes.end(), [&](int corner) {
      return std::binary_search(nodes.begin(), nodes.end(), corner);
    });
  });
  return among;
}

}  // namespace tubewright
