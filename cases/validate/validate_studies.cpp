// What the studies need: torsion test, targets, stock, bench test.
#include <cmath>
#include <set>

#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {
namespace {

// Nodes of a pair must be this far apart across the vehicle: their twist is a difference of heights
// divided by this distance.
constexpr double narrowest_pair = 0.001;  // m

void check_torsion(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  const TorsionTest& t = *frame.torsion;
  check_range(t.couple, sensible::target, "the torsion test", "couple", t.place, diagnostics);
  std::set<std::string> used;
  for (const auto& [pair, key] : {std::pair{&t.front, "front"}, {&t.rear, "rear"}}) {
    const std::string subject = std::string("`torsion.") + key + "`";
    for (const std::string& node : *pair) {
      if (used.insert(node).second) continue;
      add_error(diagnostics, t.place, torsion_node_used_twice(node));
    }
    const int left = joined_node(names, (*pair)[0], subject, t.place, diagnostics);
    const int right = joined_node(names, (*pair)[1], subject, t.place, diagnostics);
    if (left < 0 || right < 0 || left == right) continue;
    const double apart = frame.nodes[left].at.y() - frame.nodes[right].at.y();
    if (apart >= narrowest_pair) continue;
    add_error(diagnostics, t.place, torsion_pair_exchanged(key, (*pair)[0], (*pair)[1]));
  }
}

void check_limits(const Limits& limits, Diagnostics& diagnostics) {
  const auto check = [&](const std::optional<double>& value, const char* key) {
    if (value) check_range(*value, sensible::target, "`limits`", key, {}, diagnostics);
  };
  check_range(limits.yield_factor, sensible::positive_factor, "`limits`", "yield_factor", {},
              diagnostics);
  check(limits.torsional_stiffness, "torsional_stiffness");
  check(limits.mass, "mass");
  check(limits.deflection, "deflection");
  check(limits.frequency, "frequency");
}

void check_life(const Frame& frame, Diagnostics& diagnostics) {
  const Life& life = *frame.life;
  check_range(life.category, sensible::strength, "`life`", "category", life.place, diagnostics);
  if (life.spectrum.empty() && !frame.vehicle) {
    add_error(diagnostics, life.place, life_without_spectrum());
  }
  for (const LifeBlock& block : life.spectrum) {
    constexpr Range cycles{1e-3, 1e15, "how often it happens, above 0 and at most 1e15"};
    check_range(block.cycles, cycles, "`life.spectrum`", "cycles", block.place, diagnostics);
    if (!within(block.vertical, sensible::multiple_of_g)) {
      check_range(block.vertical, sensible::multiple_of_g, "`life.spectrum`", "vertical",
                  block.place, diagnostics);
    }
    const bool shaken = block.vertical > 0;
    if (shaken == !block.load_case.empty() || (shaken && !block.from.empty())) {
      add_error(diagnostics, block.place, cycle_of_both_or_neither());
    } else if (shaken && !frame.vehicle) {
      add_error(diagnostics, block.place, shaken_without_vehicle());
    }
  }
}

void check_stock(const Stock& stock, Diagnostics& diagnostics) {
  constexpr Range bar_length{0.01, 100, "a length above 0 (at least 10 mm) and at most 100 m"};
  constexpr Range waste{0, 10, "a length of 0 to 10 m"};
  const std::string subject = "`stock`";
  check_range(stock.kerf, waste, subject, "kerf", {}, diagnostics);
  if (check_range(stock.length, bar_length, subject, "length", {}, diagnostics) &&
      check_range(stock.end_trim, waste, subject, "end_trim", {}, diagnostics) &&
      2 * stock.end_trim >= stock.length) {
    add_error(diagnostics, {}, stock_trimmed_away());
  }
  for (std::size_t i = 0; i < stock.sizes.size(); ++i) {
    const StockSize& s = stock.sizes[i];
    const std::string size = "stock size " + std::to_string(i + 1);
    if (s.shape == Shape::properties) {
      add_error(diagnostics, {}, stock_without_shape(size));
      continue;
    }
    check_outline(s.shape, s.height, s.width, s.wall, Corners::cold_formed, size, {}, diagnostics);
    if (s.price) {
      check_range(*s.price, Range{0, 1e9, "a price of 0 or more"}, size, "price", {}, diagnostics);
    }
  }
}

void check_bench_test(const BenchTest& test, const FrameNames& names, Diagnostics& diagnostics) {
  for (const auto& [node, kilograms] : test.weights) {
    const std::string subject = "`bench_test.weights`";
    joined_node(names, node, subject, {}, diagnostics);
    constexpr Range weight{-1e6, 1e6, "a weight of at most 1e6 kg; minus lifts"};
    check_range(kilograms, weight, subject, node, {}, diagnostics);
  }
  for (const GaugeReading& gauge : test.gauges) {
    const std::string subject = "`bench_test.gauges`";
    joined_node(names, gauge.node, subject, {}, diagnostics);
    if (gauge.direction < 0 || gauge.direction > 2) {
      add_error(diagnostics, {}, gauge_without_direction(gauge.node));
    }
    if (gauge.reading) {
      check_range(*gauge.reading, sensible::displacement, "`bench_test.readings`", gauge.node, {},
                  diagnostics);
    }
  }
}

}  // namespace

void validate_studies(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  if (frame.torsion) check_torsion(frame, names, diagnostics);
  check_limits(frame.limits, diagnostics);
  if (frame.life) check_life(frame, diagnostics);
  if (frame.stock) check_stock(*frame.stock, diagnostics);
  if (frame.bench_test) check_bench_test(*frame.bench_test, names, diagnostics);
}

}  // namespace tubewright
