#include "io/results/bench_output.h"

#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr const char* axis_names[] = {"x", "y", "z"};

std::string kind_words(FitKind kind) {
  switch (kind) {
    case FitKind::joints:
      return "flexibility of the welded joints";
    case FitKind::rivets:
      return "stiffness of the rivets";
    case FitKind::both:
      break;
  }
  return "joints and rivets at once";
}

const char* fit_name(FitKind kind) {
  switch (kind) {
    case FitKind::joints:
      return "joints";
    case FitKind::rivets:
      return "rivets";
    case FitKind::both:
      break;
  }
  return "both";
}

std::string joint_words(double stiffness) {
  return three_digits(stiffness * per_degree) + " N m/deg at each tube end";
}

std::string rivet_words(double stiffness) {
  return three_digits(stiffness * kN_mm_per_N_m) + " kN/mm a rivet";
}

std::string value_words(const BenchFit& f) {
  switch (f.kind) {
    case FitKind::joints:
      return joint_words(f.stiffness);
    case FitKind::rivets:
      return rivet_words(f.stiffness);
    case FitKind::both:
      break;
  }
  return joint_words(f.stiffness) + ", " + rivet_words(f.rivet_stiffness);
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
    case FitState::not_told_apart:
      return "not told apart by these readings, which change alike with either; read more gauges, "
             "or "
             "once more without the sheet";
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
    case FitState::not_told_apart:
      return "not_told_apart";
    case FitState::insensitive:
      break;
  }
  return "insensitive";
}

std::string in_mm(double metres) { return fixed(metres * mm_per_m, 4); }

std::string gauge_table(const BenchStudy& s, Paint paint) {
  std::size_t width = 5;
  for (const GaugeResult& g : s.gauges) width = std::max(width, g.node.size());
  const bool read = !s.fits.empty();
  std::string head = "  " + left("gauge", width) + "  along" + right("predicted", 12);
  if (read) head += right("read", 12) + right("difference", 12);
  for (const BenchFit& f : s.fits) head += right(std::string(fit_name(f.kind)) + " fit", 12);
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
  return text;
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
    ordered_json one = {{"fitted", fit_name(f.kind)}, {"state", state_name(f.state)}};
    if (f.kind != FitKind::rivets) one["joint_stiffness"] = number(f.stiffness * per_degree);
    if (f.kind != FitKind::joints) {
      const double rivet = f.kind == FitKind::both ? f.rivet_stiffness : f.stiffness;
      one["rivet_stiffness"] = number(rivet * kN_mm_per_N_m);
    }
    one["predicted"] = std::move(predicted);
    one["rms_before"] = number(f.rms_before * mm_per_m);
    one["rms_after"] = number(f.rms_after * mm_per_m);
    one["torsional_stiffness"] = optional_number(f.torsional_stiffness, per_degree);
    fits.push_back(std::move(one));
  }
  out.row("fits", fits);
  out.row("measured_stiffness", optional_number(s.measured_stiffness, per_degree));
  out.row("model_stiffness", optional_number(s.model_stiffness, per_degree));
  out.close();
  return out.finish();
}

}  // namespace tubewright
