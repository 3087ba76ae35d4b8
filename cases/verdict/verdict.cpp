#include "cases/verdict/verdict.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/lint/input_doubts.h"
#include "cases/model/case_actions.h"
#include "solver/model/model_size.h"

namespace tubewright {

namespace {

/// The state of one check over all cases: the least proven it meets.
enum class Proof { none_needed, by_rule, by_comparison, missing };

Proof proof_of(const CheckResult& c) {
  if (c.utilisation) return c.comparison ? Proof::by_comparison : Proof::by_rule;
  return c.needed ? Proof::missing : Proof::none_needed;
}

void count(Tally& tally, Proof proof) {
  if (proof == Proof::by_rule) ++tally.by_rule;
  if (proof == Proof::by_comparison) ++tally.by_comparison;
  if (proof == Proof::missing) ++tally.not_made;
}

std::string in_words(const std::string& name) {
  std::string words = name;
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

/// "a", "a, b and c", "a, b, c and 9 more".
std::string first_few(const std::vector<std::string>& names) {
  constexpr std::size_t shown = 3;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), shown); ++i) {
    const bool last = i + 1 == names.size() && i > 0;
    text += (i == 0 ? "" : last ? " and " : ", ") + names[i];
  }
  if (names.size() > shown) text += " and " + std::to_string(names.size() - shown) + " more";
  return text;
}

/// Reasons in the order they turn up, each with the items it holds for.
class Reasons {
 public:
  void add(const std::string& reason, const std::string& item) {
    auto known = std::find_if(list_.begin(), list_.end(),
                              [&](const auto& entry) { return entry.first == reason; });
    if (known == list_.end()) known = list_.insert(list_.end(), {reason, {}});
    auto& items = known->second;
    if (std::find(items.begin(), items.end(), item) == items.end()) items.push_back(item);
  }

  void write(std::vector<std::string>& lines) const {
    for (const auto& [reason, items] : list_) lines.push_back(first_few(items) + ": " + reason);
  }

 private:
  std::vector<std::pair<std::string, std::vector<std::string>>> list_;
};

/// What was checked of the tubes, sheets, attachments and gussets, over all cases.
class Coverage {
 public:
  explicit Coverage(const Analysis& analysis) : analysis_(analysis) {
    for (std::size_t i = 0; i < analysis.frame.members.size(); ++i) cover_member(i);
    cover_parts(analysis.frame.panels, &CaseResult::panels);
    cover_parts(analysis.frame.attachments, &CaseResult::attachments);
    cover_parts(analysis.frame.gussets, &CaseResult::gussets);
  }

  void write(Verdict& verdict) const {
    verdict.checks = checks_;
    verdict.tube_ends = ends_;
    missing_.write(verdict.not_proven);
  }

