#include "cases/verdict/limit_checks.h"

namespace tubewright {

namespace {

LimitCheck at_least(const std::string& name, double asked, double found) {
  return {name, asked, found, {asked / found, "", "limits", true}};
}

LimitCheck not_found(const std::string& name, double asked, std::string why) {
  return {name, asked, 0, {std::nullopt, std::move(why), "limits", true}};
}

LimitCheck torsional_stiffness_limit(const Frame& frame, double asked) {
  const std::string name = "torsional_stiffness";
  if (!frame.torsion) {
    return not_found(name, asked, "the file has no `torsion`, which says where it is measured");
  }
  const std::optional<double> found = torsional_stiffness(frame);
  if (!found) return not_found(name, asked, "the torsion test has no answer: see `twist`");
  return at_least(name, asked, *found);
}

LimitCheck frequency_limit(const Frame& frame, double asked) {
  const std::string name = "frequency";
  constexpr int lowest = 4;  // the first that is no rigid-body motion stands among them
  const Result<FrameModes> modes = frame_modes(frame, lowest);
  const FrameMode* mode = modes ? lowest_elastic(*modes) : nullptr;
  if (mode == nullptr) {
    return not_found(name, asked, "no natural frequency was found: see `modes`");
  }
  return at_least(name, asked, mode->frequency);
}

}  // namespace

std::vector<LimitCheck> limit_checks(const Analysis& analysis) {
  const Limits& limits = analysis.frame.limits;
  std::vector<LimitCheck> list;
  if (limits.torsional_stiffness) {
    list.push_back(torsional_stiffness_limit(analysis.frame, *limits.torsional_stiffness));
  }
  if (const auto used = mass_share(analysis)) {
    list.push_back({"mass",
                    *limits.mass,
                    analysis.mass.tubes + analysis.mass.panels,
                    {*used, "", "limits", true}});
  }
  if (limits.frequency) list.push_back(frequency_limit(analysis.frame, *limits.frequency));
  return list;
}

}  // namespace tubewright
