#include "cases/rides/ride_study.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "cases/analysis/in_parallel.h"
#include "cases/analysis/summarise_case.h"
#include "cases/frame/wording.h"
#include "cases/rides/load_cases.h"
#include "cases/rides/ride_channels.h"
#include "cases/rides/ride_drive.h"
#include "cases/rides/ride_film.h"
#include "cases/rides/ride_model.h"
#include "cases/validate/ride_errors.h"
#include "cases/vehicle/standard_cases.h"
#include "cases/verdict/fatigue_life.h"

namespace tubewright {

namespace {

void note(RideWorst& worst, const CheckResult& result, const std::string& check, double time) {
  if (!result.utilisation) return;
  if (worst.utilisation && *result.utilisation <= *worst.utilisation) return;
  worst.utilisation = result.utilisation;
  worst.check = check;
  worst.time = time;
}

/// The worst of each part over the instants.
void note_worst(const Frame& frame, RideResult& r) {
  for (const Member& m : frame.members) r.members.push_back({m.name, {}, "", 0});
  for (const PanelEntry& p : frame.panels) r.others.push_back({p.name, {}, "", 0});
  for (const Attachment& a : frame.attachments) r.others.push_back({a.name, {}, "", 0});
  for (const Gusset& g : frame.gussets) r.others.push_back({g.name, {}, "", 0});
  for (size_t k = 0; k < r.instants.cases.size(); ++k) {
    const CaseResult& c = r.instants.cases[k];
    const double time = r.instant_times[k];
    for (size_t i = 0; i < c.members.size(); ++i) {
      const NamedMemberCheck nearest = nearest_limit(c.members[i].checks);
      if (nearest.result != nullptr) note(r.members[i], *nearest.result, nearest.name, time);
    }
    size_t other = 0;
    const auto note_parts = [&](const auto& results) {
      for (const auto& part : results) {
        RideWorst& worst = r.others[other++];
        if (const NamedCheck* nearest = nearest_limit(part.checks)) {
          note(worst, nearest->result, nearest->name, time);
        }
      }
    };
    note_parts(c.panels);
    note_parts(c.attachments);
    note_parts(c.gussets);
    if (!c.worst || (r.worst && c.worst->utilisation <= *r.worst->utilisation)) continue;
    r.worst = RideWorst{c.worst->item, c.worst->utilisation, c.worst->check, time};
  }
}

/// Greatest forces at the nodes that links, springs and cables end at, and in these.
void note_peaks(const Frame& frame, RideResult& r) {
  std::vector<double> at_node(frame.nodes.size(), -1);
  for (const CaseResult& c : r.instants.cases) {
    for (const PickUp& p : c.pick_ups) {
      double& peak = at_node[static_cast<size_t>(p.node)];
      peak = std::max(peak, p.force.norm());
    }
  }
  for (size_t n = 0; n < at_node.size(); ++n) {
    if (at_node[n] >= 0) r.pick_ups.push_back({frame.nodes[n].name, at_node[n]});
  }
  for (size_t m = 0; m < frame.members.size(); ++m) {
    if (frame.members[m].kind == MemberKind::beam) continue;
    RideLink link{frame.members[m].name, INFINITY, -INFINITY};
    for (const CaseResult& c : r.instants.cases) {
      link.least = std::min(link.least, c.members[m].N);
      link.greatest = std::max(link.greatest, c.members[m].N);
    }
    r.links.push_back(link);
  }
}

/// What the verdict on the instants does not know of.
void judge(const RideEntry& ride, RideResult& r) {
  for (std::string& doubt : doubts_of(ride, r)) r.verdict.not_proven.push_back(std::move(doubt));
  if (r.verdict.answer == Verdict::Answer::pass && !r.verdict.not_proven.empty()) {
    r.verdict.answer = Verdict::Answer::not_proven;
  }
}

/// Everything that the rides of a frame share.
struct Driven {
  const Frame& frame;
  const NumberedFrame& numbered;
  const JointSummary& joints;
  CheckFacts facts;
  RideModel model;
  RideChannels channels;
  std::vector<EndWeights> ends;
  double category = 0;
  double gamma = 1;
  Films films = Films::none;
};

Result<RideResult> drive(const Driven& d, const RideEntry& ride) {
  HardestInstants hardest(d.model.vehicle.model, d.channels);
  EndCycles cycles(d.ends, d.category, d.gamma);
  const Eigen::MatrixXd by_column = d.channels.forces.transpose();
  auto driven = drive_ride(*d.frame.vehicle, d.model, ride, [&](const RideSamples& s) {
    const Eigen::MatrixXd forces = s.x.transpose() * by_column;
    hardest.add(s.first, s.stride, s.x, forces);
    cycles.add(d.channels, forces);
  });
  if (auto* diagnostics = driven.error()) return std::move(*diagnostics);
  RideResult& r = *driven;

  const std::vector<double> damage = cycles.damage();
  for (size_t e = 0; e < damage.size(); ++e) {
    const EndWeights& at = cycles.ends()[e];
    const int member = d.numbered.member_of_beam[static_cast<size_t>(at.beam)];
    if (r.damage.empty() || r.damage.back().member != member) {
      r.damage.push_back({member, at.end, damage[e]});
    } else if (damage[e] > r.damage.back().per_ride) {
      r.damage.back() = {member, at.end, damage[e]};
    }
  }

  std::vector<GivenCase> cases;
  Frame shown = d.frame;
  shown.cases.clear();
  for (const RideInstant& instant : hardest.covering(0.995)) {
    const double time = static_cast<double>(instant.step) * r.time_step;
    r.instant_times.push_back(time);
    Case c;
    c.name = instant_name(ride.name, time);
    c.kind = CaseKind::vehicle;
    c.place = ride.place;
    cases.push_back({c, ride_actions(d.model, instant.x)});
    shown.cases.push_back(std::move(c));
  }
  auto checked = check_given(d.frame, d.numbered, d.facts, d.model.vehicle, cases);
  if (auto* diagnostics = checked.error()) return std::move(*diagnostics);
  r.instants.cases = std::move(*checked);
  r.instants.frame = std::move(shown);
  r.instants.model = d.numbered.model;
  r.instants.slots = d.numbered.slots;
  r.instants.mass = mass_summary(d.frame, d.numbered);
  r.instants.joints = d.joints;
  note_worst(d.frame, r);
  note_peaks(d.frame, r);
  r.verdict = verdict_of(r.instants, {}, std::nullopt);
  judge(ride, r);
  if (d.films == Films::taken && !r.instant_times.empty()) {
    const double around = r.worst ? r.worst->time : r.instant_times.front();
    r.film = ride_film(d.frame, d.numbered, d.model, ride, {r.time_step, r.duration, around});
  }
  return driven;
}

/// The greatest factor of the standard set that a wheel's bumps and steps count with.
std::vector<double> standard_factors(const Frame& frame, const VehicleFacts& facts) {
  std::vector<double> factors(frame.vehicle->wheels.size(), 0);
  for (const Case& c : standard_cases(frame, facts)) {
    for (size_t w = 0; w < factors.size(); ++w) {
      const std::string& name = frame.vehicle->wheels[w].name;
      for (const WheelFactor& bump : c.bump) {
        if (bump.wheel == name) factors[w] = std::max(factors[w], bump.factor);
      }
      if (c.step && c.step->wheel == name) factors[w] = std::max(factors[w], c.step->factor);
    }
  }
  return factors;
}

/// What the rides and `life` do together.
Diagnostics join_life(RideStudy& study) {
  const Frame& frame = study.frame;
  study.life_damage.resize(frame.members.size());
  for (const RideResult& r : study.rides) {
    study.life_words +=
        (study.life_words.empty() ? "" : ", ") + decimals(r.repeat, 0) + " x " + r.name;
    for (const RideDamage& at : r.damage) {
      std::optional<double>& sum = study.life_damage[static_cast<size_t>(at.member)];
      sum = sum.value_or(0) + r.repeat * at.per_ride;
    }
  }
  if (!frame.life || frame.life->spectrum.empty()) return {};
  Result<Frame> loaded = with_load_cases(frame);
  if (auto* diagnostics = loaded.error()) return *diagnostics;
  const Result<Analysis> analysis = analyse(*loaded);
  if (const auto* diagnostics = analysis.error()) return *diagnostics;
  const auto screened = fatigue_screening(*analysis);
  if (const auto* diagnostics = screened.error()) return *diagnostics;
  if (!*screened) return {};
  study.life_words += ", `life`";
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const MemberFatigue& fatigue = (*screened)->members[m];
    if (fatigue.result.utilisation && study.life_damage[m]) {
      *study.life_damage[m] += fatigue.damage;
    }
  }
  return {};
}

}  // namespace

