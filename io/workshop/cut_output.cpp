#include "io/workshop/cut_output.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "cases/frame/find_parts.h"
#include "cases/pieces/saw_angles.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"
#include "io/workshop/piece_words.h"
#include "io/workshop/sheet_output.h"
#include "io/workshop/weld_plan_output.h"
#include "io/workshop/weldment_output.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// How one piece is cut: both ends and how they lie to each other, or that it is an image.
std::string piece_lines(const CutList& list, const CutGroup& g) {
  if (!g.mirror_of.empty()) return "         mirror image of " + g.mirror_of + '\n';
  std::string text;
  for (const TubeEnd& e : g.piece.ends) text += wrapped("         ", end_text(list, e));
  if (const std::string turn = turn_text(g.piece); !turn.empty()) text += "         " + turn + '\n';
  for (const std::string& bend : bend_texts(g.piece)) text += wrapped("         ", bend);
  return text;
}

/// The pieces of some shares, which are in the order of the groups.
std::string pieces_table(const Frame& frame, const CutList& list, const std::string& heading,
                         const std::vector<WeldmentPlan::Share>& shares, Paint paint) {
  if (shares.empty()) return {};
  std::string text =
      paint.heading(heading) + '\n' +
      paint.faint(
          "  label  count   long mm  short mm  shrink  tubes; below them both ends, degrees from "
          "square") +
      '\n';
  std::string size;
  for (const WeldmentPlan::Share& share : shares) {
    const CutGroup& g = list.groups[share.group];
    const std::string here = size_text(find_section(frame, g.piece.tube.section));
    if (here != size) text += here + '\n';
    size = here;
    const std::string row = "  " + left(g.label, 5) + right(std::to_string(share.names.size()), 7) +
                            right(millimetres(g.piece.long_point), 10) +
                            right(millimetres(g.piece.short_point), 10) +
                            right(shrink_text(g.shrinkage), 8);
    text += wrapped(row + "  ", joined(share.names)) + piece_lines(list, g);
  }
  return text + '\n';
}

/// What nothing is welded to, together, in the order of the groups.
std::vector<WeldmentPlan::Share> single_shares(const CutList& list) {
  std::map<std::size_t, WeldmentPlan::Share> shares;
  for (const WeldmentPlan& w : list.weldments) {
    if (!w.single) continue;
    for (const WeldmentPlan::Share& share : w.shares) {
      WeldmentPlan::Share& sum = shares[share.group];
      sum.group = share.group;
      sum.names.insert(sum.names.end(), share.names.begin(), share.names.end());
    }
  }
  std::vector<WeldmentPlan::Share> list_of;
  for (auto& [group, share] : shares) list_of.push_back(std::move(share));
  return list_of;
}

std::string pieces_tables(const Frame& frame, const CutList& list, Paint paint) {
  if (!several_weldments(list)) {
    std::vector<WeldmentPlan::Share> all;
    for (std::size_t g = 0; g < list.groups.size(); ++g) all.push_back({g, list.groups[g].names});
    return list.groups.empty() ? paint.heading("Pieces") + "\n\n"
                               : pieces_table(frame, list, "Pieces", all, paint);
  }
  std::string text;
  for (const WeldmentPlan& w : list.weldments) {
    if (w.single) continue;
    text += pieces_table(frame, list, "Pieces" + of_weldment(list, w), w.shares, paint);
  }
  return text +
         pieces_table(frame, list, "Pieces that nothing is welded to", single_shares(list), paint);
}

std::string bar_text(const CutList& list, const CutBar& bar) {
  std::string text;
  for (const int id : bar.pieces) {
    const CutGroup& g = list.groups[static_cast<std::size_t>(id)];
    text += (text.empty() ? "" : ", ") + g.label + " " + millimetres(g.piece.long_point, 0);
  }
  return text + "; " + millimetres(bar.rest, 0) + " left";
}

/// Legs and angle from inner face to inner face.
std::string gusset_size(const GussetCut& g) {
  return millimetres(g.long_leg) + " x " + millimetres(g.short_leg) + " x " +
         millimetres(g.thickness) + ", " + fixed(g.angle * degrees_per_radian, 1) + " degrees, " +
         g.material;
}

