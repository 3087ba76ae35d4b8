// Counting against the example of ASTM E1049 and against another way of counting.
#include "solver/dynamics/rainflow.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::rainflow_test {

namespace {

const std::vector<double> example = {-2, 1, -3, 5, -1, 3, -4, 4, -2};

std::map<double, double> by_range(const std::vector<Cycle>& cycles) {
  std::map<double, double> counts;
  for (const Cycle& c : cycles) counts[c.range] += c.count;
  return counts;
}

double power_sum(const std::vector<Cycle>& cycles, double m) {
  double sum = 0;
  for (const Cycle& c : cycles) sum += c.count * std::pow(c.range, m);
  return sum;
}

/// The three-point rule of ASTM E1049, 5.4.4, step by step.
std::vector<Cycle> three_points(const std::vector<double>& history) {
  std::vector<double> peaks;
  for (const double v : history) {
    if (!peaks.empty() && v == peaks.back()) continue;
    const size_t n = peaks.size();
    if (n >= 2 && (peaks[n - 1] - peaks[n - 2]) * (v - peaks[n - 1]) > 0) peaks.pop_back();
    peaks.push_back(v);
  }
  std::vector<Cycle> cycles;
  std::vector<double> s;
  const auto count = [&](double a, double b, double n) {
    cycles.push_back({std::abs(a - b), (a + b) / 2, n});
  };
  for (const double p : peaks) {
    s.push_back(p);
    while (s.size() >= 3) {
      const size_t n = s.size();
      const double X = std::abs(s[n - 1] - s[n - 2]), Y = std::abs(s[n - 2] - s[n - 3]);
      if (X < Y) break;
      if (n == 3) {
        count(s[0], s[1], 0.5);
        s.erase(s.begin());
      } else {
        count(s[n - 3], s[n - 2], 1);
        s.erase(s.end() - 3, s.end() - 1);
      }
    }
  }
  for (size_t i = 1; i < s.size(); ++i) count(s[i - 1], s[i], 0.5);
  return cycles;
}

std::vector<double> random_history(unsigned seed, int count, bool whole) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(-10, 10);
  std::vector<double> list;
  for (int i = 0; i < count; ++i) list.push_back(whole ? std::round(any(random)) : any(random));
  return list;
}

}  // namespace

TEST_CASE("the example of ASTM E1049 is counted as printed", "[truth]") {
  constexpr Source printed =
      seen_in("ASTM E1049 example as in a public issue of a rainflow package");
  constexpr Source own = rederived("own routine of the road study");
  auto counts = by_range(rainflow(example, Residue::half_cycles));
  for (const auto& [range, count] :
       std::map<double, double>{{3, .5}, {4, 1.5}, {6, .5}, {8, 1}, {9, .5}}) {
    truth(named("E1049: cycles of range ", range), printed, counts[range],
          within_abs(count, 1e-12));
  }
  CHECK(counts.size() == 5);
  auto repeated = by_range(rainflow(example, Residue::repeated));
  for (const double range : {3.0, 4.0, 7.0, 9.0}) {
    truth(named("E1049 repeated: cycles of range ", range), own, repeated[range],
          within_abs(1, 1e-12));
  }
  CHECK(repeated.size() == 4);

  struct Row {
    Residue residue;
    const char* name;
    double third, fifth;
  };
  for (const Row& row : {Row{Residue::half_cycles, "half cycles", 1094, 67838},
                         Row{Residue::dropped, "dropped", 64, 1024},
                         Row{Residue::full_cycles, "full cycles", 2124, 134652},
                         Row{Residue::repeated, "repeated", 1163, 77123}}) {
    const auto cycles = rainflow(example, row.residue);
    truth(named("E1049: sum of n r^3, residue ", row.name), own, power_sum(cycles, 3),
          within_rel(row.third, 1e-12));
    truth(named("E1049: sum of n r^5, residue ", row.name), own, power_sum(cycles, 5),
          within_rel(row.fifth, 1e-12));
  }
}

TEST_CASE("means go with their ranges: the example in order") {
  const auto ours = rainflow(example, Residue::half_cycles);
  std::vector<std::array<double, 3>> list;
  for (const Cycle& c : ours) list.push_back({c.range, c.mean, c.count});
  std::sort(list.begin(), list.end());
  const std::vector<std::array<double, 3>> theirs = {
      {3, -.5, .5}, {4, -1, .5}, {4, 1, 1}, {6, 1, .5}, {8, 0, .5}, {8, 1, .5}, {9, .5, .5}};
  CHECK(list == theirs);
}

TEST_CASE("the residue of the example is what the four-point rule leaves") {
  RainflowCounter c;
  std::vector<Cycle> closed;
  c.add(example.data(), 9, 1, [&](const Cycle& cycle) { closed.push_back(cycle); });
  REQUIRE(closed.size() == 1);
  CHECK(closed[0].range == 4);
  CHECK(closed[0].mean == 1);
  CHECK(c.residue() == std::vector<double>{-2, 1, -3, 5, -4, 4, -2});
}

