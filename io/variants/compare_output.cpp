#include "io/variants/compare_output.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/results/verdict_words.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"
#include "io/variants/frame_variants.h"
#include "io/workshop/piece_words.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;
using MaybeNumber = std::optional<double>;

constexpr Pair<const char*> side_names = {"A", "B"};

const FrameSide& side(const Comparison& c, std::size_t i) { return c.result.sides[i]; }

/// One number of both sides.
template <class Get>
Pair<MaybeNumber> numbers_of_both(const Comparison& c, const Get& get) {
  Pair<MaybeNumber> pair;
  for (const std::size_t i : {0U, 1U}) {
    if (side(c, i).numbers) pair[i] = get(*side(c, i).numbers);
  }
  return pair;
}

Pair<MaybeNumber> mass_of(const Comparison& c) {
  return {side(c, 0).mass.tubes + side(c, 0).mass.panels,
          side(c, 1).mass.tubes + side(c, 1).mass.panels};
}

Pair<MaybeNumber> stiffness_of(const Comparison& c) {
  return numbers_of_both(c, [](const FrameNumbers& n) {
    return n.stiffness ? MaybeNumber(*n.stiffness * per_degree) : std::nullopt;
  });
}

Pair<MaybeNumber> frequency_of(const Comparison& c) {
  return numbers_of_both(c, [](const FrameNumbers& n) { return n.frequency; });
}

Pair<MaybeNumber> utilisation_of(const Comparison& c) {
  return numbers_of_both(c, [](const FrameNumbers& n) {
    return n.worst ? MaybeNumber(n.worst->utilisation) : std::nullopt;
  });
}

/// A word of the worst of all; empty where there is none.
Pair<std::string> worst_word(const Comparison& c, std::string WorstOfAll::*word) {
  Pair<std::string> pair;
  for (const std::size_t i : {0U, 1U}) {
    const auto& n = side(c, i).numbers;
    if (n && n->worst) pair[i] = (*n->worst).*word;
  }
  return pair;
}

Pair<std::string> verdicts(const Comparison& c) {
  Pair<std::string> pair;
  for (const std::size_t i : {0U, 1U}) {
    const auto& n = side(c, i).numbers;
    pair[i] = n ? answer_key(n->verdict) : "no_answer";
  }
  return pair;
}

// The sentence
// ------------

std::string mass_words(double before, double after) {
  constexpr double shown = 0.005;  // kg: what two decimals tell apart
  if (std::abs(after - before) < shown) return "as heavy as A";
  return fixed(std::abs(after - before), 2) + " kg " + (after < before ? "lighter" : "heavier");
}

std::string stiffness_words(double before, double after) {
  const double ratio = after / before;
  constexpr double shown = 0.0005, twice = 2;
  if (std::abs(ratio - 1) < shown) return "as stiff";
  if (ratio >= twice || ratio <= 1 / twice) return fixed(ratio, 2) + " times as stiff";
  return fixed(100 * std::abs(ratio - 1), 1) + " % " + (ratio > 1 ? "stiffer" : "softer");
}

std::string worst_words(const Comparison& c, std::size_t i) {
  const WorstOfAll& worst = *side(c, i).numbers->worst;
  return worst.item + " (" + in_words(worst.check) + ", " + worst.load_case + ")";
}

std::string verdict_part(const std::string& key) {
  if (key == "pass") return "passes";
  if (key == "fail") return "fails";
  return key == "not_proven" ? "is not proven" : "has no answer";
}

std::string verdict_words_of_both(const Comparison& c) {
  const auto [a, b] = verdicts(c);
  if (a == b)
    return "both " + (a == "pass"         ? std::string("pass")
                      : a == "fail"       ? "fail"
                      : a == "not_proven" ? "are not proven"
                                          : "have no answer");
  return "B " + verdict_part(b) + ", A " + verdict_part(a);
}

// Rows
// ----

std::string or_none(const MaybeNumber& value, int decimals) {
  return value ? fixed(*value, decimals) : "-";
}

