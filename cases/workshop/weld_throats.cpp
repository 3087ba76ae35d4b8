#include "cases/workshop/weld_throats.h"

#include <algorithm>
#include <map>

#include "cases/checks/welded_ends.h"
#include "cases/frame/find_parts.h"
#include "cases/model/weldments.h"

namespace tubewright {

std::vector<WeldThroat> weld_throats(const Frame& frame, const NumberedFrame& numbered) {
  const std::vector<std::array<WeldedEnd, 2>> ends = welded_ends(frame, numbered);
  std::map<std::string, WeldThroat> of_section;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.kind != MemberKind::beam || m.weld_throat) continue;
    double asked = 0;
    for (const size_t end : {0U, 1U}) {
      const WeldedEnd& e = ends[i][end];
      if (e.welded && !is_joint(connection_at(m, end)))
        asked = std::max(asked, e.weld.least_throat);
    }
    if (!(asked > find_section(frame, m.section).wall)) continue;
    WeldThroat& t = of_section[m.section];
    t.section = m.section;
    t.throat = std::max(t.throat, asked);
    const std::string& name = m.tube.empty() ? m.name : m.tube;
    if (t.members.empty() || t.members.back() != name) t.members.push_back(name);
  }
  std::vector<WeldThroat> list;
  for (const SectionEntry& s : frame.sections) {
    if (const auto found = of_section.find(s.name); found != of_section.end()) {
      list.push_back(found->second);
    }
  }
  return list;
}

}  // namespace tubewright
