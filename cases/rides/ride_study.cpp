#include "cases/rides/ride_study.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <mutex>

#include "cases/analysis/in_parallel.h"
#include "cases/analysis/summarise_case.h"
#include "cases/frame/wording.h"
#include "cases/rides/ride_channels.h"
#include "cases/rides/ride_model.h"
#include "cases/rides/ride_road.h"
#include "cases/validate/ride_errors.h"
#include "cases/vehicle/standard_cases.h"
#include "cases/verdict/fatigue_life.h"
#include "cases/wheels/rolling.h"
#include "solver/dynamics/ride.h"

namespace tubewright {

namespace {

constexpr double longest_step = 2.5e-4;     // s, a sixteenth of the period of 250 Hz
constexpr double farthest_step = 2e-3;      // m: wheel arcs and waves of 100 mm are followed
constexpr double enough_for_stress = 5e-4;  // s between two samples of stress
constexpr double same_peak = 0.03;          // step halving: contact laws differ by 4 %
constexpr double time_to_compare = 10;      // s of a ride that is made again with half the step
constexpr double mostly_in_the_air = 0.5;
constexpr int trace_parts = 600;

/// What the wheels and the masses do.
class WheelRecord {
 public:
  WheelRecord(const RideModel& model, double duration, double time_step)
      : model_(model),
        duration_(duration),
        time_step_(time_step),
        peaks_(Eigen::VectorXd::Zero(tyres())),
        early_peaks_(peaks_),
        squeezed_(peaks_),
        off_ground_(peaks_),
        sums_(Eigen::VectorXd::Zero(model.carried_up.rows())),
        mass_peaks_(sums_) {
    const auto parts = static_cast<size_t>(trace_parts);
    trace_.least.assign(static_cast<size_t>(tyres()), std::vector<double>(parts, INFINITY));
    trace_.greatest.assign(static_cast<size_t>(tyres()), std::vector<double>(parts, -INFINITY));
  }

  void add(const RideBlock& block) {
    const Eigen::Index steps = block.tyre_force.cols();
    for (Eigen::Index j = 0; j < steps; ++j) {
      const double time = static_cast<double>(block.first + j) * time_step_;
      const auto part = static_cast<size_t>(
          std::clamp(static_cast<int>(time / duration_ * trace_parts), 0, trace_parts - 1));
      for (Eigen::Index w = 0; w < tyres(); ++w) {
        const double F = block.tyre_force(w, j);
        peaks_[w] = std::max(peaks_[w], F);
        if (time <= time_to_compare) early_peaks_[w] = std::max(early_peaks_[w], F);
        squeezed_[w] = std::max(squeezed_[w], block.deflection(w, j));
        if (F <= 0) off_ground_[w] += 1;
        double& least = trace_.least[static_cast<size_t>(w)][part];
        double& greatest = trace_.greatest[static_cast<size_t>(w)][part];
        least = std::min(least, F);
        greatest = std::max(greatest, F);
      }
    }
    push_ += block.longitudinal.sum() * time_step_;
    const Eigen::MatrixXd up = model_.carried_up * block.acceleration;
    sums_ += up.rowwise().squaredNorm();
    mass_peaks_ = mass_peaks_.cwiseMax(up.cwiseAbs().rowwise().maxCoeff());
    steps_ += steps;
  }

  const Eigen::VectorXd& early_peaks() const { return early_peaks_; }

  void write(const Vehicle& vehicle, RideResult& r) const {
    const auto count = static_cast<double>(std::max<std::int64_t>(1, steps_));
    for (Eigen::Index w = 0; w < tyres(); ++w) {
      RideWheel wheel;
      wheel.name = vehicle.wheels[static_cast<size_t>(w)].name;
      wheel.standing = model_.standing[static_cast<size_t>(w)];
      wheel.peak = peaks_[w];
      wheel.factor = wheel.standing > 0 ? wheel.peak / wheel.standing : 0;
      wheel.off_ground = off_ground_[w] / count;
      wheel.squeezed = squeezed_[w];
      r.in_the_air = r.in_the_air || wheel.off_ground > mostly_in_the_air;
      r.wheels.push_back(wheel);
    }
    for (Eigen::Index m = 0; m < sums_.size(); ++m) {
      r.masses.push_back(
          {model_.carried[static_cast<size_t>(m)], std::sqrt(sums_[m] / count), mass_peaks_[m]});
    }
    r.speed_lost = -push_ / model_.vehicle.mass.mass;
    r.trace = trace_;
    for (int k = 0; k < trace_parts; ++k) {
      r.trace.time.push_back((k + 0.5) * duration_ / trace_parts);
    }
  }

 private:
  Eigen::Index tyres() const { return static_cast<Eigen::Index>(model_.system.tyres.size()); }

