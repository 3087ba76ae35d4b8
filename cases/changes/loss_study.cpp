#include "cases/changes/loss_study.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <set>
#include <utility>

#include "cases/analysis/in_parallel.h"
#include "cases/changes/nine_digits.h"
#include "cases/changes/tube_edits.h"
#include "cases/checks/check_result.h"
#include "cases/rides/load_cases.h"
#include "solver/statics/redundancy.h"

namespace tubewright {

namespace {

/// The cases as a damaged frame has to bear them: safety factor 1, however far it bends.
Frame with_accidental_factors(Frame frame) {
  for (Case& c : frame.cases) c.yield_factor = 1;
  frame.limits.deflection.reset();
  frame.limits.displacements.clear();
  return frame;
}

/// At each node what is joined there: tubes by the path they are of, or their own name.
std::map<std::string, std::set<std::string>> joined_at(const Frame& frame) {
  std::map<std::string, std::set<std::string>> joined;
  for (const Member& m : frame.members) {
    for (const std::string& node : {m.from, m.to}) {
      joined[node].insert(m.tube.empty() ? m.name : m.tube);
    }
  }
  for (const SupportEntry& s : frame.supports) joined[s.node].insert("/support");
  for (const Attachment& a : frame.attachments) joined[a.axis_node].insert("/attachment");
  for (const Gusset& g : frame.gussets) {
    for (const GussetLeg& leg : g.legs) joined[leg.axis_node].insert("/gusset");
  }
  if (frame.vehicle) {
    for (const Wheel& w : frame.vehicle->wheels) {
      for (const std::string& node : w.carrier) joined[node].insert("/wheel");
    }
  }
  return joined;
}

bool is_torn_already(const EndConnection& end) {
  return std::all_of(end.begin(), end.end(), [](double stiffness) { return stiffness == 0; });
}

std::vector<Loss> all_losses(const Frame& frame) {
  std::vector<Loss> losses;
  const auto add = [&](LossKind kind, const std::string& name, int member = -1, int end = 0) {
    Loss loss;
    loss.kind = kind;
    loss.name = name;
    loss.member = member;
    loss.end = end;
    losses.push_back(std::move(loss));
  };
  const auto count = static_cast<int>(frame.members.size());
  for (int m = 0; m < count; ++m)
    add(LossKind::tube, frame.members[static_cast<size_t>(m)].name, m);
  const auto joined = joined_at(frame);
  for (int m = 0; m < count; ++m) {
    const Member& member = frame.members[static_cast<size_t>(m)];
    if (member.kind != MemberKind::beam) continue;
    for (const int end : {0, 1}) {
      const std::string& node = end == 0 ? member.from : member.to;
      const EndConnection& connection = end == 0 ? member.release_from : member.release_to;
      // Where only the tube itself goes on, or nothing at all is joined, there is no weld.
      if (joined.at(node).size() < 2 || is_torn_already(connection)) continue;
      add(LossKind::end, member.name + " at " + node, m, end);
    }
  }
  for (const PanelEntry& p : frame.panels) add(LossKind::panel, p.name);
  for (const Sheet& s : frame.sheets) {
    if (!s.rivet || !s.bond) continue;
    add(LossKind::rivets, s.name);
    add(LossKind::bond, s.name);
  }
  return losses;
}

int panel_number(const Frame& frame, const std::string& name) {
  const auto at = std::find_if(frame.panels.begin(), frame.panels.end(),
                               [&](const PanelEntry& p) { return p.name == name; });
  return static_cast<int>(at - frame.panels.begin());
}

Frame damaged(const Frame& frame, const Loss& loss) {
  switch (loss.kind) {
    case LossKind::tube:
      return without_members(frame, {loss.member});
    case LossKind::end:
      return with_broken_end(frame, loss.member, loss.end);
    case LossKind::panel:
      return without_panel(frame, panel_number(frame, loss.name));
    case LossKind::rivets:
      return without_fastening(frame, loss.name, SheetFastening::rivets);
    case LossKind::bond:
      break;
  }
  return without_fastening(frame, loss.name, SheetFastening::bond);
}

void judge(Loss& loss) {
  constexpr double beyond = std::numeric_limits<double>::infinity();
  for (const ChangedCase& c : loss.answer.cases) {
    loss.worst = std::max(loss.worst, !c.solved ? beyond : c.worst ? c.worst->utilisation : 0);
  }
  if (loss.answer.mechanism) loss.worst = beyond;
  loss.must_hold = !passes(loss.worst);
}

/// Redundancies as the supports hold the frame or, without cases on supports, as it is free.
void add_redundancies(const Frame& frame, const HeldModels& models, const BaseStiffnesses& bases,
                      LossStudy& study) {
  const auto& model = models.by_supports ? models.by_supports : models.free;
  study.held_by_supports = models.by_supports.has_value();
  if (!model) return;
  const BaseStiffness* base = bases.matching(number_free_dofs(*model));
  if (base == nullptr) return;
  const Redundancies found = redundancies(*model, *base);
  const NumberedFrame numbered = build_model(frame);
  for (const MemberSlot slot : numbered.slots) {
    study.redundancy.push_back((slot.is_beam ? found.beams : found.bars)[slot.index]);
  }
  study.redundancy_sum = found.sum;
}

Diagnostic nothing_to_lose() {
  return {
      "the frame has neither load cases nor a torsion test: nothing says what a loss does to it",
      "add `cases`, or `torsion`"};
}

/// Welds that must hold: those nearest to fatigue first, then those whose loss is worst.
std::vector<int> to_inspect(const std::vector<Loss>& losses) {
  std::vector<int> order;
  for (int i = 0; i < static_cast<int>(losses.size()); ++i) {
    const Loss& loss = losses[static_cast<size_t>(i)];
    if (loss.kind == LossKind::end && loss.must_hold) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const Loss &first = losses[static_cast<size_t>(a)], &second = losses[static_cast<size_t>(b)];
    const double one = nine_digits(first.fatigue.value_or(0)),
                 other = nine_digits(second.fatigue.value_or(0));
    if (one != other) return one > other;
    return nine_digits(first.worst) > nine_digits(second.worst);
  });
  return order;
}

/// Screened at its worse end; the other end is no nearer to fatigue.
void add_fatigue(const FatigueScreening& fatigue, std::vector<Loss>& losses) {
  for (Loss& loss : losses) {
    if (loss.kind != LossKind::end) continue;
    const MemberFatigue& f = fatigue.members[static_cast<size_t>(loss.member)];
    if (f.end == loss.end) loss.fatigue = f.result.utilisation;
  }
}

}  // namespace

