#include "cases/changes/tube_groups.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "cases/frame/find_parts.h"
#include "cases/frame/frame_symmetry.h"
#include "solver/model/disjoint_sets.h"

namespace tubewright {

namespace {

std::vector<Eigen::Vector3d> places_of(const Frame& frame) {
  std::vector<Eigen::Vector3d> places;
  for (const Node& node : frame.nodes) places.push_back(node.at);
  return places;
}

/// The plane between left and right.
std::optional<MirrorPlane> middle_plane(const Frame& frame) {
  if (frame.mirror) return MirrorPlane{1, 0, 1};
  const auto number = numbers_of_nodes(frame);
  const auto at = [&](const std::string& node) {
    return frame.nodes[static_cast<size_t>(number.at(node))].at;
  };
  std::map<std::string, int> sizes;
  std::vector<DrawnTube> tubes;
  for (const Member& m : frame.members) {
    const int size = sizes.emplace(m.section, static_cast<int>(sizes.size())).first->second;
    tubes.push_back({{at(m.from), at(m.to)}, size});
  }
  for (const MirrorPlane& plane : mirror_planes(tubes)) {
    if (plane.axis == 1) return plane;
  }
  return std::nullopt;
}

}  // namespace

std::vector<TubeGroup> tube_groups(const Frame& frame) {
  const auto number = numbers_of_nodes(frame);
  const size_t count = frame.members.size();
  DisjointSets sets(count);
  std::map<std::string, size_t> first_of_path;
  for (size_t m = 0; m < count; ++m) {
    const Member& member = frame.members[m];
    if (member.tube.empty()) continue;
    const size_t first = first_of_path.emplace(member.tube, m).first->second;
    sets.join(static_cast<int>(first), static_cast<int>(m));
  }
  if (const auto plane = middle_plane(frame)) {
    const std::vector<int> images = images_of(places_of(frame), *plane);
    std::map<std::pair<int, int>, size_t> between;  // the lesser node first
    const auto key = [](int a, int b) { return std::pair(std::min(a, b), std::max(a, b)); };
    for (size_t m = 0; m < count; ++m) {
      between.emplace(key(number.at(frame.members[m].from), number.at(frame.members[m].to)), m);
    }
    for (size_t m = 0; m < count; ++m) {
      const int a = images[static_cast<size_t>(number.at(frame.members[m].from))];
      const int b = images[static_cast<size_t>(number.at(frame.members[m].to))];
      const auto image = between.find(key(a, b));
      if (image == between.end()) continue;
      const Member &one = frame.members[m], &other = frame.members[image->second];
      if (one.section != other.section || one.kind != other.kind) continue;
      sets.join(static_cast<int>(m), static_cast<int>(image->second));
    }
  }
  std::vector<TubeGroup> groups;
  std::map<int, size_t> place;
  for (size_t m = 0; m < count; ++m) {
    const Member& member = frame.members[m];
    if (member.section.empty()) continue;
    const auto [at, is_new] = place.emplace(sets.first_of(static_cast<int>(m)), groups.size());
    if (is_new) groups.push_back({member.name, {}});
    groups[at->second].members.push_back(static_cast<int>(m));
  }
  return groups;
}

std::pair<std::string, std::string> image_of(const Frame& frame, const std::string& from,
                                             const std::string& to) {
  const auto plane = middle_plane(frame);
  if (!plane) return {};
  const auto number = numbers_of_nodes(frame);
  const std::vector<int> images = images_of(places_of(frame), *plane);
  const int a = images[static_cast<size_t>(number.at(from))];
  const int b = images[static_cast<size_t>(number.at(to))];
  if (a < 0 || b < 0) return {};
  return {frame.nodes[static_cast<size_t>(a)].name, frame.nodes[static_cast<size_t>(b)].name};
}

}  // namespace tubewright
