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
#include "cases/rides/load_cases.h"
#include "cases/sizing/bar_relaxation.h"
#include "cases/sizing/bar_structure.h"
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

/// What is not in its list as the first size there that is as heavy, or else the heaviest.
Choice rounded_up(Choice now, const Frame& frame, const std::vector<SizedTubes>& groups) {
  const NumberedFrame numbered = build_model(frame);
  for (size_t g = 0; g < groups.size(); ++g) {
    if (now[g] >= 0) continue;
    double mass = 0;
    for (const int m : groups[g].members) {
      const Member& member = frame.members[static_cast<size_t>(m)];
      mass += mass_per_length(frame, member) * member_length(numbered, member);
    }
    const std::vector<double>& masses = groups[g].masses;
    const auto heavier = std::find_if(masses.begin(), masses.end(),
                                      [&](double listed) { return listed >= mass * (1 - 1e-9); });
    const auto at =
        heavier != masses.end() ? heavier : std::max_element(masses.begin(), masses.end());
    now[g] = static_cast<int>(at - masses.begin());
  }
  return now;
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

using Clock = std::chrono::steady_clock;

/// From a design by one step in one group at a time to that which exceeds its limits least; at
/// least one round of steps.
SizedDesign least_violated(const DesignCheck& check, const SizedDesign& from,
                           const std::vector<SizedTubes>& groups, double seconds) {
  const auto begin = Clock::now();
  const auto late = [&] {
    return std::chrono::duration<double>(Clock::now() - begin).count() > seconds;
  };
  SizedDesign best = from;
  constexpr int most_steps = 20;
  for (int step = 0; step < most_steps && (step == 0 || !late()); ++step) {
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

/// Something that cuts can be made of.
bool limits_movement(const Frame& frame) {
  return frame.limits.torsional_stiffness || frame.limits.deflection ||
         !frame.limits.displacements.empty();
}

bool only_links(const Frame& frame, const std::vector<SizedTubes>& groups) {
  return std::all_of(groups.begin(), groups.end(), [&](const SizedTubes& group) {
    return std::all_of(group.members.begin(), group.members.end(), [&](int m) {
      return frame.members[static_cast<size_t>(m)].kind == MemberKind::link;
    });
  });
}

/// What leaves choices out by bounds, with all that it needs.
struct Bounds {
  SizedStiffness parts;
  std::vector<HeldLimits> held;
  std::unique_ptr<Relaxation> relaxation;
};

/// Bars that only carry axial force have a relaxation of their own, by mass, which can judge
/// quickly too.
std::unique_ptr<Bounds> bounds_for(const Frame& frame, const std::vector<SizedTubes>& groups,
                                   bool cheapest, ChoiceSearch& search) {
  auto bounds = std::make_unique<Bounds>();
  const bool links = only_links(frame, groups);
  CutSource source = [](const Shares&) { return std::vector<SeparableCut>{}; };
  if (links || limits_movement(frame)) {
    bounds->parts = sized_stiffness(frame, groups);
    bounds->held = response_limits(frame, groups, bounds->parts);
    source = [known = bounds.get()](const Shares& shares) {
      return response_cuts(known->parts, known->held, shares);
    };
  }
  if (links && !cheapest) {
    if (auto bars = bar_structure(frame, groups, bounds->parts)) {
      auto by_forces = std::make_unique<BarRelaxation>(std::move(*bars), search.fixed_cost, source);
      search.surely_fails = [judge = by_forces.get()](const Choice& choice) {
        return judge->surely_fails(choice);
      };
      bounds->relaxation = std::move(by_forces);
      return bounds;
    }
  }
  bounds->relaxation = std::make_unique<CutRelaxation>(search.costs, search.fixed_cost, source);
  return bounds;
}

/// A choice that passes, as far down as a descent comes from the file's sizes, or the heaviest, or
/// what is found by mending the former.
std::vector<Choice> first_choices(const DesignCheck& check, const ChoiceSearch& search,
                                  const std::vector<SizedTubes>& groups, const Choice& now,
                                  const Choice& heaviest, double seconds) {
  for (const Choice& choice : {now, heaviest}) {
    if (search.surely_fails && search.surely_fails(choice)) continue;
    if (search.passes(choice)) return {lighter_choice(search, choice, seconds)};
  }
  if (search.surely_fails) return {};  // its relaxation finds its own
  const SizedDesign mended = least_violated(check, check.analysed(now), groups, seconds / 2);
  if (!search.passes(mended.choice)) return {};
  return {lighter_choice(search, mended.choice, seconds / 2)};
}

bool has_no_answer(const SizedDesign& design) {
  return !design.passes() && design.excesses.front().check == "no_answer";
}

/// What exceeds its limit by the same in both.
std::vector<Failure> same_excesses(const SizedDesign& one, const SizedDesign& other) {
  std::vector<Failure> same;
  for (const Failure& a : one.excesses) {
    const bool found =
        std::any_of(other.excesses.begin(), other.excesses.end(), [&](const Failure& b) {
          constexpr double rounding = 1e-6;
          return a.check == b.check && a.item == b.item && a.load_case == b.load_case &&
                 std::abs(a.utilisation - b.utilisation) <= rounding * a.utilisation;
        });
    if (found && a.check != "no_answer") same.push_back(a);
  }
  return same;
}

/// Ties, what governs, the next lighter one.
void tell_more_of_best(const DesignCheck& check, const ChoiceSearch& search,
                       const SearchAnswer& found, SizeStudy& study) {
  for (size_t i = 1; i < found.best.size(); ++i) {
    study.ties.push_back(check.analysed(found.best[i]));
  }
  study.all_ties = found.proved;
  study.governs = governing_limits(check, search, found.best.front());
  if (const auto next = nearest_cheaper(search, found.cost)) study.next = check.analysed(*next);
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
  const auto begin = Clock::now();
  const auto left = [&] {
    return options.seconds - std::chrono::duration<double>(Clock::now() - begin).count();
  };
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
  study.stiffness_asked = limits.torsional_stiffness.has_value();
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
  const DesignCheck check(frame, groups, options);
  search.passes = [&](const Choice& choice) { return check.passes(choice); };
  const std::unique_ptr<Bounds> bounds = bounds_for(frame, groups, options.cheapest, search);

  const Choice now = choice_now(frame, groups), heaviest = heaviest_of(groups);
  study.now = check.analysed(now);
  if (has_no_answer(study.now) && has_no_answer(check.analysed(heaviest))) {
    const Result<Analysis> as_drawn = analyse(frame);
    if (const auto* diagnostics = as_drawn.error()) return *diagnostics;
  }
  constexpr double share_of_time = 0.3;
  const std::vector<Choice> start = first_choices(
      check, search, groups, rounded_up(now, frame, groups), heaviest, share_of_time * left());
  search.seconds = left();
  const SearchAnswer found = find_cheapest(search, *bounds->relaxation, start);
  study.bound = found.bound;
  study.rounds = found.rounds;
  // The mass is no limit of the search for the least: that is within it or nothing is.
  const bool too_heavy =
      !options.cheapest && limits.mass && !found.best.empty() && found.cost > *limits.mass;
  study.proved = found.proved ||
                 (!options.cheapest && limits.mass && found.bound > *limits.mass * (1 + same_cost));
  if (found.best.empty() || too_heavy) {
    study.gap = study.proved ? 0 : std::numeric_limits<double>::infinity();
    study.heaviest = check.analysed(heaviest);
    study.out_of_reach = same_excesses(check.analysed(Choice(groups.size(), 0)), *study.heaviest);
    const SizedDesign from = too_heavy ? check.analysed(found.best.front()) : *study.heaviest;
    study.least_violated =
        least_violated(check, from, groups, std::max(0.0, share_of_time * left()));
  } else {
    study.gap = study.proved ? 0 : (found.cost - study.bound) / found.cost;
    study.best = check.analysed(found.best.front());
    tell_more_of_best(check, search, found, study);
  }
  study.analysed = check.count();
  return study;
}

}  // namespace tubewright
