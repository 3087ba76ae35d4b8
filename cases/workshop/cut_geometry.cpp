#include "cases/workshop/cut_geometry.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <tuple>
#include <utility>

#include "cases/frame/find_parts.h"
#include "solver/elements/beam_element.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double straight_on = 0.5 * degree;  ///< a path that turns by less is one piece
constexpr double in_line = 10 * degree;       ///< tubes that meet at less are spliced end to end
constexpr double square_on = 2 * degree;      ///< what a builder takes for square, or for flush
constexpr double same_way = 1e-3;  ///< of unit vectors: 0.06 degrees, a drawing's rounding
constexpr double steepest = 1e6;   ///< slope of a plane that runs along the tube

/// A tube as it leaves a node.
struct Arm {
  int tube = 0;
  int end = 0;
  Eigen::Vector3d away;  ///< unit vector into the tube
  bool goes_on = false;  ///< another here is the next run of it
};

/// Half of the section along y and z.
struct HalfSizes {
  double y = 0, z = 0;
  bool round = false;
};

/// A plane through the node, by its unit normal.
using Mirror = Eigen::Vector3d;

Eigen::Vector3d image(const Mirror& m, const Eigen::Vector3d& v) { return v - 2 * m.dot(v) * m; }

class Cutter {
 public:
  Cutter(const Frame& frame, const NumberedFrame& n)
      : frame_(frame), n_(n), tubes_(cut_tubes(frame, n)) {
    for (const CutTube& t : tubes_) {
      const SectionEntry& s = find_section(frame, t.section);
      const bool round = s.shape == Shape::round_tube || s.shape == Shape::round_bar;
      half_.push_back({s.width / 2, s.height / 2, round});
      link_.push_back(frame.members[static_cast<size_t>(t.members.front())].kind ==
                      MemberKind::link);
    }
    const std::vector<DrawnTube> drawn = drawn_tubes(frame, n, tubes_);
    rank_ = mirror_classes(drawn, mirror_planes(drawn));
    ends_.resize(tubes_.size());
  }

  std::vector<CutPiece> pieces() {
    std::vector<std::vector<int>> through(n_.model.nodes.size());
    std::vector<std::vector<Arm>> arms(n_.model.nodes.size());
    collect(through, arms);
    for (size_t node = 0; node < n_.model.nodes.size(); ++node) cut_at(through[node], arms[node]);
    std::vector<CutPiece> list;
    for (size_t t = 0; t < tubes_.size(); ++t) list.push_back(piece(t));
    return list;
  }

 private:
  const HalfSizes& half(int tube) const { return half_[static_cast<size_t>(tube)]; }
  const CutTube& tube(int t) const { return tubes_[static_cast<size_t>(t)]; }
  TubeEnd& end_of(const Arm& arm) {
    return ends_[static_cast<size_t>(arm.tube)][static_cast<size_t>(arm.end)];
  }
  const TubeEnd& end_of(const Arm& arm) const {
    return ends_[static_cast<size_t>(arm.tube)][static_cast<size_t>(arm.end)];
  }
  double area(int t) const { return half(t).y * half(t).z; }
  int rank(int t) const { return rank_[static_cast<size_t>(t)]; }

  /// Tubes that are whole at each node, and those that end there.
  void collect(std::vector<std::vector<int>>& through, std::vector<std::vector<Arm>>& arms) const {
    for (size_t t = 0; t < tubes_.size(); ++t) {
      const CutTube& c = tubes_[t];
      const Eigen::Vector3d x = c.axes.row(0);
      for (const int end : {0, 1}) {
        arms[static_cast<size_t>(c.nodes[static_cast<size_t>(end)])].push_back(
            {static_cast<int>(t), end, end == 0 ? x : Eigen::Vector3d(-x)});
      }
      for (const int node : inner_nodes(frame_, n_, c)) {
        through[static_cast<size_t>(node)].push_back(static_cast<int>(t));
      }
    }
  }

