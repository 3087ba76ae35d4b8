#include "solver/dynamics/rainflow.h"

#include <algorithm>

namespace tubewright {

namespace {

Cycle cycle_between(double a, double b, double count) {
  return {std::max(a, b) - std::min(a, b), (a + b) / 2, count};
}

/// Cycles of a sequence that is repeated for ever: from its highest point to that again.
std::vector<Cycle> repeated_cycles(const std::vector<double>& points) {
  std::vector<Cycle> cycles;
  const auto highest = std::max_element(points.begin(), points.end());
  std::vector<double> turned(highest, points.end());
  turned.insert(turned.end(), points.begin(), highest + 1);
  RainflowCounter counter;
  counter.add(turned.data(), static_cast<std::ptrdiff_t>(turned.size()), 1,
              [&](const Cycle& c) { cycles.push_back(c); });
  std::vector<Cycle> closed = counter.close(Residue::dropped);
  cycles.insert(cycles.end(), closed.begin(), closed.end());
  const std::vector<double> rest = counter.residue();  // highest, lowest, highest
  if (rest.size() > 2) cycles.push_back(cycle_between(rest[0], rest[1], 1));
  return cycles;
}

}  // namespace

std::vector<double> RainflowCounter::finish(std::vector<Cycle>* closed) const {
  RainflowCounter copy = *this;
  if (sign_ != 0) {
    copy.turn(last_, [&](const Cycle& c) {
      if (closed) closed->push_back(c);
    });
  }
  return std::move(copy.open_);
}

std::vector<double> RainflowCounter::residue() const { return finish(nullptr); }

std::vector<Cycle> RainflowCounter::close(Residue residue) const {
  std::vector<Cycle> cycles;
  const std::vector<double> points = finish(&cycles);
  switch (residue) {
    case Residue::dropped:
      break;
    case Residue::half_cycles:
    case Residue::full_cycles:
      for (size_t i = 1; i < points.size(); ++i) {
        cycles.push_back(
            cycle_between(points[i - 1], points[i], residue == Residue::full_cycles ? 1 : 0.5));
      }
      break;
    case Residue::repeated:
      if (!points.empty()) {
        for (const Cycle& c : repeated_cycles(points)) cycles.push_back(c);
      }
      break;
  }
  return cycles;
}

std::vector<Cycle> rainflow(const std::vector<double>& history, Residue residue) {
  RainflowCounter counter;
  std::vector<Cycle> cycles;
  counter.add(history.data(), static_cast<std::ptrdiff_t>(history.size()), 1,
              [&](const Cycle& c) { cycles.push_back(c); });
  for (const Cycle& c : counter.close(residue)) cycles.push_back(c);
  return cycles;
}

}  // namespace tubewright
