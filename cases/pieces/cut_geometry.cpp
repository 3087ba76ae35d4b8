#include "cases/pieces/cut_geometry.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/pieces/bent_pieces.h"
#include "cases/pieces/cut_by_tube.h"
#include "cases/pieces/cut_order.h"
#include "cases/pieces/shown_cuts.h"
#include "cases/pieces/tube_arms.h"

namespace tubewright {

namespace {

using TubeEnds = std::vector<std::array<TubeEnd, 2>>;  // by tube

TubeEnd& end_of(TubeEnds& ends, const TubeArm& arm) {
  return ends[static_cast<size_t>(arm.tube)][static_cast<size_t>(arm.end)];
}

/// Links keep their eyes, ends that turn, slide or give their pins and bushes; they stand in
/// nobody's way and are not cut to anybody.
void set_fittings_apart(const UncutTubes& all, std::vector<TubeArm>& arms, TubeEnds& ends) {
  std::erase_if(arms, [&](const TubeArm& arm) {
    const auto t = static_cast<size_t>(arm.tube);
    if (!all.link[t] && !all.joint[t][static_cast<size_t>(arm.end)]) return false;
    const EndKind kind = all.link[t] ? EndKind::eye : EndKind::joint;
    end_of(ends, arm) = {kind, {{{CutPlane{}}, -1}}};
    return true;
  });
}

/// Every cut of an arm, whether it shows or not.
std::vector<EndCut> cuts_of(const UncutTubes& all, const TubeArm& arm, const NodeTurn& node,
                            const std::vector<const TubeArm*>& alike, TubeEnds& ends) {
  std::vector<EndCut> cuts;
  const auto add = [&](const std::vector<EndCut>& more) {
    cuts.insert(cuts.end(), more.begin(), more.end());
  };
  for (const int t : node.through) add(cuts_by_whole(all, arm, t));
  for (const TubeArm* p : node.placed) add(cuts_by_placed(all, arm, *p, end_of(ends, *p)));
  for (const TubeArm* other : alike) {
    if (other != &arm) cuts.push_back(cut_between(all, arm, *other));
  }
  return cuts;
}

void cut_at(const UncutTubes& all, NodeTubes& here, TubeEnds& ends) {
  std::vector<TubeArm>& arms = here.arms;
  set_fittings_apart(all, arms, ends);
  put_in_order(all, arms);
  NodeTurn node{here.through, {}, {}};
  for (const TubeArm& arm : arms) node.waiting.push_back(&arm);
  while (!node.waiting.empty()) {
    const std::vector<const TubeArm*> alike = next_alike(all, node);
    for (const TubeArm* arm : alike) {
      TubeEnd& e = end_of(ends, *arm);
      const EndSection section = end_section(all, *arm);
      e.cuts = cuts_of(all, *arm, node, alike, ends);
      if (open_somewhere(section, e)) {
        e.cuts.push_back({{CutPlane{outermost(all, *arm, arms), 0, 0}}, -1, EndKind::square});
      }
      keep_what_shows(section, e);
      close_slivers(section, e);
    }
    for (const TubeArm* arm : alike) {
      node.placed.push_back(arm);
      std::erase(node.waiting, arm);
    }
  }
}

/// Places round the section's outer face: its corners, or a round tube's polygon, and where two
/// planes cross between them, since the tube may begin nearer there than at a corner.
ConvexPolygon rim_of(const TubeEnd& e, const ConvexPolygon& outline) {
  std::vector<CutPlane> planes;
  for (const EndCut& cut : e.cuts) {
    planes.insert(planes.end(), cut.planes.begin(), cut.planes.end());
  }
  ConvexPolygon rim;
  for (size_t k = 0; k < outline.size(); ++k) {
    const Eigen::Vector2d &a = outline[k], &b = outline[(k + 1) % outline.size()];
    rim.push_back(a);
    std::vector<double> crossings;
    for (size_t i = 0; i < planes.size(); ++i) {
      for (size_t j = i + 1; j < planes.size(); ++j) {
        const double at_a = begin_at(planes[i], a.x(), a.y()) - begin_at(planes[j], a.x(), a.y());
        const double at_b = begin_at(planes[i], b.x(), b.y()) - begin_at(planes[j], b.x(), b.y());
        if (at_a * at_b < 0) crossings.push_back(at_a / (at_a - at_b));
      }
    }
    std::sort(crossings.begin(), crossings.end());
    for (const double s : crossings) rim.push_back(a + s * (b - a));
  }
  return rim;
}

/// True where a cut steps from one plane to another.
bool is_step(const EndCut& cut, const Eigen::Vector2d& at) {
  const double here = begin_at(cut, at.x(), at.y());
  return std::any_of(cut.planes.begin(), cut.planes.end(), [&](const CutPlane& p) {
    return only_divides(p) && begin_at(p, at.x(), at.y()) <= here;
  });
}

/// How much of the weld along a piece of the rim is this tube's: a mitre's is shared by two.
double share_of_weld(const TubeEnd& e, const Eigen::Vector2d& at) {
  const double here = e.begin(at.x(), at.y());
  for (const EndCut& cut : e.cuts) {
    if (begin_at(cut, at.x(), at.y()) < here - 1e-9) continue;
    if (cut.against < 0 || is_step(cut, at)) return 0;
    return along_a_face(cut) ? 1 : 0.5;
  }
  return 0;
}

/// Where an end begins round its rim.
struct RimReach {
  double least = std::numeric_limits<double>::infinity();
  double greatest = -std::numeric_limits<double>::infinity();
  double weld_length = 0;
};

RimReach reach_of(const TubeEnd& e, const ConvexPolygon& outline) {
  RimReach reach;
  const ConvexPolygon rim = rim_of(e, outline);
  for (size_t k = 0; k < rim.size(); ++k) {
    const Eigen::Vector2d &a = rim[k], &b = rim[(k + 1) % rim.size()];
    const double here = e.begin(a.x(), a.y()), next = e.begin(b.x(), b.y());
    reach.least = std::min(reach.least, here);
    reach.greatest = std::max(reach.greatest, here);
    const double length = std::hypot(a.x() - b.x(), a.y() - b.y(), here - next);
    reach.weld_length += length * share_of_weld(e, (a + b) / 2);
  }
  return reach;
}

CutPiece measured(const CutTube& tube, const HalfSizes& half, const std::array<TubeEnd, 2>& ends) {
  CutPiece p;
  p.tube = tube;
  p.ends = ends;
  p.long_point = p.short_point = tube.length;
  for (size_t end = 0; end < 2; ++end) {
    TubeEnd& e = p.ends[end];
    const RimReach reach = reach_of(e, section_polygon(half));
    e.weld_length = is_fitting(e.kind) ? 0 : reach.weld_length;
    if (end == 0) p.first_point = reach.least;
    p.long_point -= reach.least;
    p.short_point -= reach.greatest;
    p.weld_length += e.weld_length;
  }
  return p;
}

}  // namespace

std::vector<CutPiece> cut_straight_parts(const Frame& frame, const NumberedFrame& numbered) {
  const UncutTubes all = uncut_tubes(frame, numbered);
  TubeEnds ends(all.tubes.size());
  for (NodeTubes& node : tubes_at_nodes(frame, numbered, all)) cut_at(all, node, ends);
  std::vector<CutPiece> pieces;
  for (size_t t = 0; t < all.tubes.size(); ++t) {
    pieces.push_back(measured(all.tubes[t], all.half[t], ends[t]));
  }
  return pieces;
}

std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered) {
  return joined_over_bends(frame, numbered, cut_straight_parts(frame, numbered));
}

}  // namespace tubewright
