// What the studies need: torsion test, targets, stock, groups, bench test.
#include <cmath>
#include <set>
#include <unordered_map>

#include "cases/frame/frame_errors.h"
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

/// The cases of a vehicle whose file names none are not known yet: with_load_cases() looks then.
void check_displacements(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  const std::string subject = "`limits.displacement`";
  const bool cases_known = !frame.cases.empty() || !frame.vehicle;
  for (const DisplacementLimit& limit : frame.limits.displacements) {
    if (cases_known) names.cases.find(limit.load_case, subject, limit.place, diagnostics);
    joined_node(names, limit.node, subject, limit.place, diagnostics);
    bool limits_any = false;
    for (std::size_t d = 0; d < limit.most.size(); ++d) {
      if (!limit.most[d]) continue;
      limits_any = true;
      check_range(*limit.most[d], sensible::target, subject + ", node " + quoted(limit.node),
                  direction_names[d], limit.place, diagnostics);
    }
    if (!limits_any) {
      add_error(diagnostics, limit.place, no_direction_limited(limit.load_case, limit.node));
    }
  }
}

/// Every tube is in one group, or kept, or neither; and only what has a section has a size.
class GroupChecker {
 public:
  GroupChecker(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics)
      : frame_(frame), names_(names), diagnostics_(diagnostics) {
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
      if (!frame.members[i].tube.empty()) pieces_[frame.members[i].tube].push_back(i);
    }
  }

  /// `list`: "group `rails`", "`keep`".
  void check(const std::vector<std::string>& members, const std::string& list,
             const SourceLocation& place) {
    std::set<std::string> given;
    for (const std::string& name : members) {
      const int first = names_.loadable.find(name, list, place, diagnostics_);
      if (first < 0) continue;
      if (!given.insert(name).second) {
        add_error(diagnostics_, place, member_listed_twice(list, name));
        continue;
      }
      take(name, static_cast<std::size_t>(first), list, place);
    }
  }

 private:
  void take(const std::string& name, std::size_t first, const std::string& list,
            const SourceLocation& place) {
    const auto pieces = pieces_.find(name);
    const bool whole_tube = pieces != pieces_.end() && frame_.members[first].name != name;
    const std::vector<std::size_t> members =
        whole_tube ? pieces->second : std::vector<std::size_t>{first};
    for (const std::size_t m : members) {
      if (frame_.members[m].kind == MemberKind::spring) {
        add_error(diagnostics_, place, size_of_spring(list, name));
        return;
      }
      const auto [holder, is_new] = list_of_.emplace(m, list);
      if (is_new) continue;
      add_error(diagnostics_, place, member_in_two_lists(name, holder->second, list));
      return;
    }
  }

  const Frame& frame_;
  const FrameNames& names_;
  Diagnostics& diagnostics_;
  std::unordered_map<std::string, std::vector<std::size_t>> pieces_;  ///< of whole tubes
  std::unordered_map<std::size_t, std::string> list_of_;              ///< by member
};

void check_groups(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  GroupChecker checker(frame, names, diagnostics);
  std::set<std::string> given;
  for (const SizeGroup& group : frame.groups) {
    const std::string list = "group " + quoted(group.name);
    if (!given.insert(group.name).second) {
      add_error(diagnostics, group.place, name_given_twice("group", group.name));
    }
    if (group.members.empty()) add_error(diagnostics, group.place, group_of_nothing(group.name));
    checker.check(group.members, list, group.place);
  }
  checker.check(frame.keep.members, "`keep`", frame.keep.place);
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
    for (const Case& c : frame.cases) {
      const bool named = c.name == block.load_case || c.name == block.from;
      if (named && c.kind == CaseKind::ride) {
        add_error(diagnostics, block.place, ride_in_spectrum(c.name));
      }
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
      check_properties(s.given, true, size, {}, diagnostics);
    } else {
      check_outline(s.shape, s.height, s.width, s.wall, Corners::cold_formed, size, {},
                    diagnostics);
    }
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
  check_displacements(frame, names, diagnostics);
  if (frame.life) check_life(frame, diagnostics);
  if (frame.stock) check_stock(*frame.stock, diagnostics);
  check_groups(frame, names, diagnostics);
  if (frame.bench_test) check_bench_test(*frame.bench_test, names, diagnostics);
}

}  // namespace tubewright
