#include "cases/sizing/size_study.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <map>
#include <memory>

#include "cases/analysis/in_parallel.h"
#include "cases/changes/stock_sizes.h"
#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "cases/sizing/choice_search.h"
#include "cases/sizing/cut_relaxation.h"
#include "cases/sizing/design_check.h"
#include "cases/sizing/lighter_choices.h"
#include "cases/sizing/response_cuts.h"
#include "cases/sizing/size_errors.h"
#include "cases/sizing/size_groups.h"
#include "cases/sizing/sized_stiffness.h"

namespace tubewright {

namespace {

constexpr double beyond = std::numeric_limits<double>::infinity();

/// The sizes that the file has now; -1 where one is not in its list.
Choice choice_now(const Frame& frame, const std::vector<SizedTubes>& groups) {
  Choice now;
  for (const SizedTubes& group : groups) {
    int at = -1;
    for (size_t j = 0; j < group.stock.size() && at < 0; ++j) {
      const bool all = std::all_of(group.members.begin(), group.members.end(), [&](int m) {
        const std::string& section = frame.members[static_cast<size_t>(m)].section;
        return is_size(find_section(frame, section), group.stock[j]);
      });
      if (all) at = static_cast<int>(j);
    }
    now.push_back(at);
  }
  return now;
}

bool all_in_list(const Choice& choice) {
  return std::none_of(choice.begin(), choice.end(), [](int j) { return j < 0; });
}

/// Tubes and panels that keep their size.
double kept_mass(const Frame& frame, const std::vector<SizedTubes>& groups) {
  const NumberedFrame numbered = build_model(frame);
  const MassSummary mass = mass_summary(frame, numbered);
  double kept = mass.tubes + mass.panels;
  for (const SizedTubes& group : groups) {
    for (const int m : group.members) {
      const Member& member = frame.members[static_cast<size_t>(m)];
      kept -= mass_per_length(frame, member) * member_length(numbered, member);
    }
  }
  constexpr double rounding = 1e-12;
  return kept > rounding * (mass.tubes + mass.panels) ? kept : 0;
}

Choice heaviest_of(const std::vector<SizedTubes>& groups) {
  Choice choice;
  for (const SizedTubes& group : groups) {
    const auto most = std::max_element(group.masses.begin(), group.masses.end());
    choice.push_back(static_cast<int>(most - group.masses.begin()));
  }
  return choice;
}

double worst_excess(const SizedDesign& design) {
  return design.passes() ? (design.worst ? design.worst->utilisation : 0)
                         : design.excesses.front().utilisation;
}

/// Of the heaviest sizes and what is found from them by one step in one group at a time that which
/// exceeds its limits least.
SizedDesign least_violated(const DesignCheck& check, const SizedDesign& heaviest,
                           const std::vector<SizedTubes>& groups) {
  SizedDesign best = heaviest;
  constexpr int most_steps = 20;
  for (int step = 0; step < most_steps; ++step) {
    std::vector<Choice> moves;
    for (size_t g = 0; g < groups.size(); ++g) {
      for (const int way : {-1, 1}) {
        Choice c = best.choice;
        c[g] += way;
        if (c[g] >= 0 && c[g] < static_cast<int>(groups[g].sizes.size())) moves.push_back(c);
      }
    }
    std::vector<SizedDesign> designs(moves.size());
    in_parallel(moves.size(), [&](size_t i) { designs[i] = check.analysed(moves[i]); });
    const auto better = std::min_element(designs.begin(), designs.end(),
                                         [](const SizedDesign& a, const SizedDesign& b) {
                                           return worst_excess(a) < worst_excess(b);
                                         });
    if (better == designs.end() || !(worst_excess(*better) < worst_excess(best))) break;
    best = *better;
  }
  return best;
}

/// The answer's group one lighter size down, of each group.
std::vector<GoverningLimit> governing_limits(const DesignCheck& check, const ChoiceSearch& search,
                                             const Choice& best) {
  std::vector<GoverningLimit> governs(best.size());
  in_parallel(best.size(), [&](size_t g) {
    Choice lighter = best;
    const std::vector<double>& costs = search.costs[g];
    const double now = costs[static_cast<size_t>(best[g])];
    while (lighter[g] >= 0 && costs[static_cast<size_t>(lighter[g])] >= now * (1 - same_cost)) {
      --lighter[g];
    }
    governs[g].lightest = lighter[g] < 0;
    if (!governs[g].lightest) governs[g].lighter = check.analysed(lighter);
  });
  return governs;
}

double gap_of(const SizeStudy& study, double best) {
  if (study.proved) return 0;
  return std::isfinite(best) && best > 0 ? (best - study.bound) / best : beyond;
}

}  // namespace

Frame in_sizes(const Frame& frame, const std::vector<SizedTubes>& groups,
               const std::vector<int>& choice) {
  Frame sized = frame;
  for (size_t g = 0; g < groups.size(); ++g) {
    if (choice[g] < 0) continue;
    const StockSize& size = groups[g].stock[static_cast<size_t>(choice[g])];
    std::map<std::string, MemberSet> by_section;
    for (const int m : groups[g].members) {
      by_section[sized.members[static_cast<size_t>(m)].section].push_back(m);
    }
    for (const auto& [name, members] : by_section) {
      SectionEntry section = in_size(find_section(sized, name), size);
      section.name += " of group " + std::to_string(g);
      sized = with_section(sized, members, section);
    }
  }
  return sized;
}

Result<SizeStudy> size_study(const Frame& given, const SizeOptions& options, const TellStep& tell) {
  using Clock = std::chrono::steady_clock;
  const auto begin = Clock::now();
  Result<Frame> loaded = with_load_cases(given);
  if (auto* diagnostics = loaded.error()) return std::move(*diagnostics);
  const Frame& frame = *loaded;
  const Limits& limits = frame.limits;
  if (frame.cases.empty() && !limits.torsional_stiffness && !limits.frequency) {
    return Diagnostics{nothing_to_size_by()};
  }
  if (limits.torsional_stiffness && !frame.torsion) return Diagnostics{limit_of_nothing()};
  Result<SizeGroups> grouped = size_groups(frame, options.cheapest);
  if (auto* diagnostics = grouped.error()) return std::move(*diagnostics);

  SizeStudy study;
  study.options = options;
  study.groups = std::move(grouped->groups);
  study.without_size = std::move(grouped->without_size);
  const std::vector<SizedTubes>& groups = study.groups;
  study.kept_mass = kept_mass(frame, groups);
  study.designs = 1;
  ChoiceSearch search;
  for (const SizedTubes& group : groups) {
    search.costs.push_back(options.cheapest ? group.costs : group.masses);
    study.designs *= static_cast<double>(group.sizes.size());
  }
  search.fixed_cost = options.cheapest ? 0 : study.kept_mass;
  search.tell = tell;
  const DesignCheck check(frame, groups, options.fail_safe);
  search.passes = [&](const Choice& choice) { return check.passes(choice); };
  study.now = check.analysed(choice_now(frame, groups));

  const SizedStiffness parts = sized_stiffness(frame, groups);
  const std::vector<HeldLimits> held = response_limits(frame, groups, parts);
  CutRelaxation relaxation(search.costs, search.fixed_cost, [&](const Shares& shares) {
    return response_cuts(parts, held, shares);
  });

  const Choice heaviest = heaviest_of(groups);
  std::vector<Choice> start;
  if (study.now.passes() && all_in_list(study.now.choice)) {
    start.push_back(study.now.choice);
  } else if (check.passes(heaviest)) {
    start.push_back(heaviest);
  }
  const auto left = [&] {
    return options.seconds - std::chrono::duration<double>(Clock::now() - begin).count();
  };
  if (!start.empty()) {
    constexpr double share_of_time = 0.3;
    start.front() = lighter_choice(search, start.front(), share_of_time * left());
  }
  search.seconds = left();
  const SearchAnswer found = find_cheapest(search, relaxation, start);
  study.proved = found.proved;
  study.bound = found.bound;
  study.rounds = found.rounds;
  study.gap = gap_of(study, found.cost);
  if (found.best.empty()) {
    study.heaviest = check.analysed(heaviest);
    study.least_violated = least_violated(check, *study.heaviest, groups);
  } else {
    study.best = check.analysed(found.best.front());
    for (size_t i = 1; i < found.best.size(); ++i) {
      study.ties.push_back(check.analysed(found.best[i]));
    }
    study.all_ties = found.proved;
    study.governs = governing_limits(check, search, found.best.front());
    if (const auto next = nearest_cheaper(search, found.cost)) study.next = check.analysed(*next);
  }
  study.analysed = check.count();
  return study;
}

}  // namespace tubewright