std::string signed_text(double value, int decimals) {
  const std::string text = fixed(value, decimals);
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero ? "0" : (value > 0 ? "+" : "") + text;
}

ComparedRow number_row(const std::string& what, const Pair<MaybeNumber>& pair, int decimals) {
  const bool both = pair[0] && pair[1];
  return {what,
          {or_none(pair[0], decimals), or_none(pair[1], decimals)},
          both ? signed_text(*pair[1] - *pair[0], decimals) : ""};
}

ComparedRow used_row(const std::string& what, const Pair<MaybeNumber>& pair) {
  ComparedRow row = number_row(what, pair, 2);
  for (const std::size_t i : {0U, 1U}) {
    if (pair[i]) row.value[i] = utilisation_text(*pair[i]);
  }
  return row;
}

std::string or_none(const std::string& text) { return text.empty() ? "-" : text; }

ComparedRow word_row(const std::string& what, const Pair<std::string>& pair) {
  return {what, {or_none(pair[0]), or_none(pair[1])}, ""};
}

MaybeNumber as_number(int count) { return static_cast<double>(count); }

// Changes
// -------

const char* kind_word(PartKind kind) {
  switch (kind) {
    case PartKind::tube:
      return "tube";
    case PartKind::node:
      return "node";
    case PartKind::panel:
      return "panel";
    case PartKind::sheet:
      return "sheet";
    case PartKind::mass:
      return "mass";
    case PartKind::attachment:
      return "attachment";
    case PartKind::gusset:
      break;
  }
  return "gusset";
}

std::string tube_text(const SectionEntry& section) {
  return section.name.empty() ? "a spring" : size_text(section);
}

std::string bend_text(double radius) {
  return radius > 0 ? "bent to " + millimetres(radius, 1) + " mm" : "not bent";
}

std::string part_size(const ResizedPart& r, std::size_t i) {
  return r.part.kind == PartKind::mass ? fixed(r.size[i], 2) + " kg"
                                       : millimetres(r.size[i], 2) + " mm " + r.material[i];
}

std::string place_text(const Eigen::Vector3d& at) {
  std::string text;
  for (const double x : at) text += (text.empty() ? "" : ", ") + millimetres(x, 1);
  return text;
}

/// A change told with all it holds for: "arm_l, arm_r".
struct ToldChange {
  std::string before, names, after;
};

/// Names with the same text round them stand in one line.
void add_told(std::vector<ToldChange>& told, const std::string& before, const std::string& name,
              const std::string& after) {
  for (ToldChange& t : told) {
    if (t.before != before || t.after != after) continue;
    t.names += ", " + name;
    return;
  }
  told.push_back({before, name, after});
}

ordered_json parts_json(const std::vector<NamedPart>& parts) {
  ordered_json list = ordered_json::array();
  for (const NamedPart& p : parts) list.push_back({{"kind", kind_word(p.kind)}, {"name", p.name}});
  return list;
}

ordered_json change_json(PartKind kind, const std::string& name, ordered_json from,
                         ordered_json to) {
  return {
      {"kind", kind_word(kind)}, {"name", name}, {"from", std::move(from)}, {"to", std::move(to)}};
}

ordered_json resized_json(const FrameChanges& changes) {
  ordered_json list = ordered_json::array();
  for (const ResizedTube& t : changes.resized_tubes) {
    list.push_back(
        change_json(PartKind::tube, t.name, tube_text(t.section[0]), tube_text(t.section[1])));
  }
  for (const RebentTube& t : changes.rebent) {
    list.push_back(
        change_json(PartKind::tube, t.name, bend_text(t.radius[0]), bend_text(t.radius[1])));
  }
  for (const ResizedPart& r : changes.resized_parts) {
    list.push_back(change_json(r.part.kind, r.part.name, part_size(r, 0), part_size(r, 1)));
  }
  return list;
}

