#include "cases/changes/rank_study.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "cases/analysis/in_parallel.h"
#include "cases/changes/nine_digits.h"
#include "cases/changes/stock_sizes.h"
#include "cases/checks/check_result.h"
#include "cases/frame/bays.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/layout.h"
#include "cases/model/mass_summary.h"
#include "cases/rides/load_cases.h"
#include "cases/studies/frame_modes.h"

namespace tubewright {

namespace {

Diagnostic nothing_to_rank_by() {
  return {"the frame has neither load cases nor a torsion test: nothing says what a tube is worth",
          "add `cases`, or `torsion`"};
}

double mass_of(const Frame& frame) {
  const MassSummary mass = mass_summary(frame, build_model(frame));
  return mass.tubes + mass.panels;
}

/// The frames that are tried, all from the same one.
class Trials {
 public:
  Trials(const Frame& frame, const BaseStiffnesses& bases) : frame_(frame), bases_(bases) {}

  FrameFigures figures(const Frame& changed) const;

 private:
  const Frame& frame_;
  const BaseStiffnesses& bases_;
};

FrameFigures Trials::figures(const Frame& changed) const {
  const ChangedAnswer answer = changed_answer(changed, bases_);
  FrameFigures f;
  f.mechanism = answer.mechanism;
  f.solved = answer.solved();
  f.mass = mass_of(changed);
  f.stiffness = answer.stiffness;
  f.worst = answer.worst();
  const Limits& limits = frame_.limits;
  f.passes = f.solved && !f.mechanism && (!frame_.torsion || f.stiffness) &&
             (!f.worst || tubewright::passes(f.worst->utilisation)) &&
             (!limits.torsional_stiffness ||
              (f.stiffness && *f.stiffness >= *limits.torsional_stiffness)) &&
             (!limits.mass || f.mass <= *limits.mass);
  if (f.passes && limits.frequency) {
    const Result<FrameModes> modes = frame_modes(changed, 1);
    const FrameModes* found = modes.get();
    const FrameMode* lowest = found == nullptr ? nullptr : lowest_elastic(*found);
    if (lowest != nullptr) f.frequency = lowest->frequency;
    f.passes = found != nullptr && modes_pass(changed, *found);
  }
  return f;
}

double mass_of_members(const Frame& frame, const NumberedFrame& numbered,
                       const MemberSet& members) {
  double mass = 0;
  for (const int m : members) {
    const Member& member = frame.members[static_cast<size_t>(m)];
    mass += mass_per_length(frame, member) * member_length(numbered, member);
  }
  return mass;
}

double length_of_members(const Frame& frame, const NumberedFrame& numbered,
                         const MemberSet& members) {
  double length = 0;
  for (const int m : members)
    length += member_length(numbered, frame.members[static_cast<size_t>(m)]);
  return length;
}

const SectionEntry& section_of_set(const Frame& frame, const MemberSet& members) {
  return find_section(frame, frame.members[static_cast<size_t>(members.front())].section);
}

/// a/b, where both are there and b is not nothing.
std::optional<double> over(const std::optional<double>& a, const std::optional<double>& b) {
  if (!a || !b || *b == 0) return std::nullopt;
  return *a / *b;
}

std::optional<Resized> resized(const Frame& frame, const NumberedFrame& numbered,
                               const Trials& trials, const FrameFigures& whole,
                               const MemberSet& members, const std::optional<StockSize>& size) {
  if (!size) return std::nullopt;
  const SectionEntry& now = section_of_set(frame, members);
  Resized r;
  r.section = in_size(now, *size);
  const Frame changed = with_section(frame, members, r.section);
  r.mass = mass_of_members(changed, numbered, members);
  const auto before = price_per_metre(frame, now), after = price_per_metre(frame, r.section);
  if (before && after) {
    r.price = (*after - *before) * length_of_members(frame, numbered, members);
  }
  r.frame = trials.figures(changed);
  if (whole.stiffness && r.frame.stiffness) {
    const double gain = *r.frame.stiffness - *whole.stiffness;
    r.stiffness_per_kg = over(gain, r.frame.mass - whole.mass);
    r.stiffness_per_price = over(gain, r.price);
  }
  return r;
}

/// The lightest tube among the sections of the file.
std::string lightest_tube(const Frame& frame) {
  std::string lightest;
  double least = INFINITY;
  for (const SectionEntry& s : frame.sections) {
    const bool tube = s.shape == Shape::square_tube || s.shape == Shape::rectangular_tube ||
                      s.shape == Shape::round_tube;
    if (!tube) continue;
    Member member;
    member.section = s.name;
    const double mass = mass_per_length(frame, member);
    if (mass >= least) continue;
    least = mass;
    lightest = s.name;
  }
  return lightest;
}

using NodePair = std::pair<std::string, std::string>;

NodePair in_order(const Frame& frame, const NodePair& pair) {
  const auto number = numbers_of_nodes(frame);
  return number.at(pair.first) <= number.at(pair.second) ? pair : NodePair(pair.second, pair.first);
}

/// Both diagonals of every bay that has neither a panel nor, as a bay, a tube across it.
std::vector<NodePair> open_diagonals(const Frame& frame) {
  const Layout layout = layout_of(frame);
  const NumberedFrame numbered = build_model(frame);
  std::vector<NodePair> pairs;
  for (const Bay& bay : four_sided_bays(frame, layout)) {
    std::array<int, 4> corners = bay.corners;
    std::sort(corners.begin(), corners.end());
    const bool clad = std::any_of(numbered.model.panels.begin(), numbered.model.panels.end(),
                                  [&](const Panel& panel) {
                                    std::array<int, 4> own = panel.corners;
                                    std::sort(own.begin(), own.end());
                                    return own == corners;
                                  });
    if (clad) continue;
    for (const size_t k : {0, 1}) {
      const NodePair pair =
          in_order(frame, {frame.nodes[static_cast<size_t>(bay.corners[k])].name,
                           frame.nodes[static_cast<size_t>(bay.corners[k + 2])].name});
      if (std::find(pairs.begin(), pairs.end(), pair) == pairs.end()) pairs.push_back(pair);
    }
  }
  return pairs;
}

/// Each open diagonal alone, and those that have an image with it.
std::vector<Diagonal> candidates(const Frame& frame) {
  const std::vector<NodePair> pairs = open_diagonals(frame);
  std::vector<Diagonal> list;
  for (const NodePair& pair : pairs) {
    Diagonal one;
    one.tubes = {pair};
    list.push_back(one);
  }
  for (const NodePair& pair : pairs) {
    const NodePair image = image_of(frame, pair.first, pair.second);
    if (image.first.empty()) continue;
    const NodePair other = in_order(frame, image);
    const auto self = std::find(pairs.begin(), pairs.end(), pair);
    const auto at = std::find(self, pairs.end(), other);
    if (at == pairs.end() || at == self) continue;  // its own image, or taken already
    Diagonal both;
    both.tubes = {pair, other};
    list.push_back(both);
  }
  return list;
}

void try_diagonal(const Frame& frame, const Trials& trials, const FrameFigures& whole,
                  const std::string& section, Diagonal& d) {
  Frame welded = frame, pinned = frame;
  for (const auto& [from, to] : d.tubes) {
    welded = with_tube(welded, from, to, section, false);
    pinned = with_tube(pinned, from, to, section, true);
  }
  d.welded = trials.figures(welded);
  d.pinned = trials.figures(pinned);
  d.mass = d.welded.mass - whole.mass;
  if (whole.stiffness && d.welded.stiffness && d.mass > 0) {
    d.stiffness_per_kg = (*d.welded.stiffness - *whole.stiffness) / d.mass;
  }
}

/// What has to come down to 1: the worst item, or a limit that is missed by more.
double demand(const Frame& frame, const FrameFigures& f) {
  if (!f.solved || f.mechanism) return INFINITY;
  double worst = f.worst ? f.worst->utilisation : 0;
  if (frame.limits.torsional_stiffness) {
    worst = std::max(worst, f.stiffness ? *frame.limits.torsional_stiffness / *f.stiffness
                                        : static_cast<double>(INFINITY));
  }
  return worst;
}

/// Calls `consider` with every change there is and the frame that it makes.
template <class Consider>
void each_change(const RankStudy& study, const Consider& consider) {
  using Kind = BestChange::Kind;
  const auto offer = [&](Kind kind, size_t index, bool pinned, const FrameFigures& f) {
    consider(BestChange{kind, static_cast<int>(index), pinned, f.mass - study.whole.mass}, f);
  };
  for (size_t i = 0; i < study.diagonals.size(); ++i) {
    offer(Kind::diagonal, i, false, study.diagonals[i].welded);
    offer(Kind::diagonal, i, true, study.diagonals[i].pinned);
  }
  for (size_t i = 0; i < study.groups.size(); ++i) {
    const TubeWorth& g = study.groups[i];
    if (g.up) offer(Kind::up, i, false, g.up->frame);
    if (g.down) offer(Kind::down, i, false, g.down->frame);
    offer(Kind::remove, i, false, g.without);
  }
}

/// The change with the greatest value; of equal ones the first.
template <class Value>
BestChange best_by(const RankStudy& study, const Value& value) {
  BestChange best;
  double greatest = 0;
  each_change(study, [&](const BestChange& change, const FrameFigures& f) {
    const double v = value(change, f);
    if (!(v > greatest * (1 + 1e-9))) return;
    greatest = v;
    best = change;
  });
  return best;
}

void find_best(const Frame& frame, RankStudy& study) {
  const FrameFigures& whole = study.whole;
  constexpr double least_mass = 0.01;  // kg: what adds less counts as adding that
  if (!whole.passes) {
    // Whatever passes comes before what does not; of the former the lightest.
    const double now = demand(frame, whole);
    study.mends = best_by(study, [&](const BestChange&, const FrameFigures& f) {
      if (f.passes) return 1 + 1 / std::max(f.mass, least_mass);
      const double gain = std::isfinite(now) ? 1 - demand(frame, f) / now : 0;
      return std::isfinite(gain) ? gain : 0;
    });
  }
  // Where the file asks for no stiffness, what there is was meant to be there.
  constexpr double stiffness_to_keep = 0.95;  // judgement
  const auto stiff_enough = [&](const FrameFigures& f) {
    return frame.limits.torsional_stiffness || !whole.stiffness ||
           (f.stiffness && *f.stiffness >= stiffness_to_keep * *whole.stiffness);
  };
  study.lightens = best_by(study, [&](const BestChange& c, const FrameFigures& f) {
    return f.passes && c.mass < 0 && stiff_enough(f) ? -c.mass : 0;
  });
  study.stiffens = best_by(study, [&](const BestChange& c, const FrameFigures& f) {
    if (!whole.stiffness || !f.stiffness || !(c.mass > 0)) return 0.0;
    return (*f.stiffness - *whole.stiffness) / std::max(c.mass, least_mass);
  });
}

}  // namespace

Result<RankStudy> rank_study(const Frame& given, const std::string& diagonal_section,
                             const TellStep& tell) {
  Result<Frame> loaded = with_load_cases(given);
  if (auto* diagnostics = loaded.error()) return std::move(*diagnostics);
  const Frame& frame = *loaded;
  if (frame.cases.empty() && !frame.torsion) return Diagnostics{nothing_to_rank_by()};
  const Result<Analysis> outcome = analyse(frame);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const BaseStiffnesses bases = base_stiffnesses(held_models(frame));
  const Trials trials(frame, bases);
  const SlopeBase slopes(frame, *outcome, bases);
  const NumberedFrame numbered = build_model(frame);

  RankStudy study;
  study.whole = trials.figures(frame);
  study.deflection = slopes.deflection();
  study.frequency = slopes.frequency();
  study.buckling = slopes.buckling();
  study.groups.resize(0);
  for (const TubeGroup& g : tube_groups(frame)) {
    TubeWorth worth;
    worth.name = g.name;
    worth.members = g.members;
    study.groups.push_back(std::move(worth));
  }
  for (size_t m = 0; m < frame.members.size(); ++m) {
    if (frame.members[m].section.empty()) continue;
    TubeWorth worth;
    worth.name = frame.members[m].name;
    worth.members = {static_cast<int>(m)};
    study.tubes.push_back(std::move(worth));
  }
  study.diagonals = candidates(frame);
  study.diagonal_section = diagonal_section.empty() ? lightest_tube(frame) : diagonal_section;
  if (study.diagonal_section.empty()) study.diagonals.clear();

  // Groups of one tube are that tube.
  std::vector<TubeWorth*> tried;
  for (TubeWorth& tube : study.tubes) tried.push_back(&tube);
  for (TubeWorth& group : study.groups) {
    if (group.members.size() > 1) tried.push_back(&group);
  }
  std::mutex telling;
  size_t told = 0;
  const size_t all = tried.size() + study.diagonals.size();
  const auto tell_next = [&](std::string_view step) {
    const std::lock_guard lock(telling);
    tell(step, ++told, all);
  };
  in_parallel(tried.size(), [&](size_t i) {
    tell_next("changing tube");
    TubeWorth& t = *tried[i];
    t.mass = mass_of_members(frame, numbered, t.members);
    t.per_wall = slopes.slopes(t.members);
    const NextSizes next = next_sizes(frame, section_of_set(frame, t.members));
    if (t.per_wall) t.stiffness_per_kg = over(t.per_wall->stiffness, t.per_wall->mass);
    t.up = resized(frame, numbered, trials, study.whole, t.members, next.up);
    t.down = resized(frame, numbered, trials, study.whole, t.members, next.down);
    t.without = trials.figures(without_members(frame, t.members));
    t.removable = t.without.passes;
  });
  for (TubeWorth& group : study.groups) {
    if (group.members.size() > 1) continue;
    const auto alone = std::find_if(study.tubes.begin(), study.tubes.end(),
                                    [&](const auto& t) { return t.members == group.members; });
    group = *alone;
  }
  in_parallel(study.diagonals.size(), [&](size_t i) {
    tell_next("adding diagonal");
    try_diagonal(frame, trials, study.whole, study.diagonal_section, study.diagonals[i]);
  });
  std::stable_sort(study.diagonals.begin(), study.diagonals.end(),
                   [](const Diagonal& a, const Diagonal& b) {
                     return nine_digits(a.stiffness_per_kg.value_or(0)) >
                            nine_digits(b.stiffness_per_kg.value_or(0));
                   });
  find_best(frame, study);
  return study;
}

}  // namespace tubewright
