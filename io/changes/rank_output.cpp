#include "io/changes/rank_output.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cases/changes/nine_digits.h"
#include "cases/frame/find_parts.h"
#include "io/changes/section_words.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/workshop/piece_words.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t most_diagonals = 12;

std::string signed_text(double value, int decimals) {
  return (value > 0 ? "+" : "") + fixed(value, decimals);
}

std::string kilograms(double mass) { return fixed(std::abs(mass), 3) + " kg"; }

/// "+12.3 N m/deg (+4.1 %)".
std::string stiffness_change(const RankStudy& study, const FrameFigures& f) {
  if (!study.whole.stiffness || !f.stiffness) return "";
  const double now = *study.whole.stiffness, change = *f.stiffness - now;
  return signed_text(change * per_degree, 1) + " N m/deg (" + signed_text(100 * change / now, 1) +
         " %)";
}

std::string utilisation_change(const RankStudy& study, const FrameFigures& f) {
  if (!study.whole.worst || !f.worst) return "";
  return "worst item " + utilisation_text(f.worst->utilisation) + ", now " +
         utilisation_text(study.whole.worst->utilisation);
}

std::string count_of(const TubeWorth& t) {
  return t.members.size() == 1
             ? "`" + t.name + "`"
             : "`" + t.name + "` and " + std::to_string(t.members.size() - 1) + " alike";
}

std::string tubes_of(const Diagonal& d) {
  std::string text;
  for (const auto& [from, to] : d.tubes) {
    text += (text.empty() ? "" : " and ") + from + "-" + to;
  }
  return text;
}

const FrameFigures& figures_of(const RankStudy& study, const BestChange& change) {
  using Kind = BestChange::Kind;
  const auto index = static_cast<std::size_t>(change.index);
  switch (change.kind) {
    case Kind::diagonal:
      return change.pinned ? study.diagonals[index].pinned : study.diagonals[index].welded;
    case Kind::up:
      return study.groups[index].up->frame;
    case Kind::down:
      return study.groups[index].down->frame;
    case Kind::remove:
      return study.groups[index].without;
    case Kind::none:
      break;
  }
  return study.whole;
}

/// "make `rail_l` and 1 alike of 30 x 30 x 2 S235".
std::string action_of(const Frame& frame, const RankStudy& study, const BestChange& change) {
  using Kind = BestChange::Kind;
  const auto index = static_cast<std::size_t>(change.index);
  switch (change.kind) {
    case Kind::diagonal:
      return std::string(change.pinned ? "pin" : "weld") + " in a diagonal of " +
             size_text(find_section(frame, study.diagonal_section)) + ", " +
             tubes_of(study.diagonals[index]);
    case Kind::up:
      return "make " + count_of(study.groups[index]) + " of " +
             size_text(study.groups[index].up->section);
    case Kind::down:
      return "make " + count_of(study.groups[index]) + " of " +
             size_text(study.groups[index].down->section);
    case Kind::remove:
      return "leave out " + count_of(study.groups[index]);
    case Kind::none:
      break;
  }
  return "nothing";
}

/// What the change does: "0.554 kg more, +12.3 N m/deg (+4.1 %), worst item 0.63, now 0.71".
std::string effect_of(const RankStudy& study, const BestChange& change) {
  const FrameFigures& f = figures_of(study, change);
  std::string text = kilograms(change.mass) + (change.mass < 0 ? " less" : " more");
  for (const std::string& part : {stiffness_change(study, f), utilisation_change(study, f)}) {
    if (!part.empty()) text += ", " + part;
  }
  return text;
}

std::string change_line(const Frame& frame, const RankStudy& study, const BestChange& change) {
  return action_of(frame, study, change) + ": " + effect_of(study, change);
}

bool is_any(const BestChange& change) { return change.kind != BestChange::Kind::none; }

std::string or_dash(const std::optional<double>& value, double factor, int decimals) {
  return value ? fixed(*value * factor, decimals) : "-";
}

