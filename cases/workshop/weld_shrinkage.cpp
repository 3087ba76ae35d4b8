#include "cases/workshop/weld_shrinkage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/checks/welded_ends.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"

namespace tubewright {

namespace {

/// One member of a piece, from its lower node to its upper along an axis.
struct Step {
  std::size_t piece = 0;
  int from = 0, to = 0;
  double at = 0;  ///< of its lower node
};

/// What a row has drawn in so far, and how it came here.
struct Best {
  double amount = 0;
  int welds = 0;
  int before = -1;
};

class Rows {
 public:
  Rows(const Frame& frame, const NumberedFrame& n, const std::vector<CutPiece>& pieces,
       const std::vector<EndShrinkage>& shrinkage, int axis)
      : frame_(frame), n_(n), pieces_(pieces), shrinkage_(shrinkage), axis_(axis) {
    across_.resize(n.model.nodes.size(), 0);
    for (std::size_t p = 0; p < pieces.size(); ++p) {
      if (lies_along(p)) {
        add_steps(p);
        continue;
      }
      for (std::size_t end = 0; end < 2; ++end) {
        double& most = across_[static_cast<std::size_t>(pieces[p].tube.nodes[end])];
        most = std::max(most, shrinkage[p][end].value_or(0));
      }
    }
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const Step& a, const Step& b) { return a.at < b.at; });
  }

  DrawIn worst() const {
    DrawIn worst;
    worst.axis = axis_;
    std::vector<Best> best(steps_.size());
    int last = -1;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const double begins = at_end(steps_[i].piece, steps_[i].from);
      best[i] = {begins, begins > 0, -1};
      for (std::size_t k = 0; k < i; ++k) {
        if (steps_[k].to != steps_[i].from) continue;
        const std::optional<double> between = passing(steps_[k], steps_[i]);
        if (!between) continue;
        const double amount = best[k].amount + *between;
        if (amount > best[i].amount || best[i].before < 0) {
          best[i] = {amount, best[k].welds + welds(steps_[k], steps_[i]), static_cast<int>(k)};
        }
      }
      const double ends = at_end(steps_[i].piece, steps_[i].to);
      if (best[i].amount + ends > worst.amount + 1e-9) {
        worst.amount = best[i].amount + ends;
        worst.welds = best[i].welds + (ends > 0);
        last = static_cast<int>(i);
      }
    }
    for (; last >= 0; last = best[static_cast<std::size_t>(last)].before) {
      const std::string& name = pieces_[steps_[static_cast<std::size_t>(last)].piece].tube.name;
      if (worst.row.empty() || worst.row.front() != name) worst.row.insert(worst.row.begin(), name);
    }
    return worst;
  }

 private:
  bool lies_along(std::size_t p) const {
    return std::abs(pieces_[p].tube.axes(0, axis_)) > std::cos(std::numbers::pi / 6);
  }

  void add_steps(std::size_t p) {
    for (const int m : pieces_[p].tube.members) {
      const Member& member = frame_.members[static_cast<std::size_t>(m)];
      Step s{p, n_.node.at(member.from), n_.node.at(member.to), 0};
      const auto height = [&](int node) {
        return n_.model.nodes[static_cast<std::size_t>(node)][axis_];
      };
      if (height(s.from) > height(s.to)) std::swap(s.from, s.to);
      s.at = height(s.from);
      steps_.push_back(s);
    }
  }

  bool ends_at(std::size_t p, int node) const {
    return pieces_[p].tube.nodes[0] == node || pieces_[p].tube.nodes[1] == node;
  }

  /// Of the end of a piece at a node; 0 where it runs through.
  double at_end(std::size_t p, int node) const {
    for (std::size_t end = 0; end < 2; ++end) {
      if (pieces_[p].tube.nodes[end] == node) return shrinkage_[p][end].value_or(0);
    }
    return 0;
  }

  std::optional<double> passing(const Step& a, const Step& b) const {
    if (a.piece == b.piece) return across_[static_cast<std::size_t>(b.from)];
    if (!ends_at(a.piece, b.from) || !ends_at(b.piece, b.from)) return std::nullopt;
    return at_end(a.piece, b.from) + at_end(b.piece, b.from);
  }

  int welds(const Step& a, const Step& b) const {
    if (a.piece == b.piece) return across_[static_cast<std::size_t>(b.from)] > 0;
    const auto is_half = [&](std::size_t p) {
      const std::size_t end = pieces_[p].tube.nodes[0] == b.from ? 0 : 1;
      return !along_a_face(pieces_[p].ends[end].cuts.front());
    };
    const int both = (at_end(a.piece, b.from) > 0) + (at_end(b.piece, b.from) > 0);
    return both == 2 && is_half(a.piece) && is_half(b.piece) ? 1 : both;
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  const std::vector<CutPiece>& pieces_;
  const std::vector<EndShrinkage>& shrinkage_;
  int axis_;
  std::vector<Step> steps_;
  std::vector<double> across_;  ///< by node
};

}  // namespace

double transverse_shrinkage(double throat, double wall) { return 0.1 * throat * throat / wall; }

EndShrinkage end_shrinkage(const Frame& frame, const CutPiece& piece) {
  const SectionEntry& section = find_section(frame, piece.tube.section);
  const MaterialEntry* material = find_material(frame, section.material);
  const Metal metal = material == nullptr ? Metal::other : material->metal;
  const bool known = (metal == Metal::steel || metal == Metal::stainless) && section.wall > 0;
  EndShrinkage shrinkage;
  for (std::size_t end = 0; end < 2; ++end) {
    const TubeEnd& e = piece.ends[end];
    if (!(e.weld_length > 0)) {
      shrinkage[end] = 0;
      continue;
    }
    if (!known) continue;
    const int m = end == 0 ? piece.tube.members.front() : piece.tube.members.back();
    const double throat = frame.members[static_cast<std::size_t>(m)].weld_throat.value_or(
        usual_throat(*material, section.wall));
    const double share = along_a_face(e.cuts.front()) ? 1 : 0.5;
    shrinkage[end] = share * transverse_shrinkage(throat, section.wall);
  }
  return shrinkage;
}

WeldShrinkage weld_shrinkage(const Frame& frame, const NumberedFrame& numbered,
                             const std::vector<CutPiece>& pieces) {
  WeldShrinkage s;
  for (const CutPiece& p : pieces) {
    s.pieces.push_back(end_shrinkage(frame, p));
    for (const std::optional<double>& end : s.pieces.back()) s.unknown += !end.has_value();
  }
  for (const int axis : {0, 1, 2}) {
    DrawIn along = Rows(frame, numbered, pieces, s.pieces, axis).worst();
    if (along.amount > 0) s.along.push_back(std::move(along));
  }
  return s;
}

}  // namespace tubewright