 private:
  template <class Part, class Result>
  void cover_parts(const std::vector<Part>& parts, std::vector<Result> CaseResult::*results) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      cover_named(parts[i].name, [i, results](const CaseResult& c) {
        const std::vector<Result>& list = c.*results;
        return i < list.size() ? &list[i].checks : nullptr;
      });
    }
  }

  void cover_member(std::size_t i) {
    const Member& member = analysis_.frame.members[i];
    using Field = CheckResult MemberChecks::*;
    const std::pair<const char*, Field> along[] = {{"yield", &MemberChecks::yield},
                                                   {"section", &MemberChecks::section},
                                                   {"buckling", &MemberChecks::buckling}};
    for (const auto& entry : along) {
      const Field field = entry.second;
      count(checks_, over_cases(entry.first, member.name,
                                [i, field](const CaseResult& c) -> const CheckResult& {
                                  return c.members[i].checks.*field;
                                }));
    }
    for (const std::size_t end : {0, 1}) {
      const std::string item = member.name + " at " + (end == 0 ? member.from : member.to);
      const Proof weld = over_cases("weld", item, [&](const CaseResult& c) -> const CheckResult& {
        return c.members[i].checks.weld_at[end];
      });
      const Proof joint = over_cases("joint", item, [&](const CaseResult& c) -> const CheckResult& {
        return c.members[i].checks.joint_at[end];
      });
      count(checks_, weld);
      count(checks_, joint);
      count(ends_, std::max(weld, joint));
    }
  }

  /// `checks_in`: of a panel or attachment in a case, or null.
  template <class Checks>
  void cover_named(const std::string& item, const Checks& checks_in) {
    std::map<std::string, Proof> found;
    for (const CaseResult& c : analysis_.cases) {
      const std::vector<NamedCheck>* checks = checks_in(c);
      if (checks == nullptr) continue;
      for (const NamedCheck& check : *checks) {
        if (!check.counts) continue;
        Proof& proof = found.emplace(check.name, Proof::none_needed).first->second;
        proof = std::max(proof, proof_of(check.result));
        if (lacks_number(check.result)) note_missing(check.name, item, check.result);
      }
    }
    for (const auto& [name, proof] : found) count(checks_, proof);
  }

  template <class Check>
  Proof over_cases(const std::string& name, const std::string& item, const Check& check_in) {
    Proof proof = Proof::none_needed;
    for (const CaseResult& c : analysis_.cases) {
      const CheckResult& check = check_in(c);
      proof = std::max(proof, proof_of(check));
      if (lacks_number(check)) note_missing(name, item, check);
    }
    return proof;
  }

  void note_missing(const std::string& name, const std::string& item, const CheckResult& check) {
    missing_.add("no " + in_words(name) + " check, " + check.reason, item);
  }

  const Analysis& analysis_;
  Tally checks_, ends_;
  Reasons missing_;
};

void judge_limits(Verdict& v, const std::vector<LimitCheck>& limits) {
  for (const LimitCheck& limit : limits) {
    count(v.checks, proof_of(limit.result));
    const std::string name = "`limits`: " + in_words(limit.name);
    if (lacks_number(limit.result)) {
      v.not_proven.push_back(name + " was not found, " + limit.result.reason);
    } else if (!passes(*limit.result.utilisation)) {
      v.failures.push_back({limit.name, "frame", "", *limit.result.utilisation});
    }
  }
}

void judge_fatigue(Verdict& v, const Frame& frame, const FatigueScreening& fatigue) {
  Reasons missing;
  for (std::size_t i = 0; fatigue.counts && i < fatigue.members.size(); ++i) {
    const CheckResult& check = fatigue.members[i].result;
    count(v.checks, proof_of(check));
    if (lacks_number(check))
      missing.add("no fatigue check, " + check.reason, frame.members[i].name);
  }
  missing.write(v.not_proven);
  if (fatigue.passes()) return;
  const auto worst = static_cast<std::size_t>(fatigue.worst);
  const std::string& item = frame.members[worst].name;
  const double used = *fatigue.members[worst].result.utilisation;
  if (fatigue.counts) {
    v.failures.push_back({"fatigue", item, "", used});
  } else {
    v.not_proven.push_back(item + ": the screening for fatigue by the usual spectrum comes to " +
                           decimals(used, 2) + "; `life` in the file says what it is to last");
  }
}

/// What the vehicle was to do in a case and does not, empty if it does.
std::string demand_not_met(const Case& c, const CaseResult& result, double g) {
  if (result.driving && result.driving->pulls) {
    return "a wheel would have to pull the road up: its parts do not happen together like that";
  }
  if (!result.driving || c.kind != CaseKind::vehicle) return {};
  if (result.driving->tips) return "the vehicle turns over: loads of the first moment only";
  constexpr double met = 0.98;  // of what was asked for
  const Eigen::Vector3d reached = result.driving->balance.acceleration / g;
  if (c.brake > 0 && -reached.x() < met * c.brake) {
    return "asked to brake at " + decimals(c.brake, 2) + " g, it reaches " +
           decimals(std::max(0.0, -reached.x()), 2) + " g";
  }
  const double turn = reached.y() * (c.corner < 0 ? -1 : 1);
  if (c.corner != 0 && turn < met * std::abs(c.corner)) {
    return "asked to turn at " + decimals(std::abs(c.corner), 2) + " g, it reaches " +
           decimals(std::max(0.0, turn), 2) + " g";
  }
  return {};
}

