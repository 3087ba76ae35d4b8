#include "cases/rides/ride_verdict.h"

#include <algorithm>
#include <iterator>
#include <set>

#include "cases/checks/check_result.h"

namespace tubewright {

namespace {

/// Each part of the frame that fails in a ride once, at its worst, the worst first; then what fails
/// and is no part, as a displacement.
void add_failures(const RideResult& ride, std::vector<Failure>& failures) {
  std::set<std::string> parts;
  for (const RideWorst* w : nearest_limits(ride, ride.members.size() + ride.others.size())) {
    parts.insert(w->item);
    if (passes(*w->utilisation)) continue;
    failures.push_back({w->check, w->item, instant_name(ride.name, w->time), *w->utilisation});
  }
  for (const Failure& f : ride.verdict.failures) {
    if (parts.count(f.item) == 0) failures.push_back(f);
  }
}

Verdict::Answer answer_of(const Verdict& v) {
  if (!v.failures.empty()) return Verdict::Answer::fail;
  return v.not_proven.empty() ? Verdict::Answer::pass : Verdict::Answer::not_proven;
}

/// `instants`: all of all rides.
Verdict verdict_on(const RideStudy& study, const Analysis& instants) {
  Verdict v = verdict_of(instants, {}, std::nullopt);
  v.failures.clear();
  v.not_proven.clear();
  for (const RideResult& ride : study.rides) {
    add_failures(ride, v.failures);
    for (const std::string& reason : ride.verdict.not_proven) {
      if (std::find(v.not_proven.begin(), v.not_proven.end(), reason) == v.not_proven.end()) {
        v.not_proven.push_back(reason);
      }
    }
  }
  const int worn = worn_first(study);
  if (worn >= 0 && *study.life_damage[static_cast<size_t>(worn)] > damage_limit) {
    const auto member = static_cast<size_t>(worn);
    v.failures.push_back(
        {"life", study.frame.members[member].name, "", *study.life_damage[member] / damage_limit});
  }
  v.answer = answer_of(v);
  return v;
}

template <class List>
void move_to(List& from, List& to) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
  from.clear();
}

}  // namespace

std::vector<const RideWorst*> nearest_limits(const RideResult& ride, size_t most) {
  std::vector<const RideWorst*> list;
  for (const auto* parts : {&ride.members, &ride.others}) {
    for (const RideWorst& w : *parts) {
      if (w.utilisation) list.push_back(&w);
    }
  }
  std::stable_sort(list.begin(), list.end(), [](const RideWorst* a, const RideWorst* b) {
    return *a->utilisation > *b->utilisation;
  });
  if (list.size() > most) list.resize(most);
  return list;
}

std::vector<std::optional<double>> worst_of_members(const RideStudy& study) {
  std::vector<std::optional<double>> worst(study.frame.members.size());
  for (const RideResult& ride : study.rides) {
    for (size_t m = 0; m < worst.size(); ++m) {
      const std::optional<double>& used = ride.members[m].utilisation;
      if (used && (!worst[m] || *used > *worst[m])) worst[m] = used;
    }
  }
  return worst;
}

FrameStudies take_instants(RideStudy& study) {
  FrameStudies studies;
  Analysis& all = studies.analysis;
  std::vector<bool> shown;
  for (RideResult& ride : study.rides) {
    std::set<double> times;
    for (const RideWorst* worst : nearest_limits(ride)) times.insert(worst->time);
    if (times.empty() && !ride.instant_times.empty()) times.insert(ride.instant_times.front());
    for (const double time : ride.instant_times) shown.push_back(times.count(time) > 0);
    std::erase_if(ride.instant_times, [&](double time) { return times.count(time) == 0; });
    if (all.slots.empty()) {
      all = std::move(ride.instants);
      continue;
    }
    move_to(ride.instants.cases, all.cases);
    move_to(ride.instants.frame.cases, all.frame.cases);
  }
  studies.verdict = verdict_on(study, all);
  std::vector<CaseResult> results;
  std::vector<Case> cases;
  for (size_t k = 0; k < shown.size(); ++k) {
    if (!shown[k]) continue;
    results.push_back(std::move(all.cases[k]));
    cases.push_back(std::move(all.frame.cases[k]));
  }
  all.cases = std::move(results);
  all.frame.cases = std::move(cases);
  return studies;
}

Analysis worst_instants(const Analysis& instants, const RideStudy& study) {
  std::set<std::string> names;
  for (const RideResult& ride : study.rides) {
    if (ride.worst) names.insert(instant_name(ride.name, ride.worst->time));
  }
  Analysis worst = instants;
  const auto others = [&](const auto& c) { return names.count(c.name) == 0; };
  std::erase_if(worst.cases, others);
  std::erase_if(worst.frame.cases, others);
  return worst;
}

}  // namespace tubewright
