#include "cases/bends/expand_bends.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "cases/bends/bend_errors.h"
#include "cases/bends/member_arc.h"
#include "cases/frame/layout.h"
#include "cases/frame/wording.h"
#include "solver/elements/beam_element.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double most_turn = 170 * degree;
constexpr double most_arc = 11.25 * degree;
/// What is left of a straight piece between two bends and counts as nothing, m.
constexpr double nothing_left = 1e-4;
/// A bend begins and ends in a straight piece of tube, if only a short one, m.
constexpr double least_end = 1e-3;

/// A corner of a path, bent or not.
struct Corner {
  double radius = 0;  ///< 0: not bent
  double angle = 0;
  double taken = 0;  ///< R tan(angle/2)
};

class Expansion {
 public:
  explicit Expansion(Frame& frame) : frame_(frame) {
    for (const Node& n : frame.nodes) drawn_.emplace(n.name, n.at);
    at_ = drawn_;
    for (const SectionEntry& s : frame.sections) sections_.emplace(s.name, &s);
  }

  Diagnostics run() {
    std::vector<Member> members;
    for (std::size_t first = 0; first < frame_.members.size();) {
      std::size_t last = first;
      while (last + 1 < frame_.members.size() && follows(last)) ++last;
      const std::vector<Member> path(
          frame_.members.begin() + static_cast<std::ptrdiff_t>(first),
          frame_.members.begin() + static_cast<std::ptrdiff_t>(last) + 1);
      std::vector<Member> pieces = bent(path);
      members.insert(members.end(), pieces.begin(), pieces.end());
      first = last + 1;
    }
    if (!diagnostics_.empty()) return std::move(diagnostics_);
    frame_.members = std::move(members);
    for (Node& n : frame_.nodes) n.at = at_.at(n.name);
    frame_.nodes.insert(frame_.nodes.end(), nodes_.begin(), nodes_.end());
    note_runs();
    return {};
  }

 private:
  bool follows(std::size_t i) const {
    const Member &m = frame_.members[i], &next = frame_.members[i + 1];
    return !m.tube.empty() && m.tube == next.tube && m.to == next.from;
  }

  bool has_places(const std::vector<Member>& path) const {
    return std::all_of(path.begin(), path.end(), [&](const Member& m) {
      const auto from = drawn_.find(m.from), to = drawn_.find(m.to);
      return from != drawn_.end() && to != drawn_.end() && from->second.allFinite() &&
             to->second.allFinite() && (to->second - from->second).norm() > nothing_left;
    });
  }

  /// The path with its bends as arcs; as it was if it has none or cannot be bent.
  std::vector<Member> bent(const std::vector<Member>& path) {
    const bool none =
        std::all_of(path.begin(), path.end(), [](const Member& m) { return m.bend == 0; });
    if (none || !has_places(path) || !sections_.contains(path[0].section)) return path;
    std::vector<Eigen::Vector3d> points = {drawn_.at(path[0].from)};
    for (const Member& m : path) points.push_back(drawn_.at(m.to));
    const std::vector<Corner> corners = corners_of(path, points);
    if (!fits(path, points, corners)) return path;

    std::vector<Member> pieces;
    std::string from = path[0].from;
    Eigen::Vector3d start = points[0];
    for (std::size_t i = 0; i < path.size(); ++i) {
      const bool turns = i + 1 < path.size() && corners[i].radius > 0;
      const Eigen::Vector3d along = (points[i + 1] - points[i]).normalized();
      const Eigen::Vector3d stop = points[i + 1] - (turns ? corners[i].taken : 0) * along;
      if ((stop - start).norm() > nothing_left) {
        Member straight = path[i];
        straight.from = from;
        if (turns) straight.to = add_node(node_name(path[i], 0), stop, path[i].place);
        straight.bend = 0;
        from = straight.to;
        pieces.push_back(std::move(straight));
      }
      if (!turns) {
        start = points[i + 1];
        continue;
      }
      const Eigen::Vector3d next = (points[i + 2] - points[i + 1]).normalized();
      start = points[i + 1] + corners[i].taken * next;
      from = add_arcs(path[i], corners[i], {points[i + 1], along, next}, from, pieces);
    }
    carry_ends(path, pieces);
    carry_roll(pieces);
    return pieces;
  }

