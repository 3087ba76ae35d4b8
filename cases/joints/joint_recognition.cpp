#include "cases/joints/joint_recognition.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <memory>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>

#include "cases/bends/member_arc.h"
#include "cases/checks/welded_ends.h"
#include "solver/elements/beam_element.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

/// Directions within this count as one (judgement: what a builder measures).
constexpr double same_direction = 2 * degree;
/// A tube that turns by less still runs through for what stands on it (judgement).
constexpr double runs_on = 30 * degree;
/// Of the biggest: as big (Table 7.11: where side walls begin to count).
constexpr double about_as_big = 0.85;
/// A tube is closed by one that crosses it within this of square (judgement).
constexpr double across_enough = 45 * degree;

constexpr const char* in_line = "it carries on a tube of another size in one line";

constexpr size_t nothing = static_cast<size_t>(-1);

/// A beam that reaches a node.
struct Arm {
  TubeEndAt at;
  Eigen::Vector3d away;  ///< unit vector from the node
  Eigen::Matrix3d axes;  ///< rows: local x, y, z
  double length = 0;
  int far = 0;  ///< node at its other end
};

double angle_between(const Arm& a, const Arm& b) {
  return std::atan2(a.away.cross(b.away).norm(), a.away.dot(b.away));
}

bool is_hollow(const Profile& p) {
  if (p.kind == ProfileKind::hollow_rectangle) return true;
  return p.kind == ProfileKind::round && p.wall > 0;
}

double mean_side(const Profile& p) { return (p.height + p.width) / 2; }

bool same_outside(const Profile& a, const Profile& b) {
  constexpr double alike_sides = 0.02;
  return a.kind == b.kind && std::abs(a.height - b.height) <= alike_sides * a.height &&
         std::abs(a.width - b.width) <= alike_sides * a.width;
}

/// Side of a profile that lies in a direction across its tube, or nearest to it.
double side_along(const Profile& p, const Arm& arm, const Eigen::Vector3d& direction) {
  const bool y =
      std::abs(arm.axes.row(1).dot(direction)) >= std::abs(arm.axes.row(2).dot(direction));
  return y ? p.width : p.height;
}

class NodeOfTubes {
 public:
  NodeOfTubes(const Frame& frame, const NumberedFrame& numbered,
              const std::vector<std::array<WeldedEnd, 2>>& welds,
              const std::vector<double>& tube_lengths, const std::vector<std::set<int>>& neighbours,
              const std::vector<std::vector<Arm>>& arms, size_t node,
              std::vector<std::array<JointEnd, 2>>& ends)
      : frame_(frame),
        numbered_(numbered),
        welds_(welds),
        tube_lengths_(tube_lengths),
        neighbours_(neighbours),
        all_arms_(arms),
        node_(node),
        arms_(arms[node]),
        ends_(ends) {}

  void recognise() {
    for (const Arm& arm : arms_) {
      end_of(arm).needed = welded(arm) && arms_.size() > 1;
      if (!end_of(arm).needed) end_of(arm).reason = "it stands on no other tube";
    }
    if (arms_.size() < 2) return;
    const std::vector<Run> runs = running_through();
    if (runs.empty()) {
      meet_in_corner();
    } else {
      stand_on_runs(runs);
    }
    for (const Arm& arm : arms_) {
      JointEnd& e = end_of(arm);
      if (!e.needed || !e.on.empty() || !e.partners.empty() || !e.reason.empty()) continue;
      e.needed = false;
      e.reason = "others stand on it";
    }
  }

 private:
  /// Two arms of a tube that runs through, by their numbers.
  struct Run {
    size_t a = 0;
    size_t b = 0;
    bool has(size_t arm) const { return arm == a || arm == b; }
  };