std::string gusset_lines(const CutList& list, Paint paint) {
  if (list.gussets.empty()) return {};
  std::string text = paint.heading("Gussets") + ": legs and angle from inner face to inner face\n";
  for (const GussetCut& g : list.gussets) {
    text += left(g.label, 4) + std::to_string(g.plates) + " of " + gusset_size(g) + ", " +
            fixed(g.mass, 3) + " kg each\n" + wrapped("    ", joined(g.names));
  }
  return text + '\n';
}

ordered_json gussets_json(const CutList& list) {
  ordered_json rows = ordered_json::array();
  for (const GussetCut& g : list.gussets) {
    rows.push_back({{"label", g.label},
                    {"plates", g.plates},
                    {"legs", {number(g.long_leg * mm_per_m), number(g.short_leg * mm_per_m)}},
                    {"angle", number(g.angle * degrees_per_radian)},
                    {"thickness", number(g.thickness * mm_per_m)},
                    {"material", g.material},
                    {"mass", number(g.mass)},
                    {"names", g.names},
                    {"weldments", g.weldments}});
  }
  return rows;
}

std::string order_lines(const Frame& frame, const CutList& list, Paint paint) {
  std::string text = paint.heading("Bars to buy") + ": " + millimetres(list.stock.length, 0) +
                     " mm, saw cut " + millimetres(list.stock.kerf) + ", " +
                     millimetres(list.stock.end_trim, 0) + " off each end\n";
  for (const BarOrder& o : list.orders) {
    const Nesting& n = o.nesting;
    text += std::to_string(n.bars_needed) + " of " + size_text(find_section(frame, o.section)) +
            ", " + fixed(n.bars_needed * o.bar_mass, 1) + " kg";
    if (o.bar_price) text += ", price " + fixed(n.bars_needed * *o.bar_price, 2);
    text += n.optimal ? ": fewer do not do\n"
                      : ": at least " + std::to_string(n.lower_bound) + " are needed\n";
    for (const CutBar& bar : n.bars) text += wrapped("    ", bar_text(list, bar));
  }
  return text + '\n';
}

std::string jig_lines(const CutList& list, Paint paint) {
  std::string text;
  for (const WeldmentPlan& w : list.weldments) {
    if (w.jig.empty()) continue;
    text += paint.heading("On the jig" + of_weldment(list, w)) + ": diagonals between nodes, mm\n";
    for (const JigCheck& c : w.jig) {
      text += right(millimetres(c.first), 10) + "  " + c.corners[0] + " - " + c.corners[2] +
              right(millimetres(c.second), 12) + "  " + c.corners[1] + " - " + c.corners[3] + '\n';
    }
    text += '\n';
  }
  return text;
}

std::string total_lines(const CutList& list) {
  return fixed(list.mass, 2) + " kg as cut; " + fixed(list.weld_length, 2) + " m of weld at " +
         std::to_string(list.welds) + " ends\n";
}

const std::vector<std::string>& habits() {
  static const std::vector<std::string> list = {
      "Lengths are point to point on the outer faces, ends as tight as drawn: leave the gap your "
      "welding wants, usually 0 to 1 mm an end.",
      "Tack all joints first, on opposite sides of each tube, and measure the diagonals; leave the "
      "frame in the jig until it is cold (common practice, no source).",
      "Cut one of each and try it on the jig before cutting the rest."};
  return list;
}

ordered_json turn_json(const CutPiece& piece) {
  const std::optional<double> turn = turn_between_ends(piece);
  return turn ? number(*turn * degrees_per_radian) : ordered_json(nullptr);
}

ordered_json end_json(const CutList& list, const TubeEnd& e) {
  ordered_json planes = ordered_json::array();
  for (const EndCut& cut : e.cuts) {
    if (cut.against < 0 && e.cuts.size() > 1) continue;  // the open end beside what it stands on
    for (const CutPlane& p : cut.planes) {
      if (only_divides(p)) continue;
      const SawAngles a = saw_angles(p);
      planes.push_back({{"at", number(p.at * mm_per_m)},
                        {"mitre", number(a.mitre * degrees_per_radian)},
                        {"bevel", number(a.bevel * degrees_per_radian)}});
    }
  }
  return {{"kind", kind_word(e.kind)},
          {"planes", std::move(planes)},
          {"trim_to", other_tubes(list, e, false)},
          {"mitre_to", other_tubes(list, e, true)},
          {"text", end_text(list, e)}};
}

