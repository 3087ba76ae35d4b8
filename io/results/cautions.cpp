#include "io/results/cautions.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "cases/bends/bending.h"
#include "cases/frame/built_in_materials.h"
#include "cases/lint/small_kinks.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

std::string count_text(int count, const std::string& noun) {
  return "(" + std::to_string(count) + " " + noun + (count == 1 ? ")" : "s)");
}

std::string members_text(int count) { return count_text(count, "member"); }

/// "A, B, C and 4 more".
std::string first_names(const std::vector<std::string>& names) {
  constexpr std::size_t shown = 6;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), shown); ++i) {
    text += (i == 0 ? "" : ", ") + names[i];
  }
  if (names.size() > shown) text += " and " + std::to_string(names.size() - shown) + " more";
  return text;
}

/// What a comparison's rule was not written for, one by one: "walls under 2.5 mm".
std::vector<std::string> ranges_left(const std::string& reason) {
  std::vector<std::string> ranges;
  const std::string between = "; ";
  for (std::size_t from = 0; from < reason.size();) {
    const std::size_t to = std::min(reason.find(between, from), reason.size());
    ranges.push_back(reason.substr(from, to - from));
    from = to + between.size();
  }
  return ranges;
}

bool has_aluminium_on_steel(const Frame& frame) {
  const auto is = [&](const std::string& material, Metal metal) {
    const MaterialEntry* m = find_material(frame, material);
    return m != nullptr && m->metal == metal;
  };
  return std::any_of(frame.sheets.begin(), frame.sheets.end(),
                     [&](const Sheet& s) { return is(s.material, Metal::aluminium); }) &&
         std::any_of(frame.sections.begin(), frame.sections.end(),
                     [&](const SectionEntry& s) { return is(s.material, Metal::steel); });
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
      {"Real frames may come out softer still: brackets give way, and joints that are taken as "
       "rigid. "
       "Against rigid joints 5 to 25 % is common (common practice, no source); `bench-test` finds "
       "out.",
       "Stiffness is that of small loads and flat sheets. Two published figures can only be "
       "compared if the frames were held alike."});
}