  JointEnd& end_of(const Arm& arm) const {
    return ends_[static_cast<size_t>(arm.at.member)][static_cast<size_t>(arm.at.end)];
  }
  const Profile& profile_of(const Arm& arm) const {
    return profile_of_member(numbered_, arm.at.member);
  }
  const Member& member_of(const Arm& arm) const {
    return frame_.members[static_cast<size_t>(arm.at.member)];
  }
  bool welded(const Arm& arm) const {
    return welds_[static_cast<size_t>(arm.at.member)][static_cast<size_t>(arm.at.end)].welded;
  }
  bool same_tube(const Arm& a, const Arm& b) const {
    return !member_of(a).tube.empty() && member_of(a).tube == member_of(b).tube &&
           std::abs(a.at.member - b.at.member) == 1;
  }

  std::vector<Run> running_through() const {
    std::vector<Run> of_tube, of_section, of_outside;
    for (size_t i = 0; i < arms_.size(); ++i) {
      for (size_t j = i + 1; j < arms_.size(); ++j) {
        const Arm &a = arms_[i], &b = arms_[j];
        const bool bent = same_tube(a, b) && bends_on(member_of(a), member_of(b));
        if (!bent && angle_between(a, b) < 180 * degree - runs_on) continue;
        if (same_tube(a, b)) of_tube.push_back({i, j});
        if (member_of(a).section == member_of(b).section) of_section.push_back({i, j});
        if (is_hollow(profile_of(a)) && same_outside(profile_of(a), profile_of(b))) {
          of_outside.push_back({i, j});
        }
      }
    }
    if (!of_tube.empty()) return of_tube;
    return straightest(of_section.empty() ? of_outside : of_section);
  }

  /// Each arm runs on in one other only: the straightest pairs first.
  std::vector<Run> straightest(std::vector<Run> runs) const {
    std::vector<Run> chosen;
    constexpr double rounding = 1e-9;
    const auto angle = [&](const Run& r) { return angle_between(arms_[r.a], arms_[r.b]); };
    std::stable_sort(runs.begin(), runs.end(),
                     [&](const Run& x, const Run& y) { return angle(x) > angle(y) + rounding; });
    for (const Run& run : runs) {
      const bool taken = std::any_of(chosen.begin(), chosen.end(),
                                     [&](const Run& c) { return c.has(run.a) || c.has(run.b); });
      if (!taken) chosen.push_back(run);
    }
    return chosen;
  }

  /// Whether `a` is whole where both cross: the bigger, as the cut list has it, then the thicker.
  bool is_bigger(const Run& a, const Run& b) const {
    const Profile &p = profile_of(arms_[a.a]), &q = profile_of(arms_[b.a]);
    if (is_hollow(p) != is_hollow(q)) return is_hollow(p);
    constexpr double rounding = 1e-6;
    const auto differs = [](double x, double y) { return std::abs(x - y) > rounding * (x + y); };
    const double area = p.height * p.width, other = q.height * q.width;
    if (differs(area, other)) return area > other;
    return differs(p.wall, q.wall) && p.wall > q.wall;
  }

  void stand_on_runs(const std::vector<Run>& runs) {
    std::vector<Run> whole;
    for (const Run& run : runs) {
      const bool cut = std::any_of(runs.begin(), runs.end(),
                                   [&](const Run& other) { return is_bigger(other, run); });
      if (!cut) whole.push_back(run);
    }
    if (whole.empty()) whole = runs;
    for (const Run& run : runs) {
      const bool surely_whole = whole.size() == 1 && whole[0].has(run.a);
      for (const size_t i : {run.a, run.b}) {
        const Arm& arm = arms_[i];
        if (surely_whole) {
          turn_off(run, i);
        } else if (!end_of(arm).needed) {  // in truth it is cut
          end_of(arm).needed = true;
          end_of(arm).reason.clear();
        }
      }
    }
    for (const Run& run : whole) stand_on(run);
  }

