// Two frames side by side filled in by hand, for the tests of what is written of them.
#pragma once

#include "io/text/workshop_units.h"
#include "io/variants/compare_output.h"
#include "tests/cases/small_frames.h"

namespace tubewright::testing {

inline FrameSide hand_made_side(double mass, double N_m_deg, double used, Verdict::Answer verdict) {
  FrameSide side;
  side.mass.tubes = mass;
  side.mass.total = mass + 100;
  FrameNumbers numbers;
  numbers.mass = mass;
  numbers.stiffness = N_m_deg / per_degree;
  numbers.frequency = 20.5;
  numbers.worst = WorstOfAll{"brake", "yield", "rail", used};
  numbers.verdict = verdict;
  side.numbers = numbers;
  side.frequencies = {20.5, 31};
  side.bars = 3;
  side.pieces = 9;
  side.weld_length = 1.25;
  return side;
}

/// B is lighter by 1.2 kg, stiffer by 8 % and used more; one tube of it is new, one resized.
inline Comparison hand_made_comparison() {
  Comparison c;
  c.files = {"before.yaml", "after.yaml"};
  c.frames = {braced_rectangle(), braced_rectangle()};
  c.frames[0].title = "Rack";
  c.frames[1].title = "Rack <b> & co";
  c.frames[0].members.pop_back();
  c.frames[1].sections.push_back(c.frames[1].sections.front());
  c.frames[1].sections.back().name = "thin";
  c.frames[1].sections.back().wall = 0.0015;
  c.frames[1].members[0].section = c.frames[1].members[1].section = "thin";
  c.frames[1].nodes[3].at.y() = 0.5;
  c.result.changes = frame_changes(c.frames[0], c.frames[1]);
  c.result.sides = {hand_made_side(12.4, 400, 0.71, Verdict::Answer::pass),
                    hand_made_side(11.2, 432, 0.83, Verdict::Answer::pass)};
  c.result.sides[0].cost = 40;
  c.result.sides[1].cost = 37.5;
  c.result.cases = {{"brake", {Worst{"yield", "rail", 0.71}, Worst{"yield", "rail", 0.83}}},
                    {"turn", {std::nullopt, Worst{"weld", "rail", 0.5}}}};
  c.result.bars = {{c.frames[0].sections.front(), {3, 2}, {40, 26.5}},
                   {c.frames[1].sections.back(), {0, 1}, {std::nullopt, 11}}};
  return c;
}

}  // namespace tubewright::testing
