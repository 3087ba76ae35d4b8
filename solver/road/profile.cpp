#include "solver/road/profile.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

/// First vertex behind x.
size_t vertex_behind(const GroundProfile& p, double x) {
  return static_cast<size_t>(std::upper_bound(p.x.begin(), p.x.end(), x) - p.x.begin());
}

}  // namespace

bool is_ground_profile(const GroundProfile& profile) {
  const auto finite = [](double v) { return std::isfinite(v); };
  return profile.x.size() == profile.z.size() &&
         std::all_of(profile.x.begin(), profile.x.end(), finite) &&
         std::all_of(profile.z.begin(), profile.z.end(), finite) &&
         std::is_sorted(profile.x.begin(), profile.x.end());
}

double height(const GroundProfile& profile, double x) {
  if (profile.x.empty()) return 0;
  const size_t i = vertex_behind(profile, x);
  if (i == 0) return profile.z.front();
  if (i == profile.x.size()) return profile.z.back();
  const double share = (x - profile.x[i - 1]) / (profile.x[i] - profile.x[i - 1]);
  return profile.z[i - 1] + share * (profile.z[i] - profile.z[i - 1]);
}

double slope(const GroundProfile& profile, double x) {
  const size_t i = vertex_behind(profile, x);
  if (i == 0 || i == profile.x.size()) return 0;
  return (profile.z[i] - profile.z[i - 1]) / (profile.x[i] - profile.x[i - 1]);
}

GroundProfile shifted(GroundProfile profile, double distance) {
  for (double& x : profile.x) x += distance;
  return profile;
}

}  // namespace tubewright
