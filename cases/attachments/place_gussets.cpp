#include "cases/attachments/place_gussets.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>
#include <unordered_map>
#include <vector>

#include "cases/attachments/attachment_errors.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/frame/frame_errors.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "solver/elements/beam_element.h"

namespace tubewright {
namespace {

/// Between their axes; beyond it there is no corner to stand in.
constexpr double least_angle = 0.34;  // rad: 20 degrees

class Placing {
 public:
  Placing(Frame& frame, TubeCuts& cuts) : frame_(frame), cuts_(cuts) {
    for (const Node& n : frame.nodes) at_.emplace(n.name, n.at);
    for (const SectionEntry& s : frame.sections) sections_.emplace(s.name, &s);
  }

  Diagnostics run() {
    for (Gusset& g : frame_.gussets) place(g);
    return std::move(diagnostics_);
  }

 private:
  void place(Gusset& g) {
    if (!at_.contains(g.node)) {
      std::vector<std::string> names;
      for (const Node& n : frame_.nodes) names.push_back(n.name);
      complain(g, unknown_name("gusset " + quoted(g.name), "node", g.node,
                               advice_for(g.node, "node", "nodes", std::move(names))));
      return;
    }
    const auto first = member_at(g, g.legs[0]), second = member_at(g, g.legs[1]);
    if (!first || !second) return;
    const std::array<std::size_t, 2> members = {*first, *second};
    std::array<double, 2> depths{};
    for (std::size_t k = 0; k < 2; ++k) {
      const Member& m = frame_.members[members[k]];
      const Eigen::Vector3d away = at_.at(m.from == g.node ? m.to : m.from) - at_.at(g.node);
      g.legs[k].along = away.normalized();
      g.legs[k].section = m.section;
    }
    const Eigen::Vector3d normal = g.legs[0].along.cross(g.legs[1].along);
    if (!(normal.norm() > std::sin(least_angle))) {
      complain(g, gusset_without_corner(g.name));
      return;
    }
    for (std::size_t k = 0; k < 2; ++k) {
      if (!find_face(g, g.legs[k], frame_.members[members[k]], normal.normalized())) return;
      depths[k] = leg_face_depth(*sections_.at(g.legs[k].section), g.legs[k]);
    }
    const auto starts = leg_starts(depths, g.legs[0].along.dot(g.legs[1].along));
    for (std::size_t k = 0; k < 2; ++k) {
      if (!reaches(g, g.legs[k], frame_.members[members[k]], starts[k])) return;
    }
    if (g.material.empty()) g.material = sections_.at(g.legs[0].section)->material;
    for (std::size_t k = 0; k < 2; ++k) make_node(g, k, members[k], starts[k]);
  }

  void complain(const Gusset& g, Diagnostic what) {
    add_error(diagnostics_, g.place, std::move(what));
  }

  static std::string advice_for(const std::string& name, const char* noun, const char* key,
                                std::vector<std::string> names) {
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    const std::string advice = did_you_mean(name, names);
    return advice.empty() ? what_to_name(noun, key, names) : advice;
  }

  /// The one piece of that tube that ends at the gusset's node.
  std::optional<std::size_t> member_at(const Gusset& g, const GussetLeg& leg) {
    std::vector<std::size_t> ends;
    std::vector<std::string> names;
    bool known = false;
    for (std::size_t i = 0; i < frame_.members.size(); ++i) {
      const Member& m = frame_.members[i];
      names.push_back(m.tube.empty() ? m.name : m.tube);
      if (m.name != leg.tube && m.tube != leg.tube) continue;
      known = true;
      if (m.from == g.node || m.to == g.node) ends.push_back(i);
    }
    if (!known) {
      complain(g, unknown_name("gusset " + quoted(g.name), "member", leg.tube,
                               advice_for(leg.tube, "member", "members", std::move(names))));
    } else if (ends.empty()) {
      complain(g, gusset_tube_elsewhere(g.name, leg.tube, g.node));
    } else if (ends.size() > 1) {
      complain(g, gusset_tube_runs_on(g.name, leg.tube, g.node, frame_.members[ends[0]].name,
                                      frame_.members[ends[1]].name));
    } else {
      return usable(g, ends[0]);
    }
    return std::nullopt;
  }

  std::optional<std::size_t> usable(const Gusset& g, std::size_t member) {
    const Member& m = frame_.members[member];
    const auto section = sections_.find(m.section);
    if (m.kind == MemberKind::beam && section == sections_.end()) return std::nullopt;
    if (m.kind != MemberKind::beam || m.arc || !has_flat_faces(*section->second)) {
      complain(g, gusset_on_no_tube(g.name, m.name));
      return std::nullopt;
    }
    const auto from = at_.find(m.from), to = at_.find(m.to);
    const bool real = from != at_.end() && to != at_.end() && from->second != to->second;
    return real ? std::optional(member) : std::nullopt;
  }

  /// `normal`: of the gusset's plane.
  bool find_face(const Gusset& g, GussetLeg& leg, const Member& m, const Eigen::Vector3d& normal) {
    const Eigen::Matrix3d axes = member_axes(at_.at(m.from), at_.at(m.to), m.roll);
    constexpr double in_line = 0.9962;  // cosine of 5 degrees
    leg.on_side = std::abs(axes.row(2).dot(normal)) > in_line;
    if (leg.on_side || std::abs(axes.row(1).dot(normal)) > in_line) return true;
    complain(g, gusset_off_the_faces(g.name, m.name));
    return false;
  }

  bool reaches(const Gusset& g, const GussetLeg& leg, const Member& m, double start) {
    const double room = (at_.at(m.to) - at_.at(m.from)).norm() - start;
    if (leg.length < room - as_one_place) return true;
    complain(g, gusset_longer_than_tube(g.name, m.name, leg.length, room));
    return false;
  }

  void make_node(Gusset& g, std::size_t k, std::size_t member, double start) {
    GussetLeg& leg = g.legs[k];
    const Member& m = frame_.members[member];
    const double from_node = start + leg.length, L = (at_.at(m.to) - at_.at(m.from)).norm();
    const std::string own = g.name + (k == 0 ? ".1" : ".2");
    leg.axis_node = node_at(cuts_, member, m.from == g.node ? from_node : L - from_node, own);
    if (leg.axis_node != own) return;
    frame_.nodes.push_back({own, at_.at(g.node) + from_node * leg.along, g.place});
  }

  Frame& frame_;
  TubeCuts& cuts_;
  std::unordered_map<std::string, Eigen::Vector3d> at_;
  std::unordered_map<std::string, const SectionEntry*> sections_;
  Diagnostics diagnostics_;
};

}  // namespace

Diagnostics place_gussets(Frame& frame, TubeCuts& cuts) { return Placing(frame, cuts).run(); }

}  // namespace tubewright
