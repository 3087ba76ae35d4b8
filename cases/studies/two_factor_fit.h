// Two unknown factors fitted to readings at once, and whether the readings can tell them apart.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <vector>

namespace tubewright {

/// The readings that a pair of values would give; nothing where there is no answer.
using PredictedReadings = std::function<std::vector<double>(const std::array<double, 2>&)>;

struct ValueRange {
  double least = 0;  ///< above 0
  double most = 0;
};

struct TwoFactorFit {
  std::array<double, 2> value = {};
  std::vector<double> predicted;  ///< with these values
  double rms = 0;                 ///< root mean square of reading less prediction
  /// Of the readings' change with the logarithm of each value, every column scaled to length 1: 1
  /// where they have nothing in common, infinite where they are one. sqrt((1 + c)/(1 - c)), c the
  /// cosine between them.
  double condition = 1;
  /// Greatest change of a reading for a tenth of the value, over the greatest reading.
  std::array<double, 2> sensitivity = {};
  /// By what factor each value moves if every reading is off by `reading_error`, at worst.
  std::array<double, 2> moved_by = {};
};

/// Least squares in the logarithms of both values: Levenberg's and Marquardt's steps (any textbook)
/// from the middle of both ranges, so that of many pairs that do as well one near it is taken, and
/// where that does not lead to the readings from the best of a grid. Nothing without readings, or
/// where no pair has an answer. Requires: two or more readings.
std::optional<TwoFactorFit> fit_two_factors(const PredictedReadings& predict,
                                            const std::vector<double>& readings,
                                            const std::array<ValueRange, 2>& ranges,
                                            double reading_error);

}  // namespace tubewright
