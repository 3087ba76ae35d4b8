#include "cases/variants/frame_changes.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_map>

#include "cases/frame/find_parts.h"

namespace tubewright {

namespace {

/// What is known of a part without its name.
struct Tube {
  Pair<std::string> ends;
  std::string section;
  double bend = 0;
};

/// Parts by name, and the names in file order.
template <class Part>
struct Named {
  std::vector<std::string> order;
  std::unordered_map<std::string, Part> parts;

  void add(const std::string& name, const Part& part) {
    if (parts.emplace(name, part).second) order.push_back(name);
  }
  const Part* find(const std::string& name) const {
    const auto found = parts.find(name);
    return found == parts.end() ? nullptr : &found->second;
  }
};

std::string tube_name(const Member& m) { return m.tube.empty() ? m.name : m.tube; }

Named<Tube> tubes_of(const Frame& frame) {
  Named<Tube> tubes;
  for (const Member& m : frame.members) {
    const std::string name = tube_name(m);
    const double bend = m.arc ? m.arc->radius : m.bend;
    if (tubes.find(name) == nullptr) {
      tubes.add(name, {{m.from, m.to}, m.section, bend});
    } else {
      Tube& tube = tubes.parts[name];
      tube.ends[1] = m.to;
      tube.bend = std::max(tube.bend, bend);
    }
  }
  return tubes;
}

/// Without those within bends and at the feet of attachments, which follow their tubes.
Named<Eigen::Vector3d> nodes_of(const Frame& frame) {
  std::set<std::string> left_out;
  for (const Member& m : frame.members) {
    if (m.arc) left_out.insert({m.from, m.to});
  }
  for (const Attachment& a : frame.attachments) {
    left_out.insert({a.name, a.axis_node, a.face_node});
  }
  for (const Gusset& g : frame.gussets) {
    for (const GussetLeg& leg : g.legs) left_out.insert(leg.axis_node);
  }
  Named<Eigen::Vector3d> nodes;
  for (const Node& n : frame.nodes) {
    if (!left_out.contains(n.name)) nodes.add(n.name, n.at);
  }
  return nodes;
}

template <class Parts>
auto by_name(const Parts& parts) {
  Named<typename Parts::value_type> named;
  for (const auto& part : parts) named.add(part.name, part);
  return named;
}

/// Nobody builds to less, and axes turned and back leave rounding.
constexpr double same_place = 1e-9;  // m

bool apart(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return (a - b).norm() > same_place;
}

/// Both with the part of each name, or what one has alone.
template <class Part, class Visit>
void match(PartKind kind, const Named<Part>& first, const Named<Part>& second,
           FrameChanges& changes, const Visit& visit) {
  for (const std::string& name : first.order) {
    if (second.find(name) == nullptr) changes.removed.push_back({kind, name});
  }
  for (const std::string& name : second.order) {
    const Part* before = first.find(name);
    if (before == nullptr) {
      changes.added.push_back({kind, name});
    } else {
      visit(name, *before, *second.find(name));
    }
  }
}

SectionEntry section_of(const Frame& frame, const Tube& tube) {
  return tube.section.empty() ? SectionEntry{} : find_section(frame, tube.section);
}

/// What became of the tubes of one of the frames.
std::vector<MemberChange> member_changes(const Frame& frame, const FrameChanges& changes,
                                         const std::vector<NamedPart>& only_here) {
  std::set<std::string> other, resized, moved_nodes, rejoined;
  for (const NamedPart& part : only_here) {
    if (part.kind == PartKind::tube) other.insert(part.name);
  }
  for (const ResizedTube& tube : changes.resized_tubes) resized.insert(tube.name);
  for (const RebentTube& tube : changes.rebent) resized.insert(tube.name);
  for (const RejoinedTube& tube : changes.rejoined) rejoined.insert(tube.name);
  for (const MovedPart& m : changes.moved) {
    if (m.part.kind == PartKind::node) moved_nodes.insert(m.part.name);
  }
  std::vector<MemberChange> list;
  for (const Member& m : frame.members) {
    const std::string name = tube_name(m);
    const bool moved =
        rejoined.contains(name) || moved_nodes.contains(m.from) || moved_nodes.contains(m.to);
    list.push_back(other.contains(name)     ? MemberChange::other
                   : resized.contains(name) ? MemberChange::resized
                   : moved                  ? MemberChange::moved
                                            : MemberChange::none);
  }
  return list;
}

}  // namespace

bool same_size(const SectionEntry& a, const SectionEntry& b) {
  return a.shape == b.shape && a.height == b.height && a.width == b.width && a.wall == b.wall &&
         a.corners == b.corners && a.material == b.material && a.given.A == b.given.A &&
         a.given.Iy == b.given.Iy && a.given.Iz == b.given.Iz && a.given.It == b.given.It;
}

bool FrameChanges::empty() const {
  return added.empty() && removed.empty() && resized_tubes.empty() && rebent.empty() &&
         resized_parts.empty() && moved.empty() && rejoined.empty();
}

FrameChanges frame_changes(const Frame& first, const Frame& second) {
  FrameChanges c;
  match(PartKind::tube, tubes_of(first), tubes_of(second), c,
        [&](const std::string& name, const Tube& a, const Tube& b) {
          const SectionEntry before = section_of(first, a), after = section_of(second, b);
          if (!same_size(before, after)) c.resized_tubes.push_back({name, {before, after}});
          if (std::abs(a.bend - b.bend) > same_place) c.rebent.push_back({name, {a.bend, b.bend}});
          if (a.ends != b.ends) c.rejoined.push_back({name, {a.ends, b.ends}});
        });
  match(PartKind::node, nodes_of(first), nodes_of(second), c,
        [&](const std::string& name, const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
          if (apart(a, b)) c.moved.push_back({{PartKind::node, name}, {a, b}});
        });
  match(PartKind::panel, by_name(first.panels), by_name(second.panels), c,
        [](const std::string&, const PanelEntry&, const PanelEntry&) {});
  match(PartKind::sheet, by_name(first.sheets), by_name(second.sheets), c,
        [&](const std::string& name, const Sheet& a, const Sheet& b) {
          if (a.thickness == b.thickness && a.material == b.material) return;
          c.resized_parts.push_back(
              {{PartKind::sheet, name}, {a.thickness, b.thickness}, {a.material, b.material}});
        });
  match(PartKind::mass, by_name(first.masses), by_name(second.masses), c,
        [&](const std::string& name, const CarriedMass& a, const CarriedMass& b) {
          const NamedPart part{PartKind::mass, name};
          if (a.mass != b.mass) c.resized_parts.push_back({part, {a.mass, b.mass}, {}});
          if (apart(a.at, b.at)) c.moved.push_back({part, {a.at, b.at}});
        });
  match(PartKind::attachment, by_name(first.attachments), by_name(second.attachments), c,
        [](const std::string&, const Attachment&, const Attachment&) {});
  match(PartKind::gusset, by_name(first.gussets), by_name(second.gussets), c,
        [&](const std::string& name, const Gusset& a, const Gusset& b) {
          if (a.thickness == b.thickness && a.material == b.material) return;
          c.resized_parts.push_back(
              {{PartKind::gusset, name}, {a.thickness, b.thickness}, {a.material, b.material}});
        });
  c.members = {member_changes(first, c, c.removed), member_changes(second, c, c.added)};
  return c;
}

}  // namespace tubewright
