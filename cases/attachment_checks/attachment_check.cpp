#include "cases/attachment_checks/attachment_check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

#include "cases/attachment_checks/bolts.h"
#include "cases/attachment_checks/plate_on_face.h"
#include "cases/attachment_checks/plate_weld.h"
#include "cases/attachments/expand_attachments.h"
#include "cases/checks/governing_cuts.h"
#include "cases/checks/weld_check.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/joints/chord_face.h"
#include "cases/joints/joint_recognition.h"

namespace tubewright {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double square = pi / 2;
constexpr const char* bolt_clause = "EN 1993-1-8 Table 3.4";
constexpr const char* tab_advice =
    "give it a `pair` of plates, a `through_plate`, or turn it into the direction of its load";
constexpr const char* cross_advice = "give it a `tab` along the tube, or a gusset that stays it";

CheckResult made(double utilisation, const char* clause) {
  CheckResult r;
  r.utilisation = utilisation;
  r.clause = clause;
  return r;
}

CheckResult as_comparison(CheckResult r, const std::string& reason) {
  r.comparison = true;
  r.reason += (r.reason.empty() ? "" : "; ") + reason;
  return r;
}

bool is_steel(Metal metal) { return metal == Metal::steel || metal == Metal::stainless; }

class Checks {
 public:
  Checks(const Frame& frame, const NumberedFrame& numbered, const Attachment& a,
         const AttachmentForces& forces, const BeamEnds& tubes, double factor)
      : frame_(frame),
        n_(numbered),
        a_(a),
        entry_(find_section(frame, a.section)),
        wall_(*find_material(frame, entry_.material)),
        own_(*find_material(frame, a.material)),
        tubes_(tubes),
        factor_(factor) {
    read_loads(forces);
    read_tube();
    if (a.bolt) bolt_ = bolt_of(a.bolt->diameter, a.bolt->grade);
  }

  std::vector<NamedCheck> make() {
    if (!is_steel(wall_.metal) || !is_steel(own_.metal)) {
      add("face", not_made("the rules are of steel"));
      return std::move(checks_);
    }
    if (!(wall_.properties.yield > 0) || !(own_.properties.yield > 0)) {
      add("face", not_made("a yield strength is not known"));
      return std::move(checks_);
    }
    switch (a_.kind) {
      case AttachmentKind::tab:
      case AttachmentKind::through_plate:
        plate_along();
        break;
      case AttachmentKind::cross_tab:
        plate_across();
        break;
      case AttachmentKind::pair:
        pair();
        break;
      case AttachmentKind::saddle:
        saddle();
        break;
      case AttachmentKind::nut:
        nut();
        break;
      case AttachmentKind::sleeve:
        sleeve();
        break;
      case AttachmentKind::bolt:
        through_bolt();
        break;
    }
    return std::move(checks_);
  }

 private:
  /// Loads on the tube, in the directions of the face.
  void read_loads(const AttachmentForces& f) {
    const Eigen::Vector3d on_tube = -factor_ * f.foot, moment = -factor_ * f.foot_moment;
    foot_.N = on_tube.dot(a_.out);
    foot_.V_along = on_tube.dot(a_.lengthwise);
    foot_.V_aside = on_tube.dot(a_.sideways);
    about_across_ = moment.dot(a_.sideways);
    about_along_ = moment.dot(a_.lengthwise);
    foot_.M_twist = moment.dot(a_.out);
    hole_ = factor_ *
            Eigen::Vector3d(f.hole.dot(a_.out), f.hole.dot(a_.lengthwise), f.hole.dot(a_.sideways));
  }

  void read_tube() {
    tube_.b0 = face_width(entry_, a_);
    tube_.h0 = face_depth(entry_, a_);
    tube_.t0 = entry_.wall;
    tube_.fy = wall_.properties.yield;
    end_distance_ = to_open_end(frame_, n_, a_);
    tube_.open_end = end_distance_ < felt_end * std::max(tube_.b0, tube_.h0);
    double compression = 0;
    for_tube_forces([&](const SectionForces& f, const Section& s) {
      const double bending = std::abs(f.My) / s.Wy + std::abs(f.Mz) / s.Wz;
      compression = std::max(compression, bending - f.N / s.A);
    });
    tube_.n = compression / tube_.fy;
  }