ordered_json bends_json(const CutPiece& piece) {
  ordered_json bends = ordered_json::array();
  for (const TubeBend& b : piece.bends) {
    bends.push_back({{"node", b.node},
                     {"at", number((b.at - piece.first_point) * mm_per_m)},
                     {"angle", number(b.angle * degrees_per_radian)},
                     {"radius", number(b.radius * mm_per_m)},
                     {"turn", number(b.turn * degrees_per_radian)},
                     {"bend_to", number(b.bent_to * degrees_per_radian)},
                     {"die_radius", number(b.die_radius * mm_per_m)},
                     {"outer_wall", number(b.outer_wall * mm_per_m)},
                     {"inner_wall", number(b.inner_wall * mm_per_m)},
                     {"elongation", number(b.elongation)}});
  }
  return bends;
}

ordered_json pieces_json(const Frame& frame, const CutList& list) {
  ordered_json pieces = ordered_json::object();
  for (const CutGroup& g : list.groups) {
    pieces[g.label] = {
        {"count", g.names.size()},
        {"members", g.names},
        {"mirror_of", g.mirror_of.empty() ? ordered_json(nullptr) : ordered_json(g.mirror_of)},
        {"section", g.piece.tube.section},
        {"size", size_text(find_section(frame, g.piece.tube.section))},
        {"long_point", number(g.piece.long_point * mm_per_m)},
        {"short_point", number(g.piece.short_point * mm_per_m)},
        {"mass", number(g.mass)},
        {"weld_length", number(g.piece.weld_length * mm_per_m)},
        {"shrinkage", shrinkage_json(g.shrinkage)},
        {"turn", turn_json(g.piece)},
        {"bends", bends_json(g.piece)},
        {"ends",
         ordered_json::array({end_json(list, g.piece.ends[0]), end_json(list, g.piece.ends[1])})}};
  }
  return pieces;
}

ordered_json order_json(const Frame& frame, const CutList& list, const BarOrder& o) {
  ordered_json bars = ordered_json::array();
  for (const CutBar& bar : o.nesting.bars) {
    ordered_json labels = ordered_json::array();
    for (const int id : bar.pieces) {
      labels.push_back(list.groups[static_cast<std::size_t>(id)].label);
    }
    bars.push_back({{"pieces", std::move(labels)}, {"rest", number(bar.rest * mm_per_m)}});
  }
  return {
      {"section", o.section},
      {"size", size_text(find_section(frame, o.section))},
      {"bars", o.nesting.bars_needed},
      {"least_bars", o.nesting.lower_bound},
      {"optimal", o.nesting.optimal},
      {"mass", number(o.nesting.bars_needed * o.bar_mass)},
      {"price", o.bar_price ? number(o.nesting.bars_needed * *o.bar_price) : ordered_json(nullptr)},
      {"waste", number(o.nesting.waste * mm_per_m)},
      {"cut_plan", std::move(bars)}};
}

/// Names of those that a group has pieces in.
std::vector<std::string> weldments_with(const CutList& list, std::size_t group) {
  std::vector<std::string> names;
  for (const WeldmentPlan& w : list.weldments) {
    const bool has = std::any_of(w.shares.begin(), w.shares.end(),
                                 [&](const auto& share) { return share.group == group; });
    if (has) names.push_back(w.name);
  }
  return names;
}

std::string quoted_csv(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

}  // namespace

std::string cut_line(const CutList& list) {
  int bars = 0;
  double mass = 0;
  for (const BarOrder& o : list.orders) {
    bars += o.nesting.bars_needed;
    mass += o.nesting.bars_needed * o.bar_mass;
  }
  return std::to_string(bars) + (bars == 1 ? " bar, " : " bars, ") + fixed(mass, 1) + " kg\n";
}

std::string cut_text(const Frame& frame, const CutList& list, const SheetBlanks& sheets,
                     Paint paint) {
  return paint.heading(one_line(frame.title, terminal_columns)) + '\n' + total_lines(list) + '\n' +
         weldments_table(list, paint) + pieces_tables(frame, list, paint) +
         gusset_lines(list, paint) + order_lines(frame, list, paint) + jig_lines(list, paint) +
         weld_order_table(list, paint) + throat_lines(frame, list, paint) +
         shrinkage_lines(list, paint) + sheets_text(frame, sheets, paint) +
         list_lines("Before you cut", habits(), paint) +
         list_lines("Bear in mind", cautions(), paint);
}