TEST_CASE("four points and three points count the same") {
  for (unsigned seed = 0; seed < 200; ++seed) {
    const auto history = random_history(seed, 5 + static_cast<int>(seed) * 3, seed % 2 == 0);
    auto ours = by_range(rainflow(history, Residue::half_cycles));
    auto theirs = by_range(three_points(history));
    CAPTURE(seed);
    CHECK(ours == theirs);
  }
}

TEST_CASE("a repeated history counts the same from any start, and n times as much n times") {
  for (unsigned seed = 0; seed < 40; ++seed) {
    auto history = random_history(seed, 60, seed % 2 == 0);
    const double once = power_sum(rainflow(history, Residue::repeated), 3);
    auto turned = history;
    std::rotate(turned.begin(), turned.begin() + 17, turned.end());
    CHECK_THAT(power_sum(rainflow(turned, Residue::repeated), 3), WithinRel(once, 1e-12));
    std::vector<double> twice = history;
    twice.insert(twice.end(), history.begin(), history.end());
    CHECK_THAT(power_sum(rainflow(twice, Residue::repeated), 3), WithinRel(2 * once, 1e-12));
    std::vector<double> backward(history.rbegin(), history.rend());
    CHECK_THAT(power_sum(rainflow(backward, Residue::repeated), 3), WithinRel(once, 1e-12));
    for (double& v : history) v = 3 - 2 * v;
    CHECK_THAT(power_sum(rainflow(history, Residue::repeated), 3), WithinRel(8 * once, 1e-12));
  }
}

TEST_CASE("samples may come in any pieces and with any stride") {
  const auto history = random_history(3, 900, false);
  const auto whole = by_range(rainflow(history, Residue::half_cycles));
  RainflowCounter c;
  std::vector<Cycle> cycles;
  const auto sink = [&](const Cycle& cycle) { cycles.push_back(cycle); };
  std::vector<double> spread(2700);
  for (size_t i = 0; i < history.size(); ++i) spread[3 * i] = history[i];
  for (std::ptrdiff_t k = 0; k < 900;) {
    const std::ptrdiff_t n = std::min<std::ptrdiff_t>(k % 7 + 1, 900 - k);
    c.add(spread.data() + 3 * k, n, 3, sink);
    k += n;
    c.close(Residue::repeated);  // leaves it as it is
  }
  for (const Cycle& cycle : c.close(Residue::half_cycles)) cycles.push_back(cycle);
  CHECK(by_range(cycles) == whole);
}

TEST_CASE("a history that does not turn has half a cycle, one that does not move none") {
  for (const Residue r : {Residue::half_cycles, Residue::repeated, Residue::dropped}) {
    CHECK(rainflow({}, r).empty());
    CHECK(rainflow({4}, r).empty());
    CHECK(rainflow({4, 4, 4}, r).empty());
  }
  const auto up = rainflow({1, 2, 2, 5}, Residue::half_cycles);
  REQUIRE(up.size() == 1);
  CHECK(up[0].range == 4);
  CHECK(up[0].count == 0.5);
  CHECK(by_range(rainflow({1, 2, 5}, Residue::repeated)) == std::map<double, double>{{4, 1}});
  RainflowCounter none;
  CHECK(none.residue().empty());
  none.add(nullptr, 0, 1, [](const Cycle&) {});
  CHECK(none.residue().empty());
}

TEST_CASE("a gate drops small turns and keeps the large ones whole") {
  std::vector<double> noisy;
  std::mt19937 random(1);
  std::uniform_real_distribution<double> noise(-0.04, 0.04);
  for (int i = 0; i < 20000; ++i) noisy.push_back(std::sin(i * 0.01) + noise(random));
  RainflowCounter c(0.1);
  int cycles = 0;
  double least = 9;
  c.add(noisy.data(), 20000, 1, [&](const Cycle& cycle) {
    ++cycles;
    least = std::min(least, cycle.range);
  });
  const auto rest = c.close(Residue::half_cycles);
  double sum = cycles;
  for (const Cycle& cycle : rest) sum += cycle.count;
  CHECK_THAT(sum, WithinAbs(20000 * 0.01 / (2 * 3.14159), 1));
  CHECK(c.residue().size() < 70);
}

TEST_CASE("the residue stays short while a random history goes on") {
  RainflowCounter c;
  double cycles = 0;
  for (unsigned seed = 0; seed < 100; ++seed) {
    const auto part = random_history(seed, 10000, false);
    c.add(part.data(), 10000, 1, [&](const Cycle& cycle) { cycles += cycle.count; });
    CHECK(c.residue().size() < 60);
  }
  CHECK(cycles > 3e5);
}

}  // namespace tubewright::rainflow_test