  /// On both sides of the foot.
  template <class Visit>
  void for_tube_forces(const Visit& visit) const {
    for (const int m : members_at_foot(frame_, a_)) {
      const Member& member = frame_.members[static_cast<size_t>(m)];
      const MemberSlot& slot = n_.slots[static_cast<size_t>(m)];
      if (!slot.is_beam) continue;
      const auto beam = static_cast<size_t>(slot.index);
      const size_t end = member.from == a_.axis_node ? 0 : 1;
      visit(scaled(tubes_[beam][end], factor_),
            n_.model.sections[static_cast<size_t>(n_.model.beams[beam].section)]);
    }
  }

  void add(const char* name, CheckResult result) { checks_.push_back({name, std::move(result)}); }

  double thinner() const { return a_.thickness > 0 ? std::min(a_.thickness, tube_.t0) : tube_.t0; }

  FootWeld weld_of(double length) const {
    FootWeld w;
    w.length = length;
    w.apart = a_.thickness;
    w.thinnest = thinner();
    w.throat = a_.weld_throat.value_or(usual_plate_throat(w.thinnest));
    const bool wall_weaker = wall_.properties.ultimate < own_.properties.ultimate;
    w.fu = wall_weaker ? wall_.properties.ultimate : own_.properties.ultimate;
    if (std::isnan(wall_.properties.ultimate)) w.fu = wall_.properties.ultimate;
    w.fy = std::max(wall_.properties.yield, own_.properties.yield);
    return w;
  }

  FacePlate plate() const { return {a_.thickness, a_.length, own_.properties.yield}; }

  void plate_along() {
    const bool through = a_.kind == AttachmentKind::through_plate;
    foot_.M_strong = about_across_;
    foot_.M_weak = about_along_;
    add("face", along_plate_check(tube_, plate(), foot_.N, foot_.M_strong, through ? 2 : 1));
    FootLoads on_weld = foot_;
    if (through) {
      // Half on each face; what turns it sideways is a couple of both faces, in their planes.
      on_weld.N /= 2;
      on_weld.M_strong /= 2;
      on_weld.M_weak = 0;
      on_weld.V_aside = std::abs(foot_.V_aside) + std::abs(foot_.M_weak) / tube_.h0;
      add("weak_way", not_needed("both faces hold it"));
    } else {
      add("weak_way", weak_way_check(foot_.M_weak, along_plate_moment(tube_, plate()), tab_advice));
    }
    add("weld", plate_weld_check(weld_of(a_.length), on_weld));
    add("plate", plate_yield_check(a_.thickness, a_.length, own_.properties.yield, foot_));
    constexpr int one_plate = 1;
    bolt_in_plates(one_plate, std::hypot(hole_[0], hole_[1]), std::abs(hole_[2]));
  }

  void plate_across() {
    foot_.M_strong = about_along_;
    foot_.M_weak = about_across_;
    std::swap(foot_.V_along, foot_.V_aside);
    add("face", across_plate_check(tube_, plate(), foot_.N, foot_.M_strong));
    add("weak_way",
        weak_way_check(foot_.M_weak, across_plate_moment(tube_, plate()), cross_advice));
    FootWeld weld = weld_of(a_.length);
    weld.length = std::min(
        a_.length, across_plate_resistance(tube_, plate()).effective + 2 * weld.throat);  // 7.5.1
    add("weld", plate_weld_check(weld, foot_));
    add("plate", plate_yield_check(a_.thickness, a_.length, own_.properties.yield, foot_));
    constexpr int one_plate = 1;
    bolt_in_plates(one_plate, std::hypot(hole_[0], hole_[2]), std::abs(hole_[1]));
  }