std::string worst_text(const FrameFigures& f) {
  if (f.mechanism) return "moves";
  if (!f.solved) return "none";
  return f.worst ? utilisation_text(f.worst->utilisation) : "-";
}

std::string resized_columns(const RankStudy& study, const std::optional<Resized>& r) {
  if (!r) return right("-", 7) + right("-", 9) + right("-", 7);
  std::string torsion = "-";
  if (study.whole.stiffness && r->frame.stiffness) {
    torsion = signed_text(100 * (*r->frame.stiffness / *study.whole.stiffness - 1), 1) + " %";
  }
  return right(signed_text(r->frame.mass - study.whole.mass, 2), 7) + right(torsion, 9) +
         right(worst_text(r->frame), 7);
}

std::string tube_row(const RankStudy& study, const TubeWorth& t, std::size_t width) {
  std::string name = t.name;
  if (t.members.size() > 1) name += " +" + std::to_string(t.members.size() - 1);
  const std::string per_mm =
      t.per_wall ? or_dash(t.per_wall->stiffness, per_degree / mm_per_m, 1) : "-";
  return "  " + left(one_line(name, width), width) + right(fixed(t.mass, 2), 7) + right(per_mm, 9) +
         resized_columns(study, t.up) + resized_columns(study, t.down) +
         right(worst_text(t.without), 8) + (t.removable ? "  can go" : "") + '\n';
}

/// What ranks the groups: stiffness a kg of wall; without a torsion test what the worst item
/// loses.
double worth_of(const TubeWorth& t) {
  if (!t.per_wall || !(t.per_wall->mass > 0)) return -INFINITY;
  if (t.stiffness_per_kg) return *t.stiffness_per_kg;
  return t.per_wall->utilisation ? -*t.per_wall->utilisation / t.per_wall->mass : -INFINITY;
}

std::string tube_table(const RankStudy& study, Paint paint) {
  if (study.groups.empty()) return "";
  std::vector<const TubeWorth*> order;
  for (const TubeWorth& t : study.groups) order.push_back(&t);
  std::stable_sort(order.begin(), order.end(), [](const TubeWorth* a, const TubeWorth* b) {
    return nine_digits(worth_of(*a)) > nine_digits(worth_of(*b));
  });
  std::size_t width = 12;
  for (const TubeWorth* t : order)
    width = std::max(width, std::min<std::size_t>(t->name.size() + 4, 24));
  std::string text =
      paint.heading(study.whole.stiffness
                        ? "Tubes, with their images and the rest of their path: most torsional "
                          "stiffness a kg of wall first"
                        : "Tubes, with their images and the rest of their path: most relief of "
                          "the worst item a kg of wall first") +
      '\n' +
      paint.faint("  " + left("", width) + right("mass", 7) + right("N m/deg", 9) +
                  right("next size up", 23) + right("next size down", 23) + right("without", 8)) +
      '\n' +
      paint.faint("  " + left("", width) + right("kg", 7) + right("a mm", 9) + right("kg", 7) +
                  right("torsion", 9) + right("worst", 7) + right("kg", 7) + right("torsion", 9) +
                  right("worst", 7) + right("worst", 8)) +
      '\n';
  constexpr std::size_t most_tubes = 40;
  for (std::size_t i = 0; i < std::min(order.size(), most_tubes); ++i) {
    text += tube_row(study, *order[i], width);
  }
  if (order.size() > most_tubes) {
    text += "  and " + std::to_string(order.size() - most_tubes) + " more, in the JSON\n";
  }
  return text;
}