  void cut_at(const std::vector<int>& through, std::vector<Arm> arms) {
    std::erase_if(arms, [&](const Arm& arm) {
      if (!link_[static_cast<size_t>(arm.tube)]) return false;
      end_of(arm) = {EndKind::eye, {{{CutPlane{}}, -1}}};
      return true;
    });
    // The bigger first; of one size runs that go on, then as in the file, images beside originals.
    for (Arm& a : arms) {
      a.goes_on =
          std::any_of(arms.begin(), arms.end(), [&](const Arm& b) { return one_run(a, b); });
    }
    std::stable_sort(arms.begin(), arms.end(), [&](const Arm& a, const Arm& b) {
      const double difference = area(a.tube) - area(b.tube);
      if (std::abs(difference) > 1e-12) return difference > 0;
      if (a.goes_on != b.goes_on) return a.goes_on;
      return rank(a.tube) < rank(b.tube);
    });
    std::vector<const Arm*> waiting, placed;
    for (const Arm& arm : arms) waiting.push_back(&arm);
    while (!waiting.empty()) {
      const std::vector<const Arm*> alike = next_alike(through, placed, waiting);
      for (const Arm* arm : alike) {
        TubeEnd& e = end_of(*arm);
        for (const int t : through) cut_by(*arm, t, nullptr, e);
        for (const Arm* earlier : placed) cut_by(*arm, earlier->tube, earlier, e);
        for (const Arm* other : alike) {
          if (other != arm) cut_between(*arm, *other, e);
        }
        if (open_somewhere(*arm, e)) {
          e.cuts.push_back({{CutPlane{outermost(*arm, arms), 0, 0}}, -1, EndKind::square});
        }
      }
      for (const Arm* arm : alike) {
        keep_what_shows(*arm, end_of(*arm));
        close_slivers(*arm, end_of(*arm));
        placed.push_back(arm);
        std::erase(waiting, arm);
      }
    }
  }

  /// True if an arm meets nothing, at least on a part of its section.
  bool open_somewhere(const Arm& arm, const TubeEnd& e) const {
    bool open = e.cuts.empty();
    all_over(arm,
             [&](double y, double z) { open = open || e.begin(y, z) < -tube(arm.tube).length; });
    return open;
  }

  /// The first that waits, the other run of its path, and what is its image.
  std::vector<const Arm*> next_alike(const std::vector<int>& through,
                                     const std::vector<const Arm*>& placed,
                                     const std::vector<const Arm*>& waiting) const {
    std::vector<const Arm*> alike = {waiting.front()};
    const bool first = through.empty() && placed.empty();
    for (size_t i = 0; i < alike.size(); ++i) {
      const Arm& a = *alike[i];
      for (const Arm* b : waiting) {
        if (std::find(alike.begin(), alike.end(), b) != alike.end()) continue;
        const bool as_twins = a.goes_on == b->goes_on &&
                              !(first && butts(a, *b, waiting.size() == 2)) &&
                              twins(a, *b, through, placed);
        if (one_run(a, *b) || as_twins) alike.push_back(b);
      }
    }
    return alike;
  }

  /// At a free corner, where neither stands on anything: whether a square end and a face are less
  /// work than a mitre, and left and right come out alike all the same.
  bool butts(const Arm& a, const Arm& b, bool alone) const {
    if (rank(a.tube) == rank(b.tube)) return false;
    const double right_angle = std::numbers::pi / 2;
    return angle(a, b) < (alone ? right_angle - square_on : right_angle + square_on);
  }

  /// Runs of one path where it turns, or tubes of one size in line.
  bool one_run(const Arm& a, const Arm& b) const {
    if (a.tube == b.tube || !same_size(a.tube, b.tube)) return false;
    const double between = angle(a, b);
    return between > std::numbers::pi - in_line || (between > in_line && same_path(a.tube, b.tube));
  }