ordered_json cut_part(const Frame& frame, const CutList& list, const SheetBlanks& sheets) {
  ordered_json orders = ordered_json::array();
  for (const BarOrder& o : list.orders) orders.push_back(order_json(frame, list, o));
  Diagnostics remarks = list.remarks;
  append(remarks, sheets.remarks);
  return {{"stock",
           {{"length", number(list.stock.length * mm_per_m)},
            {"kerf", number(list.stock.kerf * mm_per_m)},
            {"end_trim", number(list.stock.end_trim * mm_per_m)}}},
          {"mass", number(list.mass)},
          {"weld_length", number(list.weld_length * mm_per_m)},
          {"welds", list.welds},
          {"pieces", pieces_json(frame, list)},
          {"orders", orders},
          {"gussets", gussets_json(list)},
          {"weldments", weldments_json(list)},
          {"jig", jig_json(list.jig)},
          {"weld_order", weld_order_json(list.weld_order)},
          {"throats", throats_json(list)},
          {"shrinkage", draw_in_json(list.shrinkage)},
          {"sheets", sheets_json(frame, sheets)},
          {"advice", habits()},
          {"remarks", diagnostics_json(remarks)}};
}

std::string cut_json(const Frame& frame, const CutList& list, const SheetBlanks& sheets,
                     const Diagnostics& warnings) {
  Diagnostics all = warnings;
  append(all, list.remarks);
  append(all, sheets.remarks);
  JsonLines out;
  start_results(out, frame, true, all, {});
  out.open("cut");
  const ordered_json part = cut_part(frame, list, sheets);
  for (const auto& [key, value] : part.items()) {
    if (key == "pieces") {
      out.rows(key, value);
    } else {
      out.row(key, value);
    }
  }
  out.close();
  return out.finish();
}

std::string cut_csv(const Frame& frame, const CutList& list) {
  const bool several = several_weldments(list), plates = !list.gussets.empty();
  std::string text =
      "label,count,size,long_point_mm,short_point_mm,first_end,second_end,turn,mirror_of,"
      "shrink_mm,mass_kg,members" +
      std::string(plates ? ",thickness_mm,material,long_leg_mm,short_leg_mm,angle_deg" : "") +
      (several ? ",weldments\r\n" : "\r\n");
  const auto end_line = [&](const std::vector<std::string>& weldments) {
    return (several ? ',' + quoted_csv(joined(weldments)) : "") + "\r\n";
  };
  for (std::size_t i = 0; i < list.groups.size(); ++i) {
    const CutGroup& g = list.groups[i];
    const std::string shrink = g.shrinkage[0] && g.shrinkage[1] ? shrink_text(g.shrinkage) : "";
    text += g.label + ',' + std::to_string(g.names.size()) + ',' +
            quoted_csv(size_text(find_section(frame, g.piece.tube.section))) + ',' +
            millimetres(g.piece.long_point) + ',' + millimetres(g.piece.short_point) + ',' +
            quoted_csv(end_text(list, g.piece.ends[0])) + ',' +
            quoted_csv(end_text(list, g.piece.ends[1])) + ',' + quoted_csv(turn_text(g.piece)) +
            ',' + g.mirror_of + ',' + shrink + ',' + fixed(g.mass, 3) + ',' +
            quoted_csv(joined(g.names)) + (plates ? ",,,,," : "") +
            end_line(weldments_with(list, i));
  }
  for (const GussetCut& g : list.gussets) {
    text += g.label + ',' + std::to_string(g.plates) + ',' +
            quoted_csv("gusset " + gusset_size(g)) + ",,,,,,,," + fixed(g.mass, 3) + ',' +
            quoted_csv(joined(g.names)) + ',' + millimetres(g.thickness) + ',' +
            quoted_csv(g.material) + ',' + millimetres(g.long_leg) + ',' +
            millimetres(g.short_leg) + ',' + fixed(g.angle * degrees_per_radian, 1) +
            end_line(g.weldments);
  }
  return text;
}

}  // namespace tubewright