  void pair() {
    const double apart = plates_apart(entry_, a_);
    const double couple = std::abs(about_along_) / apart;
    FootLoads one = foot_;
    one.N = std::abs(foot_.N) / 2 + couple;
    one.V_along = foot_.V_along / 2;
    one.V_aside = foot_.V_aside / 2;
    one.M_strong = about_across_ / 2;
    one.M_weak = std::abs(foot_.V_aside) / 2 * a_.hole;
    one.V_along = std::abs(one.V_along) + std::abs(foot_.M_twist) / apart;
    one.M_twist = 0;
    const double on_face = std::max(std::abs(foot_.N), 2 * couple);  // |N/2 + C| + |N/2 - C|
    add("face", as_comparison(along_plate_check(tube_, plate(), on_face, about_across_),
                              "two plates taken as one in the middle of the face"));
    add("weld", plate_weld_check(weld_of(a_.length), one));
    add("plate", plate_yield_check(a_.thickness, a_.length, own_.properties.yield, one));
    constexpr int two_plates = 2;
    bolt_in_plates(two_plates, std::hypot(hole_[0], hole_[1]), std::abs(hole_[2]));
  }

  void saddle() {
    const double apart = plates_apart(entry_, a_);
    FootLoads one = foot_;
    one.N = std::abs(foot_.N) / 2 + std::abs(about_along_) / apart;
    one.V_along = std::abs(foot_.V_along) / 2 + std::abs(foot_.M_twist) / apart;
    one.V_aside = foot_.V_aside / 2;
    one.M_strong = about_across_ / 2;
    one.M_weak = std::abs(foot_.V_aside) / 2 * a_.hole;
    one.M_twist = 0;
    add("face", walls_beside_check(tube_, wall_.properties.E, a_.length, foot_.N, about_across_,
                                   about_along_));
    // One line of weld an ear, along the side face: N is shear in it.
    FootWeld weld = weld_of(a_.length);
    weld.apart = a_.thickness;
    FootLoads on_line = one;
    on_line.N = 2 * one.N;
    on_line.V_along = 2 * one.V_along;
    on_line.V_aside = 2 * one.V_aside;
    on_line.M_strong = 2 * one.M_strong;
    on_line.M_weak = 0;  // the strap round the tube holds it
    add("weld", plate_weld_check(weld, on_line));
    add("plate", plate_yield_check(a_.thickness, a_.length, own_.properties.yield, one));
    constexpr int two_ears = 2;
    bolt_in_plates(two_ears, std::hypot(hole_[0], hole_[1]), std::abs(hole_[2]));
  }

  /// `shear` in the plane of the plates, `tension` across it.
  void bolt_in_plates(int plates, double shear, double tension) {
    if (!known_bolt()) return;
    constexpr double least_edge = 1.2;  // EN 1993-1-8 Table 3.3: the least allowed
    const double e = a_.edge.value_or(least_edge * bolt_->d0);
    const double t = plates * a_.thickness, fu = own_.properties.ultimate;
    add("bolt", made(bolt_utilisation(*bolt_, shear / plates, tension), bolt_clause));
    if (!(fu > 0)) {
      add("bearing", not_made("the plate's ultimate strength is not known", bolt_clause));
      return;
    }
    const double bears = bearing_resistance(*bolt_, fu, t, e, e);
    const double pulls = pull_through_resistance(*bolt_, fu, a_.thickness);
    add("bearing", made(share(shear, bears) + share(tension, pulls), bolt_clause));
    const double net = 0.9 * (2 * e - bolt_->d0) * t * fu / gamma_M2;
    add("plate_net", made(share(shear, net), "EN 1993-1-1 (6.7)"));
  }

  /// Over a resistance that may be none.
  static double share(double load, double resistance) {
    if (load == 0) return 0;
    return resistance > 0 ? std::abs(load) / resistance : std::numeric_limits<double>::max();
  }

  /// Reports that there is none.
  bool known_bolt() {
    if (bolt_) return true;
    add("bolt", not_made(a_.bolt ? "the table has no such bolt" : "no `bolt` is given"));
    return false;
  }

  /// A bolt that stands out of the tube, held at its foot.
  void bolt_outside() {
    if (!known_bolt()) return;
    const double V = std::hypot(foot_.V_along, foot_.V_aside);
    const double M = std::hypot(about_across_, about_along_);
    const double sheared = bolt_utilisation(*bolt_, V, std::abs(foot_.N));
    const double bent = M / bolt_bending_resistance(*bolt_);
    add("bolt", made(std::max(sheared, std::hypot(sheared, bent)), "EN 1993-1-8 Tables 3.4, 3.10"));
  }