  static double angle(const Arm& a, const Arm& b) {
    return std::acos(std::clamp(a.away.dot(b.away), -1.0, 1.0));
  }

  bool same_path(int a, int b) const {
    const auto path = [&](int t) -> const std::string& {
      return frame_.members[static_cast<size_t>(tube(t).members.front())].tube;
    };
    return !path(a).empty() && path(a) == path(b);
  }

  bool same_size(int a, int b) const {
    const HalfSizes &x = half(a), &y = half(b);
    const auto near = [](double p, double q) { return std::abs(p - q) < 1e-6; };
    return x.round == y.round && near(std::min(x.y, x.z), std::min(y.y, y.z)) &&
           near(std::max(x.y, x.z), std::max(y.y, y.z));
  }

  /// Images of each other in the plane between them, which mirrors all that is there before them.
  bool twins(const Arm& a, const Arm& b, const std::vector<int>& through,
             const std::vector<const Arm*>& placed) const {
    if (!same_size(a.tube, b.tube) || angle(a, b) < in_line) return false;
    const Mirror m = (a.away - b.away).normalized();
    if (!outline_is_image(m, a.tube, b.tube)) return false;
    const bool whole = std::all_of(through.begin(), through.end(), [&](int t) {
      const Eigen::Vector3d x = image(m, tube(t).axes.row(0));
      return std::any_of(through.begin(), through.end(), [&](int u) {
        return x.cross(Eigen::Vector3d(tube(u).axes.row(0))).norm() < same_way &&
               outline_is_image(m, t, u);
      });
    });
    return whole && std::all_of(placed.begin(), placed.end(), [&](const Arm* p) {
             return std::any_of(placed.begin(), placed.end(), [&](const Arm* q) {
               return (image(m, p->away) - q->away).norm() < same_way &&
                      outline_is_image(m, p->tube, q->tube);
             });
           });
  }

  /// True if a mirror turns the section of a tube into that of another. Requires: the axes fit.
  bool outline_is_image(const Mirror& m, int a, int b) const {
    if (!same_size(a, b)) return false;
    if (half(a).round) return true;
    const Eigen::Vector3d y = image(m, tube(a).axes.row(1));
    const auto fits = [&](int axis, double size) {
      return std::abs(y.dot(tube(b).axes.row(axis))) > std::cos(square_on) &&
             std::abs(half(a).y - size) < 1e-6;
    };
    return fits(1, half(b).y) || fits(2, half(b).z);
  }

  /// The plane n.x = c through the node, as an arm sees it; keeps n.x >= c. Requires: n.away > 0.
  CutPlane plane(const Arm& arm, const Eigen::Vector3d& n, double c) const {
    const Eigen::Matrix3d& axes = tube(arm.tube).axes;
    const double along = n.dot(arm.away);
    return {c / along, -n.dot(axes.row(1)) / along, -n.dot(axes.row(2)) / along};
  }

  /// Two of one rank share the room between them.
  void cut_between(const Arm& arm, const Arm& other, TubeEnd& e) const {
    const double between = angle(arm, other);
    if (between < in_line) {
      e.cuts.push_back({{CutPlane{}}, other.tube, EndKind::square});
      return;
    }
    const bool straight = between > std::numbers::pi - straight_on;
    e.cuts.push_back({{plane(arm, (arm.away - other.away).normalized(), 0)},
                      other.tube,
                      straight ? EndKind::square : EndKind::mitre});
  }

  /// The corners of an arm's section, y and z.
  std::array<std::array<double, 2>, 4> corners(const Arm& arm) const {
    const HalfSizes& h = half(arm.tube);
    return {{{h.y, h.z}, {-h.y, h.z}, {-h.y, -h.z}, {h.y, -h.z}}};
  }