ordered_json moved_json(const FrameChanges& changes) {
  ordered_json list = ordered_json::array();
  for (const MovedPart& m : changes.moved) {
    list.push_back(change_json(m.part.kind, m.part.name, numbers(m.at[0], mm_per_m),
                               numbers(m.at[1], mm_per_m)));
  }
  for (const RejoinedTube& t : changes.rejoined) {
    list.push_back(change_json(PartKind::tube, t.name, t.ends[0], t.ends[1]));
  }
  return list;
}

// JSON pairs
// ----------

ordered_json pair_json(const Pair<MaybeNumber>& pair) {
  return ordered_json::array({optional_number(pair[0], 1), optional_number(pair[1], 1)});
}

ordered_json pair_json(const Pair<std::string>& pair) {
  ordered_json list = ordered_json::array();
  for (const std::string& text : pair) {
    list.push_back(text.empty() ? ordered_json(nullptr) : ordered_json(text));
  }
  return list;
}

ordered_json case_json(const ComparedCase& c) {
  ordered_json used = ordered_json::array(), item = ordered_json::array(),
               check = ordered_json::array();
  for (const auto& worst : c.worst) {
    used.push_back(worst ? number(worst->utilisation) : ordered_json(nullptr));
    item.push_back(worst ? ordered_json(worst->item) : ordered_json(nullptr));
    check.push_back(worst ? ordered_json(worst->check) : ordered_json(nullptr));
  }
  return {{"utilisation", std::move(used)}, {"item", std::move(item)}, {"check", std::move(check)}};
}

Pair<std::string> reasons_of_both(const Comparison& c) {
  Pair<std::string> reasons;
  for (const std::size_t i : {0U, 1U}) {
    if (!side(c, i).numbers) reasons[i] = reason_of(side(c, i).trouble);
  }
  return reasons;
}

// Text
// ----

/// A table with a column for each file and one for the difference.
std::string rows_text(const std::vector<ComparedRow>& rows, const std::string& heading,
                      const std::string& difference, Paint paint) {
  constexpr std::size_t most = 26;  // of a name that is cut to leave room for others
  std::size_t what = display_width(heading);
  Pair<std::size_t> width = {1, 1};
  std::size_t last = display_width(difference);
  const auto cut = [](const std::string& text) { return one_line(text, most); };
  for (const ComparedRow& row : rows) {
    what = std::max(what, display_width(cut(row.what)));
    last = std::max(last, display_width(row.difference));
    for (const std::size_t i : {0U, 1U}) {
      width[i] = std::max(width[i], display_width(cut(row.value[i])));
    }
  }
  const auto padded_left = [](const std::string& text, std::size_t wide) {
    return text + std::string(wide - std::min(wide, display_width(text)), ' ');
  };
  const auto padded_right = [](const std::string& text, std::size_t wide) {
    return std::string(wide - std::min(wide, display_width(text)), ' ') + text;
  };
  std::string text =
      paint.faint(padded_left(heading, what) + "  " + padded_right(side_names[0], width[0]) + "  " +
                  padded_right(side_names[1], width[1]) +
                  (last == 0 ? "" : "  " + padded_right(difference, last))) +
      '\n';
  for (const ComparedRow& row : rows) {
    std::string line = padded_left(cut(row.what), what);
    for (const std::size_t i : {0U, 1U}) line += "  " + padded_right(cut(row.value[i]), width[i]);
    if (!row.difference.empty()) line += "  " + padded_right(row.difference, last);
    text += line + '\n';
  }
  return text;
}

}  // namespace

std::string compare_sentence(const Comparison& c) {
  const auto mass = mass_of(c), stiffness = stiffness_of(c);
  std::string text = "B is " + mass_words(*mass[0], *mass[1]);
  if (stiffness[0] && stiffness[1]) text += " and " + stiffness_words(*stiffness[0], *stiffness[1]);
  const auto used = utilisation_of(c);
  if (used[1]) {
    text += "; its worst item is " + worst_words(c, 1) + ", at " + utilisation_text(*used[1]);
    if (used[0]) {
      text += " against " + utilisation_text(*used[0]);
      const bool same = worst_words(c, 0) == worst_words(c, 1);
      text += same ? "" : " of " + worst_words(c, 0) + " in A";
    }
  }
  return text + "; " + verdict_words_of_both(c);
}

