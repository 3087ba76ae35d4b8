#include "io/workshop/weldment_output.h"

#include <algorithm>

#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/workshop/piece_words.h"
#include "io/workshop/weld_plan_output.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

std::size_t pieces_in(const WeldmentPlan& w) {
  std::size_t count = 0;
  for (const WeldmentPlan::Share& share : w.shares) count += share.names.size();
  return count;
}

std::string weldment_row(std::size_t pieces, double mass, double weld_length, int ends,
                         const std::string& name) {
  return wrapped(right(std::to_string(pieces), 8) + right(fixed(mass, 2), 10) +
                     right(fixed(weld_length, 2), 9) + right(std::to_string(ends), 7) + "  ",
                 name);
}

ordered_json weldment_json(const CutList& list, const WeldmentPlan& w) {
  ordered_json pieces = ordered_json::object();
  for (const WeldmentPlan::Share& share : w.shares) {
    pieces[list.groups[share.group].label] = share.names;
  }
  return {{"name", w.name},
          {"single", w.single},
          {"pieces", std::move(pieces)},
          {"mass", number(w.mass)},
          {"weld_length", number(w.weld_length * mm_per_m)},
          {"welds", w.welds},
          {"joints", w.joints},
          {"jig", jig_json(w.jig)},
          {"weld_order", weld_order_json(w.weld_order)},
          {"shrinkage", draw_in_json(w.shrinkage)}};
}

}  // namespace

bool several_weldments(const CutList& list) { return list.weldments.size() > 1; }

std::string of_weldment(const CutList& list, const WeldmentPlan& weldment) {
  if (!several_weldments(list)) return {};
  return (&weldment == &list.weldments.front() && !weldment.single ? " of the " : " of ") +
         weldment.name;
}

std::string weldments_table(const CutList& list, Paint paint) {
  if (!several_weldments(list)) return {};
  std::string text =
      paint.heading("Weldments") +
      ": parted where the file releases an end, and at links; weld each by itself\n" +
      paint.faint("  pieces   mass kg   weld m   ends  weldment") + '\n';
  double mass = 0;
  std::vector<std::string> singles;
  for (const WeldmentPlan& w : list.weldments) {
    if (w.single) {
      mass += w.mass;
      for (const WeldmentPlan::Share& share : w.shares) singles.push_back(share.names.front());
      continue;
    }
    text += weldment_row(pieces_in(w), w.mass, w.weld_length, w.welds, w.name);
  }
  if (!singles.empty()) {
    text += weldment_row(singles.size(), mass, 0, 0, "nothing is welded to " + joined(singles));
  }
  return text + '\n';
}

ordered_json weldments_json(const CutList& list) {
  ordered_json weldments = ordered_json::array();
  for (const WeldmentPlan& w : list.weldments) weldments.push_back(weldment_json(list, w));
  return weldments;
}

ordered_json jig_json(const std::vector<JigCheck>& checks) {
  ordered_json jig = ordered_json::array();
  for (const JigCheck& c : checks) {
    jig.push_back({{"corners", c.corners},
                   {"diagonals", {number(c.first * mm_per_m), number(c.second * mm_per_m)}}});
  }
  return jig;
}

}  // namespace tubewright
