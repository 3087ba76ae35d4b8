#include "cases/verdict/what_if.h"

#include <future>

#include "cases/analysis/frame_edits.h"

namespace tubewright {

std::vector<WhatIf> what_ifs(const Analysis& drawn, const std::vector<std::string>& only) {
  const Frame& frame = drawn.frame;
  std::vector<std::pair<std::string, Frame>> variants;
  if (has_walls(frame)) variants.emplace_back("walls 10 % thinner", with_walls(frame, 0.9));
  if (!frame.masses.empty()) {
    variants.emplace_back("carried masses 20 % heavier", with_masses(frame, 1.2));
  }
  if (has_welded_joints(frame)) {
    variants.emplace_back("joints as soft as counts as rigid", with_soft_joints(frame));
  }
  if (rivets_are_guessed(frame)) {
    variants.emplace_back("rivets at the soft end", with_rivets(frame, RivetBand::low));
    variants.emplace_back("rivets at the stiff end", with_rivets(frame, RivetBand::high));
  }
  if (has_walls(frame) && !frame.masses.empty()) {
    variants.emplace_back("thin walls and heavy masses together",
                          with_masses(with_walls(frame, 0.9), 1.2));
  }
  std::vector<std::future<WhatIf>> rows;
  for (const auto& variant : variants) {
    rows.push_back(std::async([&variant, &only, &drawn] {
      const Result<Analysis> outcome = analyse(variant.second, only, drawn.options);
      const auto* analysis = outcome.get();
      return WhatIf{variant.first, analysis != nullptr ? worst_of_all(*analysis) : std::nullopt};
    }));
  }
  std::vector<WhatIf> list = {{"as drawn", worst_of_all(drawn)}};
  for (std::future<WhatIf>& r : rows) list.push_back(r.get());
  return list;
}

}  // namespace tubewright