std::vector<ComparedRow> compared_numbers(const Comparison& c) {
  const FrameSide &a = side(c, 0), &b = side(c, 1);
  std::vector<ComparedRow> rows = {number_row("mass of tubes, panels, kg", mass_of(c), 2),
                                   number_row("mass in all, kg", {a.mass.total, b.mass.total}, 2),
                                   number_row("torsion, N m/deg", stiffness_of(c), 1),
                                   number_row("lowest frequency, Hz", frequency_of(c), 1),
                                   used_row("worst utilisation", utilisation_of(c)),
                                   word_row("  of", worst_word(c, &WorstOfAll::item)),
                                   word_row("  by its check of", worst_word(c, &WorstOfAll::check)),
                                   word_row("  in case", worst_word(c, &WorstOfAll::load_case))};
  Pair<std::string> answers = verdicts(c);
  for (std::string& answer : answers) answer = in_words(answer);
  rows.push_back(word_row("verdict", answers));
  rows.push_back(number_row("pieces to cut", {as_number(a.pieces), as_number(b.pieces)}, 0));
  rows.push_back(number_row("bars to buy", {as_number(a.bars), as_number(b.bars)}, 0));
  if (a.cost || b.cost) rows.push_back(number_row("what they cost", {a.cost, b.cost}, 2));
  rows.push_back(number_row("weld, mm", {a.weld_length * mm_per_m, b.weld_length * mm_per_m}, 0));
  return rows;
}

std::vector<ComparedRow> compared_cases(const Comparison& c) {
  std::vector<ComparedRow> rows;
  for (const ComparedCase& compared : c.result.cases) {
    Pair<MaybeNumber> used;
    for (const std::size_t i : {0U, 1U}) {
      if (compared.worst[i]) used[i] = compared.worst[i]->utilisation;
    }
    rows.push_back(used_row(compared.name, used));
  }
  return rows;
}

std::vector<ComparedRow> compared_bars(const Comparison& c) {
  std::vector<ComparedRow> rows;
  for (const ComparedBars& b : c.result.bars) {
    rows.push_back(
        number_row(size_text(b.section), {as_number(b.bars[0]), as_number(b.bars[1])}, 0));
  }
  return rows;
}

std::vector<std::string> change_lines(const Comparison& c) {
  const FrameChanges& changes = c.result.changes;
  std::vector<ToldChange> told;
  for (const NamedPart& p : changes.added) {
    add_told(told, std::string("added, ") + kind_word(p.kind) + ": ", p.name, "");
  }
  for (const NamedPart& p : changes.removed) {
    add_told(told, std::string("removed, ") + kind_word(p.kind) + ": ", p.name, "");
  }
  for (const ResizedTube& t : changes.resized_tubes) {
    add_told(told, "resized, tube: ", t.name,
             ": " + tube_text(t.section[0]) + " -> " + tube_text(t.section[1]));
  }
  for (const RebentTube& t : changes.rebent) {
    add_told(told, "resized, tube: ", t.name,
             ": " + bend_text(t.radius[0]) + " -> " + bend_text(t.radius[1]));
  }
  for (const ResizedPart& r : changes.resized_parts) {
    add_told(told, std::string("resized, ") + kind_word(r.part.kind) + ": ", r.part.name,
             ": " + part_size(r, 0) + " -> " + part_size(r, 1));
  }
  for (const MovedPart& m : changes.moved) {
    add_told(told, std::string("moved, ") + kind_word(m.part.kind) + ": ", m.part.name,
             ": " + place_text(m.at[0]) + " -> " + place_text(m.at[1]) + " mm");
  }
  for (const RejoinedTube& t : changes.rejoined) {
    add_told(told, "moved, tube: ", t.name,
             ": from " + t.ends[0][0] + " to " + t.ends[0][1] + " -> from " + t.ends[1][0] +
                 " to " + t.ends[1][1]);
  }
  std::vector<std::string> lines;
  for (const ToldChange& t : told) lines.push_back(t.before + t.names + t.after);
  return lines;
}