std::vector<std::string> floor_cautions() {
  return before_the_usual(
      {"Stiffness of blind rivets is a judgement, off by a factor of two either way; a test piece "
       "or `bench-test` tells more. A sheet that is taken off for work must not be counted.",
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

namespace {

/// What comparisons were not written for, in the order it turns up, and the items it concerns.
class RangesByItem {
 public:
  void note(const std::string& name, const CheckResult& check, std::size_t item) {
    if (!check.comparison || !check.utilisation) return;
    for (const std::string& range : ranges_left(check.reason)) {
      const std::string line = name + ": " + range;
      auto known = std::find_if(lines_.begin(), lines_.end(),
                                [&](const auto& entry) { return entry.first == line; });
      if (known == lines_.end()) known = lines_.insert(lines_.end(), {line, {}});
      known->second.insert(item);
    }
  }

  void write(const std::string& noun, std::vector<std::string>& list) const {
    for (const auto& [line, items] : lines_) {
      list.push_back(line + " " + count_text(static_cast<int>(items.size()), noun));
    }
  }

 private:
  std::vector<std::pair<std::string, std::set<std::size_t>>> lines_;
};

}  // namespace

std::vector<std::string> comparisons(const Analysis& analysis) {
  RangesByItem members, attachments, gussets;
  for (const CaseResult& result : analysis.cases) {
    for (std::size_t i = 0; i < result.members.size(); ++i) {
      const MemberChecks& checks = result.members[i].checks;
      for (const auto& [name, check] : named_checks(checks)) members.note(name, *check, i);
      for (const CheckResult& weld : checks.weld_at) members.note("weld", weld, i);
      for (const CheckResult& joint : checks.joint_at) members.note("joint", joint, i);
    }
    for (std::size_t i = 0; i < result.attachments.size(); ++i) {
      for (const NamedCheck& check : result.attachments[i].checks) {
        attachments.note(in_words(check.name), check.result, i);
      }
    }
    for (std::size_t i = 0; i < result.gussets.size(); ++i) {
      for (const NamedCheck& check : result.gussets[i].checks) {
        gussets.note(in_words(check.name), check.result, i);
      }
    }
  }
  std::vector<std::string> list;
  members.write("member", list);
  attachments.write("attachment", list);
  gussets.write("gusset", list);
  return list;
}

std::vector<std::string> not_looked_at(const Analysis& analysis) {
  const Frame& frame = analysis.frame;
  std::vector<std::string> list;
  for (const SmallKink& kink : small_kinks(frame, layout_of(frame))) {
    list.push_back("tube " + frame.members[kink.after].tube + " turns by " +
                   fixed(kink.angle / degree, 1) + " degrees at " + kink.node +
                   ": taken as cut and welded there, not as bent");
  }
  const auto hinged = std::count_if(frame.members.begin(), frame.members.end(),
                                    [](const Member& m) { return m.kind != MemberKind::beam; });
  const std::vector<std::string> bare = pick_ups_without_attachment(frame);
  if (!bare.empty()) {
    list.push_back(
        "pick-ups without an attachment (" + first_names(bare) +
        "): links, springs and cables end there at the tube's axis, so nothing is known "
        "of the tube wall under their tabs, their brackets, bolts and welds, nor of the "
        "moment that an offset hole puts on the tube; describe them under `attachments`");
  }
  if (hinged > 0) {
    list.push_back("links, springs and cables " + members_text(static_cast<int>(hinged)) +
                   ": their own ends, rod ends and pins");
  }
  if (const double across = greatest_wall_bending(frame); across > 0) {
    list.push_back("bends: their fatigue; across the wall the stress is up to " + fixed(across, 1) +
                   " times that along it (thin walls flatten in a bend), and the wall outside is "
                   "thinner than drawn");
  }
  if (!frame.attachments.empty()) {
    list.emplace_back("attachments: their fatigue, their own mass, and the heat of their welds");
  }
  if (!frame.gussets.empty()) {
    list.emplace_back(
        "gussets: fatigue of the tubes where they end, which is where such tubes crack; bending of "
        "the plates out of their planes; the heat of their welds");
  }
  const auto off_attachments = [&](const std::string& node) {
    return std::none_of(frame.attachments.begin(), frame.attachments.end(),
                        [&](const Attachment& a) { return a.name == node; });
  };
  const auto any_off = [&](const std::vector<NodeAction>& actions) {
    return std::any_of(actions.begin(), actions.end(),
                       [&](const NodeAction& a) { return off_attachments(a.node); });
  };
  const bool forced = std::any_of(frame.cases.begin(), frame.cases.end(), [&](const Case& c) {
    return any_off(c.forces) || any_off(c.moments) || !c.point_loads.empty();
  });
  if (forced) list.emplace_back("forces at a point: the tube wall under them");
  if (!frame.masses.empty()) {
    list.emplace_back("what is carried: its fastenings and the tube wall under them");
  }
  if (!frame.supports.empty()) list.emplace_back("supports: what holds the frame there");
  if (frame.vehicle) list.emplace_back("wheels, hubs, tyres, brakes and steering");
  if (!frame.panels.empty()) {
    list.emplace_back("sheets: a person standing on one, and rivets pulled out of it");
    const bool bonded = std::any_of(frame.sheets.begin(), frame.sheets.end(),
                                    [](const Sheet& s) { return s.bond.has_value(); });
    if (bonded) list.emplace_back("bond: heat, damp and age, which weaken it");
    if (has_aluminium_on_steel(frame)) {
      list.emplace_back(
          "aluminium on steel: corrosion where it stays wet, and heat, which makes "
          "it grow twice as much");
    }
  }
  return list;
}

std::vector<std::string> checks_not_made(const FrameStudies& studies) {
  std::vector<std::string> list = studies.verdict.not_proven;
  for (std::string& line : not_looked_at(studies.analysis)) list.push_back(std::move(line));
  if (!studies.fatigue) {
    list.emplace_back("fatigue: the file has no `life` and no vehicle to take one from");
  } else if (!studies.fatigue->counts) {  // else it is among what is not proven
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
