#include "cases/checks/welded_ends.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "cases/bends/member_arc.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/model/nodes_in_use.h"
#include "solver/model/section_shapes.h"

namespace tubewright {

namespace {

/// From the weld along the tube, EN 1999-1-1 6.1.6.3: 20 mm beside a MIG weld of parts up to 6 mm,
/// 30 mm beside thicker ones and beside TIG (MEMORY). How it is welded is not known: 30 mm.
constexpr double heat_reaches = 0.030;

double outer_radius(const SectionEntry& s) {
  const bool rectangle = s.shape == Shape::square_tube || s.shape == Shape::rectangular_tube;
  if (!rectangle || s.corners == Corners::sharp) return 0;
  return s.corners == Corners::cold_formed ? cold_formed_corners(s.wall).outer
                                           : hot_finished_corners(s.wall).outer;
}

/// Something there is joined stiffly.
bool stiffly_joined(const EndConnection& connection) {
  return std::any_of(connection.begin(), connection.end(), [](double k) { return k > 0; });
}

bool iron(Metal m) { return m == Metal::steel || m == Metal::stainless; }

struct Arm {
  size_t member = 0;
  size_t end = 0;
};

/// Where one member ends and nothing else is.
std::vector<bool> free_nodes(const Frame& frame, const NumberedFrame& n) {
  std::vector<int> members(frame.nodes.size(), 0);
  for (const Member& m : frame.members) {
    for (const std::string& end : {m.from, m.to}) ++members[static_cast<size_t>(n.node.at(end))];
  }
  std::vector<bool> is_free;
  for (const int count : members) is_free.push_back(count == 1);
  for (const std::string& name : nodes_in_use(frame)) {
    if (const auto used = n.node.find(name); used != n.node.end()) {
      is_free[static_cast<size_t>(used->second)] = false;
    }
  }
  return is_free;
}

class Welds {
 public:
  Welds(const Frame& frame, const NumberedFrame& n)
      : frame_(frame),
        n_(n),
        ends_(frame.members.size()),
        at_(frame.nodes.size()),
        free_(free_nodes(frame, n)) {
    for (size_t m = 0; m < frame.members.size(); ++m) {
      if (frame.members[m].kind != MemberKind::beam) continue;
      for (const size_t end : {0U, 1U}) at_[node({m, end})].push_back({m, end});
    }
  }

  std::vector<std::array<WeldedEnd, 2>> all() {
    for (const std::vector<Arm>& arms : at_) find_welds(arms);
    for (const std::vector<Arm>& arms : at_) {
      for (const Arm& a : arms) describe(a, arms);
    }
    return std::move(ends_);
  }

 private:
  const Member& member(const Arm& a) const { return frame_.members[a.member]; }
  const SectionEntry& section(const Arm& a) const {
    return find_section(frame_, member(a).section);
  }
  const MaterialEntry& material(const Arm& a) const {
    return *find_material(frame_, section(a).material);
  }
  WeldedEnd& end_of(const Arm& a) { return ends_[a.member][a.end]; }
  const EndConnection& connection(const Arm& a) const {
    return a.end == 0 ? member(a).release_from : member(a).release_to;
  }
  size_t node(const Arm& a) const {
    return static_cast<size_t>(n_.node.at(a.end == 0 ? member(a).from : member(a).to));
  }
  Eigen::Vector3d away(const Arm& a) const {
    return (n_.model.nodes[node({a.member, 1 - a.end})] - n_.model.nodes[node(a)]).normalized();
  }

  /// Two pieces of a path, one after the other, in one line or a bend.
  bool run_on(const Arm& a, const Arm& b) const {
    if (member(a).tube.empty() || member(a).tube != member(b).tube) return false;
    const bool next = (a.member + 1 == b.member && a.end == 1 && b.end == 0) ||
                      (b.member + 1 == a.member && b.end == 1 && a.end == 0);
    return next &&
           (bends_on(member(a), member(b)) || -away(a).dot(away(b)) > std::cos(path_turns_at));
  }

  double outer_area(const Arm& a) const { return section(a).width * section(a).height; }