std::string instant_name(const std::string& ride, double time) {
  return ride + " at " + decimals(time, 4) + " s";
}

const RideDamage* worn_most(const RideResult& ride) {
  const auto worst = std::max_element(
      ride.damage.begin(), ride.damage.end(),
      [](const RideDamage& a, const RideDamage& b) { return a.per_ride < b.per_ride; });
  return worst == ride.damage.end() ? nullptr : &*worst;
}

int worn_first(const RideStudy& study) {
  int worst = -1;
  for (size_t m = 0; m < study.life_damage.size(); ++m) {
    if (!study.life_damage[m]) continue;
    if (worst < 0 || *study.life_damage[m] > *study.life_damage[static_cast<size_t>(worst)])
      worst = static_cast<int>(m);
  }
  return worst;
}

bool rides_pass(const RideStudy& study) {
  const int worst = worn_first(study);
  return (worst < 0 || *study.life_damage[static_cast<size_t>(worst)] <= damage_limit) &&
         std::all_of(study.rides.begin(), study.rides.end(),
                     [](const RideResult& r) { return r.verdict.answer == Verdict::Answer::pass; });
}

Result<RideStudy> ride_study(const Frame& frame, const TellStep& tell, Films films) {
  if (frame.rides.empty()) return Diagnostics{no_rides()};
  const JointedFrame jointed = jointed_frame(frame);
  const NumberedFrame& numbered = jointed.numbered;
  if (!(mass_summary(frame, numbered).total > 0)) {
    return Diagnostics{error_at(frame.vehicle->place, does_not_stand())};
  }
  tell("finding modes", 0, 0);
  Result<RideModel> model = ride_model(frame, numbered);
  if (auto* diagnostics = model.error()) return std::move(*diagnostics);
  Result<RideChannels> channels = ride_channels(frame, numbered, *model);
  if (auto* diagnostics = channels.error()) return std::move(*diagnostics);
  const Life life = frame.life.value_or(Life{});
  const double gamma = partial_factor_of(life);
  const JointSummary joints = joint_summary(frame, jointed.joints);
  CheckFacts facts = check_facts(frame, numbered);
  std::vector<EndWeights> ends = end_weights(frame, numbered, facts, life.category);
  const Driven driven{frame,
                      numbered,
                      joints,
                      std::move(facts),
                      std::move(*model),
                      std::move(*channels),
                      std::move(ends),
                      life.category,
                      gamma,
                      films};
  const auto vehicle = vehicle_facts(frame, numbered);
  const std::vector<double> standard = vehicle
                                           ? standard_factors(frame, *vehicle)
                                           : std::vector<double>(frame.vehicle->wheels.size(), 0);

  std::vector<Result<RideResult>> results(frame.rides.size(), Diagnostics{});
  std::mutex telling;
  size_t told = 0;
  in_parallel(frame.rides.size(), [&](size_t i) {
    {
      const std::lock_guard lock(telling);
      tell("riding", ++told, frame.rides.size());
    }
    results[i] = drive(driven, frame.rides[i]);
  });
  RideStudy study;
  study.frame = frame;
  study.elastic_modes = static_cast<int>(driven.model.static_answer.rows());
  study.highest_mode = driven.model.highest_mode;
  study.all_modes = driven.model.all_modes;
  study.category = life.category;
  study.gamma_Mf = gamma;
  for (Result<RideResult>& r : results) {
    if (auto* diagnostics = r.error()) return std::move(*diagnostics);
    for (size_t w = 0; w < standard.size(); ++w) r->wheels[w].standard_factor = standard[w];
    study.rides.push_back(std::move(*r));
  }
  tell("joining damage", 0, 0);
  if (Diagnostics why = join_life(study); !why.empty()) return why;
  return study;
}

}  // namespace tubewright
