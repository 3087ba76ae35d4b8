#include "solver/road/wheel_path_stream.h"

#include <algorithm>
#include <cassert>

namespace tubewright {

namespace {

double reach(const WheelContact& contact) {
  switch (contact.kind) {
    case WheelContact::Kind::point:
      return 0;
    case WheelContact::Kind::circle:
      return contact.length;
    case WheelContact::Kind::patch:
      return contact.length / 2;
  }
  return 0;
}

}  // namespace

WheelPathStream::WheelPathStream(Road road, std::vector<RoadWheel> wheels, double speed,
                                 double time_step)
    : road_(std::move(road)), wheels_(std::move(wheels)), speed_(speed), time_step_(time_step) {
  assert(speed >= 0 && time_step > 0);
  assert(std::all_of(wheels_.begin(), wheels_.end(),
                     [&](const RoadWheel& w) { return w.track >= 0 && w.track < road_.tracks(); }));
}

void WheelPathStream::operator()(std::int64_t first, Eigen::Ref<Eigen::MatrixXd> height,
                                 Eigen::Ref<Eigen::MatrixXd> slope) {
  const Eigen::Index count = height.cols();
  assert(height.rows() == static_cast<Eigen::Index>(wheels_.size()));
  assert(slope.rows() == height.rows() && slope.cols() == count);
  if (count == 0 || wheels_.empty()) return;
  const auto travelled = [&](Eigen::Index step) {
    return speed_ * (static_cast<double>(first + step) * time_step_);
  };
  double from = wheels_[0].x, to = wheels_[0].x;
  for (const RoadWheel& w : wheels_) {
    from = std::min(from, w.x - reach(w.contact));
    to = std::max(to, w.x + reach(w.contact));
  }
  road_.cover(from + travelled(0), to + travelled(count - 1));
  x_.resize(static_cast<size_t>(count));
  height_.resize(x_.size());
  slope_.resize(x_.size());
  for (size_t i = 0; i < wheels_.size(); ++i) {
    const RoadWheel& w = wheels_[i];
    for (Eigen::Index k = 0; k < count; ++k) x_[static_cast<size_t>(k)] = w.x + travelled(k);
    wheel_path(road_.window(w.track), w.contact, x_.data(), count, height_.data(), slope_.data());
    const auto row = static_cast<Eigen::Index>(i);
    height.row(row) = Eigen::Map<const Eigen::RowVectorXd>(height_.data(), count);
    slope.row(row) = Eigen::Map<const Eigen::RowVectorXd>(slope_.data(), count);
  }
}

}  // namespace tubewright
