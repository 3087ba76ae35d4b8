#include "cases/workshop/cut_list.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "cases/frame/bays.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/layout.h"
#include "cases/frame/wording.h"
#include "cases/model/mass_summary.h"
#include "cases/workshop/alike_pieces.h"

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

bool alike(const Pattern& p, const PieceOutline& outline, const SectionEntry& s) {
  return p.size == size_of(s) && cut_alike(p.outline, outline, s);
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
                            [&](const Pattern& p) { return alike(p, outline, s); });
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
    if (alike(patterns[i], image, s)) continue;
    const auto self = patterns.begin() + static_cast<std::ptrdiff_t>(i);
    const auto original =
        std::find_if(patterns.begin(), self, [&](const Pattern& p) { return alike(p, image, s); });
    if (original != self) g.mirror_of = original->group.label;
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
  order.bar_price = price_of(list.stock, s);
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

CutList cut_list(const Frame& frame) {
  const NumberedFrame numbered = build_model(frame);
  const std::vector<CutPiece> cut = cut_pieces(frame, numbered);
  CutList list;
  list.stock = frame.stock.value_or(Stock{});
  list.weld_order = weld_order(frame, numbered, cut);
  list.shrinkage = weld_shrinkage(frame, numbered, cut);
  list.throats = weld_throats(frame, numbered);
  std::vector<Pattern> patterns;
  for (const CutPiece& piece : cut) {
    list.tube_names.push_back(piece.tube.name);
    if (!is_sound(frame, piece, list.remarks)) continue;
    list.mass += mass_per_length(frame, first_member(frame, piece)) *
                 mean_length(outline_of(piece, find_section(frame, piece.tube.section)));
    list.weld_length += piece.weld_length;
    for (const TubeEnd& e : piece.ends) list.welds += e.weld_length > 0;
    add_to_groups(frame, piece, patterns);
  }
  sort_groups(patterns);
  name_groups(frame, patterns);
  for (Pattern& p : patterns) list.groups.push_back(std::move(p.group));
  list.orders = orders_of(frame, list, list.remarks);
  list.jig = jig_checks(frame);
  return list;
}

}  // namespace tubewright
