#include "cases/workshop/cut_list.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "cases/frame/bays.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/layout.h"
#include "cases/frame/wording.h"
#include "cases/model/mass_summary.h"

namespace tubewright {

namespace {

constexpr double alike = 1e-4;  // m: cut alike to a tenth of a millimetre

using Fibres = std::array<double, 8>;

/// Where a piece begins and ends along the corners of its section and the middles between them,
/// from its own near end: round from (+y, +z) over (0, +z), (-y, +z), (-y, 0) and so on.
struct Outline {
  Fibres begin{}, end{};
};

Outline outline_of(const CutPiece& p, const SectionEntry& s) {
  constexpr std::array<std::array<double, 2>, 8> signs = {
      {{1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}}};
  Outline o;
  for (size_t k = 0; k < 8; ++k) {
    const double y = signs[k][0] * s.width / 2, z = signs[k][1] * s.height / 2;
    o.begin[k] = p.ends[0].begin(y, z);
    o.end[k] = p.tube.length - p.ends[1].begin(y, z);
  }
  return o;
}

/// A quarter turn about x: corners move on by one.
Outline turned(const Outline& o) {
  Outline r;
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = o.begin[(k + 2) % 8];
    r.end[k] = o.end[(k + 2) % 8];
  }
  return r;
}

/// Half a turn about y: x and z change sign.
Outline end_for_end(const Outline& o) {
  constexpr std::array<size_t, 8> other = {6, 5, 4, 3, 2, 1, 0, 7};
  Outline r;
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = -o.end[other[k]];
    r.end[k] = -o.begin[other[k]];
  }
  return r;
}

/// In the plane y = 0.
Outline mirrored(const Outline& o) {
  constexpr std::array<size_t, 8> other = {2, 1, 0, 7, 6, 5, 4, 3};
  Outline r;
  for (size_t k = 0; k < 8; ++k) {
    r.begin[k] = o.begin[other[k]];
    r.end[k] = o.end[other[k]];
  }
  return r;
}

using Signature = std::array<long, 16>;

Signature signature_of(const Outline& o) {
  const double first = *std::min_element(o.begin.begin(), o.begin.end());
  Signature s;
  for (size_t k = 0; k < 8; ++k) {
    s[k] = std::lround((o.begin[k] - first) / alike);
    s[8 + k] = std::lround((o.end[k] - first) / alike);
  }
  return s;
}

/// The same for pieces that are alike.
Signature canonical(Outline o, const SectionEntry& s) {
  const int step = std::abs(s.width - s.height) < 1e-9 ? 1 : 2;  // a rectangle takes half turns
  Signature best = signature_of(o);
  for (int flip = 0; flip < 2; ++flip) {
    for (int quarter = 0; quarter < 4; quarter += step) {
      best = std::min(best, signature_of(o));
      for (int i = 0; i < step; ++i) o = turned(o);
    }
    o = end_for_end(o);
  }
  return best;
}

/// Shape, sizes in micrometres, material: what makes one bar like another.
using SizeKey = std::tuple<Shape, long, long, long, std::string>;

SizeKey size_of(const SectionEntry& s) {
  const auto um = [](double x) { return std::lround(x * 1e6); };
  return {s.shape, um(s.height), um(s.width), um(s.wall), s.material};
}

std::string label_of(size_t index) {
  std::string label;
  for (size_t i = index + 1; i > 0; i = (i - 1) / 26) {
    label.insert(label.begin(), static_cast<char>('A' + (i - 1) % 26));
  }
  return label;
}

/// Along the corners and the middles of the sides: of a thin wall with plane cuts it is exact.
double mean_length(const CutPiece& p, const SectionEntry& s) {
  const Outline o = outline_of(p, s);
  double sum = 0;
  for (size_t k = 0; k < 8; ++k) sum += o.end[k] - o.begin[k];
  return sum / 8;
}

/// Labels, and for a group that is another's mirror image the label of that.
void name_groups(const Frame& frame, std::vector<CutGroup>& groups) {
  std::map<std::pair<SizeKey, Signature>, std::string> labels;
  for (size_t i = 0; i < groups.size(); ++i) {
    CutGroup& g = groups[i];
    const SectionEntry& s = find_section(frame, g.piece.tube.section);
    const Outline o = outline_of(g.piece, s);
    g.label = label_of(i);
    labels.emplace(std::pair(size_of(s), canonical(o, s)), g.label);
    const auto image = labels.find({size_of(s), canonical(mirrored(o), s)});
    if (image != labels.end() && image->second != g.label) g.mirror_of = image->second;
  }
}

std::optional<double> price_of(const Stock& stock, const SectionEntry& s) {
  for (const StockSize& size : stock.sizes) {
    const bool same = size.shape == s.shape && std::abs(size.height - s.height) < 1e-6 &&
                      std::abs(size.width - s.width) < 1e-6 && std::abs(size.wall - s.wall) < 1e-6;
    if (same) return size.price;
  }
  return std::nullopt;
}

std::vector<JigCheck> jig_checks(const Frame& frame) {
  const Layout layout = layout_of(frame);
  std::vector<JigCheck> checks;
  for (const Bay& bay : four_sided_bays(frame, layout)) {
    JigCheck c;
    for (size_t k = 0; k < 4; ++k) {
      c.corners[k] = frame.nodes[static_cast<size_t>(bay.corners[k])].name;
    }
    const auto apart = [&](size_t a, size_t b) {
      return (layout.at[static_cast<size_t>(bay.corners[a])] -
              layout.at[static_cast<size_t>(bay.corners[b])])
          .norm();
    };
    c.first = apart(0, 2);
    c.second = apart(1, 3);
    checks.push_back(std::move(c));
  }
  return checks;
}

}  // namespace