  void nut() {
    foot_.M_strong = std::hypot(about_across_, about_along_);
    foot_.M_weak = 0;
    add("face", round_on_face(foot_.N, about_across_, about_along_));
    add("weld", ring_weld_check(weld_of(a_.length), foot_));
    bolt_outside();
    constexpr int one_wall = 1;
    add("net_section", net_section(a_.length, one_wall));
  }

  /// As a round tube of its diameter: N/N_Rd + M_ip/M_ip,Rd + M_op/M_op,Rd (7.5.2).
  CheckResult round_on_face(double N, double M_ip, double M_op) const {
    constexpr double folds_up_to = 0.85, least_beta = 0.25, round = pi / 4;
    const double beta = std::min(a_.length / tube_.b0, folds_up_to);
    const double size = beta * tube_.b0;
    const double k = std::min(chord_stress_factor(tube_.n, std::max(beta, least_beta)),
                              plate_stress_factor(tube_.n));
    const double factor = round * (tube_.open_end ? 0.5 : 1);
    const double fy = tube_.fy, t0 = tube_.t0;
    const double utilisation =
        share(N, factor * chord_face_resistance(fy, t0, beta, beta, square, k)) +
        share(M_ip, factor * in_plane_moment_resistance(fy, t0, size, beta, beta, k)) +
        share(M_op, factor * out_of_plane_moment_resistance(fy, t0, tube_.b0, size, beta, k));
    return as_comparison(made(utilisation, "EN 1993-1-8 Tables 7.11, 7.14"),
                         "a boss, taken as a round tube on the face");
  }

  void sleeve() {
    const double M = std::hypot(about_across_, about_along_);
    add("face", round_on_face(foot_.N / 2, 0, 0));
    FootLoads near = foot_;  // on the weld of the near wall
    near.N = foot_.N / 2;
    near.V_along = std::hypot(foot_.V_along, foot_.V_aside) + M / tube_.h0;
    near.V_aside = near.M_strong = near.M_weak = 0;
    add("weld", ring_weld_check(weld_of(a_.length), near));
    bolt_outside();
    constexpr int both_walls = 2;
    add("net_section", net_section(a_.length, both_walls));
  }

  void through_bolt() {
    if (!known_bolt()) return;
    const double washer = a_.bolt->washer.value_or(bolt_->washer);
    const double half_at_end = tube_.open_end ? 0.5 : 1;
    const double folds = half_at_end * plate_stress_factor(tube_.n) *
                         face_under_washer(tube_.fy, tube_.t0, tube_.b0, washer);
    add("face", as_comparison(made(share(foot_.N, folds), "EN 1993-1-8 Table 7.11"),
                              "a washer, taken as a plate on the face"));
    const double preload = a_.bolt->preload.value_or(usual_preload(*bolt_));
    add("crushing", a_.spacer ? not_needed("the spacer takes the preload")
                              : as_comparison(made(share(preload, folds), "EN 1993-1-8 Table 7.11"),
                                              "the preload on the faces under its washers, which a "
                                              "`spacer` inside the tube, a `sleeve` or a `nut` "
                                              "would keep off them"));
    bolt_outside();
    const double V = std::hypot(foot_.V_along, foot_.V_aside);
    const double M = std::hypot(about_across_, about_along_);
    const double near_wall = V + M / (tube_.h0 - tube_.t0);
    const double fu = wall_.properties.ultimate;
    add("bearing", fu > 0 ? made(share(near_wall, bearing_resistance(*bolt_, fu, tube_.t0,
                                                                     end_distance_, tube_.b0 / 2)),
                                 bolt_clause)
                          : not_made("the tube's ultimate strength is not known", bolt_clause));
    constexpr int both_walls = 2;
    add("net_section", net_section(bolt_->d0, both_walls));
  }

