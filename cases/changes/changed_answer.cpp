#include "cases/changes/changed_answer.h"

#include <algorithm>
#include <set>
#include <utility>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/case_actions.h"
#include "cases/studies/torsion.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/mechanism.h"

namespace tubewright {

namespace {

bool is_mechanism(const std::optional<Model>& model) {
  return model && !find_mechanism(*model, std::vector<bool>(model->bars.size(), false)).empty();
}

void take_over(const Analysis& analysis, std::vector<ChangedCase>& cases) {
  for (const CaseResult& c : analysis.cases)
    cases.push_back({c.name, c.worst, true, c.deflection, {}});
}

std::string first_error(const Diagnostics& diagnostics) {
  const auto error = std::find_if(diagnostics.begin(), diagnostics.end(), [](const Diagnostic& d) {
    return d.severity == Severity::error;
  });
  return error == diagnostics.end() ? "" : error->message;
}

/// A node that nothing is joined to any more: what is loaded there falls.
bool has_loose_node(const Frame& frame) {
  std::set<std::string> joined;
  for (const Member& m : frame.members) joined.insert({m.from, m.to});
  for (const Attachment& a : frame.attachments) joined.insert({a.name, a.face_node, a.axis_node});
  for (const Gusset& g : frame.gussets) joined.insert({g.legs[0].axis_node, g.legs[1].axis_node});
  return std::any_of(frame.nodes.begin(), frame.nodes.end(),
                     [&](const Node& node) { return !joined.contains(node.name); });
}

}  // namespace

HeldModels held_models(const Frame& frame) {
  HeldModels models;
  const auto driven = [&](const Case& c) { return needs_vehicle(frame, c); };
  const Model model = jointed_model(frame).model;
  if (!std::all_of(frame.cases.begin(), frame.cases.end(), driven)) models.by_supports = model;
  if (frame.torsion || std::any_of(frame.cases.begin(), frame.cases.end(), driven)) {
    models.free = model;
    models.free->supports = determinate_restraint(*models.free);
  }
  return models;
}

BaseStiffnesses base_stiffnesses(const HeldModels& models) {
  BaseStiffnesses bases;
  for (const auto* model : {&models.by_supports, &models.free}) {
    if (*model) bases.add(**model);
  }
  return bases;
}

bool ChangedAnswer::solved() const {
  return std::all_of(cases.begin(), cases.end(), [](const ChangedCase& c) { return c.solved; });
}

std::optional<WorstOfAll> ChangedAnswer::worst() const {
  std::optional<WorstOfAll> worst;
  if (!solved()) return worst;
  for (const ChangedCase& c : cases) {
    if (!c.worst || (worst && c.worst->utilisation <= worst->utilisation)) continue;
    worst = WorstOfAll{c.name, c.worst->check, c.worst->item, c.worst->utilisation};
  }
  return worst;
}

ChangedAnswer changed_answer(const Frame& frame, const BaseStiffnesses& bases) {
  ChangedAnswer answer;
  const JointedFrame jointed = jointed_frame(frame);
  const KnownBefore known{&bases, &jointed};
  const AnalysisOptions options{false, false, {true, {}}};
  if (frame.torsion) answer.stiffness = torsional_stiffness(frame, TorsionHold::free, known);
  if (frame.torsion && !answer.stiffness) answer.mechanism = is_mechanism(held_models(frame).free);
  if (frame.cases.empty()) return answer;
  const Result<Analysis> all = analyse(frame, {}, options, tell_nobody, known);
  if (const Analysis* analysis = all.get()) {
    take_over(*analysis, answer.cases);
    return answer;
  }
  for (const Case& c : frame.cases) {
    const Result<Analysis> one = analyse(frame, {c.name}, options, tell_nobody, known);
    if (const Analysis* analysis = one.get()) {
      take_over(*analysis, answer.cases);
    } else {
      answer.cases.push_back({c.name, {}, false, 0, first_error(*one.error())});
    }
  }
  const HeldModels models = held_models(frame);
  answer.mechanism = answer.mechanism || has_loose_node(frame) ||
                     is_mechanism(models.by_supports) || is_mechanism(models.free);
  return answer;
}

}  // namespace tubewright
