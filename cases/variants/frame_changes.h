// What was changed from one frame to another, by the names of their parts.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

enum class PartKind { tube, node, panel, sheet, mass, attachment, gusset };

struct NamedPart {
  PartKind kind = PartKind::tube;
  std::string name;  ///< of a tube that runs through nodes its own, not those of its pieces

  bool operator==(const NamedPart&) const = default;
};

/// Of two frames: the first, the second.
template <class Value>
using Pair = std::array<Value, 2>;

struct ResizedTube {
  std::string name;
  Pair<SectionEntry> section;
};

/// A tube that is bent to another radius, of its centre line, m; 0: not bent.
struct RebentTube {
  std::string name;
  Pair<double> radius{};
};

struct ResizedPart {
  NamedPart part;              ///< a sheet or a mass
  Pair<double> size{};         ///< thickness, m; kg
  Pair<std::string> material;  ///< of a sheet
};

struct MovedPart {
  NamedPart part;  ///< a node or a mass
  Pair<Eigen::Vector3d> at{};
};

/// A tube whose ends stand at other nodes.
struct RejoinedTube {
  std::string name;
  Pair<Pair<std::string>> ends;
};

/// How a member comes out of it, for who draws it.
enum class MemberChange {
  none,
  other,    ///< it is in this frame only
  resized,  ///< another section, or bent otherwise
  moved     ///< an end lies elsewhere or at another node
};

struct FrameChanges {
  std::vector<NamedPart> added, removed;
  std::vector<ResizedTube> resized_tubes;
  std::vector<RebentTube> rebent;
  std::vector<ResizedPart> resized_parts;
  std::vector<MovedPart> moved;
  std::vector<RejoinedTube> rejoined;
  Pair<std::vector<MemberChange>> members;  ///< in the order of Frame::members of each

  bool empty() const;
};

/// In file order: what the second has and the first has not, the other way, and what differs. Nodes
/// within bends are left out, which follow their tubes.
FrameChanges frame_changes(const Frame& first, const Frame& second);

/// True if tubes of both are cut from the same bar.
bool same_size(const SectionEntry& a, const SectionEntry& b);

}  // namespace tubewright
