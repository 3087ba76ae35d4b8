#include "cases/sizing/design_check.h"

#include <algorithm>
#include <limits>

#include "cases/changes/loss_study.h"
#include "cases/checks/check_result.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion.h"
#include "cases/verdict/verdict.h"

namespace tubewright {

namespace {

AnalysisOptions only_the_worst() { return {false, false, {true, {}}}; }

bool all_pass(const Analysis& analysis) {
  return std::all_of(analysis.cases.begin(), analysis.cases.end(),
                     [](const CaseResult& c) { return c.passes(); });
}

bool frequency_met(const Frame& frame) {
  if (!frame.limits.frequency) return true;
  constexpr int lowest = 4;  // as limit_checks() looks for it
  const Result<FrameModes> modes = frame_modes(frame, lowest);
  return modes && lowest_elastic(*modes) != nullptr && modes_pass(frame, *modes);
}

/// Screened only where the file says what the frame is to last.
bool lasts(const Frame& frame) {
  if (!frame.life) return true;
  const Result<Analysis> analysis = analyse(frame);
  if (!analysis) return false;
  const auto fatigue = fatigue_screening(*analysis);
  return fatigue && (!*fatigue || (*fatigue)->passes());
}

/// Welds without which the frame does not bear its loads at a safety factor of 1.
std::vector<Failure> broken_welds(const Frame& frame) {
  std::vector<Failure> list;
  const Result<LossStudy> study = loss_study(frame);
  if (!study) return {{"broken_weld", "frame", "", std::numeric_limits<double>::infinity()}};
  for (const Loss& loss : study->losses) {
    if (loss.kind != LossKind::end || !loss.must_hold) continue;
    list.push_back({"broken_weld", loss.name, "", loss.worst});
  }
  return list;
}

}  // namespace

bool DesignCheck::passes(const Choice& choice) const {
  ++count_;
  const Frame frame = in_sizes(frame_, groups_, choice);
  const JointedFrame jointed = jointed_frame(frame);
  const KnownBefore known{nullptr, &jointed};
  const Limits& limits = frame.limits;
  if (options_.cheapest && limits.mass) {
    const MassSummary mass = mass_summary(frame, jointed.numbered);
    if (!tubewright::passes((mass.tubes + mass.panels) / *limits.mass)) return false;
  }
  if (limits.torsional_stiffness) {
    const auto stiffness = torsional_stiffness(frame, TorsionHold::free, known);
    if (!stiffness || !tubewright::passes(*limits.torsional_stiffness / *stiffness)) return false;
  }
  if (frame.cases.size() > 1) {
    const std::string& suspect = frame.cases[failed_last_].name;
    const Result<Analysis> one = analyse(frame, {suspect}, only_the_worst(), tell_nobody, known);
    if (!one || !all_pass(*one)) return false;
  }
  if (!frame.cases.empty()) {
    const Result<Analysis> all = analyse(frame, {}, only_the_worst(), tell_nobody, known);
    if (!all) return false;
    for (size_t c = 0; c < all->cases.size(); ++c) {
      if (all->cases[c].passes()) continue;
      failed_last_ = c;
      return false;
    }
  }
  return frequency_met(frame) && lasts(frame) &&
         (!options_.fail_safe || broken_welds(frame).empty());
}

SizedDesign DesignCheck::analysed(const Choice& choice) const {
  SizedDesign design;
  design.choice = choice;
  const Frame frame = in_sizes(frame_, groups_, choice);
  const NumberedFrame numbered = build_model(frame);
  const MassSummary mass = mass_summary(frame, numbered);
  design.mass = mass.tubes + mass.panels;
  double cost = 0;
  bool priced = true;
  for (size_t g = 0; g < groups_.size(); ++g) {
    const std::vector<double>& costs = groups_[g].costs;
    priced = priced && !costs.empty() && choice[g] >= 0;
    if (priced) cost += costs[static_cast<size_t>(choice[g])];
  }
  if (priced) design.cost = cost;
  const Result<Analysis> analysis = analyse(frame);
  if (!analysis) {
    design.excesses.push_back({"no_answer", "frame", "", std::numeric_limits<double>::infinity()});
    return design;
  }
  const std::vector<LimitCheck> limits = limit_checks(*analysis);
  for (const LimitCheck& limit : limits) {
    if (limit.name == "frequency" && limit.result.utilisation) design.frequency = limit.found;
    if (lacks_number(limit.result)) {
      design.excesses.push_back({limit.name, "frame", "", std::numeric_limits<double>::infinity()});
    }
  }
  auto fatigue = fatigue_screening(*analysis);
  const Verdict verdict =
      verdict_of(*analysis, limits, fatigue ? *fatigue : std::optional<FatigueScreening>());
  design.excesses.insert(design.excesses.end(), verdict.failures.begin(), verdict.failures.end());
  if (options_.fail_safe) {
    for (const Failure& weld : broken_welds(frame)) design.excesses.push_back(weld);
  }
  std::stable_sort(
      design.excesses.begin(), design.excesses.end(),
      [](const Failure& a, const Failure& b) { return a.utilisation > b.utilisation; });
  design.worst = worst_of_all(*analysis);
  if (frame.torsion) design.stiffness = torsional_stiffness(frame);
  return design;
}

}  // namespace tubewright