SawAngles saw_angles(const CutPlane& p) {
  // The blade stands square to the table along y turned by the mitre, then tilts.
  return {std::atan(p.mitre), std::atan(p.bevel / std::sqrt(1 + p.mitre * p.mitre))};
}

namespace {

/// Where the long point of an end lies, as an angle from y toward z; nothing for a square or
/// notched end.
std::optional<double> long_point_of(const TubeEnd& end) {
  constexpr double square_within = 1e-3;  // a slope, 0.06 degrees
  if (end.cuts.empty()) return std::nullopt;
  std::optional<CutPlane> slant;
  for (const CutPlane& p : end.cuts.front().planes) {
    if (only_divides(p)) continue;
    if (slant) return std::nullopt;
    slant = p;
  }
  if (!slant || std::hypot(slant->mitre, slant->bevel) < square_within) return std::nullopt;
  return std::atan2(-slant->bevel, -slant->mitre);  // there the tube begins first
}

}  // namespace

std::optional<double> turn_between_ends(const CutPiece& piece) {
  const auto first = long_point_of(piece.ends[0]), second = long_point_of(piece.ends[1]);
  if (!first || !second) return std::nullopt;
  const double turn = std::remainder(*second - *first, 2 * std::numbers::pi);
  return turn < -std::numbers::pi + 1e-6 ? turn + 2 * std::numbers::pi : turn;
}

CutList cut_list(const Frame& frame) {
  const NumberedFrame numbered = build_model(frame);
  CutList list;
  list.stock = frame.stock.value_or(Stock{});
  std::map<std::pair<SizeKey, Signature>, CutGroup> groups;
  const std::vector<CutPiece> cut = cut_pieces(frame, numbered);
  list.weld_order = weld_order(frame, numbered, cut);
  list.shrinkage = weld_shrinkage(frame, numbered, cut);
  for (const CutPiece& piece : cut) {
    list.tube_names.push_back(piece.tube.name);
    const SectionEntry& s = find_section(frame, piece.tube.section);
    const Member& member = frame.members[static_cast<size_t>(piece.tube.members.front())];
    if (s.shape == Shape::properties) {
      add_warning(list.remarks, member.place,
                  quoted(piece.tube.name) + " is known by its properties only",
                  "its outline is not, so it is taken from node to node");
    }
    if (!(piece.short_point > 0)) {
      add_warning(list.remarks, member.place,
                  "nothing is left of " + quoted(piece.tube.name) + " between its neighbours",
                  "its nodes are nearer than the tubes there are wide");
      continue;
    }
    list.mass += mass_per_length(frame, member) * mean_length(piece, s);
    list.weld_length += piece.weld_length;
    for (const TubeEnd& e : piece.ends) list.welds += e.weld_length > 0;
    CutGroup& g = groups[{size_of(s), canonical(outline_of(piece, s), s)}];
    if (g.names.empty()) {
      g.mass = mass_per_length(frame, member) * mean_length(piece, s);
      g.piece = piece;
      g.shrinkage = end_shrinkage(frame, piece);
    }
    g.names.push_back(piece.tube.name);
  }
  for (auto& [key, group] : groups) list.groups.push_back(std::move(group));
  std::stable_sort(
      list.groups.begin(), list.groups.end(), [&](const CutGroup& a, const CutGroup& b) {
        const auto key = [&](const CutGroup& g) {
          return std::tuple(size_of(find_section(frame, g.piece.tube.section)),
                            -std::lround(g.piece.long_point / alike), g.piece.tube.members.front());
        };
        return key(a) < key(b);
      });
  name_groups(frame, list.groups);

  for (size_t i = 0; i < list.groups.size();) {
    const SectionEntry& s = find_section(frame, list.groups[i].piece.tube.section);
    std::vector<Piece> pieces;
    const size_t first = i;
    while (i < list.groups.size() &&
           size_of(find_section(frame, list.groups[i].piece.tube.section)) == size_of(s)) {
      const CutGroup& g = list.groups[i];
      pieces.push_back({g.piece.long_point, static_cast<int>(g.names.size()), static_cast<int>(i)});
      ++i;
    }
    BarOrder order;
    order.section = s.name;
    order.nesting = nest_pieces(pieces, {list.stock.length, list.stock.kerf, list.stock.end_trim});
    const Member& member =
        frame.members[static_cast<size_t>(list.groups[first].piece.tube.members.front())];
    order.bar_mass = mass_per_length(frame, member) * list.stock.length;
    order.bar_price = price_of(list.stock, s);
    for (const int id : order.nesting.too_long) {
      const CutGroup& g = list.groups[static_cast<size_t>(id)];
      add_warning(list.remarks, {},
                  "piece " + g.label + " (" + quoted(g.names.front()) + ") is " +
                      in_mm(g.piece.long_point) + " long, more than a bar gives",
                  "give the length of the bars under `stock`, or splice the tube at a node");
    }
    list.orders.push_back(std::move(order));
  }
  list.jig = jig_checks(frame);
  return list;
}

}  // namespace tubewright