bool losses_pass(const LossStudy& study) {
  return std::none_of(study.losses.begin(), study.losses.end(),
                      [](const Loss& loss) { return loss.must_hold; });
}

Result<LossStudy> loss_study(const Frame& given, const TellStep& tell) {
  Result<Frame> loaded = with_load_cases(given);
  if (auto* diagnostics = loaded.error()) return std::move(*diagnostics);
  if (loaded->cases.empty() && !loaded->torsion) return Diagnostics{nothing_to_lose()};
  const Result<Analysis> intact = analyse(*loaded);
  if (const auto* diagnostics = intact.error()) return *diagnostics;
  const Frame frame = with_accidental_factors(*loaded);
  const HeldModels models = held_models(frame);
  const BaseStiffnesses bases = base_stiffnesses(models);
  LossStudy study;
  study.whole = changed_answer(frame, bases);
  add_redundancies(frame, models, bases, study);
  study.losses = all_losses(frame);
  std::mutex telling;
  size_t told = 0;
  in_parallel(study.losses.size(), [&](size_t i) {
    {
      const std::lock_guard lock(telling);
      tell("taking part away", ++told, study.losses.size());
    }
    Loss& loss = study.losses[i];
    loss.answer = changed_answer(damaged(frame, loss), bases);
    judge(loss);
  });
  const auto fatigue = fatigue_screening(*intact);
  if (const auto* screened = fatigue.get(); screened != nullptr && *screened) {
    study.fatigue_screened = true;
    add_fatigue(**screened, study.losses);
  }
  study.inspect = to_inspect(study.losses);
  for (const Loss& loss : study.losses) {
    if (loss.kind == LossKind::tube && loss.must_hold) ++study.must_hold_tubes;
  }
  return study;
}

}  // namespace tubewright
