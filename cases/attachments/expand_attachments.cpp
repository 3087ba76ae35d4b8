#include "cases/attachments/expand_attachments.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <unordered_map>
#include <utility>

#include "cases/attachments/attachment_errors.h"
#include "cases/attachments/part_tubes.h"
#include "cases/attachments/place_gussets.h"
#include "cases/frame/frame_errors.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "solver/elements/beam_element.h"

namespace tubewright {
namespace {

/// Nearer than this to a node it stands at that.
constexpr double same_place = as_one_place;

constexpr std::array<Face, 6> faces = {Face::top,   Face::bottom, Face::left,
                                       Face::right, Face::front,  Face::rear};

Eigen::Vector3d direction_of(Face face) {
  switch (face) {
    case Face::top:
      return Eigen::Vector3d::UnitZ();
    case Face::bottom:
      return -Eigen::Vector3d::UnitZ();
    case Face::left:
      return Eigen::Vector3d::UnitY();
    case Face::right:
      return -Eigen::Vector3d::UnitY();
    case Face::front:
      return Eigen::Vector3d::UnitX();
    case Face::rear:
      break;
  }
  return -Eigen::Vector3d::UnitX();
}

bool has_flat_faces(const SectionEntry* s) { return s != nullptr && has_flat_faces(*s); }

/// A face of a tube: its normal, and whether that is the section's y axis.
struct TubeFace {
  Eigen::Vector3d out;
  bool on_side = false;
  double looks = 0;  ///< cosine of its angle to the direction asked for
};

/// The face that looks that way, if one does.
std::optional<TubeFace> face_towards(const Eigen::Matrix3d& axes, const Eigen::Vector3d& way) {
  TubeFace best, second;
  best.looks = second.looks = -2;
  for (const int axis : {1, 2}) {
    for (const double sign : {1.0, -1.0}) {
      TubeFace f{sign * axes.row(axis).transpose(), axis == 1, 0};
      f.looks = f.out.dot(way);
      if (f.looks > best.looks) {
        second = std::exchange(best, f);
      } else if (f.looks > second.looks) {
        second = f;
      }
    }
  }
  constexpr double towards = 0.7;  // cosine of 45 degrees, and a little for rounding
  constexpr double as_near = 1e-6;
  if (best.looks < towards || best.looks - second.looks < as_near) return std::nullopt;
  return best;
}

/// "top, bottom, left or right", as far as the tube has them.
std::string faces_there(const Eigen::Matrix3d& axes) {
  std::vector<std::string> there;
  for (const Face face : faces) {
    if (face_towards(axes, direction_of(face))) there.push_back(quoted(face_word(face)));
  }
  std::string text;
  for (std::size_t i = 0; i < there.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == there.size() ? " and " : ", ") + there[i];
  }
  return text.empty() ? "none that looks along an axis; turn the tube with `roll`" : text;
}

/// Turned so that its largest component is positive: left, front or top.
Eigen::Vector3d oriented(const Eigen::Vector3d& v) {
  Eigen::Index largest = 0;
  v.cwiseAbs().maxCoeff(&largest);
  // Of equal ones left counts before front and top.
  constexpr double rounding = 1e-9;
  if (std::abs(v.y()) > std::abs(v[largest]) - rounding) largest = 1;
  return v[largest] < 0 ? Eigen::Vector3d(-v) : v;
}

Eigen::Vector3d reflected(Eigen::Vector3d v) {
  v.y() = -v.y();
  return v;
}

/// Where an attachment stands: in a member, or at a node.
struct Spot {
  std::size_t member = 0;
  double from_start = 0;  ///< m
  std::string node;       ///< if it is at one
};

class Expansion {
 public:
  explicit Expansion(Frame& frame) : frame_(frame) {
    for (const Node& n : frame.nodes) at_.emplace(n.name, n.at);
    for (const SectionEntry& s : frame.sections) sections_.emplace(s.name, &s);
  }

  Diagnostics run() {
    std::vector<std::optional<Spot>> spots;
    for (Attachment& a : frame_.attachments) spots.push_back(spot_of(a));
    std::vector<Node> nodes;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      Attachment& a = frame_.attachments[i];
      if (!spots[i] || !stands_on_face(a, *spots[i])) {
        nodes.push_back({a.name, Eigen::Vector3d::Zero(), a.place});  // so that others find it
        continue;
      }
      make_nodes(a, *spots[i], nodes);
    }
    frame_.nodes.insert(frame_.nodes.end(), nodes.begin(), nodes.end());
    append(diagnostics_, place_gussets(frame_, cuts_));
    part_tubes(frame_, cuts_);
    return std::move(diagnostics_);
  }

