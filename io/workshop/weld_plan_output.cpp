#include "io/workshop/weld_plan_output.h"

#include "cases/frame/find_parts.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/workshop/piece_words.h"
#include "io/workshop/weldment_output.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr const char* axis_names[] = {"x", "y", "z"};

std::string order_heading(const CutList& list, const WeldmentPlan& w, Paint paint) {
  const std::string rule =
      "all tacked before: far from what is still warm, images one after the other\n";
  if (!several_weldments(list)) return paint.heading("Weld in this order") + ", " + rule;
  return paint.heading("Weld in this order" + of_weldment(list, w)) + '\n' + "  " + rule;
}

}  // namespace

std::string shrink_text(const EndShrinkage& ends) {
  if (!ends[0] || !ends[1]) return "-";
  return fixed((*ends[0] + *ends[1]) * mm_per_m, 2);
}

std::string weld_order_table(const CutList& list, Paint paint) {
  std::string text;
  for (const WeldmentPlan& w : list.weldments) {
    if (w.weld_order.empty()) continue;
    text += order_heading(list, w, paint) + paint.faint("  step   ends   weld mm  nodes") + '\n';
    int step = 0;
    for (const WeldStep& s : w.weld_order) {
      text += wrapped(right(std::to_string(++step), 6) + right(std::to_string(s.ends), 7) +
                          right(fixed(s.weld_length * mm_per_m, 0), 10) + "  ",
                      joined(s.nodes));
    }
    text += '\n';
  }
  return text;
}

std::string throat_lines(const Frame& frame, const CutList& list, Paint paint) {
  if (list.throats.empty()) return {};
  std::string text =
      paint.heading("Throats") +
      " to be as strong as the wall (EN 1993-1-8 7.3.1(4)), which the checks count on\n";
  for (const WeldThroat& t : list.throats) {
    const SectionEntry& section = find_section(frame, t.section);
    text += wrapped(
        right(fixed(t.throat * mm_per_m, 2), 8) + " mm at the ends of " + size_text(section) + ": ",
        joined(t.members));
  }
  return text + '\n';
}

std::string shrinkage_lines(const CutList& list, Paint paint) {
  if (list.shrinkage.along.empty() && list.shrinkage.unknown == 0) return {};
  std::string text = paint.heading("Shrinkage of the welds") +
                     ": 0.1 x area of weld / wall each, in no length above: cut a piece longer\n"
                     "by `shrink`, or let the frame draw in by up to\n";
  for (const WeldmentPlan& w : list.weldments) {
    for (const DrawIn& d : w.shrinkage.along) {
      const std::string amount = right(fixed(d.amount * mm_per_m, 1), 8) + " mm along " +
                                 axis_names[d.axis] + of_weldment(list, w) + " by " +
                                 std::to_string(d.welds) + (d.welds == 1 ? " weld" : " welds") +
                                 ": ";
      text += wrapped(amount, joined(d.row));
    }
  }
  if (list.shrinkage.unknown > 0) {
    text += wrapped("  ", "No rule is known for " + std::to_string(list.shrinkage.unknown) +
                              " ends that are not steel tube: weld a sample and measure.");
  }
  return text + '\n';
}

ordered_json shrinkage_json(const EndShrinkage& ends) {
  ordered_json both = ordered_json::array();
  for (const std::optional<double>& end : ends) {
    both.push_back(end ? number(*end * mm_per_m) : ordered_json(nullptr));
  }
  return both;
}

ordered_json weld_order_json(const std::vector<WeldStep>& steps) {
  ordered_json order = ordered_json::array();
  for (const WeldStep& s : steps) {
    order.push_back(
        {{"nodes", s.nodes}, {"ends", s.ends}, {"weld_length", number(s.weld_length * mm_per_m)}});
  }
  return order;
}

ordered_json throats_json(const CutList& list) {
  ordered_json throats = ordered_json::array();
  for (const WeldThroat& t : list.throats) {
    throats.push_back(
        {{"section", t.section}, {"throat", number(t.throat * mm_per_m)}, {"members", t.members}});
  }
  return throats;
}

ordered_json draw_in_json(const WeldShrinkage& shrinkage) {
  ordered_json along = ordered_json::object();
  for (const DrawIn& d : shrinkage.along) {
    along[axis_names[d.axis]] = {
        {"draw_in", number(d.amount * mm_per_m)}, {"welds", d.welds}, {"row", d.row}};
  }
  return {{"along", std::move(along)}, {"unknown_ends", shrinkage.unknown}};
}

}  // namespace tubewright