  /// Along the face of another tube that the arm leaves it by, or past the end of that tube if it
  /// ends here.
  void cut_by(const Arm& arm, int other, const Arm* ends_here, TubeEnd& e) const {
    const CutTube& o = tube(other);
    const HalfSizes& h = half(other);
    const Eigen::Vector3d along = o.axes.row(0);
    const double sine = along.cross(arm.away).norm();
    const bool beside =
        sine < std::sin(in_line) && (ends_here == nullptr || ends_here->away.dot(arm.away) > 0);
    if (beside) {
      e.cuts.push_back({{CutPlane{}}, other, EndKind::square});
      return;
    }
    EndCut cut{{}, other, EndKind::face};
    if (h.round) {
      // The farthest the tube may reach: at the sides of the saddle, or on the axis if it is wider.
      const HalfSizes& own = half(arm.tube);
      const double side = std::min({h.y, own.y, own.z});
      cut.planes.push_back({std::sqrt(h.y * h.y - side * side) / sine, 0, 0});
      cut.kind = EndKind::cope;
    } else {
      for (const auto& [axis, size] : {std::pair{1, h.y}, {2, h.z}}) {
        const Eigen::Vector3d normal = o.axes.row(axis);
        const double out = normal.dot(arm.away);
        constexpr double along_it = 1e-6;
        if (std::abs(out) > along_it) {
          cut.planes.push_back(plane(arm, out > 0 ? normal : Eigen::Vector3d(-normal), size));
        }
      }
    }
    std::vector<EndCut> cuts = {cut};
    if (ends_here != nullptr) cuts = with_ways_past(arm, *ends_here, cut);
    for (EndCut& c : cuts) {
      if (past_it(arm, c)) continue;
      drop_hidden_planes(arm, c);
      const auto faces = std::count_if(c.planes.begin(), c.planes.end(),
                                       [](const CutPlane& p) { return !only_divides(p); });
      if (c.kind == EndKind::face && faces > 1) c.kind = EndKind::edge;
      e.cuts.push_back(std::move(c));
    }
  }

  /// True if a cut leaves an arm whole but for a hair's breadth along its edges.
  bool past_it(const Arm& arm, const EndCut& cut) const {
    bool past = true;
    const auto look = [&](double y, double z) {
      past = past && begin_at(cut, y, z) < -tube(arm.tube).length;
    };
    all_over(arm, look, shows);
    return past;
  }

  /// Where an arm is past the end of an earlier one it need not leave it by a face. Past a notched
  /// end is past both of its planes: min(face, max(a, b)) = max(min(face, a), min(face, b)).
  std::vector<EndCut> with_ways_past(const Arm& arm, const Arm& earlier,
                                     const EndCut& by_faces) const {
    std::vector<std::vector<CutPlane>> choices = {{}};
    for (const EndCut& c : end_of(earlier).cuts) {
      std::vector<std::vector<CutPlane>> more;
      for (const CutPlane& p : c.planes) {
        for (std::vector<CutPlane> choice : choices) {
          choice.push_back(p);
          more.push_back(std::move(choice));
        }
      }
      constexpr size_t too_many = 64;  // then the room inside the notch is left free
      if (more.size() <= too_many) choices = std::move(more);
    }
    std::vector<EndCut> cuts;
    for (const std::vector<CutPlane>& choice : choices) {
      cuts.push_back(by_faces);
      add_ways_past(arm, earlier, choice, cuts.back());
    }
    return cuts;
  }

