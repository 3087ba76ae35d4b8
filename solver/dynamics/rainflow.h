// Rainflow counting as samples come.
//
// Turning points are found on the fly; of four in a row the inner two close a cycle if they lie
// within the outer two (four-point rule, equivalent to the three-point rule of ASTM E1049: McInnes
// and Meehan, Int. J. Fatigue 30 (2008)). What is left at the end, the residue, is a sequence that
// widens and then narrows; it is short in practice, and all that is kept.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

namespace tubewright {

struct Cycle {
  double range = 0;  ///< highest less lowest
  double mean = 0;
  double count = 0;  ///< 1 or 0.5
};

/// What the residue counts for.
enum class Residue {
  half_cycles,  ///< each of its ranges half a cycle: ASTM E1049
  repeated,     ///< the history is repeated for ever; only full cycles
  dropped,
  full_cycles  ///< each of its ranges a whole cycle: too much, for comparison
};

/// Counts one channel.
class RainflowCounter {
 public:
  /// `gate`: turns of less than this are not seen. 0: every turn.
  explicit RainflowCounter(double gate = 0) : gate_(gate) {}

  /// Takes `count` samples, `stride` numbers apart, and calls sink(Cycle) for each cycle that they
  /// close. Requires: finite samples.
  template <class Sink>
  void add(const double* samples, std::ptrdiff_t count, std::ptrdiff_t stride, Sink&& sink);

  /// Turning points that are open once the last sample counts as one, which may close cycles.
  std::vector<double> residue() const;

  /// The cycles that close if the history ends here, and those of the residue. The counter is as
  /// before and may take more.
  std::vector<Cycle> close(Residue residue) const;

 private:
  std::vector<double> finish(std::vector<Cycle>* closed) const;
  template <class Sink>
  void turn(double point, Sink&& sink);

  double gate_;
  double last_ = 0;  ///< the furthest sample of the present run
  double sign_ = 0;  ///< of the present run: up 1, down -1, 0 before the first
  std::vector<double> open_;
};

/// All cycles of a whole history, in the order in which they close, then those of the residue.
std::vector<Cycle> rainflow(const std::vector<double>& history, Residue residue);

// ---------------------------------------------------------------------------

template <class Sink>
void RainflowCounter::add(const double* samples, std::ptrdiff_t count, std::ptrdiff_t stride,
                          Sink&& sink) {
  std::ptrdiff_t k = 0;
  if (count > 0 && open_.empty()) {
    last_ = samples[0];
    open_.push_back(last_);
    k = 1;
  }
  for (; k < count && sign_ == 0; ++k) {
    const double value = samples[k * stride];
    if (std::abs(value - last_) > gate_) {
      sign_ = value > last_ ? 1 : -1;
      last_ = value;
    }
  }
  double last = last_, sign = sign_;
  for (; k < count; ++k) {
    const double value = samples[k * stride], onward = sign * (value - last);
    if (onward >= 0) {
      last = value;
    } else if (-onward > gate_) {
      turn(last, sink);
      last = value;
      sign = -sign;
    }
  }
  last_ = last;
  sign_ = sign;
}

template <class Sink>
void RainflowCounter::turn(double point, Sink&& sink) {
  open_.push_back(point);
  while (open_.size() >= 4) {
    const double* end = open_.data() + open_.size();
    const double a = end[-4], b = end[-3], c = end[-2], d = end[-1];
    const bool within = b < c ? b >= d && c <= a : b <= d && c >= a;
    if (!within) return;
    const double range = b < c ? c - b : b - c;
    sink(Cycle{range, (b + c) / 2, 1});
    open_.resize(open_.size() - 3);
    open_.push_back(d);
  }
}

}  // namespace tubewright