bool loads_nothing(const CaseResult& result) {
  return result.solution.displacements.isZero(0) &&
         std::all_of(result.members.begin(), result.members.end(),
                     [](const MemberResult& m) { return m.from.isZero(0) && m.to.isZero(0); });
}

void judge_input(Verdict& v, const Analysis& analysis) {
  for (const Diagnostic& doubt : input_doubts(analysis.frame)) {
    v.not_proven.push_back(doubt.message + "; " + doubt.advice);
  }
  if (!analysis.vehicle) return;
  const TippingLimits& tips = analysis.vehicle->tipping;
  if (std::min({tips.braking, tips.driving, tips.left_turn, tips.right_turn}) <= 0) {
    v.not_proven.emplace_back(
        "the vehicle turns over while it stands: its centre of mass lies "
        "outside its wheels");
  }
}

void judge_cases(Verdict& v, const Analysis& analysis) {
  if (analysis.cases.empty()) v.not_proven.emplace_back("there is no load case");
  constexpr double small_displacement = 0.1;  // of the frame's size (judgement)
  const double size = model_size(analysis.model);
  for (const CaseResult& result : analysis.cases) {
    const std::string in_case = "case " + result.name + ": ";
    if (!result.passes()) {
      v.failures.push_back(
          {result.worst->check, result.worst->item, result.name, result.worst->utilisation});
    }
    if (loads_nothing(result)) v.not_proven.push_back(in_case + "no part of the frame is loaded");
    if (!result.large && result.deflection > small_displacement * size) {
      v.not_proven.push_back(in_case + "a node moves by " + in_mm(result.deflection) +
                             ", more than a tenth of the frame's size: too far for forces found on "
                             "the frame as drawn; `check --large-displacement` follows it");
    }
    if (!result.sheets_converged) {
      v.not_proven.push_back(in_case + "the state of the buckled sheets did not converge");
    }
    const Case& c = *find_case(analysis.frame, result.name);
    const std::string unmet = demand_not_met(c, result, analysis.frame.gravity);
    if (!unmet.empty()) v.not_proven.push_back(in_case + unmet);
    for (const std::string& doubt : c.doubts) {  // several cases may come from one ride
      const auto end = v.not_proven.end();
      if (std::find(v.not_proven.begin(), end, doubt) == end) v.not_proven.push_back(doubt);
    }
  }
}

}  // namespace

Verdict verdict_of(const Analysis& analysis, const std::vector<LimitCheck>& limits,
                   const std::optional<FatigueScreening>& fatigue) {
  Verdict v;
  judge_input(v, analysis);
  judge_cases(v, analysis);
  judge_limits(v, limits);
  if (fatigue) judge_fatigue(v, analysis.frame, *fatigue);
  Verdict covered;
  Coverage(analysis).write(covered);
  v.tube_ends = covered.tube_ends;
  v.checks.by_rule += covered.checks.by_rule;
  v.checks.by_comparison += covered.checks.by_comparison;
  v.checks.not_made += covered.checks.not_made;
  v.not_proven.insert(v.not_proven.end(), covered.not_proven.begin(), covered.not_proven.end());
  if (v.checks.made() == 0 && v.not_proven.empty()) {
    v.not_proven.emplace_back("no check could be made");
  }
  v.answer = !v.failures.empty()     ? Verdict::Answer::fail
             : !v.not_proven.empty() ? Verdict::Answer::not_proven
                                     : Verdict::Answer::pass;
  return v;
}

}  // namespace tubewright
