// Welded joints that are much softer than their tubes: narrow tubes on wide faces, open ends.
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "cases/frame/wording.h"
#include "cases/joints/joint_recognition.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"

namespace tubewright {
namespace {

/// Width of a tube over that of the face it stands on. At 0.6 a joint bends in its plane a seventh
/// as stiffly as at 1, and is pushed in some twenty times as easily (tests/joint_models).
constexpr double narrow = 0.6;

struct NarrowOnes {
  std::size_t first = 0;  ///< member
  std::size_t count = 0;
  double width = 0, face = 0;
  int chord = 0;
};

std::string tube_name(const Member& m) { return m.tube.empty() ? m.name : m.tube; }

class JointDoubts {
 public:
  explicit JointDoubts(const Frame& frame)
      : frame_(frame),
        numbered_(build_model(frame)),
        ends_(joint_ends(frame, numbered_)),
        lengths_(tube_lengths(frame, numbered_)) {}

  Diagnostics all() {
    for (std::size_t m = 0; m < ends_.size(); ++m) {
      for (const JointEnd& end : ends_[m]) {
        if (end.partners.size() == 1 && !end.crowded)
          note_open_corner(m, &end == &ends_[m][1], end.partners[0]);
        if (end.on.empty()) continue;
        note_narrow(m, end.on.front());
        if (doubts_.size() < most_of_a_kind) note_open(m, end.on.front());
      }
    }
    for (const auto& [sections, n] : narrow_) {
      if (doubts_.size() >= most_of_a_kind) break;
      const Member& m = frame_.members[n.first];
      add_warning(doubts_, m.place,
                  tube_narrow_on_face(m.name, n.count - 1, n.width,
                                      tube_name(frame_.members[static_cast<std::size_t>(n.chord)]),
                                      n.face));
    }
    return std::move(doubts_);
  }

 private:
  const Profile& profile(int member) const { return profile_of_member(numbered_, member); }
  bool is_box(int member) const { return profile(member).kind == ProfileKind::hollow_rectangle; }

  /// Each pair of sections once.
  void note_narrow(std::size_t m, const JointEnd::OnChord& on) {
    const StandingEnd& s = on.joint->tubes[on.which];
    const int chord = on.joint->chord[0].member;
    if (!is_box(chord) || !is_box(s.tube.member)) return;
    if (!is_on_a_face(s)) return;
    const double face = face_stood_on(s, profile(chord)).width;
    const double width = side_across(s, profile(s.tube.member));
    if (width >= narrow * face) return;
    NarrowOnes& known = narrow_[{frame_.members[m].section,
                                 frame_.members[static_cast<std::size_t>(chord)].section}];
    if (known.count++ == 0) known = {m, 1, width, face, chord};
  }

  /// Each end once; not where several tubes meet and close it between them.
  void note_open(std::size_t m, const JointEnd::OnChord& on) {
    const ChordJoint& joint = *on.joint;
    const TubeEndAt chord = joint.chord[0];
    if (joint.tubes.size() != 1) return;
    if (!joint.ends || !joint.open || joint.chord[1].member >= 0 || !is_box(chord.member)) return;
    const Member& rail = frame_.members[static_cast<std::size_t>(chord.member)];
    if (rail.capped[static_cast<std::size_t>(chord.end)]) return;
    if (!told_.insert({chord.member, chord.end}).second) return;
    add_warning(doubts_, rail.place,
                open_end_under_tube(tube_name(rail), chord.end == 0 ? rail.from : rail.to,
                                    frame_.members[m].name));
  }

  /// Of two tubes of a size that meet at a corner, the shorter stands on the end of the longer.
  void note_open_corner(std::size_t m, bool to, const CornerPartner& partner) {
    const Member &own = frame_.members[m],
                 &other = frame_.members[static_cast<std::size_t>(partner.other.member)];
    const bool one_tube = !own.tube.empty() && own.tube == other.tube;
    const std::size_t end = to ? 1 : 0;
    const bool capped =
        own.capped[end] || other.capped[static_cast<std::size_t>(partner.other.end)];
    const double own_length = lengths_[m],
                 length = lengths_[static_cast<std::size_t>(partner.other.member)];
    const bool alike = std::abs(own_length - length) < 1e-9 * own_length;
    const bool stands = alike ? partner.other.member < static_cast<int>(m) : own_length < length;
    if (one_tube || capped || stands) return;
    if (!is_box(static_cast<int>(m)) || !is_box(partner.other.member)) return;
    if (doubts_.size() >= most_of_a_kind || !told_.insert({static_cast<int>(m), to}).second) return;
    add_warning(doubts_, own.place,
                open_end_under_tube(tube_name(own), to ? own.to : own.from, tube_name(other)));
  }

  const Frame& frame_;
  NumberedFrame numbered_;
  std::vector<std::array<JointEnd, 2>> ends_;
  std::vector<double> lengths_;
  Diagnostics doubts_;
  std::map<std::pair<std::string, std::string>, NarrowOnes> narrow_;
  std::set<std::pair<int, int>> told_;
};

}  // namespace

Diagnostics lint_joints(const Frame& frame) {
  if (frame.joint_flexibility == rigid_joints) return {};
  return JointDoubts(frame).all();
}

}  // namespace tubewright