  /// Past any of some planes of an earlier one's end an arm is free.
  void add_ways_past(const Arm& arm, const Arm& earlier, const std::vector<CutPlane>& end,
                     EndCut& cut) const {
    const Eigen::Matrix3d& own = tube(arm.tube).axes;
    const Eigen::Matrix3d& theirs = tube(earlier.tube).axes;
    std::vector<CutPlane> dividers, ways_in;
    for (const CutPlane& p : end) {
      // Past the end is n.x >= -at, from x - mitre y - bevel z <= at.
      const Eigen::Vector3d n =
          -earlier.away + p.mitre * theirs.row(1).transpose() + p.bevel * theirs.row(2).transpose();
      const double out = n.dot(arm.away), y = n.dot(own.row(1)), z = n.dot(own.row(2));
      const double along_it = 1e-4 * n.norm();
      if (out > along_it) {
        cut.planes.push_back(plane(arm, n, -p.at));
      } else if (out > -along_it) {
        // The plane runs along the arm: on one side of it there is nothing to leave.
        dividers.push_back(dividing({-p.at, -y, -z}));
      } else {
        ways_in.push_back({-p.at / out, -y / out, -z / out});
      }
    }
    // Where the arm comes from past the end it is free if it is out again before it gets in.
    for (const CutPlane& in : ways_in) {
      for (const CutPlane& f : cut.planes) {
        dividers.push_back(dividing({f.at - in.at, f.mitre - in.mitre, f.bevel - in.bevel}));
      }
    }
    cut.planes.insert(cut.planes.end(), dividers.begin(), dividers.end());
  }

  /// A plane that is far back where p.at + p.mitre y + p.bevel z < 0 and far out elsewhere.
  static CutPlane dividing(const CutPlane& p) {
    const double scale = steepest / std::max(std::hypot(p.mitre, p.bevel), 1e-9);
    return {p.at * scale + 1, p.mitre * scale, p.bevel * scale};
  }

  /// Calls visit(y, z) for places all over an arm's section.
  template <class Visit>
  void all_over(const Arm& arm, const Visit& visit, double inside = 0) const {
    constexpr int steps = 16;
    HalfSizes h = half(arm.tube);
    h.y -= std::min(inside, h.y / 2);
    h.z -= std::min(inside, h.z / 2);
    for (int i = 0; i <= steps; ++i) {
      for (int j = 0; j <= steps; ++j) {
        visit(h.y * (2.0 * i / steps - 1), h.z * (2.0 * j / steps - 1));
      }
    }
  }

  static constexpr double shows = 1e-3;  ///< m: less is ground off, or filled by the weld

  /// Drops planes that others are in front of, but for what the weld fills.
  void drop_hidden_planes(const Arm& arm, EndCut& cut) const {
    std::stable_sort(cut.planes.begin(), cut.planes.end(),
                     [](const CutPlane& a, const CutPlane& b) { return a.at < b.at; });
    const EndCut whole = cut;
    for (size_t i = cut.planes.size(); i-- > 0 && cut.planes.size() > 1;) {
      EndCut others = cut;
      others.planes.erase(others.planes.begin() + static_cast<std::ptrdiff_t>(i));
      bool needed = false;
      const auto look = [&](double y, double z) {
        needed = needed || begin_at(whole, y, z) < begin_at(others, y, z) - shows;
      };
      // What runs along the tube has to leave a strip, lest flush faces hang on a hair's breadth.
      all_over(arm, look, only_divides(whole.planes[i]) ? shows : 0);
      const double length = tube(arm.tube).length;
      all_over(arm, [&](double y, double z) {
        needed = needed || (begin_at(whole, y, z) < length && begin_at(others, y, z) > length);
      });
      if (!needed) cut = std::move(others);
    }
  }

  /// Drops cuts that others have made already, but for what a grinder takes, puts the one that
  /// makes most of the end first and names the end.
  void keep_what_shows(const Arm& arm, TubeEnd& e) const {
    const TubeEnd whole = e;
    for (size_t i = e.cuts.size(); i-- > 0 && e.cuts.size() > 1;) {
      TubeEnd others = e;
      others.cuts.erase(others.cuts.begin() + static_cast<std::ptrdiff_t>(i));
      bool needed = false;
      all_over(arm, [&](double y, double z) {
        needed = needed || whole.begin(y, z) > others.begin(y, z) + shows;
      });
      if (!needed) e.cuts = std::move(others.cuts);
    }
    std::vector<int> places(e.cuts.size());
    all_over(arm, [&](double y, double z) {
      const double here = e.begin(y, z);
      for (size_t i = 0; i < e.cuts.size(); ++i) {
        places[i] += begin_at(e.cuts[i], y, z) >= here - 1e-9;
      }
    });
    const auto most = std::max_element(places.begin(), places.end()) - places.begin();
    std::rotate(e.cuts.begin(), e.cuts.begin() + most, e.cuts.begin() + most + 1);
    e.kind = e.cuts.front().kind;
    if (std::any_of(e.cuts.begin(), e.cuts.end(),
                    [](const EndCut& c) { return c.kind == EndKind::cope; })) {
      e.kind = EndKind::cope;
    }
  }