  void find_welds(const std::vector<Arm>& arms) {
    // Of paths that run through the biggest stays whole, the first of equals (cut_tubes.cpp).
    const Arm* whole = nullptr;
    const auto runs_through = [&](const Arm& a) {
      return std::any_of(arms.begin(), arms.end(), [&](const Arm& b) { return run_on(a, b); });
    };
    for (const Arm& a : arms) {
      if (!runs_through(a)) continue;
      if (whole == nullptr || outer_area(a) > outer_area(*whole) + 1e-12) whole = &a;
    }
    for (const Arm& a : arms) {
      const bool inside = whole != nullptr && (&a == whole || run_on(a, *whole));
      end_of(a).welded = !inside && !free_[node(a)] && stiffly_joined(connection(a));
    }
  }

  bool joined(const Arm& a) const { return stiffly_joined(connection(a)); }

  void describe(const Arm& a, const std::vector<Arm>& arms) {
    WeldedEnd& e = end_of(a);
    const bool any_weld =
        std::any_of(arms.begin(), arms.end(), [&](const Arm& b) { return end_of(b).welded; });
    constexpr double infinite = std::numeric_limits<double>::infinity();
    double fu = infinite, weakest = infinite;
    e.heat_yield = e.heat_ultimate = infinite;
    for (const Arm& b : arms) {
      const bool self = b.member == a.member && b.end == a.end;
      if (!joined(b) && !self) continue;
      e.on_tube = e.on_tube || !self;
      const MaterialEntry& m = material(b);
      if (iron(m.metal) != iron(material(a).metal) || m.metal == Metal::other) {
        e.obstacle = "no rules for a weld between these metals";
      }
      const double beta = m.metal == Metal::steel ? correlation_factor(m.properties.yield) : 1;
      fu = least(fu, m.properties.ultimate);
      weakest = least(weakest, m.properties.ultimate / beta);
      e.heat_yield = least(e.heat_yield, m.heat_affected.yield);
      e.heat_ultimate = least(e.heat_ultimate, m.heat_affected.ultimate);
    }
    const MaterialEntry& own = material(a);
    const double metal = weld_metal_strength(fu, section(a).weld_filler.value_or(0));
    e.weld.throat = member(a).weld_throat;
    e.weld.corner_radius = outer_radius(section(a));
    e.weld.fu = metal;
    e.weld.beta_w = fu / weakest;
    if (e.on_tube && section(a).wall > 0 && iron(own.metal)) {
      e.weld.least_throat =
          section(a).wall * full_strength_throat(own.properties.yield, metal, e.weld.beta_w);
    }
    if (any_weld) e.heated = heated_length(a, arms);
  }

  /// NaN where one of them is.
  static double least(double a, double b) { return std::isnan(a) || a < b ? a : b; }

  /// To the faces of what meets it there, over the weld's leg, and on.
  double heated_length(const Arm& a, const std::vector<Arm>& arms) const {
    constexpr double least_sine = 0.5;  // tubes at a smaller angle: the weld is about that long
    double reach = 0, leg = 0;
    for (const Arm& b : arms) {
      const double throat =
          member(b).weld_throat.value_or(usual_throat(material(b), section(b).wall));
      leg = std::max(leg, std::numbers::sqrt2 * throat);
      if (b.member == a.member && b.end == a.end) continue;
      const double sine = away(a).cross(away(b)).norm();
      if (sine < std::sin(path_turns_at)) continue;
      if (section(b).shape == Shape::properties) return std::numeric_limits<double>::infinity();
      const double half = std::max(section(b).height, section(b).width) / 2;
      reach = std::max(reach, half / std::max(sine, least_sine));
    }
    return reach + leg + heat_reaches;
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<std::array<WeldedEnd, 2>> ends_;
  std::vector<std::vector<Arm>> at_;
  std::vector<bool> free_;
};

}  // namespace

double weld_metal_strength(double fu, double filler) {
  constexpr double needs_better_wire = 560e6;
  if (!(filler > 0)) {
    if (!(fu > needs_better_wire)) return fu;
    filler = ordinary_wire;
  }
  return std::min(fu, 0.25 * fu + 0.75 * filler);
}

double usual_throat(const MaterialEntry& m, double wall) {
  const double fy = m.properties.yield, fu = m.properties.ultimate;
  if (!iron(m.metal) || !(fy > 0) || !(fu > 0)) return wall;
  const double beta = m.metal == Metal::steel ? correlation_factor(fy) : 1;
  return wall * std::max(1.0, full_strength_throat(fy, weld_metal_strength(fu, 0), beta));
}

std::vector<std::array<WeldedEnd, 2>> welded_ends(const Frame& frame,
                                                  const NumberedFrame& numbered) {
  return Welds(frame, numbered).all();
}

}  // namespace tubewright