  /// A tube that runs through with a kink is mitred there.
  void turn_off(const Run& run, size_t i) {
    const size_t other = run.a == i ? run.b : run.a;
    const Arm& arm = arms_[i];
    if (angle_between(arm, arms_[other]) > 180 * degree - same_direction ||
        bends_on(member_of(arm), member_of(arms_[other]))) {
      if (end_of(arm).needed) {
        end_of(arm).needed = false;
        end_of(arm).reason = "it runs on in one line";
      }
      return;
    }
    if (end_of(arm).needed) make_partners(arm, arms_[other], arms_.size() > 2);
  }

  void make_partners(const Arm& arm, const Arm& other, bool crowded) {
    JointEnd& e = end_of(arm);
    const Eigen::Vector3d normal = arm.away.cross(other.away);
    CornerPartner p;
    p.other = other.at;
    p.angle = angle_between(arm, other);
    p.in_plane = Eigen::Vector3d::UnitY();
    if (normal.norm() > std::sin(same_direction) / 4) {
      p.in_plane = arm.axes * normal.normalized();
      const double y = std::abs(arm.axes.row(1).dot(normal.normalized()));
      const double z = std::abs(arm.axes.row(2).dot(normal.normalized()));
      p.about_y = y >= z;
      p.turned =
          profile_of(arm).kind != ProfileKind::round && std::max(y, z) < std::cos(same_direction);
    }
    e.partners.push_back(p);
    e.crowded = e.crowded || crowded;
    const Profile &own = profile_of(arm), &theirs = profile_of(other);
    const bool like = same_outside(own, theirs) && std::abs(own.wall - theirs.wall) < 1e-6;
    e.unlike = e.unlike || !like;
  }

  /// All others stand on a run, or on the end of the single arm `run.a`.
  ChordJoint joint_on(size_t a, size_t b, const std::vector<size_t>& standing) const {
    const Arm& arm = arms_[a];
    ChordJoint joint;
    joint.chord[0] = arm.at;
    if (b != nothing) joint.chord[1] = arms_[b].at;
    joint.bent = b != nothing && angle_between(arm, arms_[b]) < 180 * degree - same_direction;
    const Eigen::Vector3d axis =
        b == nothing ? arm.away : Eigen::Vector3d((arm.away - arms_[b].away).normalized());
    for (const size_t i : standing) joint.tubes.push_back(standing_end(arm, axis, arms_[i]));
    return joint;
  }

  /// The tube of the arm ends, joined to nothing, nearer than that; what is fixed to it on the way
  /// parts it in the model only.
  bool ends_within(const Arm& arm, double distance) const {
    const Arm* at = &arm;
    for (double reached = at->length; reached < distance; reached += at->length) {
      const std::vector<Arm>& there = all_arms_[static_cast<size_t>(at->far)];
      if (there.size() == 1) return true;
      const auto next = std::find_if(there.begin(), there.end(), [&](const Arm& other) {
        return same_tube(*at, other) && member_of(other).parted_from > 0;
      });
      if (there.size() != 2 || next == there.end()) return false;
      at = &*next;
    }
    return false;
  }

  void stand_on(const Run& run) {
    std::vector<size_t> standing;
    for (size_t i = 0; i < arms_.size(); ++i) {
      if (!run.has(i)) standing.push_back(i);
    }
    ChordJoint joint = joint_on(run.a, run.b, standing);
    for (const size_t i : {run.a, run.b}) {
      const Arm& arm = arms_[i];
      const Profile& p = profile_of(arm);
      if (ends_within(arm, felt_end * std::max(p.height, p.width))) joint.ends = joint.open = true;
    }
    hand_out(std::move(joint), standing);
  }

  void hand_out(ChordJoint made, const std::vector<size_t>& standing) {
    const auto joint = std::make_shared<const ChordJoint>(std::move(made));
    const Profile& p = profile_of_member(numbered_, joint->chord[0].member);
    const bool bar = p.kind != ProfileKind::unknown && !is_hollow(p);
    for (size_t i = 0; i < standing.size(); ++i) {
      JointEnd& e = end_of(arms_[standing[i]]);
      if (e.needed && !bar) e.on.push_back({joint, i});
      if (e.needed && bar && e.on.empty()) {
        e.needed = false;
        e.reason = "it stands on a solid bar: no wall gives way";
      }
    }
  }

