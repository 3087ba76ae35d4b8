#include "io/summary/summary.h"

#include <algorithm>

#include "io/results/cautions.h"
#include "io/results/joints_output.h"
#include "io/results/outlook_output.h"
#include "io/results/verdict_words.h"
#include "io/summary/case_summary.h"
#include "io/summary/vehicle_summary.h"
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
  return text + joints_lines(analysis.joints, "") + vehicle_lines(analysis) + '\n';
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
    if (c->worst) text += "  " + in_words(c->worst->check) + " of " + c->worst->item;
    text += '\n';
  }
  return text + '\n';
}

std::string exit_line(const FrameStudies& studies) {
  switch (studies.verdict.answer) {
    case Verdict::Answer::pass:
      return "exit code 0: answered, everything was checked and passes\n";
    case Verdict::Answer::not_proven:
      return "exit code 1: answered, nothing fails, not everything is proven\n";
    case Verdict::Answer::fail:
      break;
  }
  return "exit code 1: answered, something fails\n";
}

}  // namespace

std::string summary(const FrameStudies& studies, Paint paint) {
  const Analysis& analysis = studies.analysis;
  std::string text = verdict(studies, paint) + '\n';
  text += wrapped("", coverage_sentence(studies.verdict));
  for (const std::string& reason : verdict_reasons(studies.verdict)) text += wrapped("- ", reason);
  text += '\n' + title_lines(analysis, paint);
  for (const CaseResult& result : analysis.cases) {
    text += case_summary(analysis, result, paint) + '\n';
  }
  text += case_ranking(analysis, paint);
  text += what_if_lines(studies, paint) + fatigue_lines(studies, paint);
  const std::vector<std::string> compared = comparisons(studies.analysis);
  if (!compared.empty()) text += list_lines("Checked by comparison", compared, paint);
  text += list_lines("Not looked at", not_looked_at(analysis), paint);
  text += list_lines("Bear in mind", cautions(), paint);
  return text + '\n' + exit_line(studies) + verdict(studies, paint) + '\n';
}

}  // namespace tubewright
