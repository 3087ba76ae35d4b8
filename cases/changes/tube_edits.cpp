#include "cases/changes/tube_edits.h"

#include <algorithm>
#include <set>
#include <utility>

#include "cases/attachments/gusset_plate.h"
#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "cases/model/case_actions.h"
#include "solver/elements/beam_element.h"

namespace tubewright {

namespace {

constexpr EndConnection torn_off = {0, 0, 0, 0, 0, 0};
const char* const new_section = "/changed";  // no name of a file can hold a slash
const char* const new_tube = "/tube";

template <class Load>
void drop_loads(std::vector<Load>& loads, const std::set<std::string>& members) {
  std::erase_if(loads, [&](const Load& load) { return members.contains(load.member); });
}

/// Loads along a whole path that loses a piece become loads on each of its pieces.
void give_to_pieces(const Frame& frame, const NumberedFrame& numbered,
                    const std::set<int>& lost_members, Case& c) {
  const auto parted = [&](const std::string& tube) {
    const std::vector<int>& pieces = numbered.members.at(tube);
    return pieces.size() > 1 && std::any_of(pieces.begin(), pieces.end(),
                                            [&](int m) { return lost_members.contains(m); });
  };
  std::vector<LineLoad> lines;
  for (const LineLoad& load : c.line_loads) {
    if (!parted(load.member)) {
      lines.push_back(load);
      continue;
    }
    for (const int m : numbered.members.at(load.member)) {
      LineLoad own = load;
      own.member = frame.members[static_cast<size_t>(m)].name;
      lines.push_back(std::move(own));
    }
  }
  c.line_loads = std::move(lines);
  for (PointLoad& load : c.point_loads) {
    if (!parted(load.member)) continue;
    const PlaceAlong place = place_along(frame, numbered, load.member, load.at);
    load.member = frame.members[static_cast<size_t>(place.member)].name;
    load.at = place.at;
  }
}

bool has_edge_on(const NumberedFrame& numbered, size_t panel, const std::set<int>& members) {
  const std::vector<int> round = members_round(numbered, numbered.model.panels[panel]);
  return std::any_of(round.begin(), round.end(), [&](int m) { return members.contains(m); });
}

/// Half of what the tube grows by toward a face.
double rise_of(const Attachment& a, const SectionEntry& before, const SectionEntry& after) {
  return (a.on_side ? after.width - before.width : after.height - before.height) / 2;
}

void move_node(Frame& frame, const std::string& name, const Eigen::Vector3d& by) {
  for (Node& node : frame.nodes) {
    if (node.name == name) node.at += by;
  }
}

}  // namespace

Frame without_members(const Frame& frame, const MemberSet& members) {
  const NumberedFrame numbered = build_model(frame);
  const std::set<int> lost(members.begin(), members.end());
  Frame less = frame;
  std::set<std::string> names;
  for (const int m : lost) names.insert(frame.members[static_cast<size_t>(m)].name);
  for (Case& c : less.cases) {
    give_to_pieces(frame, numbered, lost, c);
    drop_loads(c.line_loads, names);
    drop_loads(c.point_loads, names);
  }
  less.panels.clear();
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    if (!has_edge_on(numbered, p, lost)) less.panels.push_back(frame.panels[p]);
  }
  less.members.clear();
  for (size_t m = 0; m < frame.members.size(); ++m) {
    if (!lost.contains(static_cast<int>(m))) less.members.push_back(frame.members[m]);
  }
  return less;
}

Frame with_broken_end(const Frame& frame, int member, int end) {
  Frame broken = frame;
  Member& m = broken.members[static_cast<size_t>(member)];
  (end == 0 ? m.release_from : m.release_to) = torn_off;
  if (m.kind != MemberKind::beam || loose_direction(m.release_from, m.release_to) >= 0) {
    return without_members(frame, {member});
  }
  return broken;
}

Frame without_panel(const Frame& frame, int panel) {
  Frame less = frame;
  less.panels.erase(less.panels.begin() + panel);
  return less;
}

Frame without_fastening(const Frame& frame, const std::string& sheet, SheetFastening gone) {
  Frame loose = frame;
  for (Sheet& s : loose.sheets) {
    if (s.name != sheet) continue;
    if (gone == SheetFastening::rivets) {
      s.rivet.reset();
    } else {
      s.bond.reset();
    }
  }
  return loose;
}

Frame with_section(const Frame& frame, const MemberSet& members, const SectionEntry& section) {
  Frame changed = frame;
  SectionEntry entry = section;
  entry.name += new_section;
  const std::string old = frame.members[static_cast<size_t>(members.front())].section;
  const SectionEntry& before = find_section(frame, old);
  std::set<std::string> nodes;
  for (const int m : members) {
    Member& member = changed.members[static_cast<size_t>(m)];
    member.section = entry.name;
    nodes.insert({member.from, member.to});
  }
  for (Attachment& a : changed.attachments) {
    if (a.section != old || !nodes.contains(a.axis_node)) continue;
    const Eigen::Vector3d by = rise_of(a, before, entry) * a.out;
    a.section = entry.name;
    move_node(changed, a.face_node, by);
    move_node(changed, a.name, by);
  }
  changed.sections.push_back(std::move(entry));
  for (Gusset& g : changed.gussets) {
    bool touched = false;
    for (GussetLeg& leg : g.legs) {
      if (leg.section != old || !nodes.contains(leg.axis_node)) continue;
      leg.section = changed.sections.back().name;
      touched = true;
    }
    if (touched) move_to_leg_ends(changed, g);
  }
  return changed;
}

Frame with_tube(const Frame& frame, const std::string& from, const std::string& to,
                const std::string& section, bool pinned) {
  Frame more = frame;
  Member tube;
  tube.name = new_tube + std::to_string(frame.members.size());
  tube.kind = pinned ? MemberKind::link : MemberKind::beam;
  tube.from = from;
  tube.to = to;
  tube.section = section;
  more.members.push_back(std::move(tube));
  return more;
}

}  // namespace tubewright