  /// The face of the chord that a direction across it is square to, and by how much.
  StandingEnd standing_end(const Arm& chord, const Eigen::Vector3d& axis, const Arm& arm) const {
    StandingEnd s;
    s.tube = arm.at;
    s.along = arm.away.dot(axis);
    s.angle = std::acos(std::clamp(std::abs(s.along), 0.0, 1.0));
    Eigen::Vector3d across = arm.away - s.along * axis;
    const bool lies_along = across.norm() < std::sin(same_direction);
    const Eigen::Vector3d up = chord.axes.row(2);
    const Eigen::Vector3d face_z = (up - up.dot(axis) * axis).normalized();
    if (lies_along) across = face_z;  // and `onto` stays 0
    across.normalize();
    const double y = across.dot(face_z.cross(axis)) * (axis.dot(chord.axes.row(0)) > 0 ? 1 : -1);
    const double z = across.dot(face_z);
    if (!lies_along) {
      s.onto = {std::max(0.0, y), std::max(0.0, -y), std::max(0.0, z), std::max(0.0, -z)};
      for (double& part : s.onto) {
        if (part < std::sin(same_direction)) part = 0;
        if (part > std::cos(same_direction)) part = 1;
      }
    }
    const Eigen::Vector3d normal = axis.cross(across);
    const double about_y = std::abs(normal.dot(arm.axes.row(1)));
    const double about_z = std::abs(normal.dot(arm.axes.row(2)));
    s.about_y = about_y >= about_z;
    s.turned = profile_of(arm).kind != ProfileKind::round &&
               std::max(about_y, about_z) < std::cos(same_direction);
    s.in_plane = arm.axes * normal;
    s.out_of_plane = arm.axes * arm.away.cross(normal);
    s.chord_axis = arm.axes * axis;
    const Profile& p = profile_of(arm);
    constexpr double slender = 6;  // EN 1993-1-8 5.1.5(3)
    const double depth = s.about_y ? p.height : p.width;
    s.in_triangle = arm.length >= slender * depth && closes_triangle(arm);
    return s;
  }

  /// A third node is joined to both of its ends: a triangle, which needs no stiff joints.
  bool closes_triangle(const Arm& arm) const {
    const std::set<int>& here = neighbours_[node_];
    const std::set<int>& there = neighbours_[static_cast<size_t>(arm.far)];
    return std::any_of(here.begin(), here.end(), [&](int n) { return there.count(n) > 0; });
  }

  void meet_in_corner() {
    double biggest = 0;
    for (const Arm& arm : arms_) {
      const Profile& p = profile_of(arm);
      if (is_hollow(p)) biggest = std::max(biggest, mean_side(p));
    }
    std::vector<size_t> big, small;
    for (size_t i = 0; i < arms_.size(); ++i) {
      const Profile& p = profile_of(arms_[i]);
      const bool as_big = is_hollow(p) && mean_side(p) >= about_as_big * biggest * (1 - 1e-9);
      (as_big ? big : small).push_back(i);
    }
    if (big.empty()) {
      for (const Arm& arm : arms_) no_tube(arm);
      return;
    }
    for (const size_t i : big) {
      for (const size_t j : big) {
        if (i != j && end_of(arms_[i]).needed) meet(i, j, big, small);
      }
    }
    if (big.size() > 2) stand_on_longest(big);
    stand_on_ends(big, small);
  }

  void stand_on_longest(const std::vector<size_t>& big) {
    const auto length = [&](size_t i) {
      return tube_lengths_[static_cast<size_t>(arms_[i].at.member)];
    };
    size_t longest = big[0];
    constexpr double rounding = 1e-9;
    for (const size_t i : big) {
      if (length(i) > length(longest) * (1 + rounding)) longest = i;
    }
    std::vector<size_t> standing;
    for (size_t i = 0; i < arms_.size(); ++i) {
      if (i != longest) standing.push_back(i);
    }
    ChordJoint made = joint_on(longest, nothing, standing);
    made.ends = made.open = true;
    const auto joint = std::make_shared<const ChordJoint>(std::move(made));
    for (size_t i = 0; i < standing.size(); ++i) {
      end_of(arms_[standing[i]]).on_longest.push_back({joint, i});
    }
  }