  const RideModel& model_;
  double duration_, time_step_;
  Eigen::VectorXd peaks_, early_peaks_, squeezed_, off_ground_;
  Eigen::VectorXd sums_, mass_peaks_;
  double push_ = 0;
  std::int64_t steps_ = 0;
  WheelTrace trace_;
};

/// x of every `stride`-th step of a block: forces, and what elastic modes have beyond them.
struct Samples {
  std::int64_t first = 0;
  Eigen::MatrixXd x;
};

Samples samples_of(const RideModel& model, const RideBlock& block, std::int64_t stride) {
  Samples s;
  s.first = (block.first + stride - 1) / stride * stride;
  const std::int64_t skipped = s.first - block.first;
  const std::int64_t left = block.forces.cols() - skipped;
  const Eigen::Index count = left > 0 ? (left + stride - 1) / stride : 0;
  const Eigen::Index forces = block.forces.rows(), elastic = model.static_answer.rows();
  s.x.resize(forces + elastic, count);
  for (Eigen::Index k = 0; k < count; ++k) {
    const Eigen::Index j = skipped + k * stride;
    s.x.col(k).head(forces) = block.forces.col(j);
    s.x.col(k).tail(elastic) = block.displacement.col(j).tail(elastic);
  }
  s.x.bottomRows(elastic) -= model.static_answer * s.x.topRows(forces);
  return s;
}

double step_of(const RideEntry& ride) { return std::min(longest_step, farthest_step / ride.speed); }

/// Drives once more with half the step, as long as is compared: the greatest change of a peak.
double change_by_halving(const Frame& frame, const RideEntry& ride, const RideModel& model,
                         double duration, const WheelRecord& first) {
  RideOptions options;
  options.time_step = step_of(ride) / 2;
  options.duration = std::min(duration, time_to_compare);
  options.speed = ride.speed;
  WheelRecord again(model, options.duration, options.time_step);
  WheelPathStream paths = ride_paths(*frame.vehicle, ride, options.time_step);
  const auto end = tubewright::ride(model.system, std::ref(paths), options,
                                    [&](const RideBlock& block) { again.add(block); });
  if (!end || end->diverged) return INFINITY;
  double change = 0;
  for (Eigen::Index w = 0; w < first.early_peaks().size(); ++w) {
    const double before = first.early_peaks()[w], after = again.early_peaks()[w];
    const double greater = std::max(before, after);
    if (greater > 0) change = std::max(change, std::abs(after - before) / greater);
  }
  return change;
}

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
  std::vector<std::string>& open = r.verdict.not_proven;
  const std::string subject = "ride " + r.name + ": ";
  if (!r.converged) {
    open.push_back(subject + "the peaks change by " + decimals(100 * r.change_by_halving, 0) +
                   " % when the time step is halved");
  }
  if (r.in_the_air) {
    open.push_back(subject + "a wheel is in the air most of the time: no wheel follows this road");
  }
  constexpr double much = 0.25;
  // On a random road it is what its damping takes; whoever drives makes up for it.
  if (ride.ground != Ground::random_road && r.speed_lost > much * ride.speed) {
    open.push_back(subject + "its obstacles would take " +
                   decimals(100 * r.speed_lost / ride.speed, 0) +
                   " % of the speed, which is taken as constant");
  }
  if (r.verdict.answer == Verdict::Answer::pass && !open.empty()) {
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
  RideResult r;
  r.name = ride.name;
  r.repeat = ride.repeat;
  r.duration = duration_of(*d.frame.vehicle, ride);
  r.distance = ride.speed * r.duration;
  r.time_step = step_of(ride);
  RideOptions options;
  options.time_step = r.time_step;
  options.duration = r.duration;
  options.speed = ride.speed;
  const auto stride =
      std::max<std::int64_t>(1, static_cast<std::int64_t>(enough_for_stress / r.time_step));

  WheelRecord record(d.model, r.duration, r.time_step);
  HardestInstants hardest(d.model.vehicle.model, d.channels);
  EndCycles cycles(d.ends, d.category, d.gamma);
  const Eigen::MatrixXd by_column = d.channels.forces.transpose();
  WheelPathStream paths = ride_paths(*d.frame.vehicle, ride, r.time_step);
  const auto end =
      tubewright::ride(d.model.system, std::ref(paths), options, [&](const RideBlock& block) {
        record.add(block);
        const Samples s = samples_of(d.model, block, stride);
        if (s.x.cols() == 0) return;
        const Eigen::MatrixXd forces = s.x.transpose() * by_column;
        hardest.add(s.first, stride, s.x, forces);
        cycles.add(d.channels, forces);
      });
  if (!end) return Diagnostics{error_at(d.frame.vehicle->place, does_not_stand())};
  if (end->diverged) return Diagnostics{error_at(ride.place, ride_diverges(ride.name))};
  record.write(*d.frame.vehicle, r);
  r.change_by_halving = change_by_halving(d.frame, ride, d.model, r.duration, record);
  r.converged = r.change_by_halving <= same_peak;

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
  for (const RideInstant& instant : hardest.covering()) {
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
  return r;
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
