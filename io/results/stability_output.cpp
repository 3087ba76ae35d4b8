#include "io/results/stability_output.h"

#include <algorithm>

#include "cases/frame/find_parts.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr const char* not_counted =
    "the count says that some are missing here: do not rely on the list\n";

std::string factor_words(const CaseBuckling& c) {
  if (c.factors.empty()) return "does not buckle under these loads";
  const bool suspension = !c.in_suspension.empty() && c.in_suspension.front();
  std::string text = three_digits(c.factors.front()) + " times its loads, " +
                     (suspension ? "the suspension gives way, " : "") + c.where.front();
  if (c.factors.front() <= 1) return text + ": BUCKLES";
  if (c.factors.front() < second_order_limit) {
    text += "; second-order effects add " + fixed(100 * (amplification(c.factors.front()) - 1), 0) +
            " %";
  }
  return text;
}

/// Cases that do not buckle at any factor come last.
std::vector<const CaseBuckling*> least_factor_first(const BuckleStudy& study) {
  std::vector<const CaseBuckling*> order;
  for (const CaseBuckling& c : study.cases) order.push_back(&c);
  const auto lowest = [](const CaseBuckling* c) {
    return c->factors.empty() ? INFINITY : c->factors.front();
  };
  std::stable_sort(order.begin(), order.end(), [&](const CaseBuckling* a, const CaseBuckling* b) {
    return lowest(a) < lowest(b);
  });
  return order;
}

std::string how_held(const Frame& frame, const FrameModes& modes) {
  if (modes.restrained) return "held by its supports";
  if (modes.on_tyres) return "free, as on its wheels, on its tyres";
  return frame.vehicle ? "free, as on its wheels without tyres (no `tyre_rate`)"
                       : "free, nothing holds it";
}

std::string mode_row(const FrameMode& m) {
  return right(three_digits(m.frequency), 10) + right(fixed(100 * m.share, 0) + " %", 8) + "  " +
         m.words + '\n';
}

}  // namespace

std::string modes_lines(const FrameModes& modes) {
  std::string text;
  for (const FrameMode& m : modes.modes) {
    if (!m.rigid) text += three_digits(m.frequency) + " Hz\n";
  }
  for (const FrameMode& m : modes.own) text += three_digits(m.frequency) + " Hz, " + m.words + '\n';
  return text;
}

std::string modes_text(const Frame& frame, const FrameModes& modes, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += how_held(frame, modes) + ", with everything it carries\n";
  const auto rigid_motions = std::count_if(modes.modes.begin(), modes.modes.end(),
                                           [](const FrameMode& m) { return m.rigid; });
  if (rigid_motions > 0)
    text += "  " + std::to_string(rigid_motions) + " rigid-body motions at 0 Hz\n";
  text += paint.faint("        Hz  of its motion") + '\n';
  for (const FrameMode& m : modes.modes) {
    if (!m.rigid) text += mode_row(m);
  }
  if (!modes.own.empty()) {
    text += std::string(has_springs(frame) ? "the frame's own, springs locked and tyres left out"
                                           : "the frame's own, tyres left out") +
            '\n';
    for (const FrameMode& m : modes.own) text += mode_row(m);
  }
  if (!modes.complete) text += not_counted;
  if (!modes_pass(frame, modes)) {
    text += paint.bad("FAIL") + ": the " + (modes.own.empty() ? "" : "frame's own ") +
            "lowest is below the " + three_digits(*frame.limits.frequency) + " Hz asked for\n";
  }
  return text + '\n' + list_lines("Bear in mind", modes_cautions(), paint);
}

ordered_json modes_list(const FrameModes& modes) {
  std::vector<const FrameMode*> all;
  for (const FrameMode& m : modes.modes) all.push_back(&m);
  for (const FrameMode& m : modes.own) all.push_back(&m);
  std::stable_sort(all.begin(), all.end(), [](const FrameMode* a, const FrameMode* b) {
    return a->frequency < b->frequency;
  });
  ordered_json list = ordered_json::array();
  for (const FrameMode* m : all) {
    list.push_back({{"frequency", number(m->frequency)},
                    {"rigid", m->rigid},
                    {"name", m->words},
                    {"frame_only", m->frame_only},
                    {"shape", m->words},
                    {"share", number(m->share)}});
  }
  return list;
}

std::string modes_json(const Frame& frame, const FrameModes& modes, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, modes_pass(frame, modes), warnings, {});
  out.row("modes", modes_list(modes));
  out.row("modes_held", modes.restrained);
  out.row("modes_complete", modes.complete);
  return out.finish();
}

std::string buckling_lines(const BuckleStudy& study) {
  std::string text;
  for (const CaseBuckling& c : study.cases) text += c.load_case + ": " + factor_words(c) + '\n';
  return text;
}

std::string buckling_text(const Frame& frame, const BuckleStudy& study, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  const std::vector<const CaseBuckling*> order = least_factor_first(study);
  std::size_t width = 4;
  for (const CaseBuckling* c : order)
    width = std::max(width, std::min<std::size_t>(c->load_case.size(), 32));
  for (const CaseBuckling* c : order) {
    text += "  " + left(c->load_case, width) + "  " + factor_words(*c) + '\n';
    if (c->factors.size() > 1) {
      text += std::string(width + 4, ' ') + "then";
      for (std::size_t i = 1; i < c->factors.size(); ++i) {
        text += (i > 1 ? ", " : " ") + three_digits(c->factors[i]);
      }
      text += '\n';
    }
    if (!c->complete) text += "    " + std::string(not_counted);
  }
  text += buckling_passes(study) ? "no case buckles under its own loads\n"
                                 : paint.bad("FAIL") + ": some case buckles under its own loads\n";
  return text + '\n' + list_lines("Bear in mind", buckling_cautions(), paint);
}

std::string buckling_json(const Frame& frame, const BuckleStudy& study,
                          const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, buckling_passes(study), warnings, {});
  out.open("buckling");
  for (const CaseBuckling& c : study.cases) {
    ordered_json factors = ordered_json::array();
    for (const double factor : c.factors) factors.push_back(number(factor));
    out.row(c.load_case, factors);
  }
  out.close();
  out.open("buckling_details");
  for (const CaseBuckling& c : study.cases) {
    const bool grows = !c.factors.empty() && c.factors.front() > 1;
    out.row(c.load_case, {{"members", c.where},
                          {"in_suspension", c.in_suspension},
                          {"complete", c.complete},
                          {"amplification", grows ? number(amplification(c.factors.front()))
                                                  : ordered_json(nullptr)}});
  }
  out.close();
  return out.finish();
}

ordered_json buckling_list(const BuckleStudy& study) {
  ordered_json list = ordered_json::array();
  for (const CaseBuckling* c : least_factor_first(study)) {
    ordered_json factors = ordered_json::array();
    for (const double factor : c->factors) factors.push_back(number(factor));
    list.push_back({{"case", c->load_case},
                    {"factors", factors},
                    {"members", c->where},
                    {"in_suspension", c->in_suspension}});
  }
  return list;
}

}  // namespace tubewright