  /// Two big tubes: across the plane of both as wide as each other, or else the narrower stands on
  /// the wider.
  void meet(size_t i, size_t j, const std::vector<size_t>& big, const std::vector<size_t>& small) {
    const Arm &own = arms_[i], &other = arms_[j];
    if (angle_between(own, other) > 180 * degree - runs_on) {  // walls that do not meet
      if (mean_side(profile_of(own)) <= mean_side(profile_of(other))) end_of(own).reason = in_line;
      return;
    }
    const Eigen::Vector3d normal = own.away.cross(other.away);
    double wide = 1, theirs = 1;
    if (normal.norm() > std::sin(same_direction)) {
      wide = side_along(profile_of(own), own, normal.normalized());
      theirs = side_along(profile_of(other), other, normal.normalized());
    }
    constexpr double rounding = 1e-9;
    if (wide < about_as_big * theirs * (1 - rounding)) {
      std::vector<size_t> standing = small;
      standing.push_back(i);
      ChordJoint joint = joint_on(j, nothing, standing);
      joint.ends = true;
      joint.open = !closed_by_another(j, big, i);
      end_of(own).on.push_back(
          {std::make_shared<const ChordJoint>(std::move(joint)), standing.size() - 1});
    } else if (theirs >= about_as_big * wide * (1 - rounding)) {
      make_partners(own, other, arms_.size() > 2);
    }
  }

  /// Bars among themselves, or sections without an outline.
  void no_tube(const Arm& arm) {
    JointEnd& e = end_of(arm);
    if (!e.needed) return;
    const bool unknown = profile_of(arm).kind == ProfileKind::unknown;
    e.needed = unknown;
    e.reason = unknown ? "the tube's shape is not known" : "a bar on a bar: no wall gives way";
  }

  bool closed_by_another(size_t chord, const std::vector<size_t>& big, size_t but) const {
    return std::any_of(big.begin(), big.end(), [&](size_t i) {
      if (i == chord || i == but) return false;
      const double angle = angle_between(arms_[i], arms_[chord]);
      return angle >= across_enough && angle <= 180 * degree - across_enough;
    });
  }

  /// Smaller tubes on the ends of the big ones: on those whose faces they meet squarely, or else on
  /// any.
  void stand_on_ends(const std::vector<size_t>& big, const std::vector<size_t>& small) {
    std::vector<std::shared_ptr<const ChordJoint>> joints;
    for (const size_t chord : big) {
      ChordJoint joint = joint_on(chord, nothing, small);
      joint.ends = true;
      joint.open = !closed_by_another(chord, big, nothing);
      joints.push_back(std::make_shared<const ChordJoint>(std::move(joint)));
    }
    for (size_t i = 0; i < small.size(); ++i) {
      JointEnd& e = end_of(arms_[small[i]]);
      if (!e.needed) continue;
      for (const bool squarely : {true, false}) {
        for (const auto& joint : joints) {
          const auto& onto = joint->tubes[i].onto;
          const double most = *std::max_element(onto.begin(), onto.end());
          if (squarely ? most == 1 : most > 0) e.on.push_back({joint, i});
        }
        if (!e.on.empty()) break;
      }
      if (e.on.empty()) e.reason = in_line;
    }
  }

  const Frame& frame_;
  const NumberedFrame& numbered_;
  const std::vector<std::array<WeldedEnd, 2>>& welds_;
  const std::vector<double>& tube_lengths_;
  const std::vector<std::set<int>>& neighbours_;
  const std::vector<std::vector<Arm>>& all_arms_;
  size_t node_;
  const std::vector<Arm>& arms_;
  std::vector<std::array<JointEnd, 2>>& ends_;
};