std::string diagonal_table(const Frame& frame, const RankStudy& study, Paint paint) {
  if (study.diagonals.empty()) return "";
  std::string text =
      '\n' +
      paint.heading("Diagonals of " + size_text(find_section(frame, study.diagonal_section)) +
                    " for open bays, by an exact solution each") +
      '\n';
  std::size_t width = 16;
  const std::size_t rows = std::min(study.diagonals.size(), most_diagonals);
  for (std::size_t i = 0; i < rows; ++i) {
    width = std::max(width, std::min<std::size_t>(tubes_of(study.diagonals[i]).size(), 40));
  }
  text += paint.faint("  " + left("", width) + right("kg", 8) + right("welded", 18) +
                      right("pinned", 11) + right("a kg", 10)) +
          '\n' +
          paint.faint("  " + left("", width) + right("", 8) + right("N m/deg", 11) +
                      right("worst", 7) + right("N m/deg", 11) + right("N m/deg", 10)) +
          '\n';
  for (std::size_t i = 0; i < rows; ++i) {
    const Diagonal& d = study.diagonals[i];
    text += "  " + left(one_line(tubes_of(d), width), width) + right(fixed(d.mass, 3), 8) +
            right(or_dash(d.welded.stiffness, per_degree, 1), 11) + right(worst_text(d.welded), 7) +
            right(or_dash(d.pinned.stiffness, per_degree, 1), 11) +
            right(or_dash(d.stiffness_per_kg, per_degree, 1), 10) + '\n';
  }
  if (study.diagonals.size() > rows) {
    text += "  and " + std::to_string(study.diagonals.size() - rows) + " more, in the JSON\n";
  }
  return text;
}

std::vector<std::string> rank_cautions() {
  std::vector<std::string> lines = {
      "Each change is solved exactly, but alone: two together may do less or more than their sum.",
      "Removed tubes are tried against the load cases and limits of the file, not against what "
      "they "
      "were put there for: a place for a foot, a guard, a bracket."};
  for (std::string& line : cautions()) lines.push_back(std::move(line));
  return lines;
}

ordered_json worst_of(const FrameFigures& f) {
  return f.worst ? number(f.worst->utilisation) : ordered_json(nullptr);
}

ordered_json figures_json(const FrameFigures& f) {
  return {{"frame_mass", number(f.mass)},
          {"stiffness", optional_number(f.stiffness, per_degree)},
          {"utilisation", worst_of(f)},
          {"item", f.worst ? ordered_json(f.worst->item) : nullptr},
          {"check", f.worst ? ordered_json(f.worst->check) : nullptr},
          {"case", f.worst ? ordered_json(f.worst->load_case) : nullptr},
          {"mechanism", f.mechanism},
          {"passes", f.passes}};
}

ordered_json resized_json(const std::optional<Resized>& r) {
  if (!r) return nullptr;
  ordered_json json = {{"section", section_keys(r->section)}, {"mass", number(r->mass)}};
  json.update(figures_json(r->frame));
  json["stiffness_per_kg"] = optional_number(r->stiffness_per_kg, per_degree);
  json["price"] = optional_number(r->price, 1);
  json["stiffness_per_price"] = optional_number(r->stiffness_per_price, per_degree);
  return json;
}

ordered_json tube_json(const Frame& frame, const TubeWorth& t) {
  ordered_json json = {{"mass", number(t.mass)}};
  const bool slopes = t.per_wall.has_value();
  const auto per_mm = [&](const std::optional<double>& value, double factor) {
    return optional_number(slopes ? value : std::nullopt, factor / mm_per_m);
  };
  const WallSlopes none;
  const WallSlopes& s = slopes ? *t.per_wall : none;
  json["stiffness_per_wall"] = per_mm(s.stiffness, per_degree);
  json["stiffness_per_kg"] = optional_number(t.stiffness_per_kg, per_degree);
  json["utilisation_per_wall"] = per_mm(s.utilisation, 1);
  json["deflection_per_wall"] = per_mm(s.deflection, mm_per_m);
  json["frequency_per_wall"] = per_mm(s.frequency, 1);
  json["buckling_per_wall"] = per_mm(s.buckling, 1);
  json["mass_per_wall"] = per_mm(s.mass, 1);
  json["next_up"] = resized_json(t.up);
  json["next_down"] = resized_json(t.down);
  json["without"] = figures_json(t.without);
  json["removable"] = t.removable;
  if (t.members.size() > 1) {
    ordered_json names = ordered_json::array();
    for (const int m : t.members) names.push_back(frame.members[static_cast<std::size_t>(m)].name);
    json["tubes"] = std::move(names);
  }
  return json;
}

