#include "solver/road/road.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace tubewright {

Road::Road(std::vector<GroundProfile> tracks) : window_(std::move(tracks)) {
  assert(std::all_of(window_.begin(), window_.end(), is_ground_profile));
}

Road::Road(RandomRoad road, double spacing) {
  sampler_.emplace(std::move(road), spacing);
  window_.resize(static_cast<size_t>(sampler_->tracks()));
  samples_.resize(RoadSampler::block, sampler_->tracks());
}

void Road::cover(double from, double to) {
  if (!sampler_) return;
  const double spacing = sampler_->spacing(), length = RoadSampler::block * spacing;
  const auto first = static_cast<std::int64_t>(std::floor((from - spacing) / length));
  const auto last = static_cast<std::int64_t>(std::floor((to + spacing) / length));
  const bool empty = window_.front().x.empty();
  if (empty || first > next_) {  // nothing that is there lies in the window
    for (GroundProfile& p : window_) p = {};
    next_ = first;
  }
  drop(from - spacing);
  for (; next_ <= last; ++next_) {
    sampler_->sample(next_, samples_);
    for (size_t t = 0; t < window_.size(); ++t) {
      for (int s = 0; s < RoadSampler::block; ++s) {
        window_[t].x.push_back((static_cast<double>(next_) * RoadSampler::block + s) * spacing);
        window_[t].z.push_back(samples_(s, static_cast<Eigen::Index>(t)));
      }
    }
  }
}

/// Whole blocks, so that the same ground is kept whatever the windows were.
void Road::drop(double from) {
  for (GroundProfile& p : window_) {
    size_t blocks = 0;
    while ((blocks + 1) * RoadSampler::block < p.x.size() &&
           p.x[(blocks + 1) * RoadSampler::block] <= from) {
      ++blocks;
    }
    const auto count = static_cast<std::ptrdiff_t>(blocks * RoadSampler::block);
    p.x.erase(p.x.begin(), p.x.begin() + count);
    p.z.erase(p.z.begin(), p.z.begin() + count);
  }
}

}  // namespace tubewright
