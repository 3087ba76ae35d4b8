#include "io/results/bench_output.h"

#include <cmath>

#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr const char* axis_names[] = {"x", "y", "z"};

std::string kind_words(FitKind kind) {
  return kind == FitKind::joints ? "flexibility of the welded joints" : "stiffness of the rivets";
}

std::string value_words(const BenchFit& f) {
  if (f.kind == FitKind::joints) {
    const double K = f.stiffness * per_degree;
    return three_digits(K) + " N m/deg at each tube end";
  }
  const double k = f.stiffness * kN_mm_per_N_m;
  return three_digits(k) + " kN/mm a rivet";
}

std::string state_words(const BenchFit& f) {
  switch (f.state) {
    case FitState::found:
      return value_words(f);
    case FitState::at_the_stiff_end:
      return "none found: the frame measured is as stiff as the model, or stiffer; check wall, "
             "side, "
             "arms and readings";
    case FitState::at_the_soft_end:
      return "none found: the frame measured is softer than even " + value_words(f) +
             " would make it; look for slack, stands that move, a missing tube";
    case FitState::hardly_explains:
      return value_words(f) +
             " comes closest, but hardly explains the readings: look elsewhere first";
    case FitState::insensitive:
      break;
  }
  return "not told by these readings, which hardly depend on it";
}

const char* state_name(FitState state) {
  switch (state) {
    case FitState::found:
      return "found";
    case FitState::at_the_stiff_end:
      return "at_the_stiff_end";
    case FitState::at_the_soft_end:
      return "at_the_soft_end";
    case FitState::hardly_explains:
      return "hardly_explains";
    case FitState::insensitive:
      break;
  }
  return "insensitive";
}

std::string value_words(const BenchFitOfBoth& b) {
  return three_digits(b.joint_stiffness * per_degree) + " N m/deg at each tube end and " +
         three_digits(b.rivet_stiffness * kN_mm_per_N_m) + " kN/mm a rivet";
}

std::string state_words(const BenchFitOfBoth& b) {
  switch (b.state) {
    case BothState::found:
      return value_words(b);
    case BothState::too_few_readings:
      return "two readings fit any two values: read three gauges or more";
    case BothState::not_told_apart:
      return "these readings cannot tell them apart, soft joints look like soft rivets "
             "(condition " +
             (std::isfinite(b.condition) ? three_digits(b.condition) : "without limit") +
             "): read gauges along the frame, or hang weights that bend it as well";
    case BothState::joints_not_told:
      return "these readings hardly depend on the joints: go by the rivets alone";
    case BothState::rivets_not_told:
      return "these readings hardly depend on the rivets: go by the joints alone";
    case BothState::hardly_explains:
      return value_words(b) +
             " come closest, but hardly explain the readings: look elsewhere first";
    case BothState::neither_told:
      break;
  }
  return "these readings hardly depend on either";
}

const char* state_name(BothState state) {
  switch (state) {
    case BothState::found:
      return "found";
    case BothState::too_few_readings:
      return "too_few_readings";
    case BothState::not_told_apart:
      return "not_told_apart";
    case BothState::joints_not_told:
      return "joints_not_told";
    case BothState::rivets_not_told:
      return "rivets_not_told";
    case BothState::hardly_explains:
      return "hardly_explains";
    case BothState::neither_told:
      break;
  }
  return "neither_told";
}

std::string in_mm(double metres) { return fixed(metres * mm_per_m, 4); }

std::string gauge_table(const BenchStudy& s, Paint paint) {
  std::size_t width = 5;
  for (const GaugeResult& g : s.gauges) width = std::max(width, g.node.size());
  const bool read = !s.fits.empty();
  std::string head = "  " + left("gauge", width) + "  along" + right("predicted", 12);
  if (read) head += right("read", 12) + right("difference", 12);
  for (const BenchFit& f : s.fits)
    head += right(f.kind == FitKind::joints ? "joints fit" : "rivets fit", 12);
  std::string text = paint.faint(head + "  mm") + '\n';
  std::size_t fitted = 0;
  for (const GaugeResult& g : s.gauges) {
    text += "  " + left(g.node, width) + "  " + left(axis_names[g.direction], 5) +
            right(in_mm(g.predicted), 12);
    if (g.reading) {
      text += right(in_mm(*g.reading), 12) + right(in_mm(*g.reading - g.predicted), 12);
      for (const BenchFit& f : s.fits) {
        text += right(fitted < f.predicted.size() ? in_mm(f.predicted[fitted]) : "-", 12);
      }
      ++fitted;
    }
    text += '\n';
  }
  return text;
}