  std::vector<Corner> corners_of(const std::vector<Member>& path,
                                 const std::vector<Eigen::Vector3d>& points) const {
    std::vector<Corner> corners;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
      const Eigen::Vector3d in = (points[i + 1] - points[i]).normalized();
      const Eigen::Vector3d out = (points[i + 2] - points[i + 1]).normalized();
      Corner c;
      c.angle = std::atan2(in.cross(out).norm(), in.dot(out));
      if (c.angle > path_turns_at) c.radius = path[i].bend;
      c.taken = c.radius > 0 ? c.radius * std::tan(c.angle / 2) : 0;
      corners.push_back(c);
    }
    return corners;
  }

  bool fits(const std::vector<Member>& path, const std::vector<Eigen::Vector3d>& points,
            const std::vector<Corner>& corners) {
    const std::size_t faults = diagnostics_.size();
    const SectionEntry& s = *sections_.at(path[0].section);
    for (std::size_t i = 0; i < corners.size(); ++i) {
      if (corners[i].radius == 0) continue;
      const std::string& node = path[i].to;
      const double least = std::min(s.height, s.width) / 2;
      if (corners[i].angle > most_turn) {
        add_error(diagnostics_, path[i].place, bend_turns_back(path[i].tube, node));
      } else if (corners[i].radius <= least) {
        add_error(diagnostics_, path[i].place,
                  bend_too_tight(path[i].tube, node, corners[i].radius, least));
      }
      const auto [other, is_new] = bent_at_.emplace(node, path[i].tube);
      if (!is_new) {
        add_error(diagnostics_, path[i].place,
                  two_bends_at_node(path[i].tube, other->second, node));
      }
    }
    if (diagnostics_.size() > faults) return false;
    for (std::size_t i = 0; i < path.size(); ++i) {
      const double before = i > 0 ? corners[i - 1].taken : 0;
      const double after = i < corners.size() ? corners[i].taken : 0;
      // Only between two bends may nothing be left: elsewhere its node is a place of the tube.
      const bool between_bends = before > 0 && after > 0;
      const double there = (points[i + 1] - points[i]).norm();
      const double least = !between_bends && before + after > 0 ? least_end : -nothing_left;
      if (before + after + least > there) {
        add_error(diagnostics_, path[i].place,
                  bend_does_not_fit(path[i].tube, path[i].from, path[i].to, before + after, there));
      }
    }
    return diagnostics_.size() == faults;
  }

  struct Turn {
    Eigen::Vector3d corner, in, out;
  };

  /// Arcs from node `from`. The name of the node where the last ends.
  std::string add_arcs(const Member& before, const Corner& corner, const Turn& turn,
                       std::string from, std::vector<Member>& pieces) {
    const Eigen::Vector3d bisector = (turn.out - turn.in).normalized();
    const Eigen::Vector3d axis = turn.in.cross(turn.out).normalized();
    const Eigen::Vector3d centre =
        turn.corner + corner.radius / std::cos(corner.angle / 2) * bisector;
    const Eigen::Vector3d begin = turn.corner - corner.taken * turn.in - centre;
    const int half = static_cast<int>(std::ceil(corner.angle / 2 / most_arc - 1e-9));
    for (int k = 1; k <= 2 * half; ++k) {
      const double angle = corner.angle * k / (2 * half);
      const Eigen::Vector3d at = centre + Eigen::AngleAxisd(angle, axis) * begin;
      Member arc = before;
      arc.name = before.tube + "." + before.to + "." + std::to_string(k);
      arc.bend = 0;
      arc.arc = MemberArc{corner.radius, centre, before.to};
      arc.from = std::move(from);
      arc.to = k == half ? before.to : node_name(before, k);
      if (k == half) {
        at_[before.to] = at;
      } else {
        add_node(arc.to, at, before.place);
      }
      from = arc.to;
      pieces.push_back(std::move(arc));
    }
    return from;
  }

  /// Releases and caps stand at the two ends of the tube.
  static void carry_ends(const std::vector<Member>& path, std::vector<Member>& pieces) {
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      Member& piece = pieces[i];
      const bool first = i == 0, last = i + 1 == pieces.size();
      piece.release_from = first ? path.front().release_from : welded;
      piece.capped[0] = first && path.front().capped[0];
      piece.release_to = last ? path.back().release_to : welded;
      piece.capped[1] = last && path.back().capped[1];
    }
  }

  /// Through a bend the section turns with the tube; after a mitre its own roll begins anew.
  void carry_roll(std::vector<Member>& pieces) const {
    for (std::size_t i = 1; i < pieces.size(); ++i) {
      const Eigen::Matrix3d before = axes(pieces[i - 1]);
      Member level = pieces[i];
      level.roll = 0;
      const Eigen::Matrix3d rest = axes(level);
      const bool in_line = before.row(0).dot(rest.row(0)) > std::cos(path_turns_at);
      if (!in_line && !bends_on(pieces[i - 1], pieces[i])) continue;
      const Eigen::Quaterniond turn = Eigen::Quaterniond::FromTwoVectors(
          Eigen::Vector3d(before.row(0)), Eigen::Vector3d(rest.row(0)));
      const Eigen::Vector3d y = turn * Eigen::Vector3d(before.row(1));
      pieces[i].roll = std::atan2(y.dot(rest.row(2)), y.dot(rest.row(1)));
    }
  }

  Eigen::Matrix3d axes(const Member& m) const {
    return member_axes(at_.at(m.from), at_.at(m.to), m.roll);
  }

  /// As far as nothing else meets it a bent tube buckles in one.
  void note_runs() {
    std::map<std::string, std::set<std::string>> meet;  // tubes at a node
    for (const Member& m : frame_.members) {
      for (const std::string& node : {m.from, m.to}) {
        meet[node].insert(m.tube.empty() ? m.name : m.tube);
      }
    }
    for (const SupportEntry& s : frame_.supports) meet[s.node].insert("");
    auto& members = frame_.members;
    for (std::size_t first = 0; first < members.size();) {
      std::size_t last = first;
      while (last + 1 < members.size() && bends_on(members[last], members[last + 1]) &&
             meet[members[last].to].size() == 1) {
        ++last;
      }
      double length = 0;
      for (std::size_t i = first; i <= last; ++i) length += length_of(members[i]);
      for (std::size_t i = first; i <= last && last > first; ++i) members[i].parted_from = length;
      first = last + 1;
    }
  }

  double length_of(const Member& m) const {
    const auto from = at_.find(m.from), to = at_.find(m.to);
    if (from == at_.end() || to == at_.end()) return 0;
    const double chord = (to->second - from->second).norm();
    return m.arc ? arc_length(*m.arc, chord) : chord;
  }

  static std::string node_name(const Member& before, int k) {
    return before.tube + "." + before.to + "." + std::to_string(k);
  }

  std::string add_node(const std::string& name, const Eigen::Vector3d& at, SourceLocation place) {
    at_[name] = at;
    nodes_.push_back({name, at, place});
    return name;
  }

  Frame& frame_;
  std::unordered_map<std::string, Eigen::Vector3d> drawn_;  ///< nodes as the file has them
  std::unordered_map<std::string, Eigen::Vector3d> at_;     ///< corners moved onto their bends
  std::unordered_map<std::string, const SectionEntry*> sections_;
  std::map<std::string, std::string> bent_at_;  ///< node: tube
  std::vector<Node> nodes_;
  Diagnostics diagnostics_;
};

}  // namespace

Diagnostics expand_bends(Frame& frame) {
  const bool none = std::all_of(frame.members.begin(), frame.members.end(),
                                [](const Member& m) { return m.bend == 0; });
  if (none) return {};
  return Expansion(frame).run();
}

}  // namespace tubewright
