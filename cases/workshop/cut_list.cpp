#include "cases/workshop/cut_list.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "cases/attachments/gusset_plate.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/model/mass_summary.h"
#include "cases/pieces/alike_pieces.h"

namespace tubewright {

namespace {

// What is said of pieces
// ----------------------
Diagnostic outline_not_known(const std::string& tube) {
  return {quoted(tube) + " is known by its properties only",
          "its outline is not, so it is taken from node to node"};
}

Diagnostic nothing_left(const std::string& tube) {
  return {"nothing is left of " + quoted(tube) + " between its neighbours",
          "its nodes are nearer than the tubes there are wide"};
}

Diagnostic longer_than_a_bar(const std::string& label, const std::string& tube, double length) {
  return {"piece " + label + " (" + quoted(tube) + ") is " + in_mm(length) +
              " long, more than a bar gives",
          "give the length of the bars under `stock`, or splice the tube at a node"};
}

// Groups and bars
// ---------------
/// Shape, sizes in micrometres, material: what makes one bar like another.
using SizeKey = std::tuple<Shape, long, long, long, std::string>;

SizeKey size_of(const SectionEntry& s) {
  const auto um = [](double x) { return std::lround(x * 1e6); };
  return {s.shape, um(s.height), um(s.width), um(s.wall), s.material};
}

const SectionEntry& section_of(const Frame& frame, const CutGroup& g) {
  return find_section(frame, g.piece.tube.section);
}

const Member& first_member(const Frame& frame, const CutPiece& piece) {
  return frame.members[static_cast<size_t>(piece.tube.members.front())];
}

std::string label_of(size_t index) {
  std::string label;
  for (size_t i = index + 1; i > 0; i = (i - 1) / 26) {
    label.insert(label.begin(), static_cast<char>('A' + (i - 1) % 26));
  }
  return label;
}

/// A group and the outline of its first piece.
struct Pattern {
  CutGroup group;
  PieceOutline outline;
  SizeKey size;
};

/// Ends that are held by a fitting: a piece with a joint is no stand-in for one without.
auto fittings_of(const CutPiece& piece) {
  return std::count_if(piece.ends.begin(), piece.ends.end(),
                       [](const TubeEnd& e) { return is_fitting(e.kind); });
}

bool alike(const Pattern& p, const CutPiece& piece, const PieceOutline& outline,
           const SectionEntry& s) {
  return p.size == size_of(s) && fittings_of(p.group.piece) == fittings_of(piece) &&
         cut_alike(p.outline, outline, s);
}

/// True if a piece can be cut and counted; else says why not.
bool is_sound(const Frame& frame, const CutPiece& piece, Diagnostics& remarks) {
  const Member& member = first_member(frame, piece);
  if (find_section(frame, piece.tube.section).shape == Shape::properties) {
    add_warning(remarks, member.place, outline_not_known(piece.tube.name));
  }
  if (piece.short_point > 0) return true;
  add_warning(remarks, member.place, nothing_left(piece.tube.name));
  return false;
}

/// Puts a piece to the first group whose pieces are cut like it, or into one of its own.
void add_to_groups(const Frame& frame, const CutPiece& piece, std::vector<Pattern>& patterns) {
  const SectionEntry& s = find_section(frame, piece.tube.section);
  const PieceOutline outline = outline_of(piece, s);
  auto found = std::find_if(patterns.begin(), patterns.end(),
                            [&](const Pattern& p) { return alike(p, piece, outline, s); });
  if (found == patterns.end()) {
    CutGroup g;
    g.piece = piece;
    g.mass = mass_per_length(frame, first_member(frame, piece)) * mean_length(outline);
    g.shrinkage = end_shrinkage(frame, piece);
    found = patterns.insert(found, {std::move(g), outline, size_of(s)});
  }
  found->group.names.push_back(piece.tube.name);
}

/// By size, the longest first, then as in the file.
void sort_groups(std::vector<Pattern>& patterns) {
  const auto key = [](const Pattern& p) {
    return std::tuple(p.size, -std::lround(p.group.piece.long_point / cut_alike_within),
                      p.group.piece.tube.members.front());
  };
  std::stable_sort(patterns.begin(), patterns.end(),
                   [&](const Pattern& a, const Pattern& b) { return key(a) < key(b); });
}

/// Labels, and for a group that is an earlier one's mirror image the label of that.
void name_groups(const Frame& frame, std::vector<Pattern>& patterns) {
  for (size_t i = 0; i < patterns.size(); ++i) {
    CutGroup& g = patterns[i].group;
    const SectionEntry& s = section_of(frame, g);
    const PieceOutline image = mirrored(patterns[i].outline);
    g.label = label_of(i);
    if (alike(patterns[i], g.piece, image, s)) continue;
    const auto self = patterns.begin() + static_cast<std::ptrdiff_t>(i);
    const auto original = std::find_if(
        patterns.begin(), self, [&](const Pattern& p) { return alike(p, g.piece, image, s); });
    if (original != self) g.mirror_of = original->group.label;
  }
}

/// The bars for the groups from `first` up to `last`, which are of one size.
BarOrder order_of(const Frame& frame, const CutList& list, size_t first, size_t last,
                  Diagnostics& remarks) {
  std::vector<Piece> pieces;
  for (size_t i = first; i < last; ++i) {
    const CutGroup& g = list.groups[i];
    pieces.push_back({g.piece.long_point, static_cast<int>(g.names.size()), static_cast<int>(i)});
  }
  const CutGroup& longest = list.groups[first];
  const SectionEntry& s = section_of(frame, longest);
  BarOrder order;
  order.section = s.name;
  order.nesting = nest_pieces(pieces, {list.stock.length, list.stock.kerf, list.stock.end_trim});
  order.bar_mass = mass_per_length(frame, first_member(frame, longest.piece)) * list.stock.length;
  order.bar_price = bar_price(list.stock, s);
  for (const int id : order.nesting.too_long) {
    const CutGroup& g = list.groups[static_cast<size_t>(id)];
    add_warning(remarks, {}, longer_than_a_bar(g.label, g.names.front(), g.piece.long_point));
  }
  return order;
}

std::vector<BarOrder> orders_of(const Frame& frame, const CutList& list, Diagnostics& remarks) {
  std::vector<BarOrder> orders;
  const auto size = [&](size_t i) { return size_of(section_of(frame, list.groups[i])); };
  for (size_t first = 0, last = 0; first < list.groups.size(); first = last) {
    while (last < list.groups.size() && size(last) == size(first)) ++last;
    orders.push_back(order_of(frame, list, first, last, remarks));
  }
  return orders;
}

// Weldments
// ---------
double mass_as_cut(const Frame& frame, const CutPiece& piece) {
  return mass_per_length(frame, first_member(frame, piece)) *
         mean_length(outline_of(piece, find_section(frame, piece.tube.section)));
}

WeldmentPlan plan_of(const Frame& frame, const NumberedFrame& n, const CutWeldment& weldment,
                     const std::vector<CutPiece>& cut) {
  WeldmentPlan plan;
  plan.name = weldment.name;
  plan.single = is_single(weldment);
  std::vector<CutPiece> own;
  for (const size_t p : weldment.pieces) own.push_back(cut[p]);
  plan.weld_order = weld_order(frame, n, own);
  plan.shrinkage = weld_shrinkage(frame, n, own);
  for (const CutPiece& piece : own) {
    for (const TubeEnd& e : piece.ends) plan.joints += is_fitting(e.kind);
    if (!(piece.short_point > 0)) continue;
    plan.mass += mass_as_cut(frame, piece);
    plan.weld_length += piece.weld_length;
    for (const TubeEnd& e : piece.ends) plan.welds += e.weld_length > 0;
  }
  return plan;
}

/// Along each axis the weldment that draws in most.
void add_shrinkage(const WeldShrinkage& more, WeldShrinkage& sum) {
  sum.unknown += more.unknown;
  for (const DrawIn& d : more.along) {
    const auto same = std::find_if(sum.along.begin(), sum.along.end(),
                                   [&](const DrawIn& other) { return other.axis == d.axis; });
    if (same == sum.along.end()) {
      sum.along.push_back(d);
    } else if (d.amount > same->amount) {
      *same = d;
    }
  }
  std::stable_sort(sum.along.begin(), sum.along.end(),
                   [](const DrawIn& a, const DrawIn& b) { return a.axis < b.axis; });
}

void add_to_list(const WeldmentPlan& plan, CutList& list) {
  list.jig.insert(list.jig.end(), plan.jig.begin(), plan.jig.end());
  list.weld_order.insert(list.weld_order.end(), plan.weld_order.begin(), plan.weld_order.end());
  add_shrinkage(plan.shrinkage, list.shrinkage);
  list.mass += plan.mass;
  list.weld_length += plan.weld_length;
  list.welds += plan.welds;
}

/// The pieces of a weldment by group, in the order of both.
std::vector<WeldmentPlan::Share> shares_of(const CutWeldment& weldment,
                                           const std::vector<CutPiece>& cut,
                                           const std::map<std::string, size_t>& group_of) {
  std::map<size_t, WeldmentPlan::Share> shares;
  for (const size_t p : weldment.pieces) {
    const auto found = group_of.find(cut[p].tube.name);
    if (found == group_of.end()) continue;
    WeldmentPlan::Share& share = shares[found->second];
    share.group = found->second;
    share.names.push_back(found->first);
  }
  std::vector<WeldmentPlan::Share> list;
  for (auto& [group, share] : shares) list.push_back(std::move(share));
  return list;
}

/// A gusset belongs to what is welded at its node.
void note_gussets(const Frame& frame, const NumberedFrame& numbered, const CutWeldment& weldment,
                  std::vector<GussetCut>& cuts) {
  const auto stands_in = [&](const std::string& name) {
    const auto gusset = std::find_if(frame.gussets.begin(), frame.gussets.end(),
                                     [&](const Gusset& g) { return g.name == name; });
    const int node = node_numbers(numbered, {gusset->node}).front();
    return std::find(weldment.welded.begin(), weldment.welded.end(), node) != weldment.welded.end();
  };
  for (GussetCut& cut : cuts) {
    if (std::any_of(cut.names.begin(), cut.names.end(), stands_in)) {
      cut.weldments.push_back(weldment.name);
    }
  }
}

void add_weldments(const Frame& frame, const NumberedFrame& numbered,
                   const std::vector<CutPiece>& cut, CutList& list) {
  std::map<std::string, size_t> group_of;
  for (size_t g = 0; g < list.groups.size(); ++g) {
    for (const std::string& name : list.groups[g].names) group_of[name] = g;
  }
  const std::vector<JigCheck> checks = jig_checks(frame);
  for (const CutWeldment& weldment : cut_weldments(frame, numbered, cut)) {
    WeldmentPlan plan = plan_of(frame, numbered, weldment, cut);
    if (!plan.single) plan.jig = checks_among(checks, weldment.nodes);
    plan.shares = shares_of(weldment, cut, group_of);
    note_gussets(frame, numbered, weldment, list.gussets);
    add_to_list(plan, list);
    list.weldments.push_back(std::move(plan));
  }
}

std::vector<GussetCut> gusset_cuts(const Frame& frame) {
  std::vector<GussetCut> cuts;
  for (const Gusset& g : frame.gussets) {
    const GussetPlate plate = gusset_plate(frame, g);
    GussetCut cut;
    cut.long_leg = std::max(g.legs[0].length, g.legs[1].length);
    cut.short_leg = std::min(g.legs[0].length, g.legs[1].length);
    cut.angle = std::acos(g.legs[0].along.dot(g.legs[1].along));
    cut.thickness = g.thickness;
    cut.material = g.material;
    cut.mass = plate.mass / plate.plates;
    constexpr double alike = 1e-9;  // m and rad: rounding of an image
    const auto same = std::find_if(cuts.begin(), cuts.end(), [&](const GussetCut& c) {
      return std::abs(c.long_leg - cut.long_leg) < alike &&
             std::abs(c.short_leg - cut.short_leg) < alike &&
             std::abs(c.angle - cut.angle) < alike &&
             std::abs(c.thickness - cut.thickness) < alike && c.material == cut.material;
    });
    cut.label = "P" + std::to_string(cuts.size() + 1);
    GussetCut& to = same == cuts.end() ? cuts.emplace_back(std::move(cut)) : *same;
    to.plates += plate.plates;
    to.names.push_back(g.name);
  }
  return cuts;
}

}  // namespace

CutList cut_list(const Frame& frame) {
  const NumberedFrame numbered = build_model(frame);
  const std::vector<CutPiece> cut = cut_pieces(frame, numbered);
  CutList list;
  list.stock = frame.stock.value_or(Stock{});
  list.throats = weld_throats(frame, numbered);
  std::vector<Pattern> patterns;
  for (const CutPiece& piece : cut) {
    list.tube_names.push_back(piece.tube.name);
    if (is_sound(frame, piece, list.remarks)) add_to_groups(frame, piece, patterns);
  }
  sort_groups(patterns);
  name_groups(frame, patterns);
  for (Pattern& p : patterns) list.groups.push_back(std::move(p.group));
  list.gussets = gusset_cuts(frame);
  add_weldments(frame, numbered, cut, list);
  list.orders = orders_of(frame, list, list.remarks);
  return list;
}

}  // namespace tubewright
