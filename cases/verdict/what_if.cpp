#include "cases/verdict/what_if.h"

#include <utility>

#include "cases/analysis/frame_edits.h"
#include "cases/analysis/in_parallel.h"
#include "cases/joint_stiffness/joint_springs.h"

namespace tubewright {

std::vector<WhatIf> what_ifs(const Analysis& drawn, const std::vector<std::string>& only) {
  const Frame& frame = drawn.frame;
  std::vector<std::pair<std::string, Frame>> variants;
  if (has_walls(frame)) variants.emplace_back("walls 10 % thinner", with_walls(frame, 0.9));
  if (!frame.masses.empty()) {
    variants.emplace_back("carried masses 20 % heavier", with_masses(frame, 1.2));
  }
  if (drawn.joints.sprung > 0) {
    variants.emplace_back("joints rigid", with_joint_flexibility(frame, rigid_joints));
    variants.emplace_back("joints half as stiff",
                          with_joint_flexibility(frame, 2 * frame.joint_flexibility));
  }
  if (Frame sprung = with_joint_flexibility(frame, 1);
      drawn.joints.rigid &&
      joint_summary(sprung, joint_springs(sprung, build_model(sprung))).sprung > 0) {
    variants.emplace_back("joints that give way by their geometry", std::move(sprung));
  }
  if (rivets_are_guessed(frame)) {
    variants.emplace_back("rivets at the soft end", with_rivets(frame, RivetBand::low));
    variants.emplace_back("rivets at the stiff end", with_rivets(frame, RivetBand::high));
  }
  if (has_walls(frame) && !frame.masses.empty()) {
    variants.emplace_back("thin walls and heavy masses together",
                          with_masses(with_walls(frame, 0.9), 1.2));
  }
  std::vector<WhatIf> list = {{"as drawn", worst_of_all(drawn)}};
  list.resize(1 + variants.size());
  in_parallel(variants.size(), [&](size_t i) {
    const auto& [words, variant] = variants[i];
    const Result<Analysis> outcome = analyse(variant, only, drawn.options);
    const auto* analysis = outcome.get();
    list[1 + i] = {words, analysis != nullptr ? worst_of_all(*analysis) : std::nullopt};
  });
  return list;
}

}  // namespace tubewright
