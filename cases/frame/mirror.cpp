#include "cases/frame/mirror.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "cases/frame/frame_errors.h"
#include "cases/frame/wording.h"

namespace tubewright {
namespace {

// Distance from the plane below which a node lies on it: a file gives hundredths of a millimetre.
constexpr double on_plane = 1e-6;  // m

/// The frame being completed, and what the steps share.
struct Expansion {
  Frame& frame;
  const MirrorRule rule;
  std::unordered_map<std::string, std::size_t> node_index;
  std::unordered_set<std::string> reported;
  Diagnostics diagnostics;

  bool copies(const std::string& name) const { return name.ends_with(rule.from); }

  const Node* node(const std::string& name) const {
    const auto found = node_index.find(name);
    return found == node_index.end() ? nullptr : &frame.nodes[found->second];
  }
};

bool lies_on_plane(const Node& n) { return std::abs(n.at.y()) <= on_plane; }

/// The node that is the mirror image of `name`. Reports where there is none; but an unknown name is
/// swapped unseen, since validate() reports it.
std::string image_of(Expansion& e, const std::string& name, const std::string& part,
                     const SourceLocation& place) {
  const Node* original = e.node(name);
  std::string image = swap_ending(name, e.rule);
  if (original == nullptr) return image;
  if (lies_on_plane(*original)) return name;
  if (image != name && e.node(image) != nullptr) return image;
  if (!e.reported.insert(part + '\n' + name).second) return name;
  if (image == name) {
    add_error(e.diagnostics, place, node_without_image(part, name, e.rule.from));
  } else {
    add_error(e.diagnostics, place, image_not_there(part, name, image));
  }
  return name;
}

void copy_nodes(Expansion& e) {
  const std::size_t given = e.frame.nodes.size();
  for (std::size_t i = 0; i < given; ++i) {
    Node copy = e.frame.nodes[i];
    if (!e.copies(copy.name) || lies_on_plane(copy)) continue;
    copy.name = swap_ending(copy.name, e.rule);
    copy.at.y() = -copy.at.y();
    if (const Node* other = e.node(copy.name)) {
      add_error(e.diagnostics, other->place,
                image_is_given("node", copy.name, e.frame.nodes[i].name));
      continue;
    }
    e.node_index.emplace(copy.name, e.frame.nodes.size());
    e.frame.nodes.push_back(std::move(copy));
  }
}

/// A single member, or a continuous tube: the pieces of one path.
struct WrittenMember {
  std::string name;
  std::vector<std::size_t> pieces;
};

std::vector<WrittenMember> written_members(const Frame& frame) {
  std::vector<WrittenMember> written;
  std::unordered_map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    const std::string& name = m.tube.empty() ? m.name : m.tube;
    const auto [found, is_new] = index.emplace(name, written.size());
    if (is_new) written.push_back({name, {}});
    written[found->second].pieces.push_back(i);
  }
  return written;
}

/// The image of every piece; empty if the tube is its own image.
std::vector<Member> images_of(Expansion& e, const WrittenMember& original,
                              const std::string& image) {
  std::vector<Member> copies;
  std::multiset<std::set<std::string>> ends_before, ends_after;
  for (const std::size_t i : original.pieces) {
    Member copy = e.frame.members[i];
    const std::string part = "member " + quoted(original.name);
    ends_before.insert({copy.from, copy.to});
    copy.from = image_of(e, copy.from, part, copy.place);
    copy.to = image_of(e, copy.to, part, copy.place);
    ends_after.insert({copy.from, copy.to});
    copy.name = image + copy.name.substr(original.name.size());
    if (!copy.tube.empty()) copy.tube = image;
    copy.roll = 0.0 - copy.roll;
    copies.push_back(std::move(copy));
  }
  if (ends_before == ends_after) copies.clear();
  return copies;
}

void copy_members(Expansion& e) {
  const std::vector<WrittenMember> given = written_members(e.frame);
  std::unordered_map<std::string, SourceLocation> taken;
  for (const WrittenMember& w : given) {
    taken.emplace(w.name, e.frame.members[w.pieces.front()].place);
  }
  for (const Member& m : e.frame.members) taken.emplace(m.name, m.place);

  for (const WrittenMember& original : given) {
    if (!e.copies(original.name)) continue;
    const std::string image = swap_ending(original.name, e.rule);
    std::vector<Member> copies = images_of(e, original, image);
    if (copies.empty()) continue;
    auto other = taken.find(image);
    if (other == taken.end()) other = taken.find(copies.front().name);
    if (other != taken.end()) {
      add_error(e.diagnostics, other->second, image_is_given("member", image, original.name));
      continue;
    }
    for (Member& copy : copies) e.frame.members.push_back(std::move(copy));
  }
}

void copy_supports(Expansion& e) {
  std::unordered_map<std::string, SourceLocation> taken;
  for (const SupportEntry& s : e.frame.supports) taken.emplace(s.node, s.place);
  const std::size_t given = e.frame.supports.size();
  for (std::size_t i = 0; i < given; ++i) {
    SupportEntry copy = e.frame.supports[i];
    if (!e.copies(copy.node)) continue;
    const std::string original = copy.node;
    copy.node = image_of(e, original, "support " + quoted(original), copy.place);
    if (copy.node == original) continue;
    if (const auto other = taken.find(copy.node); other != taken.end()) {
      add_error(e.diagnostics, other->second, image_is_given("support", copy.node, original));
      continue;
    }
    // y is odd under the reflection; rotations turn with the opposite sense except about y.
    for (const int d : {1, 3, 5}) copy.displacement[d] = 0.0 - copy.displacement[d];
    e.frame.supports.push_back(std::move(copy));
  }
}

void copy_panels(Expansion& e) {
  std::unordered_map<std::string, SourceLocation> taken;
  for (const PanelEntry& p : e.frame.panels) taken.emplace(p.name, p.place);
  const std::size_t given = e.frame.panels.size();
  for (std::size_t i = 0; i < given; ++i) {
    PanelEntry copy = e.frame.panels[i];
    if (!e.copies(copy.name)) continue;
    const std::string original = copy.name;
    const std::multiset<std::string> corners(copy.corners.begin(), copy.corners.end());
    for (std::string& corner : copy.corners) {
      corner = image_of(e, corner, "panel " + quoted(original), copy.place);
    }
    if (corners == std::multiset(copy.corners.begin(), copy.corners.end())) continue;
    std::reverse(copy.corners.begin(), copy.corners.end());  // so that the normal is mirrored
    copy.name = swap_ending(original, e.rule);
    if (const auto other = taken.find(copy.name); other != taken.end()) {
      add_error(e.diagnostics, other->second, image_is_given("panel", copy.name, original));
      continue;
    }
    e.frame.panels.push_back(std::move(copy));
  }
}

/// A mass or wheel whose image the file gives itself, say of another size, stays as it is given.
template <class Part>
std::unordered_set<std::string> names_of(const std::vector<Part>& parts) {
  std::unordered_set<std::string> names;
  for (const Part& part : parts) names.insert(part.name);
  return names;
}

void mirror_nodes(Expansion& e, std::vector<std::string>& nodes, const std::string& part,
                  const SourceLocation& place) {
  for (std::string& node : nodes) node = image_of(e, node, part, place);
}

void copy_masses(Expansion& e) {
  const std::unordered_set<std::string> given = names_of(e.frame.masses);
  const std::size_t count = e.frame.masses.size();
  for (std::size_t i = 0; i < count; ++i) {
    CarriedMass copy = e.frame.masses[i];
    if (!e.copies(copy.name)) continue;
    const std::string part = "mass " + quoted(copy.name);
    copy.name = swap_ending(copy.name, e.rule);
    if (given.contains(copy.name)) continue;
    copy.at.y() = 0.0 - copy.at.y();
    const std::multiset<std::string> before(copy.on.begin(), copy.on.end());
    mirror_nodes(e, copy.on, part, copy.place);
    const bool central = std::abs(copy.at.y()) <= on_plane;
    if (central && before == std::multiset(copy.on.begin(), copy.on.end())) continue;
    e.frame.masses.push_back(std::move(copy));
  }
}

void copy_wheels(Expansion& e) {
  if (!e.frame.vehicle) return;
  std::vector<Wheel>& wheels = e.frame.vehicle->wheels;
  const std::unordered_set<std::string> given = names_of(wheels);
  const std::size_t count = wheels.size();
  for (std::size_t i = 0; i < count; ++i) {
    Wheel copy = wheels[i];
    if (!e.copies(copy.name)) continue;
    const std::string part = "wheel " + quoted(copy.name);
    copy.name = swap_ending(copy.name, e.rule);
    if (given.contains(copy.name) || std::abs(copy.contact.y()) <= on_plane) continue;
    copy.contact.y() = 0.0 - copy.contact.y();
    copy.centre.y() = 0.0 - copy.centre.y();
    mirror_nodes(e, copy.carrier, part, copy.place);
    mirror_nodes(e, copy.brake_mount, part, copy.place);
    wheels.push_back(std::move(copy));
  }
}

Face image_of(Face face) {
  if (face == Face::left) return Face::right;
  return face == Face::right ? Face::left : face;
}

/// The member of that name, or the ends of that tube: its first and last node.
std::optional<std::array<std::string, 2>> ends_of(const Frame& frame, const std::string& name) {
  std::optional<std::array<std::string, 2>> ends;
  for (const Member& m : frame.members) {
    if (m.name != name && m.tube != name) continue;
    if (!ends) ends = {m.from, m.to};
    (*ends)[1] = m.to;
  }
  return ends;
}

/// On the image of its tube; on a tube that is its own image at the image of its place.
void move_to_image(Expansion& e, Attachment& copy) {
  if (!copy.node.empty()) {
    copy.node = image_of(e, copy.node, "attachment " + quoted(copy.name), copy.place);
  }
  if (copy.on.empty()) return;
  const std::string image = swap_ending(copy.on, e.rule);
  if (image != copy.on && ends_of(e.frame, image)) {
    copy.on = image;
    return;
  }
  const auto ends = ends_of(e.frame, copy.on);
  const bool turns_round = ends && (*ends)[0] == swap_ending((*ends)[1], e.rule);
  if (!turns_round) return;
  if (copy.at) copy.at = 1 - *copy.at;
  copy.along = 0.0 - copy.along;
}

void copy_attachments(Expansion& e) {
  std::unordered_map<std::string, SourceLocation> taken;
  for (const Attachment& a : e.frame.attachments) taken.emplace(a.name, a.place);
  const std::size_t given = e.frame.attachments.size();
  for (std::size_t i = 0; i < given; ++i) {
    const Attachment original = e.frame.attachments[i];
    if (!e.copies(original.name)) continue;
    Attachment copy = original;
    move_to_image(e, copy);
    copy.face = image_of(copy.face);
    copy.image = true;
    constexpr double same_spot = 1e-9;
    if (copy.on == original.on && copy.node == original.node && copy.face == original.face &&
        std::abs(copy.at.value_or(0) - original.at.value_or(0)) < same_spot) {
      add_error(e.diagnostics, copy.place, attachment_is_its_own_image(original.name, e.rule.from));
      continue;
    }
    copy.name = swap_ending(original.name, e.rule);
    if (const auto other = taken.find(copy.name); other != taken.end()) {
      add_error(e.diagnostics, other->second,
                image_is_given("attachment", copy.name, original.name));
      continue;
    }
    e.frame.attachments.push_back(std::move(copy));
  }
}

/// The image of a member that ends at `node`: the one between the images of its nodes.
std::string image_of_piece(const Expansion& e, const std::string& name, const std::string& node) {
  const auto swapped = [&](const std::string& end) {
    const std::string image = swap_ending(end, e.rule);
    return e.node_index.contains(image) ? image : end;
  };
  for (const Member& m : e.frame.members) {
    if ((m.name != name && m.tube != name) || (m.from != node && m.to != node)) continue;
    const std::set<std::string> ends = {swapped(m.from), swapped(m.to)};
    for (const Member& other : e.frame.members) {
      if (std::set<std::string>{other.from, other.to} == ends) return other.name;
    }
  }
  return swap_ending(name, e.rule);
}

void copy_gussets(Expansion& e) {
  std::unordered_map<std::string, SourceLocation> taken;
  for (const Gusset& g : e.frame.gussets) taken.emplace(g.name, g.place);
  const std::size_t given = e.frame.gussets.size();
  for (std::size_t i = 0; i < given; ++i) {
    const Gusset original = e.frame.gussets[i];
    if (!e.copies(original.name)) continue;
    Gusset copy = original;
    copy.name = swap_ending(original.name, e.rule);
    copy.node = image_of(e, copy.node, "gusset " + quoted(copy.name), copy.place);
    for (GussetLeg& leg : copy.legs) leg.tube = image_of_piece(e, leg.tube, original.node);
    if (const auto other = taken.find(copy.name); other != taken.end()) {
      add_error(e.diagnostics, other->second, image_is_given("gusset", copy.name, original.name));
      continue;
    }
    const auto tubes = [](const Gusset& g) { return std::set{g.legs[0].tube, g.legs[1].tube}; };
    if (copy.node == original.node && tubes(copy) == tubes(original)) {
      add_error(e.diagnostics, copy.place, gusset_is_its_own_image(original.name, e.rule.from));
      continue;
    }
    e.frame.gussets.push_back(std::move(copy));
  }
}

/// A name must not carry both endings.
bool ambiguous(const MirrorRule& rule) {
  return rule.from.empty() || rule.to.empty() || rule.from.ends_with(rule.to) ||
         rule.to.ends_with(rule.from);
}

}  // namespace

std::string swap_ending(const std::string& name, const MirrorRule& rule) {
  const auto without = [&](const std::string& ending) {
    return name.substr(0, name.size() - ending.size());
  };
  if (name.ends_with(rule.from)) return without(rule.from) + rule.to;
  if (name.ends_with(rule.to)) return without(rule.to) + rule.from;
  return name;
}

Diagnostics expand_mirror(Frame& frame) {
  if (!frame.mirror) return {};
  const MirrorRule& rule = *frame.mirror;
  if (ambiguous(rule)) {
    return Diagnostics{error_at(rule.place, mirror_endings_alike(rule.from, rule.to))};
  }

  Expansion e{frame, rule, {}, {}, {}};
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) e.node_index.emplace(frame.nodes[i].name, i);
  copy_nodes(e);
  copy_members(e);
  copy_supports(e);
  copy_panels(e);
  copy_masses(e);
  copy_wheels(e);
  copy_attachments(e);
  copy_gussets(e);
  return std::move(e.diagnostics);
}

}  // namespace tubewright
