#include "cases/variants/frame_comparison.h"

#include <algorithm>
#include <utility>

#include "cases/analysis/in_parallel.h"
#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "cases/studies/frame_modes.h"
#include "cases/workshop/cut_list.h"

namespace tubewright {

namespace {

constexpr int frequencies_shown = 3;

/// A side, and what both are matched by.
struct Solved {
  FrameSide side;
  std::vector<std::pair<std::string, std::optional<Worst>>> cases;
  CutList cut;
};

std::vector<double> own_frequencies(const Frame& frame) {
  std::vector<double> list;
  const Result<FrameModes> modes = frame_modes(frame, frequencies_shown);
  if (!modes) return list;
  const auto& own = modes->own.empty() ? modes->modes : modes->own;
  for (const FrameMode& mode : own) {
    if (!mode.rigid && list.size() < frequencies_shown) list.push_back(mode.frequency);
  }
  return list;
}

void count_workshop(const Frame& frame, Solved& solved) {
  solved.cut = cut_list(frame);
  FrameSide& side = solved.side;
  side.weld_length = solved.cut.weld_length;
  for (const CutGroup& group : solved.cut.groups) {
    side.pieces += static_cast<int>(group.names.size());
  }
  bool priced = !solved.cut.orders.empty();
  double cost = 0;
  for (const BarOrder& order : solved.cut.orders) {
    side.bars += order.nesting.bars_needed;
    priced = priced && order.bar_price.has_value();
    cost += order.nesting.bars_needed * order.bar_price.value_or(0);
  }
  if (priced) side.cost = cost;
}

Solved solve(const Frame& frame) {
  Solved solved;
  solved.side.mass = mass_summary(frame, build_model(frame));
  count_workshop(frame, solved);
  auto checked = verdict_check(frame);
  if (auto* diagnostics = checked.error()) {
    solved.side.trouble = std::move(*diagnostics);
    return solved;
  }
  solved.side.numbers = numbers_of(*checked);
  for (const CaseResult& c : checked->analysis.cases) solved.cases.emplace_back(c.name, c.worst);
  solved.side.frequencies = own_frequencies(frame);
  return solved;
}

std::vector<ComparedCase> matched_cases(const Solved& first, const Solved& second) {
  std::vector<ComparedCase> list;
  for (const auto& [name, worst] : second.cases) list.push_back({name, {std::nullopt, worst}});
  for (const auto& [name, worst] : first.cases) {
    const std::string& wanted = name;
    auto known = std::find_if(list.begin(), list.end(),
                              [&](const ComparedCase& c) { return c.name == wanted; });
    if (known == list.end()) known = list.insert(list.end(), {name, {}});
    known->worst[0] = worst;
  }
  return list;
}

std::vector<ComparedBars> matched_bars(const Pair<const Frame*>& frames,
                                       const Pair<const Solved*>& solved) {
  std::vector<ComparedBars> list;
  for (const std::size_t i : {0U, 1U}) {
    for (const BarOrder& order : solved[i]->cut.orders) {
      const SectionEntry& section = find_section(*frames[i], order.section);
      auto known = std::find_if(list.begin(), list.end(), [&](const ComparedBars& b) {
        return same_size(b.section, section);
      });
      if (known == list.end()) known = list.insert(list.end(), {section, {}, {}});
      known->bars[i] += order.nesting.bars_needed;
      if (order.bar_price) {
        known->cost[i] = known->cost[i].value_or(0) + order.nesting.bars_needed * *order.bar_price;
      }
    }
  }
  return list;
}

}  // namespace

FrameComparison compare_frames(const Frame& first, const Frame& second, const TellStep& tell) {
  const Pair<const Frame*> frames = {&first, &second};
  Pair<Solved> solved;
  tell("solving both frames", 0, 0);
  in_parallel(2, [&](std::size_t i) { solved[i] = solve(*frames[i]); });
  FrameComparison c;
  c.cases = matched_cases(solved[0], solved[1]);
  c.bars = matched_bars(frames, {solved.data(), solved.data() + 1});
  c.changes = frame_changes(first, second);
  for (const std::size_t i : {0U, 1U}) c.sides[i] = std::move(solved[i].side);
  return c;
}

bool comparison_passes(const FrameComparison& comparison) {
  const std::optional<FrameNumbers>& second = comparison.sides[1].numbers;
  return second && second->verdict == Verdict::Answer::pass;
}

}  // namespace tubewright