  /// Between two planes that divide there may be a hair's breadth that meets nothing.
  void close_slivers(const Arm& arm, TubeEnd& e) const {
    const bool closed = std::any_of(e.cuts.begin(), e.cuts.end(), [](const EndCut& c) {
      return std::none_of(c.planes.begin(), c.planes.end(), only_divides);
    });
    if (closed) return;
    double least = std::numeric_limits<double>::infinity();
    all_over(arm, [&](double y, double z) { least = std::min(least, e.begin(y, z)); });
    e.cuts.push_back({{CutPlane{least, 0, 0}}, -1, EndKind::square});
  }

  /// How far beyond the node a tube has to reach so that the others can stand on its face, <= 0.
  double outermost(const Arm& arm, const std::vector<Arm>& arms) const {
    double least = 0;
    for (const Arm& other : arms) {
      if (other.tube == arm.tube) continue;
      if (arm.away.cross(other.away).norm() < std::sin(in_line)) continue;
      TubeEnd theirs;
      cut_by(other, arm.tube, nullptr, theirs);
      const Eigen::Matrix3d& axes = tube(other.tube).axes;
      for (const auto& [y, z] : corners(other)) {
        const Eigen::Vector3d at = theirs.begin(y, z) * other.away +
                                   y * Eigen::Vector3d(axes.row(1)) +
                                   z * Eigen::Vector3d(axes.row(2));
        least = std::min(least, at.dot(arm.away));
      }
    }
    return least;
  }