std::string compare_line(const Comparison& c) { return compare_sentence(c) + "\n"; }

std::string compare_text(const Comparison& c, Paint paint) {
  std::string text = wrapped("", compare_sentence(c)) + '\n';
  for (const std::size_t i : {0U, 1U}) {
    text += wrapped(std::string(side_names[i]) + "  ", c.files[i] + ": " + c.frames[i].title);
    if (!side(c, i).numbers) {
      text += wrapped("   ", "no answer: " + reason_of(side(c, i).trouble));
    }
  }
  text += '\n' + rows_text(compared_numbers(c), "", "B - A", paint);
  if (!c.result.cases.empty()) {
    text += '\n' + rows_text(compared_cases(c), "used at most, in case", "B - A", paint);
  }
  if (!c.result.bars.empty()) {
    text += '\n' + rows_text(compared_bars(c), "bars to buy", "B - A", paint);
  }
  const std::vector<std::string> changes = change_lines(c);
  text += '\n' + (changes.empty()
                      ? "No tube, node, sheet or mass was added, removed, resized or moved\n"
                      : list_lines("From A to B", changes, paint));
  return text + '\n' + list_lines("Bear in mind", cautions(), paint);
}

std::string compare_json(const Comparison& c, const Diagnostics& warnings) {
  const FrameSide &a = side(c, 0), &b = side(c, 1);
  JsonLines out;
  start_results(out, c.frames[1], comparison_passes(c.result), warnings, {});
  out.open("compare");
  out.row("files", pair_json(c.files));
  out.row("frames", pair_json(Pair<std::string>{c.frames[0].title, c.frames[1].title}));
  out.row("sentence", compare_sentence(c));
  out.row("mass", pair_json(mass_of(c)));
  out.row("mass_total", pair_json(Pair<MaybeNumber>{a.mass.total, b.mass.total}));
  out.row("stiffness", pair_json(stiffness_of(c)));
  out.row("frequency", pair_json(frequency_of(c)));
  out.row("frequencies", ordered_json::array({a.frequencies, b.frequencies}));
  out.row("utilisation", pair_json(utilisation_of(c)));
  out.row("item", pair_json(worst_word(c, &WorstOfAll::item)));
  out.row("check", pair_json(worst_word(c, &WorstOfAll::check)));
  out.row("case", pair_json(worst_word(c, &WorstOfAll::load_case)));
  out.row("verdict", pair_json(verdicts(c)));
  out.row("reason", pair_json(reasons_of_both(c)));
  out.row("cost", pair_json(Pair<MaybeNumber>{a.cost, b.cost}));
  out.row("bars", ordered_json::array({a.bars, b.bars}));
  out.row("pieces", ordered_json::array({a.pieces, b.pieces}));
  out.row("weld_length", ordered_json::array(
                             {number(a.weld_length * mm_per_m), number(b.weld_length * mm_per_m)}));
  ordered_json cases = ordered_json::object(), sizes = ordered_json::array();
  for (const ComparedCase& compared : c.result.cases) cases[compared.name] = case_json(compared);
  for (const ComparedBars& bars : c.result.bars) {
    sizes.push_back(
        {{"size", size_text(bars.section)}, {"bars", bars.bars}, {"cost", pair_json(bars.cost)}});
  }
  out.rows("cases", cases);
  out.list("sizes", sizes);
  out.list("added", parts_json(c.result.changes.added));
  out.list("removed", parts_json(c.result.changes.removed));
  out.list("resized", resized_json(c.result.changes));
  out.list("moved", moved_json(c.result.changes));
  out.close();
  return out.finish();
}

}  // namespace tubewright