std::vector<std::vector<Arm>> arms_at_nodes(const NumberedFrame& n) {
  std::vector<std::vector<Arm>> arms(n.model.nodes.size());
  for (size_t m = 0; m < n.slots.size(); ++m) {
    if (!n.slots[m].is_beam) continue;
    const Beam& b = n.model.beams[static_cast<size_t>(n.slots[m].index)];
    const Eigen::Vector3d& from = n.model.nodes[static_cast<size_t>(b.from)];
    const Eigen::Vector3d& to = n.model.nodes[static_cast<size_t>(b.to)];
    const Eigen::Vector3d along = (to - from).normalized();
    const Eigen::Matrix3d axes = member_axes(from, to, b.roll);
    const double length = (to - from).norm();
    const int member = static_cast<int>(m);
    arms[static_cast<size_t>(b.from)].push_back({{member, 0}, along, axes, length, b.to});
    arms[static_cast<size_t>(b.to)].push_back({{member, 1}, -along, axes, length, b.from});
  }
  return arms;
}

std::vector<std::set<int>> neighbours_of_nodes(const Frame& frame, const NumberedFrame& n) {
  std::vector<std::set<int>> neighbours(n.model.nodes.size());
  for (const Member& m : frame.members) {
    if (m.kind == MemberKind::spring || m.kind == MemberKind::cable) continue;
    const int a = n.node.at(m.from), b = n.node.at(m.to);
    neighbours[static_cast<size_t>(a)].insert(b);
    neighbours[static_cast<size_t>(b)].insert(a);
  }
  return neighbours;
}

}  // namespace

std::vector<double> tube_lengths(const Frame& frame, const NumberedFrame& n) {
  std::unordered_map<std::string, double> of_tube;
  std::vector<double> lengths;
  for (const Member& m : frame.members) {
    lengths.push_back(member_length(n, m));
    if (!m.tube.empty()) of_tube[m.tube] += lengths.back();
  }
  for (size_t i = 0; i < lengths.size(); ++i) {
    if (!frame.members[i].tube.empty()) lengths[i] = of_tube[frame.members[i].tube];
  }
  return lengths;
}

bool is_on_a_face(const StandingEnd& end) {
  return std::find(end.onto.begin(), end.onto.end(), 1.0) != end.onto.end();
}

bool is_on_side_face(const StandingEnd& end) {
  return std::max(end.onto[0], end.onto[1]) > std::max(end.onto[2], end.onto[3]);
}

FaceStoodOn face_stood_on(const StandingEnd& end, const Profile& chord) {
  if (is_on_side_face(end)) return {chord.height, chord.width};
  return {chord.width, chord.height};
}

double side_in_plane(const StandingEnd& end, const Profile& brace) {
  return end.about_y ? brace.height : brace.width;
}

double side_across(const StandingEnd& end, const Profile& brace) {
  return end.about_y ? brace.width : brace.height;
}

const Profile& profile_of_member(const NumberedFrame& numbered, int member) {
  const Beam& beam = numbered.model.beams[numbered.slots[static_cast<size_t>(member)].index];
  return numbered.model.sections[beam.section].profile;
}

std::vector<std::array<JointEnd, 2>> joint_ends(const Frame& frame, const NumberedFrame& numbered) {
  const std::vector<std::array<WeldedEnd, 2>> welds = welded_ends(frame, numbered);
  std::vector<std::array<JointEnd, 2>> ends(frame.members.size());
  const std::vector<std::vector<Arm>> arms = arms_at_nodes(numbered);
  const std::vector<std::set<int>> neighbours = neighbours_of_nodes(frame, numbered);
  const std::vector<double> lengths = tube_lengths(frame, numbered);
  for (size_t node = 0; node < arms.size(); ++node) {
    NodeOfTubes(frame, numbered, welds, lengths, neighbours, arms, node, ends).recognise();
  }
  return ends;
}

}  // namespace tubewright
