#include "io/cautions.h"

#include <algorithm>
#include <utility>

namespace tubewright {

namespace {

/// Members for which `check` was made in no case, grouped by the reason given first.
std::vector<std::string> not_made(const Analysis& analysis, const char* name,
                                  CheckResult MemberResult::*check) {
  std::vector<std::pair<std::string, int>> reasons;
  for (std::size_t i = 0; i < analysis.frame.members.size(); ++i) {
    bool made = false;
    std::string reason;
    for (const CaseResult& result : analysis.cases) {
      const CheckResult& found = result.members[i].*check;
      made = made || found.utilisation.has_value();
      if (reason.empty()) reason = found.reason;
    }
    if (made || reason.empty()) continue;
    const auto known = std::find_if(reasons.begin(), reasons.end(),
                                    [&](const auto& entry) { return entry.first == reason; });
    if (known == reasons.end()) {
      reasons.emplace_back(reason, 1);
    } else {
      ++known->second;
    }
  }
  std::vector<std::string> lines;
  lines.reserve(reasons.size());
  for (const auto& [reason, count] : reasons) {
    lines.push_back(std::string(name) + ": " + reason + " (" + std::to_string(count) +
                    (count == 1 ? " member)" : " members)"));
  }
  return lines;
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
       "1993-1-1 5.2.1 asks for second-order effects below a factor of 10; its member check, with "
       "imperfections, is not made here. Flat bars that tip over sideways are not found."});
}

std::vector<std::string> checks_not_made(const Analysis& analysis) {
  std::vector<std::string> lines = not_made(analysis, "yield", &MemberResult::yield);
  for (std::string& line : not_made(analysis, "buckling", &MemberResult::buckling)) {
    lines.push_back(std::move(line));
  }
  for (std::string& line : not_made(analysis, "weld", &MemberResult::weld)) {
    lines.push_back(std::move(line));
  }
  lines.emplace_back("joints and fatigue: this version makes no check of either");
  return lines;
}

}  // namespace tubewright
