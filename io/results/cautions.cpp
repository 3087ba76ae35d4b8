#include "io/results/cautions.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "cases/frame/find_parts.h"

namespace tubewright {

namespace {

std::string members_text(int count) {
  return "(" + std::to_string(count) + (count == 1 ? " member)" : " members)");
}

/// What concerns one command, then what concerns all.
std::vector<std::string> before_the_usual(std::vector<std::string> lines) {
  for (std::string& line : cautions()) lines.push_back(std::move(line));
  return lines;
}

}  // namespace

std::vector<std::string> cautions() {
  return {
      "This is a linear beam model: it says nothing about a crash, about the quality of a weld, or "
      "about the fatigue life of joints that nobody has tested.",
      "It is no substitute for licensed engineering practice; where the law or an organiser asks "
      "for an engineer, ask one.",
      "Local codes and the rules of an event take precedence over anything said here.",
  };
}

std::vector<std::string> torsion_cautions() {
  return before_the_usual(
      {"Real frames come out softer than this: joints of thin square tube and brackets give way. "
       "5 to 25 % is common (common practice, no source); `bench-test` finds out.",
       "Stiffness is that of small loads and flat sheets. Two published figures can only be "
       "compared if the frames were held alike."});
}

std::vector<std::string> floor_cautions() {
  return before_the_usual(
      {"Stiffness of blind rivets is a judgement, off by a factor of two either way; a test piece "
       "or `bench-test` tells more. A sheet that is taken off for work must not be counted.",
       "The first torsion frequency is an estimate: two inertias on a spring.",
       "Aluminium on steel corrodes where it stays wet: paint and seal between them, set rivets "
       "wet."});
}

std::vector<std::string> bench_cautions() {
  return before_the_usual(
      {"Load and unload once before zeroing; read at four or five loads both ways and use the "
       "slope, so that slack drops out. Gauges at the held end too: stands give way.",
       "A fit finds one number for all joints or all rivets. That it matches a reading does not "
       "prove that this is where the frame gives way."});
}

std::vector<std::string> modes_cautions() {
  return before_the_usual(
      {"Carried masses swing as if bolted on: a rider or a loose load damps and shifts these "
       "frequencies. Cables count as taut, sheets as flat."});
}

std::vector<std::string> buckling_cautions() {
  return before_the_usual(
      {"Linear buckling of straight members and perfect joints: real frames give way before. EN "
       "1993-1-1 5.2.1 asks for second-order effects below a factor of 10; the member check with "
       "imperfections is made by `check`. Flat bars that tip over sideways are not found."});
}

std::vector<std::string> checks_not_made(const FrameStudies& studies) {
  const Analysis& analysis = studies.analysis;
  std::vector<std::pair<std::string, int>> lines;
  const std::size_t kinds = named_checks({}).size();
  for (std::size_t k = 0; k < kinds; ++k) {
    for (std::size_t i = 0; i < analysis.frame.members.size(); ++i) {
      std::set<std::string> of_member;
      for (const CaseResult& result : analysis.cases) {
        const auto [name, check] = named_checks(result.members[i].checks)[k];
        if (!check->needed || check->reason.empty()) continue;
        of_member.insert(std::string(name) + ": " + check->reason);
      }
      for (const std::string& line : of_member) {
        const auto known = std::find_if(lines.begin(), lines.end(),
                                        [&](const auto& entry) { return entry.first == line; });
        if (known == lines.end()) {
          lines.emplace_back(line, 1);
        } else {
          ++known->second;
        }
      }
    }
  }
  std::vector<std::string> list;
  for (const auto& [line, count] : lines) {
    list.push_back(line + " " + members_text(count));
  }
  const Limits& limits = analysis.frame.limits;
  const bool driven = std::any_of(analysis.cases.begin(), analysis.cases.end(),
                                  [](const CaseResult& c) { return c.driving.has_value(); });
  if (limits.deflection && driven && has_springs(analysis.frame)) {
    list.emplace_back("deflection: a vehicle on springs moves by those, not by its frame");
  }
  if (limits.torsional_stiffness) {
    list.emplace_back("torsional stiffness: `limits` asks for it, `twist` answers");
  }
  if (limits.frequency) list.emplace_back("frequency: `limits` asks for it, `modes` answers");
  if (!studies.fatigue) {
    list.emplace_back("fatigue: the file has no `life` and no vehicle to take one from");
  } else {
    std::map<std::string, int> unchecked;
    for (const int m : studies.fatigue->unchecked()) {
      ++unchecked[studies.fatigue->members[static_cast<std::size_t>(m)].result.reason];
    }
    for (const auto& [reason, count] : unchecked) {
      list.push_back("fatigue: " + reason + " " + members_text(count));
    }
  }
  return list;
}

}  // namespace tubewright
