#include "io/summary/panel_summary.h"

#include <algorithm>

#include "io/summary/ranked_rows.h"
#include "io/text/text_layout.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

constexpr std::size_t panels_shown = 5;

double utilisation(const PanelResult& panel) {
  const NamedCheck* nearest = nearest_limit(panel.checks);
  return nearest == nullptr ? -1 : *nearest->result.utilisation;
}

std::string state_words(const PanelResult& panel) {
  if (panel.stage.tension_share == 0) {
    return "flat, buckles at " + fixed(panel.critical_stress * MPa_per_Pa, 2) + " MPa";
  }
  return "buckled beyond " + fixed(panel.critical_stress * MPa_per_Pa, 2) + " MPa, keeps " +
         fixed(100 * panel.stage.secant_ratio, 0) + " %";
}

std::string panel_row(const std::string& name, const PanelResult& panel, std::size_t name_width,
                      Paint paint) {
  const NamedCheck* nearest = nearest_limit(panel.checks);
  const double used = utilisation(panel);
  const std::string word = nearest == nullptr ? "    "
                           : used > 1         ? paint.bad("FAIL")
                                              : paint.good("pass");
  return right(nearest == nullptr ? "-" : utilisation_text(used), 8) + "  " + word + "  " +
         left(nearest == nullptr ? "-" : in_words(nearest->name), 20) + " " +
         left(name, name_width) + right(fixed(panel.flow * N_mm_per_N_m, 2), 8) + " N/mm" +
         right(panel.rivet_load ? fixed(*panel.rivet_load, 0) + " N" : "-", 9) + "  " +
         state_words(panel) + '\n';
}

}  // namespace

std::vector<int> failing_panels(const CaseResult& result) {
  std::vector<int> failing;
  for (std::size_t p = 0; p < result.panels.size(); ++p) {
    if (utilisation(result.panels[p]) > 1) failing.push_back(static_cast<int>(p));
  }
  return failing;
}

std::string panel_rows(const Analysis& analysis, const CaseResult& result, Paint paint) {
  if (result.panels.empty()) return {};
  const std::vector<std::size_t> order = worst_first(
      result.panels.size(), [&](std::size_t i) { return utilisation(result.panels[i]); });
  const std::size_t shown = std::min(order.size(), panels_shown);
  std::size_t width = 6;
  for (std::size_t k = 0; k < shown; ++k) {
    width = std::max(width, std::min<std::size_t>(analysis.frame.panels[order[k]].name.size(), 20));
  }
  std::string text = paint.faint("    used        check                " + left("panel", width) +
                                 right("shear flow", 13) + right("rivet", 9) + "  sheet") +
                     '\n';
  for (std::size_t k = 0; k < shown; ++k) {
    text += panel_row(analysis.frame.panels[order[k]].name, result.panels[order[k]], width, paint);
  }
  return text + rest_line(order.size(), shown);
}

}  // namespace tubewright
