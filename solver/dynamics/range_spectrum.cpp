#include "solver/dynamics/range_spectrum.h"

#include <cassert>
#include <cmath>

namespace tubewright {

namespace {

constexpr double bin_ratio = 1.01;

}  // namespace

RangeSpectrum::RangeSpectrum(double least) : least_(least) { assert(least > 0); }

void RangeSpectrum::add(double range, double count) {
  if (!(range >= least_)) return;
  const auto bin = static_cast<size_t>(std::log(range / least_) / std::log(bin_ratio));
  if (bin >= counts_.size()) counts_.resize(bin + 1, 0);
  counts_[bin] += count;
}

std::vector<RangeSpectrum::Bin> RangeSpectrum::bins() const {
  std::vector<Bin> list;
  for (size_t i = 0; i < counts_.size(); ++i) {
    if (counts_[i] > 0) {
      list.push_back({least_ * std::pow(bin_ratio, static_cast<double>(i) + 0.5), counts_[i]});
    }
  }
  return list;
}

double RangeSpectrum::moment(double exponent) const {
  double sum = 0;
  for (const Bin& b : bins()) sum += b.count * std::pow(b.range, exponent);
  return sum;
}

}  // namespace tubewright
