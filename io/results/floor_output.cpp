#include "io/results/floor_output.h"

#include <set>

#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

std::string or_dash(const std::optional<double>& value, double factor, int decimals) {
  return value ? fixed(*value * factor, decimals) : "-";
}

std::string option_row(const FloorOption& o) {
  std::string text = left(o.words, 40) + right(fixed(o.mass, 2), 8);
  text += right(o.stiffness ? or_dash(o.stiffness, per_degree, 1) : "loose", 10);
  text += right(or_dash(o.frequency, 1, 1), 9);
  text += right(o.worst ? utilisation_text(o.worst->utilisation) : "-", 8);
  text += right(o.rivet_utilisation ? utilisation_text(*o.rivet_utilisation) : "-", 9);
  text += right(or_dash(o.gain_per_kg, per_degree, 1), 13);
  return text + '\n';
}

std::vector<const FloorOption*> options(const FloorStudy& s) {
  std::vector<const FloorOption*> list = {&s.without};
  if (s.guessed_rivets) list.push_back(&s.low);
  list.push_back(&s.usual);
  if (s.guessed_rivets) list.push_back(&s.high);
  list.push_back(&s.diagonal);
  list.push_back(&s.thicker);
  return list;
}

std::string sizes_line(const std::string& words, const FloorOption& o) {
  std::string list;
  for (const std::string& size : o.sizes) list += (list.empty() ? "" : ", ") + size;
  return list.empty() ? "" : wrapped("  ", words + ": " + list + " mm");
}

std::string sweep_table(const FloorStudy& s, Paint paint) {
  std::set<double> pitches;
  for (const SheetTrial& t : s.sweep) pitches.insert(t.pitch.value_or(0));
  std::string head = "  thickness    panels";
  for (const double pitch : pitches) {
    head += right(pitch > 0 ? "every " + fixed(pitch * mm_per_m, 0) + " mm" : "", 15);
  }
  std::string text = paint.heading("Thickness and rivet pitch: torsional stiffness, N m/deg") +
                     '\n' + paint.faint(head) + '\n';
  for (std::size_t i = 0; i < s.sweep.size(); i += pitches.size()) {
    text += right(fixed(s.sweep[i].thickness * mm_per_m, 2) + " mm", 11) +
            right(fixed(s.sweep[i].panels_mass, 2) + " kg", 10);
    for (std::size_t j = i; j < i + pitches.size(); ++j) {
      text += right(or_dash(s.sweep[j].stiffness, per_degree, 1), 15);
    }
    text += '\n';
  }
  return text;
}

ordered_json option_json(const FloorOption& o) {
  ordered_json worst = nullptr;
  if (o.worst) {
    worst = {{"case", o.worst->load_case},
             {"check", o.worst->check},
             {"item", o.worst->item},
             {"utilisation", number(o.worst->utilisation)}};
  }
  ordered_json json = {
      {"mass", number(o.mass)},
      {"stiffness", optional_number(o.stiffness, per_degree)},
      {"frequency", optional_number(o.frequency, 1)},
      {"utilisation", o.worst ? number(o.worst->utilisation) : ordered_json(nullptr)},
      {"worst", std::move(worst)},
      {"rivet_utilisation", optional_number(o.rivet_utilisation, 1)},
      {"per_kg", optional_number(o.gain_per_kg, per_degree)}};
  if (!o.sizes.empty()) json["sizes"] = o.sizes;
  return json;
}

ordered_json trial_json(const SheetTrial& t) {
  return {{"thickness", number(t.thickness * mm_per_m)},
          {"pitch", optional_number(t.pitch, mm_per_m)},
          {"panels", number(t.panels_mass)},
          {"stiffness", optional_number(t.stiffness, per_degree)}};
}

const char* answer_word(FloorAnswer answer) {
  switch (answer) {
    case FloorAnswer::pays:
      return "pays";
    case FloorAnswer::depends:
      return "depends";
    case FloorAnswer::does_not_pay:
      break;
  }
  return "does not pay";
}

}  // namespace

std::string floor_text(const Frame& frame, const FloorStudy& s, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += wrapped("", s.verdict.sentence) + '\n';
  text += paint.faint(left("", 40) + right("frame", 8) + right("torsion", 10) + right("first", 9) +
                      right("worst", 8) + right("rivets", 9) + right("torsion", 13)) +
          '\n' +
          paint.faint(left("", 40) + right("kg", 8) + right("N m/deg", 10) + right("Hz", 9) +
                      right("used", 8) + right("used", 9) + right("N m/deg/kg", 13)) +
          '\n';
  for (const FloorOption* o : options(s)) text += option_row(*o);
  text += sizes_line("tube diagonals", s.diagonal) + sizes_line("heavier floor tubes", s.thicker);
  text += '\n' + list_lines("Why", s.verdict.reasons, paint) + '\n' +
          list_lines("What would change it", s.verdict.changes, paint) + '\n' +
          sweep_table(s, paint) + '\n' + list_lines("Bear in mind", floor_cautions(), paint);
  return text;
}

ordered_json floor_part(const FloorStudy& s) {
  ordered_json sweep = ordered_json::array();
  for (const SheetTrial& t : s.sweep) sweep.push_back(trial_json(t));
  return {{"without", option_json(s.without)},
          {"with",
           {{"low", option_json(s.low)},
            {"default", option_json(s.usual)},
            {"high", option_json(s.high)}}},
          {"diagonal", option_json(s.diagonal)},
          {"thicker_tubes", option_json(s.thicker)},
          {"panels_mass", number(s.panels_mass)},
          {"rivet_stiffness_given", !s.guessed_rivets},
          {"per_kg",
           {{"low", optional_number(s.low.gain_per_kg, per_degree)},
            {"default", optional_number(s.usual.gain_per_kg, per_degree)},
            {"high", optional_number(s.high.gain_per_kg, per_degree)},
            {"diagonal", optional_number(s.diagonal.gain_per_kg, per_degree)},
            {"thicker_tubes", optional_number(s.thicker.gain_per_kg, per_degree)}}},
          {"answer", answer_word(s.verdict.answer)},
          {"verdict", s.verdict.sentence},
          {"reasons", s.verdict.reasons},
          {"what_would_change_it", s.verdict.changes},
          {"sweep", sweep}};
}

std::string floor_json(const Frame& frame, const FloorStudy& s, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, floor_passes(frame, s), warnings, {});
  out.open("floor");
  const ordered_json part = floor_part(s);
  for (const auto& [key, value] : part.items()) {
    if (key == "with") {
      out.rows(key, value);
    } else {
      out.row(key, value);
    }
  }
  out.close();
  return out.finish();
}

}  // namespace tubewright
