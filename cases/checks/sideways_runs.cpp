#include "cases/checks/sideways_runs.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <set>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double one_line = 2 * degree;  // judgement: what a builder measures
constexpr int steps_along = 64;          // the critical moment is then found within 0.1 %

class Surroundings {
 public:
  Surroundings(const Frame& frame, const NumberedFrame& n) : frame_(frame), n_(n) {
    at_.resize(frame.nodes.size());
    anchored_.resize(frame.nodes.size());
    for (const SupportEntry& s : frame.supports) anchored_[number_of(s.node)] = true;
    if (frame.vehicle) {
      for (const Wheel& w : frame.vehicle->wheels) {
        for (const std::string& node : w.carrier) anchored_[number_of(node)] = true;
      }
    }
    for (size_t m = 0; m < frame.members.size(); ++m) {
      for (const int end : {0, 1}) at_[node(static_cast<int>(m), end)].push_back({m, end});
    }
  }

  SidewaysRun run_of(int first) const {
    std::vector<int> members = {first};
    SidewaysRun run;
    run.pieces = {{first, false}};
    run.length = length(first);
    for (const size_t side : {1U, 0U}) {
      size_t at = node(first, static_cast<int>(side));
      int last = first;
      while (!(run.held[side] = holds(at, last, members))) {
        const std::optional<Arm> next = next_in_line(at, last, members);
        if (!next) break;
        last = static_cast<int>(next->member);
        members.push_back(last);
        run.length += length(last);
        at = node(last, 1 - next->end);
        if (side == 1) {
          run.pieces.push_back({last, next->end == 1});
        } else {
          run.pieces.insert(run.pieces.begin(), {last, next->end == 0});
        }
      }
    }
    return run;
  }

 private:
  struct Arm {
    size_t member = 0;
    int end = 0;
  };

  const Member& member(size_t m) const { return frame_.members[m]; }
  size_t number_of(const std::string& name) const { return static_cast<size_t>(n_.node.at(name)); }
  size_t node(int m, int end) const {
    const Member& x = member(static_cast<size_t>(m));
    return number_of(end == 0 ? x.from : x.to);
  }
  double length(int m) const { return member_length(n_, member(static_cast<size_t>(m))); }

  static bool stiff(const EndConnection& c) {
    return std::all_of(c.begin(), c.end(), [](double k) { return k > 0; });
  }
  const EndConnection& connection(const Arm& a) const {
    return a.end == 0 ? member(a.member).release_from : member(a.member).release_to;
  }

  Eigen::Vector3d axis(size_t m) const {
    return (n_.model.nodes[node(static_cast<int>(m), 1)] -
            n_.model.nodes[node(static_cast<int>(m), 0)])
        .normalized();
  }
  bool in_line(size_t a, size_t b) const {
    return axis(a).cross(axis(b)).norm() < std::sin(one_line);
  }

  std::optional<Arm> next_in_line(size_t at, int last, const std::vector<int>& run) const {
    std::optional<Arm> found;
    for (const Arm& a : at_[at]) {
      if (!could_tip_with(a, last, run)) continue;
      if (found) return std::nullopt;
      found = a;
    }
    return found;
  }

  bool could_tip_with(const Arm& a, int last, const std::vector<int>& run) const {
    if (member(a.member).kind != MemberKind::beam || contains(run, a.member)) return false;
    return member(a.member).section == member(static_cast<size_t>(last)).section &&
           in_line(a.member, static_cast<size_t>(last)) && stiff(connection(a));
  }

  static bool contains(const std::vector<int>& run, size_t m) {
    return std::find(run.begin(), run.end(), static_cast<int>(m)) != run.end();
  }

  bool holds(size_t at, int last, const std::vector<int>& run) const {
    const Arm own{static_cast<size_t>(last), node(last, 0) == at ? 0 : 1};
    const EndConnection& c = connection(own);
    if (!(c[0] > 0 && c[1] > 0 && c[2] > 0 && c[3] > 0)) return false;  // free to turn about itself
    if (support_holds(at, axis(own.member)) || in_rigid_upright(at)) return true;
    return std::any_of(at_[at].begin(), at_[at].end(), [&](const Arm& a) {
      return member(a.member).kind == MemberKind::beam && !contains(run, a.member) &&
             stiff(connection(a)) && !could_tip_with(a, last, run) && leads_on(at, run);
    });
  }

  /// Every direction across the bar, and turning about it.
  bool support_holds(size_t at, const Eigen::Vector3d& along) const {
    constexpr double hardly = 0.05;
    return std::any_of(frame_.supports.begin(), frame_.supports.end(), [&](const SupportEntry& s) {
      if (number_of(s.node) != at) return false;
      for (const int k : {0, 1, 2}) {
        const auto i = static_cast<size_t>(k);
        if (!s.restrained[3 + i] && std::abs(along[k]) > hardly) return false;
        if (!s.restrained[i] && std::abs(along[k]) < 1 - hardly) return false;
      }
      return true;
    });
  }

  bool in_rigid_upright(size_t at) const {
    if (!frame_.vehicle) return false;
    return std::any_of(frame_.vehicle->wheels.begin(), frame_.vehicle->wheels.end(),
                       [&](const Wheel& w) { return has_rigid_upright(w) && carries(w, at); });
  }
  bool carries(const Wheel& w, size_t at) const {
    return std::any_of(w.carrier.begin(), w.carrier.end(),
                       [&](const std::string& name) { return number_of(name) == at; });
  }

  /// To a support or a wheel elsewhere, by other members than those of the run.
  bool leads_on(size_t start, const std::vector<int>& run) const {
    std::set<size_t> seen = {start};
    std::vector<size_t> waiting = {start};
    while (!waiting.empty()) {
      const size_t here = waiting.back();
      waiting.pop_back();
      if (here != start && anchored_[here]) return true;
      for (const Arm& a : at_[here]) {
        if (contains(run, a.member) || member(a.member).kind != MemberKind::beam) continue;
        const size_t there = node(static_cast<int>(a.member), 1 - a.end);
        if (seen.insert(there).second) waiting.push_back(there);
      }
    }
    return false;
  }
  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<std::vector<Arm>> at_;  ///< by node
  std::vector<bool> anchored_;        ///< by node: held by a support or a wheel
};

}  // namespace

std::vector<SidewaysRun> sideways_runs(const Frame& frame, const NumberedFrame& numbered,
                                       const std::vector<int>& members) {
  std::vector<SidewaysRun> runs;
  if (members.empty()) return runs;
  const Surroundings surroundings(frame, numbered);
  for (const int m : members) runs.push_back(surroundings.run_of(m));
  return runs;
}

std::vector<double> moments_along(const SidewaysRun& run, const NumberedFrame& n,
                                  const Frame& frame, bool about_y, const ForcesAlong& forces) {
  std::vector<double> moments;
  size_t piece = 0;
  double begins = 0;
  const auto length = [&] {
    return member_length(n, frame.members[static_cast<size_t>(run.pieces[piece].member)]);
  };
  for (int i = 0; i <= steps_along; ++i) {
    const double x = run.length * i / steps_along;
    while (piece + 1 < run.pieces.size() && x > begins + length()) begins += length(), ++piece;
    const double s = std::clamp((x - begins) / length(), 0.0, 1.0);
    const SidewaysRun::Piece& p = run.pieces[piece];
    const SectionForces f = forces(p.member, p.reversed ? 1 - s : s);
    moments.push_back(std::abs(about_y ? f.My : f.Mz));
  }
  return moments;
}

}  // namespace tubewright
