#include "io/results/outlook_output.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "io/results/analysis_parts.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t members_of_fatigue = 3;

const std::string& end_name(const Frame& frame, std::size_t member, int end) {
  return end == 0 ? frame.members[member].from : frame.members[member].to;
}

std::vector<std::size_t> most_used(const FatigueScreening& f) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < f.members.size(); ++i) {
    if (f.members[i].result.utilisation) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return *f.members[a].result.utilisation > *f.members[b].result.utilisation;
  });
  return order;
}

std::string cycles_text(double cycles) {
  if (std::isinf(cycles)) return "no end of cycles";
  if (cycles >= 1e6) return fixed(cycles / 1e6, 1) + " million cycles";
  return fixed(cycles, 0) + " cycles";
}

/// Where hot spot or weld root make nominal stress worse than the category says.
std::string category_text(const MemberFatigue& m, const FatigueScreening& f) {
  constexpr double worse = 0.99;
  if (!(m.category > 0 && m.category < worse * f.category)) return "";
  return " in category " + fixed(m.category * MPa_per_Pa, 0);
}

}  // namespace

std::string fatigue_lines(const FrameStudies& studies, Paint paint) {
  if (!studies.fatigue) return {};
  const Frame& frame = studies.analysis.frame;
  const FatigueScreening& f = *studies.fatigue;
  std::string text = paint.heading("Fatigue screening") + ": category " +
                     fixed(f.category * MPa_per_Pa, 0) + " MPa, gamma_Mf " + fixed(f.gamma_Mf, 2) +
                     (f.counts ? ", counts in the verdict" : ", does not count in the verdict") +
                     '\n';
  std::string life;
  for (const FatigueBlockUsed& b : f.blocks) {
    life += (life.empty() ? "" : "; ") + fixed(b.cycles, 0) + " times " + b.words;
  }
  text += wrapped("  ", life);
  text +=
      wrapped("  ", "category: " + f.source +
                        "; the tests behind the classes begin at walls of 4 mm: a comparison of "
                        "tubes, no proof of a joint");
  const std::vector<std::size_t> order = most_used(f);
  if (order.empty()) return text + "  no member could be checked\n\n";
  text += paint.faint("    used  member end; stress range and life of the first line alone") + '\n';
  for (std::size_t k = 0; k < std::min(order.size(), members_of_fatigue); ++k) {
    const std::size_t i = order[k];
    const MemberFatigue& m = f.members[i];
    text += right(utilisation_text(*m.result.utilisation), 8) + "  " + frame.members[i].name +
            " at " + end_name(frame, i, m.end) + "; " + fixed(m.ranges.front() * MPa_per_Pa, 1) +
            " MPa" + category_text(m, f) + ", " + cycles_text(m.cycles) + "; Miner's sum " +
            three_digits(m.damage) + '\n';
  }
  return text + '\n';
}

std::string what_if_lines(const FrameStudies& studies, Paint paint) {
  if (studies.what_ifs.empty()) return {};
  std::size_t width = 0;
  for (const WhatIf& w : studies.what_ifs) width = std::max(width, w.words.size());
  std::string text = paint.heading("If it comes out otherwise than drawn") + '\n';
  for (const WhatIf& w : studies.what_ifs) {
    text += right(w.worst ? utilisation_text(w.worst->utilisation) : "-", 8) + "  " +
            left(w.words, width);
    if (w.worst) {
      text +=
          "  " + in_words(w.worst->check) + " of " + w.worst->item + " in " + w.worst->load_case;
    } else {
      text += "  no answer";
    }
    text += '\n';
  }
  return text + '\n';
}

void write_fatigue(JsonLines& out, const FrameStudies& studies) {
  if (!studies.fatigue) return;
  const Frame& frame = studies.analysis.frame;
  const FatigueScreening& f = *studies.fatigue;
  out.open("fatigue");
  out.row("counts", f.counts);
  out.row("category", number(f.category * MPa_per_Pa));
  out.row("gamma_Mf", number(f.gamma_Mf));
  out.row("source", f.source);
  ordered_json spectrum = ordered_json::array();
  for (const FatigueBlockUsed& b : f.blocks) {
    spectrum.push_back({{"what", b.words}, {"cycles", number(b.cycles)}});
  }
  out.row("spectrum", spectrum);
  out.open("members");
  for (std::size_t i = 0; i < f.members.size(); ++i) {
    const MemberFatigue& m = f.members[i];
    ordered_json entry = {{"utilisation", optional_number(m.result.utilisation, 1)}};
    if (m.result.utilisation) {
      ordered_json ranges = ordered_json::array();
      for (const double range : m.ranges) ranges.push_back(number(range * MPa_per_Pa));
      entry["end"] = m.end == 0 ? "from" : "to";
      entry["ranges"] = std::move(ranges);
      entry["category"] = number(m.category * MPa_per_Pa);
      entry["damage"] = number(m.damage);
      entry["cycles"] = number(m.cycles);
    } else {
      entry["reason"] = m.result.reason;
    }
    out.row(frame.members[i].name, entry);
  }
  out.close();
  out.close();
}

void write_what_ifs(JsonLines& out, const FrameStudies& studies) {
  if (!studies.what_ifs.empty()) out.row("uncertainty", what_ifs_json(studies.what_ifs));
}

}  // namespace tubewright