std::string fit_lines(const BenchStudy& s, Paint paint) {
  std::string text = paint.heading("What the readings tell, closest first") + '\n';
  for (const BenchFit& f : s.fits) {
    text += wrapped("  - ", kind_words(f.kind) + ": " + state_words(f));
    text += "    typical difference " + in_mm(f.rms_before) + " mm before, " + in_mm(f.rms_after) +
            " mm after\n";
    if (f.torsional_stiffness && f.state == FitState::found) {
      const double K = *f.torsional_stiffness * per_degree;
      text +=
          "    torsional stiffness so corrected " + three_digits(K) + " N m/deg (free to warp)\n";
    }
  }
  if (!s.both) return text;
  text += wrapped("  - ", "both together: " + state_words(*s.both));
  if (s.both->state != BothState::found) return text;
  text += "    typical difference " + in_mm(s.both->rms_before) + " mm before, " +
          in_mm(s.both->rms_after) + " mm after\n";
  text += wrapped("    ", "gauges off by 0.01 mm move them by factors of up to " +
                              three_digits(s.both->joints_moved_by) + " and " +
                              three_digits(s.both->rivets_moved_by));
  if (s.both->torsional_stiffness) {
    text += "    torsional stiffness so corrected " +
            three_digits(*s.both->torsional_stiffness * per_degree) + " N m/deg (free to warp)\n";
  }
  return text;
}

ordered_json both_json(const BenchStudy& s) {
  if (!s.both) return nullptr;
  const BenchFitOfBoth& b = *s.both;
  ordered_json predicted = ordered_json::array();
  for (const double value : b.predicted) predicted.push_back(number(value * mm_per_m));
  const bool fitted = b.state != BothState::too_few_readings;
  const auto if_fitted = [&](double value) {
    return fitted ? number(value) : ordered_json(nullptr);
  };
  return {{"state", state_name(b.state)},
          {"joint_stiffness", if_fitted(b.joint_stiffness * per_degree)},
          {"rivet_stiffness", if_fitted(b.rivet_stiffness * kN_mm_per_N_m)},
          {"condition", if_fitted(b.condition)},
          {"moved_by", {if_fitted(b.joints_moved_by), if_fitted(b.rivets_moved_by)}},
          {"predicted", std::move(predicted)},
          {"rms_before", number(b.rms_before * mm_per_m)},
          {"rms_after", if_fitted(b.rms_after * mm_per_m)},
          {"torsional_stiffness", optional_number(b.torsional_stiffness, per_degree)}};
}

std::string stiffness_lines(const BenchStudy& s) {
  if (!s.measured_stiffness) return {};
  const double K = *s.measured_stiffness * per_degree;
  std::string text = "torsional stiffness from the readings " + three_digits(K) + " N m/deg";
  if (s.model_stiffness) {
    const double model = *s.model_stiffness * per_degree;
    text += ", by the model on the same stands " + three_digits(model);
  }
  return text +
         (s.rear_was_measured
              ? "\n"
              : "\n  no gauges at the rear pair: what the stands give way counts as frame\n");
}

}  // namespace

std::string bench_lines(const BenchStudy& s) {
  std::string text;
  for (const GaugeResult& g : s.gauges) {
    text += g.node + " " + axis_names[g.direction] + " " + in_mm(g.predicted) + " mm\n";
  }
  return text;
}

std::string bench_text(const Frame& frame, const BenchStudy& s, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += std::string("what the gauges should read, the frame ") +
          (s.held_by_supports ? "held by its supports"
                              : "on stands under the rear pair and a rocker under the front") +
          '\n';
  for (const auto& [node, kilograms] : frame.bench_test->weights) {
    text += "  " + fixed(std::abs(kilograms), 2) + " kg " +
            (kilograms < 0 ? "lifting " : "hung on ") + node + '\n';
  }
  text += '\n' + gauge_table(s, paint) + '\n';
  if (!s.fits.empty()) text += stiffness_lines(s) + '\n' + fit_lines(s, paint) + '\n';
  return text + list_lines("Bear in mind", bench_cautions(), paint);
}

std::string bench_json(const Frame& frame, const BenchStudy& s, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, true, warnings, {});
  out.open("bench_test");
  out.row("held_by", s.held_by_supports ? "supports" : "torsion.rear");
  out.open("gauges");
  for (const GaugeResult& g : s.gauges) {
    const std::optional<double> off =
        g.reading ? std::optional(*g.reading - g.predicted) : std::nullopt;
    out.row(g.node, {{"direction", axis_names[g.direction]},
                     {"predicted", number(g.predicted * mm_per_m)},
                     {"reading", optional_number(g.reading, mm_per_m)},
                     {"residual", optional_number(off, mm_per_m)}});
  }
  out.close();
  ordered_json fits = ordered_json::array();
  for (const BenchFit& f : s.fits) {
    ordered_json predicted = ordered_json::array();
    for (const double value : f.predicted) predicted.push_back(number(value * mm_per_m));
    const bool joints = f.kind == FitKind::joints;
    fits.push_back({{"fitted", joints ? "joints" : "rivets"},
                    {"state", state_name(f.state)},
                    {joints ? "joint_stiffness" : "rivet_stiffness",
                     number(f.stiffness * (joints ? per_degree : kN_mm_per_N_m))},
                    {"predicted", std::move(predicted)},
                    {"rms_before", number(f.rms_before * mm_per_m)},
                    {"rms_after", number(f.rms_after * mm_per_m)},
                    {"torsional_stiffness", optional_number(f.torsional_stiffness, per_degree)}});
  }
  out.row("fits", fits);
  out.row("both", both_json(s));
  out.row("measured_stiffness", optional_number(s.measured_stiffness, per_degree));
  out.row("model_stiffness", optional_number(s.model_stiffness, per_degree));
  out.close();
  return out.finish();
}

}  // namespace tubewright