 private:
  const SectionEntry* section(const Member& m) const {
    const auto found = sections_.find(m.section);
    return found == sections_.end() ? nullptr : found->second;
  }

  /// NaN if an end does not exist.
  double length(const Member& m) const {
    const auto from = at_.find(m.from), to = at_.find(m.to);
    if (from == at_.end() || to == at_.end()) return std::nan("");
    return (to->second - from->second).norm();
  }

  Eigen::Matrix3d axes(const Member& m) const {
    return member_axes(at_.at(m.from), at_.at(m.to), m.roll);
  }

  std::vector<std::size_t> pieces_of(const std::string& name) const {
    std::vector<std::size_t> pieces;
    for (std::size_t i = 0; i < frame_.members.size(); ++i) {
      const Member& m = frame_.members[i];
      if (m.name == name || m.tube == name) pieces.push_back(i);
    }
    return pieces;
  }

  void unknown_member(const Attachment& a) {
    std::vector<std::string> names;
    for (const Member& m : frame_.members) names.push_back(m.tube.empty() ? m.name : m.tube);
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    std::string advice = did_you_mean(a.on, names);
    if (advice.empty()) advice = what_to_name("member", "members", names);
    add_error(diagnostics_, a.place,
              unknown_name("attachment " + quoted(a.name), "member", a.on, advice));
  }

  /// None: a fault that is reported here, or by validate().
  std::optional<Spot> spot_of(const Attachment& a) {
    if (a.at && !a.node.empty()) {
      add_error(diagnostics_, a.place, attachment_at_two_places(a.name));
      return std::nullopt;
    }
    std::vector<std::size_t> pieces;
    if (!a.on.empty()) {
      pieces = pieces_of(a.on);
      if (pieces.empty()) {
        unknown_member(a);
        return std::nullopt;
      }
      if (frame_.members[pieces[0]].kind != MemberKind::beam ||
          !has_flat_faces(section(frame_.members[pieces[0]]))) {
        if (section(frame_.members[pieces[0]]) != nullptr ||
            frame_.members[pieces[0]].kind == MemberKind::spring) {
          add_error(diagnostics_, a.place, attachment_on_no_tube(a.name, a.on));
        }
        return std::nullopt;
      }
    }
    if (!a.node.empty()) return spot_at_node(a, pieces);
    if (pieces.empty() || !a.at) {
      add_error(diagnostics_, a.place, attachment_nowhere(a.name));
      return std::nullopt;
    }
    return spot_along(a, pieces);
  }

  std::optional<Spot> spot_along(const Attachment& a, const std::vector<std::size_t>& pieces) {
    if (!(*a.at >= 0 && *a.at <= 1)) {
      add_error(diagnostics_, a.place, attachment_beyond_ends(a.name));
      return std::nullopt;
    }
    double total = 0;
    for (const std::size_t i : pieces) total += length(frame_.members[i]);
    if (!(total > 0)) return std::nullopt;
    double left = *a.at * total;
    for (const std::size_t i : pieces) {
      const Member& m = frame_.members[i];
      const double L = length(m);
      if (left <= same_place) return Spot{i, 0, m.from};
      if (left < L - same_place) return Spot{i, left, ""};
      if (left <= L + same_place) return Spot{i, L, m.to};
      left -= L;
    }
    return Spot{pieces.back(), total, frame_.members[pieces.back()].to};
  }

