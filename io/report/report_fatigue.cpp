#include "io/report/report_fatigue.h"

#include "io/results/json_parts.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

ordered_json fatigue_of_member(const Member& member, const MemberFatigue& m) {
  const bool made = m.result.utilisation.has_value();
  const auto if_made = [&](const ordered_json& value) {
    return made ? value : ordered_json(nullptr);
  };
  ordered_json ranges = ordered_json::array();
  for (const double r : m.ranges) ranges.push_back(number(r * MPa_per_Pa));
  return {{"name", member.name},
          {"end", if_made(m.end == 0 ? member.from : member.to)},
          {"utilisation", optional_number(m.result.utilisation, 1)},
          {"ranges", if_made(ranges)},
          {"damage", if_made(number(m.damage))},
          {"cycles", if_made(number(m.cycles))},
          {"reason", made ? ordered_json(nullptr) : ordered_json(m.result.reason)}};
}

}  // namespace

ordered_json report_fatigue(const FrameStudies& studies) {
  if (!studies.fatigue) return nullptr;
  const FatigueScreening& f = *studies.fatigue;
  ordered_json spectrum = ordered_json::array(), members = ordered_json::array();
  for (const FatigueBlockUsed& b : f.blocks) {
    spectrum.push_back({{"what", b.words}, {"cycles", number(b.cycles)}});
  }
  for (std::size_t i = 0; i < f.members.size(); ++i) {
    members.push_back(fatigue_of_member(studies.analysis.frame.members[i], f.members[i]));
  }
  return {{"counts", f.counts},     {"category", number(f.category * MPa_per_Pa)},
          {"gamma_Mf", f.gamma_Mf}, {"source", f.source},
          {"spectrum", spectrum},   {"members", members}};
}

}  // namespace tubewright
