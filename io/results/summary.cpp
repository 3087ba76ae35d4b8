#include "io/results/summary.h"

#include <algorithm>

#include "io/results/case_summary.h"
#include "io/results/cautions.h"
#include "io/results/outlook_output.h"
#include "io/results/panel_summary.h"
#include "io/results/vehicle_summary.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

std::string title_lines(const Analysis& analysis, Paint paint) {
  const MassSummary& mass = analysis.mass;
  const Eigen::Vector3d centre = mass.centre * mm_per_m;
  std::string text = paint.heading(one_line(analysis.frame.title, terminal_columns)) + '\n';
  text += "mass " + fixed(mass.total, 2) + " kg: tubes " + fixed(mass.tubes, 2) + ", panels " +
          fixed(mass.panels, 2) + ", carried " + fixed(mass.carried, 2);
  if (mass.total > 0) {
    text += "; centre x " + fixed(centre.x(), 0) + ", y " + fixed(centre.y(), 0) + ", z " +
            fixed(centre.z(), 0) + " mm";
  }
  text += '\n';
  if (analysis.options.second_order) {
    text +=
        "second order: axial forces act on the displaced frame, with the reserve of each case\n";
  }
  if (analysis.options.large_displacement) {
    text +=
        "large displacements: equilibrium on the deformed frame; checks under the loads times the "
        "reserve\n";
  }
  return text + vehicle_lines(analysis) + '\n';
}

/// The cases, the one nearest its limit first.
std::string case_ranking(const Analysis& analysis, Paint paint) {
  if (analysis.cases.size() < 2) return {};
  std::vector<const CaseResult*> order;
  std::size_t width = 4;
  for (const CaseResult& result : analysis.cases) {
    order.push_back(&result);
    width = std::max(width, std::min<std::size_t>(result.name.size(), 32));
  }
  const auto used = [](const CaseResult* c) { return c->worst ? c->worst->utilisation : -1; };
  std::stable_sort(order.begin(), order.end(),
                   [&](const CaseResult* a, const CaseResult* b) { return used(a) > used(b); });
  std::string text = paint.heading("Cases, nearest the limit first") + '\n';
  for (const CaseResult* c : order) {
    text += right(c->worst ? utilisation_text(used(c)) : "-", 8) + "  " + left(c->name, width);
    if (c->worst) text += "  " + check_words(c->worst->check) + " of " + c->worst->item;
    text += '\n';
  }
  return text + '\n';
}

struct Governing {
  const CaseResult* result = nullptr;
  int failing_members = 0;
  int failing_panels = 0;
  int failing_cases = 0;
};

Governing governing_case(const Analysis& analysis) {
  Governing found;
  std::vector<bool> fails(analysis.frame.members.size());
  std::vector<bool> panel_fails(analysis.frame.panels.size());
  for (const CaseResult& result : analysis.cases) {
    const std::vector<int> failing = failing_members(result);
    for (const int member : failing) fails[static_cast<std::size_t>(member)] = true;
    for (const int p : failing_panels(result)) panel_fails[static_cast<std::size_t>(p)] = true;
    if (!result.passes()) ++found.failing_cases;
    if (result.worst &&
        (!found.result || result.worst->utilisation > found.result->worst->utilisation)) {
      found.result = &result;
    }
  }
  for (const bool failed : fails) found.failing_members += failed;
  for (const bool failed : panel_fails) found.failing_panels += failed;
  return found;
}

std::string counted(int count, const std::string& noun) {
  return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

std::string painted(std::string text, Paint paint) {
  constexpr std::size_t word = 4;
  if (text.starts_with("PASS")) return paint.good("PASS") + text.substr(word);
  if (text.starts_with("FAIL")) return paint.bad("FAIL") + text.substr(word);
  return text;
}

std::string exit_line(const FrameStudies& studies) {
  return exit_code(studies) == 0 ? "exit code 0: answered, no check fails\n"
                                 : "exit code 1: answered, at least one check fails\n";
}

}  // namespace

int exit_code(const FrameStudies& studies) { return studies.passes() ? 0 : 1; }

std::string verdict_sentence(const FrameStudies& studies) {
  const Analysis& analysis = studies.analysis;
  const Governing found = governing_case(analysis);
  if (studies.fatigue && studies.fatigue->counts && !studies.fatigue->passes() &&
      (!found.result || found.result->passes())) {
    const FatigueScreening& f = *studies.fatigue;
    const auto worst = static_cast<std::size_t>(f.worst);
    return "FAIL: " + analysis.frame.members[worst].name + " does not last the life asked for: " +
           utilisation_text(*f.members[worst].result.utilisation) +
           " of the stress range that would; every load case passes";
  }
  if (const auto used = mass_share(analysis);
      used && !passes(*used) && (!found.result || found.result->passes())) {
    return "FAIL: the frame weighs " + fixed(analysis.mass.tubes + analysis.mass.panels, 2) +
           " kg of the " + fixed(*analysis.frame.limits.mass, 2) +
           " kg allowed; every load case passes";
  }
  if (!found.result) return "NOT CHECKED: no check could be made, only movements and forces found";
  const Worst& worst = *found.result->worst;
  const std::string place = worst.item + " in case " + found.result->name;
  const std::string used =
      utilisation_text(worst.utilisation) + " of its " + check_words(worst.check) + " limit";
  if (studies.passes()) {
    return "PASS: every check made passes; " + place + " comes closest, at " + used + ", with " +
           utilisation_text(1 - worst.utilisation) + " in hand";
  }
  return "FAIL: " + place + " is loaded to " + used + ", " +
         utilisation_text(worst.utilisation - 1) + " too much; " +
         counted(found.failing_members, "member") +
         (found.failing_panels > 0 ? " and " + counted(found.failing_panels, "panel") : "") +
         " over the limit in " + std::to_string(found.failing_cases) + " of " +
         counted(static_cast<int>(analysis.cases.size()), "case");
}

std::string verdict(const FrameStudies& studies, Paint paint) {
  return painted(verdict_sentence(studies), paint);
}

std::string summary(const FrameStudies& studies, Paint paint) {
  const Analysis& analysis = studies.analysis;
  std::string text = title_lines(analysis, paint);
  for (const CaseResult& result : analysis.cases) {
    text += case_summary(analysis, result, paint) + '\n';
  }
  text += case_ranking(analysis, paint);
  text += painted(wrapped("", verdict_sentence(studies)), paint) + exit_line(studies) + '\n';
  text += what_if_lines(studies, paint) + fatigue_lines(studies, paint);
  text += list_lines("Not checked", checks_not_made(studies), paint);
  text += list_lines("Bear in mind", cautions(), paint);
  return text;
}

}  // namespace tubewright
