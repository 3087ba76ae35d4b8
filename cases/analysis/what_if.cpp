#include "cases/analysis/what_if.h"

#include <future>

#include "cases/analysis/analysis.h"
#include "cases/analysis/frame_edits.h"

namespace tubewright {

namespace {

WhatIf row(const std::string& words, const Analysis& analysis) {
  WhatIf w;
  w.words = words;
  for (const CaseResult& c : analysis.cases) {
    if (!c.worst || (w.worst && c.worst->utilisation <= w.worst->utilisation)) continue;
    w.worst = c.worst;
    w.load_case = c.name;
  }
  return w;
}

}  // namespace

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
      const AnalysisOutcome outcome = analyse(variant.second, only, drawn.options);
      const auto* analysis = std::get_if<Analysis>(&outcome);
      return analysis != nullptr ? row(variant.first, *analysis) : WhatIf{variant.first, {}, {}};
    }));
  }
  std::vector<WhatIf> list = {row("as drawn", drawn)};
  for (std::future<WhatIf>& r : rows) list.push_back(r.get());
  return list;
}

}  // namespace tubewright
