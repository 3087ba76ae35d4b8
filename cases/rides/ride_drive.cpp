#include "cases/rides/ride_drive.h"

#include <algorithm>
#include <cmath>

#include "cases/frame/wording.h"
#include "cases/rides/ride_road.h"
#include "cases/validate/ride_errors.h"
#include "cases/wheels/rolling.h"
#include "solver/dynamics/ride.h"

namespace tubewright {

namespace {

constexpr double longest_step = 2.5e-4;  // s, a sixteenth of the period of 250 Hz
constexpr double farthest_step = 2e-3;   // m: wheel arcs and waves of 100 mm are followed
constexpr double same_peak = 0.03;       // step halving: contact laws differ by 4 %
constexpr double time_to_compare = 10;   // s of a ride that is made again with half the step
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

RideSamples samples_of(const RideModel& model, const RideBlock& block, std::int64_t stride) {
  RideSamples s;
  s.stride = stride;
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

/// Drives once more with half the step, as long as is compared: the greatest change of a peak.
double change_by_halving(const Vehicle& vehicle, const RideEntry& ride, const RideModel& model,
                         double duration, const WheelRecord& first) {
  RideOptions options;
  options.time_step = time_step_of(ride) / 2;
  options.duration = std::min(duration, time_to_compare);
  options.speed = ride.speed;
  WheelRecord again(model, options.duration, options.time_step);
  WheelPathStream paths = ride_paths(vehicle, ride, options.time_step);
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

}  // namespace

double time_step_of(const RideEntry& ride) {
  return std::min(longest_step, farthest_step / ride.speed);
}

Result<RideResult> drive_ride(const Vehicle& vehicle, const RideModel& model, const RideEntry& ride,
                              const std::function<void(const RideSamples&)>& each) {
  constexpr double enough_for_stress = 5e-4;  // s between two samples
  RideResult r;
  r.name = ride.name;
  r.repeat = ride.repeat;
  r.duration = duration_of(vehicle, ride);
  r.distance = ride.speed * r.duration;
  r.time_step = time_step_of(ride);
  RideOptions options;
  options.time_step = r.time_step;
  options.duration = r.duration;
  options.speed = ride.speed;
  const auto stride =
      std::max<std::int64_t>(1, static_cast<std::int64_t>(enough_for_stress / r.time_step));
  WheelRecord record(model, r.duration, r.time_step);
  WheelPathStream paths = ride_paths(vehicle, ride, r.time_step);
  const auto end =
      tubewright::ride(model.system, std::ref(paths), options, [&](const RideBlock& block) {
        record.add(block);
        const RideSamples s = samples_of(model, block, stride);
        if (s.x.cols() > 0) each(s);
      });
  if (!end) return Diagnostics{error_at(vehicle.place, does_not_stand())};
  if (end->diverged) return Diagnostics{error_at(ride.place, ride_diverges(ride.name))};
  record.write(vehicle, r);
  r.change_by_halving = change_by_halving(vehicle, ride, model, r.duration, record);
  r.converged = r.change_by_halving <= same_peak;
  return r;
}

std::vector<std::string> doubts_of(const RideEntry& ride, const RideResult& driven) {
  std::vector<std::string> doubts;
  const std::string subject = "ride " + ride.name + ": ";
  if (!driven.converged) {
    doubts.push_back(subject + "the peaks change by " +
                     decimals(100 * driven.change_by_halving, 0) +
                     " % when the time step is halved");
  }
  if (driven.in_the_air) {
    doubts.push_back(subject +
                     "a wheel is in the air most of the time: no wheel follows this road");
  }
  constexpr double much = 0.25;
  // On a random road it is what its damping takes; whoever drives makes up for it.
  if (ride.ground != Ground::random_road && driven.speed_lost > much * ride.speed) {
    doubts.push_back(subject + "its obstacles would take " +
                     decimals(100 * driven.speed_lost / ride.speed, 0) +
                     " % of the speed, which is taken as constant");
  }
  return doubts;
}

}  // namespace tubewright