ordered_json diagonal_json(const Diagonal& d) {
  ordered_json json = {{"from", d.tubes.front().first}, {"to", d.tubes.front().second}};
  if (d.tubes.size() > 1) {
    json["with"] = {{"from", d.tubes.back().first}, {"to", d.tubes.back().second}};
  }
  json["pinned"] = figures_json(d.pinned);
  json["welded"] = figures_json(d.welded);
  json["mass"] = number(d.mass);
  json["stiffness_per_kg"] = optional_number(d.stiffness_per_kg, per_degree);
  return json;
}

}  // namespace

std::string best_sentence(const Frame& frame, const RankStudy& study) {
  if (is_any(study.mends)) return change_line(frame, study, study.mends);
  if (is_any(study.lightens)) return change_line(frame, study, study.lightens);
  if (is_any(study.stiffens)) return change_line(frame, study, study.stiffens);
  return "no single change of a size, a tube or a diagonal pays";
}

std::string rank_text(const Frame& frame, const RankStudy& study, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += wrapped("", "pays most: " + best_sentence(frame, study));
  if (is_any(study.mends) && is_any(study.lightens)) {
    text += wrapped("", "lightest that passes: " + change_line(frame, study, study.lightens));
  }
  if (is_any(study.stiffens)) {
    text += wrapped("", "stiffest a kg: " + change_line(frame, study, study.stiffens));
  }
  std::string now = "now: " + fixed(study.whole.mass, 2) + " kg";
  if (study.whole.stiffness) {
    now += ", " + fixed(*study.whole.stiffness * per_degree, 1) + " N m/deg";
  }
  if (study.whole.worst) now += ", worst item " + utilisation_text(study.whole.worst->utilisation);
  if (study.frequency) now += ", first frequency " + three_digits(*study.frequency) + " Hz";
  if (study.buckling) now += ", buckles at " + three_digits(*study.buckling) + " times its loads";
  text += wrapped("", now + (study.whole.passes ? "" : "; does not pass"));
  return text + '\n' + tube_table(study, paint) + diagonal_table(frame, study, paint) + '\n' +
         list_lines("Bear in mind", rank_cautions(), paint);
}

std::string rank_json(const Frame& frame, const RankStudy& study, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, study.whole.passes, warnings, {});
  out.open("rank");
  out.row("whole", figures_json(study.whole));
  out.row("deflection", optional_number(study.deflection, mm_per_m));
  out.row("frequency", optional_number(study.frequency, 1));
  out.row("buckling", optional_number(study.buckling, 1));
  out.open("tubes");
  for (const TubeWorth& t : study.tubes) out.row(t.name, tube_json(frame, t));
  out.close();
  out.open("groups");
  for (const TubeWorth& t : study.groups) {
    if (t.members.size() > 1) out.row(t.name, tube_json(frame, t));
  }
  out.close();
  ordered_json alone = ordered_json::array(), pairs = ordered_json::array();
  for (const Diagonal& d : study.diagonals) {
    (d.tubes.size() == 1 ? alone : pairs).push_back(diagonal_json(d));
  }
  out.row("diagonal_section", study.diagonal_section.empty()
                                  ? ordered_json(nullptr)
                                  : ordered_json(study.diagonal_section));
  out.row("diagonals", alone);
  out.row("diagonal_pairs", pairs);
  out.row("best", best_sentence(frame, study));
  out.close();
  return out.finish();
}

}  // namespace tubewright