  /// Of the tubes there the one whose face looks most that way; of those one that runs through.
  std::optional<Spot> spot_at_node(const Attachment& a, const std::vector<std::size_t>& only) {
    if (!at_.contains(a.node)) {
      std::vector<std::string> names;
      for (const Node& n : frame_.nodes) names.push_back(n.name);
      std::string advice = did_you_mean(a.node, names);
      if (advice.empty()) advice = what_to_name("node", "nodes", names);
      add_error(diagnostics_, a.place,
                unknown_name("attachment " + quoted(a.name), "node", a.node, advice));
      return std::nullopt;
    }
    std::map<std::string, int> ends_here;
    for (const Member& m : frame_.members) {
      if (m.from == a.node || m.to == a.node) ++ends_here[m.tube.empty() ? m.name : m.tube];
    }
    std::optional<Spot> best;
    double most = -2;
    for (std::size_t i = 0; i < frame_.members.size(); ++i) {
      const Member& m = frame_.members[i];
      if (m.kind != MemberKind::beam || (m.from != a.node && m.to != a.node)) continue;
      if (!only.empty() && std::find(only.begin(), only.end(), i) == only.end()) continue;
      if (!has_flat_faces(section(m)) || !(length(m) > 0)) continue;
      const auto face = face_towards(axes(m), direction_of(a.face));
      const bool through = !m.tube.empty() && ends_here[m.tube] > 1;
      constexpr double rather_through = 0.01;
      const double looks = (face ? face->looks : -1) + (through ? rather_through : 0);
      constexpr double rounding = 1e-9;
      if (best && looks <= most + rounding) continue;
      most = looks;
      best = Spot{i, m.from == a.node ? 0 : length(m), a.node};
    }
    if (!best) add_error(diagnostics_, a.place, no_tube_at_node(a.name, a.node));
    return best;
  }

  bool stands_on_face(Attachment& a, const Spot& spot) {
    const Member& m = frame_.members[spot.member];
    if (m.arc) {
      add_error(diagnostics_, a.place, attachment_on_bend(a.name, m.tube));
      return false;
    }
    const Eigen::Matrix3d local = axes(m);
    const auto face = face_towards(local, direction_of(a.face));
    if (!face) {
      add_error(diagnostics_, a.place, no_such_face(a.name, face_word(a.face), faces_there(local)));
      return false;
    }
    a.on = m.tube.empty() ? m.name : m.tube;
    a.section = m.section;
    a.out = face->out;
    a.on_side = face->on_side;
    a.lengthwise = local.row(0).transpose();
    const Eigen::Vector3d across = a.out.cross(a.lengthwise);
    a.sideways = a.image ? reflected(oriented(reflected(across))) : oriented(across);
    if (a.material.empty()) a.material = section(m)->material;
    return true;
  }

  void make_nodes(Attachment& a, const Spot& spot, std::vector<Node>& nodes) {
    const Member& m = frame_.members[spot.member];
    const Eigen::Vector3d axis = at_.at(m.from) + spot.from_start * a.lengthwise;
    a.axis_node = spot.node;
    if (spot.node.empty()) {
      a.axis_node = node_at(cuts_, spot.member, spot.from_start, a.name + ".axis");
      if (a.axis_node == a.name + ".axis") nodes.push_back({a.axis_node, axis, a.place});
    }
    a.face_node = a.name + ".face";
    const Eigen::Vector3d foot = axis + face_depth(*section(m), a) / 2 * a.out;
    nodes.push_back({a.face_node, foot, a.place});
    nodes.push_back(
        {a.name, foot + a.hole * a.out + a.along * a.lengthwise + a.aside * a.sideways, a.place});
  }

  Frame& frame_;
  std::unordered_map<std::string, Eigen::Vector3d> at_;
  std::unordered_map<std::string, const SectionEntry*> sections_;
  TubeCuts cuts_;
  Diagnostics diagnostics_;
};

}  // namespace

const char* face_word(Face face) { return face_names[static_cast<std::size_t>(face)]; }

double face_width(const SectionEntry& tube, const Attachment& attachment) {
  return attachment.on_side ? tube.height : tube.width;
}

double face_depth(const SectionEntry& tube, const Attachment& attachment) {
  return attachment.on_side ? tube.width : tube.height;
}

double plates_apart(const SectionEntry& tube, const Attachment& attachment) {
  if (attachment.kind == AttachmentKind::pair) return attachment.gap + attachment.thickness;
  if (attachment.kind == AttachmentKind::saddle) {
    return face_width(tube, attachment) + attachment.thickness;
  }
  return 0;
}

std::vector<int> members_at_foot(const Frame& frame, const Attachment& attachment) {
  std::vector<int> members;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.name != attachment.on && m.tube != attachment.on) continue;
    if (m.from == attachment.axis_node || m.to == attachment.axis_node) {
      members.push_back(static_cast<int>(i));
    }
  }
  return members;
}

Diagnostics expand_attachments(Frame& frame) {
  if (frame.attachments.empty() && frame.gussets.empty()) return {};
  return Expansion(frame).run();
}

}  // namespace tubewright