  /// Places round the section's outer face: its corners, or a round tube's polygon, and where two
  /// planes cross between them, since the tube may begin nearer there than at a corner.
  std::vector<std::array<double, 2>> rim(const TubeEnd& e, const Arm& arm) const {
    std::vector<std::array<double, 2>> places, outline;
    const HalfSizes& h = half(arm.tube);
    if (h.round) {
      constexpr int sides = 48;
      for (int k = 0; k < sides; ++k) {
        const double turn = 2 * std::numbers::pi * k / sides;
        outline.push_back({h.y * std::cos(turn), h.z * std::sin(turn)});
      }
    } else {
      for (const auto& corner : corners(arm)) outline.push_back(corner);
    }
    std::vector<CutPlane> planes;
    for (const EndCut& cut : e.cuts) {
      planes.insert(planes.end(), cut.planes.begin(), cut.planes.end());
    }
    for (size_t k = 0; k < outline.size(); ++k) {
      const auto &a = outline[k], &b = outline[(k + 1) % outline.size()];
      places.push_back(a);
      const auto value = [](const CutPlane& p, const std::array<double, 2>& at) {
        return p.at + p.mitre * at[0] + p.bevel * at[1];
      };
      std::vector<double> crossings;
      for (size_t i = 0; i < planes.size(); ++i) {
        for (size_t j = i + 1; j < planes.size(); ++j) {
          const double at_a = value(planes[i], a) - value(planes[j], a);
          const double at_b = value(planes[i], b) - value(planes[j], b);
          if (at_a * at_b < 0) crossings.push_back(at_a / (at_a - at_b));
        }
      }
      std::sort(crossings.begin(), crossings.end());
      for (const double s : crossings) {
        places.push_back({a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])});
      }
    }
    return places;
  }

  /// How much of the weld along a piece of the rim is this tube's: a mitre's is shared by two.
  double share_of_weld(const TubeEnd& e, double y, double z) const {
    const double here = e.begin(y, z);
    for (const EndCut& cut : e.cuts) {
      if (begin_at(cut, y, z) < here - 1e-9) continue;
      if (cut.against < 0) return 0;
      return along_a_face(cut) ? 1 : 0.5;
    }
    return 0;
  }

  /// An end that is free to turn or slide is no weld.
  bool bolted(const CutTube& t, int end) const {
    const Member& first = frame_.members[static_cast<size_t>(t.members.front())];
    const Member& last = frame_.members[static_cast<size_t>(t.members.back())];
    const EndConnection& c = end == 0 ? first.release_from : last.release_to;
    return std::any_of(c.begin(), c.end(), [](double stiffness) { return stiffness == 0; });
  }

  CutPiece piece(size_t t) {
    CutPiece p{tubes_[t], ends_[t], 0, 0, 0};
    double near = p.tube.length, far = p.tube.length;
    for (const int end : {0, 1}) {
      const Eigen::Vector3d x = p.tube.axes.row(0);
      const Arm arm{static_cast<int>(t), end, end == 0 ? x : Eigen::Vector3d(-x)};
      TubeEnd& e = p.ends[static_cast<size_t>(end)];
      double least = std::numeric_limits<double>::infinity(), greatest = -least;
      const auto places = rim(e, arm);
      for (size_t k = 0; k < places.size(); ++k) {
        const auto &a = places[k], &b = places[(k + 1) % places.size()];
        const double here = e.begin(a[0], a[1]), next = e.begin(b[0], b[1]);
        least = std::min(least, here);
        greatest = std::max(greatest, here);
        const double length = std::hypot(a[0] - b[0], a[1] - b[1], here - next);
        e.weld_length += length * share_of_weld(e, (a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
      }
      if (e.kind == EndKind::eye || bolted(p.tube, end)) e.weld_length = 0;
      near -= least;
      far -= greatest;
      p.weld_length += e.weld_length;
    }
    p.long_point = near;
    p.short_point = far;
    return p;
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<CutTube> tubes_;
  std::vector<HalfSizes> half_;
  std::vector<bool> link_;
  std::vector<int> rank_;  ///< as in the file; the same for images of each other
  std::vector<std::array<TubeEnd, 2>> ends_;
};

}  // namespace

double begin_at(const EndCut& cut, double y, double z) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const CutPlane& p : cut.planes) {
    nearest = std::min(nearest, p.at + p.mitre * y + p.bevel * z);
  }
  return nearest;
}

bool along_a_face(const EndCut& cut) {
  return cut.kind != EndKind::mitre && cut.kind != EndKind::square;
}

bool only_divides(const CutPlane& plane) { return std::hypot(plane.mitre, plane.bevel) > 20; }

double TubeEnd::begin(double y, double z) const {
  double farthest = -std::numeric_limits<double>::infinity();
  for (const EndCut& cut : cuts) farthest = std::max(farthest, begin_at(cut, y, z));
  return cuts.empty() ? 0 : farthest;
}

std::vector<int> inner_nodes(const Frame& frame, const NumberedFrame& n, const CutTube& tube) {
  std::vector<int> nodes;
  for (size_t k = 1; k < tube.members.size(); ++k) {
    nodes.push_back(n.node.at(frame.members[static_cast<size_t>(tube.members[k])].from));
  }
  return nodes;
}

std::vector<DrawnTube> drawn_tubes(const Frame& frame, const NumberedFrame& n,
                                   const std::vector<CutTube>& tubes) {
  std::map<std::tuple<Shape, long, long>, int> sizes;
  std::vector<DrawnTube> drawn;
  for (const CutTube& t : tubes) {
    const SectionEntry& s = find_section(frame, t.section);
    const auto um = [](double x) { return std::lround(x * 1e6); };
    const int size =
        sizes
            .emplace(std::tuple(s.shape, um(s.height), um(s.width)), static_cast<int>(sizes.size()))
            .first->second;
    drawn.push_back({{n.model.nodes[static_cast<size_t>(t.nodes[0])],
                      n.model.nodes[static_cast<size_t>(t.nodes[1])]},
                     size});
  }
  return drawn;
}