  /// Holes of diameter d in the middle of the face, and of the one opposite.
  CheckResult net_section(double d, int walls) const {
    constexpr const char* clause = "EN 1993-1-1 6.2.2.2, (6.7)";
    if (!(wall_.properties.ultimate > 0)) {
      return not_made("the tube's ultimate strength is not known", clause);
    }
    if (d >= tube_.b0 - 2 * tube_.t0) return not_made("the hole takes the whole face", clause);
    double worst = 0;
    for_tube_forces([&](const SectionForces& f, const Section& s) {
      const double hole = d * tube_.t0, arm = (tube_.h0 - tube_.t0) / 2;
      const double A_net = s.A - walls * hole;
      // A face square to z is bent by M_y. One hole of two: no better than both.
      const double W = a_.on_side ? s.Wz : s.Wy, other = a_.on_side ? s.Wy : s.Wz;
      const double W_net = W - 2 * hole * arm * arm / (tube_.h0 / 2);
      const double M = a_.on_side ? f.Mz : f.My, M_other = a_.on_side ? f.My : f.Mz;
      const double N_Rd = net_tension_resistance(s.A, A_net, tube_.fy, wall_.properties.ultimate);
      worst = std::max(worst, std::abs(f.N) / N_Rd + share(M, W_net * tube_.fy) +
                                  std::abs(M_other) / (other * tube_.fy));
    });
    return made(worst, clause);
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  const Attachment& a_;
  const SectionEntry& entry_;
  const MaterialEntry& wall_;
  const MaterialEntry& own_;
  const BeamEnds& tubes_;
  const double factor_;
  std::optional<Bolt> bolt_;
  PlatedTube tube_;
  double end_distance_ = 0;
  FootLoads foot_;                                  ///< on the tube; its moments are set by kind
  double about_across_ = 0;                         ///< moment on the tube about the axis across it
  double about_along_ = 0;                          ///< about the tube's own axis
  Eigen::Vector3d hole_ = Eigen::Vector3d::Zero();  ///< out, lengthwise, sideways
  std::vector<NamedCheck> checks_;
};

}  // namespace

AttachmentForces attachment_forces(const BeamState& first, const BeamState& last) {
  AttachmentForces f;
  f.foot = first.element.axes.transpose() * first.end_forces.segment<3>(0);
  f.foot_moment = first.element.axes.transpose() * first.end_forces.segment<3>(3);
  f.hole = last.element.axes.transpose() * last.end_forces.segment<3>(6);
  return f;
}

AttachmentResult attachment_result(const Frame& frame, const NumberedFrame& numbered, size_t which,
                                   const AttachmentForces& forces, const BeamEnds& tubes,
                                   double factor) {
  AttachmentResult r;
  r.forces = forces;
  r.checks = Checks(frame, numbered, frame.attachments[which], forces, tubes, factor).make();
  return r;
}

double to_open_end(const Frame& frame, const NumberedFrame& numbered, const Attachment& a) {
  constexpr double none = std::numeric_limits<double>::infinity();
  std::vector<int> pieces;
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const Member& member = frame.members[m];
    if (member.name == a.on || member.tube == a.on) pieces.push_back(static_cast<int>(m));
  }
  if (pieces.empty()) return none;
  const auto member = [&](int m) -> const Member& { return frame.members[static_cast<size_t>(m)]; };
  double before = 0, total = 0;
  for (const int m : pieces) {
    if (member(m).from == a.axis_node) before = total;
    total += member_length(numbered, member(m));
    if (member(m).to == a.axis_node) before = total;
  }
  const auto open = [&](const std::string& node, bool capped) {
    const int number = numbered.node.at(node);
    int beams = 0;
    for (const MemberSlot& slot : numbered.slots) {
      if (!slot.is_beam) continue;
      const Beam& b = numbered.model.beams[static_cast<size_t>(slot.index)];
      beams += b.from == number || b.to == number ? 1 : 0;
    }
    return beams == 1 && !capped;
  };
  double nearest = none;
  const Member &first = member(pieces.front()), &last = member(pieces.back());
  if (open(first.from, first.capped[0])) nearest = before;
  if (open(last.to, last.capped[1])) nearest = std::min(nearest, total - before);
  return nearest;
}

}  // namespace tubewright