namespace {

CutTube tube_of(const Frame& frame, const NumberedFrame& n, std::vector<int> members) {
  const auto member = [&](int m) -> const Member& { return frame.members[static_cast<size_t>(m)]; };
  const Member &first = member(members.front()), &last = member(members.back());
  CutTube t;
  t.name = first.tube.empty() ? first.name : first.tube;
  t.section = first.section;
  t.nodes = {n.node.at(first.from), n.node.at(last.to)};
  t.axes = member_axes(n.model.nodes[static_cast<size_t>(t.nodes[0])],
                       n.model.nodes[static_cast<size_t>(t.nodes[1])], first.roll);
  for (const int m : members) t.length += member_length(n, member(m));
  t.members = std::move(members);
  return t;
}

/// Of tubes that run through one node the biggest stays whole, the others are cut in two there.
std::vector<CutTube> parted_where_they_cross(const Frame& frame, const NumberedFrame& n,
                                             const std::vector<CutTube>& tubes) {
  const auto area = [&](const CutTube& t) {
    const SectionEntry& s = find_section(frame, t.section);
    return s.width * s.height;
  };
  std::map<int, size_t> whole;  // node: tube
  for (size_t i = 0; i < tubes.size(); ++i) {
    for (const int node : inner_nodes(frame, n, tubes[i])) {
      const auto [found, is_new] = whole.emplace(node, i);
      if (!is_new && area(tubes[i]) > area(tubes[found->second]) + 1e-12) found->second = i;
    }
  }
  std::vector<CutTube> parted;
  for (size_t i = 0; i < tubes.size(); ++i) {
    const std::vector<int> inner = inner_nodes(frame, n, tubes[i]);
    std::vector<int> members = {tubes[i].members.front()};
    for (size_t k = 0; k < inner.size(); ++k) {
      if (whole.at(inner[k]) != i) parted.push_back(tube_of(frame, n, std::exchange(members, {})));
      members.push_back(tubes[i].members[k + 1]);
    }
    parted.push_back(tube_of(frame, n, std::move(members)));
  }
  return parted;
}

}  // namespace

std::vector<CutTube> cut_tubes(const Frame& frame, const NumberedFrame& n) {
  std::vector<CutTube> tubes;
  const auto along = [&](const Member& m) -> Eigen::Vector3d {
    const auto& at = n.model.nodes;
    return (at[static_cast<size_t>(n.node.at(m.to))] - at[static_cast<size_t>(n.node.at(m.from))])
        .normalized();
  };
  std::vector<int> run;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.kind != MemberKind::beam && m.kind != MemberKind::link) continue;
    const bool goes_on = !run.empty() && run.back() + 1 == static_cast<int>(i) && !m.tube.empty() &&
                         frame.members[i - 1].tube == m.tube &&
                         along(frame.members[i - 1]).dot(along(m)) > std::cos(straight_on);
    if (!goes_on && !run.empty()) tubes.push_back(tube_of(frame, n, std::exchange(run, {})));
    run.push_back(static_cast<int>(i));
  }
  if (!run.empty()) tubes.push_back(tube_of(frame, n, std::move(run)));
  tubes = parted_where_they_cross(frame, n, tubes);
  // Runs of a path that turns are told apart by a number.
  for (size_t i = 0; i < tubes.size();) {
    size_t j = i + 1;
    while (j < tubes.size() && tubes[j].name == tubes[i].name) ++j;
    for (size_t k = i; j - i > 1 && k < j; ++k) tubes[k].name += "." + std::to_string(k - i + 1);
    i = j;
  }
  return tubes;
}

std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered) {
  return Cutter(frame, numbered).pieces();
}

}  // namespace tubewright
