#include "io/changes/size_output.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <vector>

#include "cases/frame/wording.h"
#include "io/changes/section_words.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/workshop/piece_words.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// Of a list in the text; the JSON has all.
constexpr std::size_t most_listed = 8;

const SectionEntry& size_of(const SizedTubes& group, int choice) {
  return choice < 0 ? group.now : group.sizes[static_cast<std::size_t>(choice)];
}

std::string mass_words(double mass) { return fixed(mass, 3) + " kg"; }

std::string cost_words(double cost) { return "a cost of " + fixed(cost, 2); }

/// What the study makes least of: "15.251 kg", "a cost of 84.20 (15.251 kg)".
std::string worth_words(const SizeStudy& study, const SizedDesign& design) {
  if (!study.options.cheapest || !design.cost) return mass_words(design.mass);
  return cost_words(*design.cost) + " (" + mass_words(design.mass) + ")";
}

std::string bound_words(const SizeStudy& study) {
  return study.options.cheapest ? cost_words(study.bound) : mass_words(study.bound);
}

const char* lighter_word(const SizeStudy& study) {
  return study.options.cheapest ? "cheaper" : "lighter";
}

/// "yield of lb0-lb1 in brake, 1.08".
std::string excess_words(const Failure& excess) {
  if (excess.check == "no_answer") return "every check: the frame has no answer";
  std::string text = in_words(excess.check);
  if (!excess.item.empty()) text += " of " + excess.item;
  if (!excess.load_case.empty()) text += " in " + excess.load_case;
  if (!std::isfinite(excess.utilisation)) return text + ", which has no answer";
  return text + ", " + utilisation_text(excess.utilisation);
}

std::string first_excess(const SizedDesign& design) {
  if (design.excesses.empty()) return "nothing";
  std::string text = excess_words(design.excesses.front());
  const std::size_t more = design.excesses.size() - 1;
  if (more > 0) text += ", and " + std::to_string(more) + " more";
  return text;
}

/// ", 2.486 kg lighter than the file's 17.738 kg".
std::string against_the_file(const SizeStudy& study, const SizedDesign& design) {
  const bool by_cost = study.options.cheapest && design.cost && study.now.cost;
  const double now = by_cost ? *study.now.cost : study.now.mass;
  const double less = now - (by_cost ? *design.cost : design.mass);
  const std::string file = by_cost ? fixed(now, 2) : mass_words(now);
  constexpr double rounding = 1e-9;
  std::string text;
  if (std::abs(less) <= rounding * std::abs(now)) {
    text = ", as much as in the file";
  } else {
    const std::string difference = by_cost ? fixed(std::abs(less), 2) : mass_words(std::abs(less));
    const char* way = by_cost ? (less > 0 ? " less" : " more") : less > 0 ? " lighter" : " heavier";
    text = ", " + difference + way + " than the file's " + file;
  }
  return study.now.passes() ? text : text + ", which does not pass";
}

std::string open_bound(const SizeStudy& study) {
  std::string text = "none below " + bound_words(study) + " passes";
  if (std::isfinite(study.gap)) text += " (gap " + fixed(100 * study.gap, 1) + " %)";
  return text + ": the time was up";
}

/// "rails 30.0 x 30.0 x 2.0 S235": the groups that are not as in `than`.
std::string differences(const SizeStudy& study, const SizedDesign& design,
                        const SizedDesign* than) {
  std::string text;
  for (std::size_t g = 0; g < study.groups.size(); ++g) {
    if (than != nullptr && than->choice[g] == design.choice[g]) continue;
    const SizedTubes& group = study.groups[g];
    text +=
        (text.empty() ? "" : "; ") + group.name + " " + size_text(size_of(group, design.choice[g]));
  }
  return text;
}

/// Why a group is in no lighter size.
std::string governs_words(const SizeStudy& study, std::size_t g) {
  if (g >= study.governs.size()) return "not looked at";
  const GoverningLimit& limit = study.governs[g];
  if (limit.lightest) {
    return std::string("the ") + (study.options.cheapest ? "cheapest" : "lightest") +
           " size of the list";
  }
  if (!limit.lighter) return "not looked at";
  const std::string size = size_text(size_of(study.groups[g], limit.lighter->choice[g]));
  if (limit.lighter->passes()) return size + " would pass too";
  return size + " would break " + first_excess(*limit.lighter);
}

std::size_t widest_name(const SizeStudy& study) {
  constexpr std::size_t least = 8, most = 20;
  std::size_t width = least;
  for (const SizedTubes& group : study.groups) {
    width = std::max(width, std::min(group.name.size() + 1, most));
  }
  return width;
}

/// Group, size in the file, size chosen, its mass, and its cost where there are prices.
std::string choice_table(const SizeStudy& study, const SizedDesign& design, Paint paint) {
  const std::size_t name = widest_name(study);
  constexpr std::size_t size = 25;
  const bool priced = design.cost.has_value();
  std::string text =
      paint.faint("  " + left("group", name) + right("tubes", 6) + "  " + left("now", size) +
                  left("size", size) + right("kg", 8) + (priced ? right("cost", 9) : "")) +
      '\n';
  for (std::size_t g = 0; g < study.groups.size(); ++g) {
    const SizedTubes& group = study.groups[g];
    const int choice = design.choice[g];
    const auto at = static_cast<std::size_t>(std::max(choice, 0));
    text += "  " + left(one_line(group.name, name), name) +
            right(std::to_string(group.members.size()), 6) + "  " +
            left(one_line(size_text(group.now), size - 1), size) +
            left(one_line(size_text(size_of(group, choice)), size - 1), size) +
            right(choice < 0 ? "-" : fixed(group.masses[at], 3), 8);
    if (priced) {
      text += right(choice < 0 || group.costs.empty() ? "-" : fixed(group.costs[at], 2), 9);
    }
    text += '\n';
  }
  if (study.kept_mass > 0) {
    text += "  " + mass_words(study.kept_mass) + " of tubes and sheets are not sized\n";
  }
  if (!study.without_size.empty()) {
    text += wrapped(
        "  ", "held, since the list has no size of their shape: " + joined(study.without_size));
  }
  return text;
}

std::string governs_list(const SizeStudy& study, Paint paint) {
  std::string text =
      '\n' + paint.heading(std::string("What keeps each group from being ") + lighter_word(study)) +
      '\n';
  for (std::size_t g = 0; g < study.groups.size(); ++g) {
    text += wrapped("  " + study.groups[g].name + ": ", governs_words(study, g));
  }
  return text;
}

std::string ties_list(const SizeStudy& study, Paint paint) {
  if (study.ties.empty()) return "";
  std::string text =
      '\n' +
      paint.heading(std::string("Others that ") + (study.options.cheapest ? "cost" : "weigh") +
                    " the same and pass" + (study.all_ties ? "" : "; there may be more of them")) +
      '\n';
  for (std::size_t i = 0; i < std::min(study.ties.size(), most_listed); ++i) {
    text += wrapped("  - ", differences(study, study.ties[i], &*study.best));
  }
  if (study.ties.size() > most_listed) {
    text += "  and " + std::to_string(study.ties.size() - most_listed) + " more, in the JSON\n";
  }
  return text;
}

std::string breaks_list(const SizedDesign& design) {
  std::string text;
  for (std::size_t i = 0; i < std::min(design.excesses.size(), most_listed); ++i) {
    text += wrapped("  - ", excess_words(design.excesses[i]));
  }
  if (design.excesses.size() > most_listed) {
    text +=
        "  and " + std::to_string(design.excesses.size() - most_listed) + " more, in the JSON\n";
  }
  return text;
}

std::string next_part(const SizeStudy& study, Paint paint) {
  if (!study.next) return "";
  std::string text = '\n' +
                     paint.heading(std::string("Next ") + lighter_word(study) + " choice: " +
                                   worth_words(study, *study.next) + ", which breaks") +
                     '\n' + breaks_list(*study.next);
  return text + wrapped("  ", "with " + differences(study, *study.next, &*study.best));
}

/// How far the search went.
std::string search_words(const SizeStudy& study) {
  const std::string designs = !std::isfinite(study.designs) || study.designs >= 1e15
                                  ? "more choices than 10^15"
                                  : fixed(study.designs, 0) + " choices";
  return designs + "; " + std::to_string(study.analysed) + " analysed in " +
         std::to_string(study.rounds) + (study.rounds == 1 ? " round" : " rounds") +
         (study.proved ? ", the others left out by bounds" : ", the search not finished");
}

/// What lighter tubes cost of it, above all where no limit asks for it.
std::string stiffness_line(const SizeStudy& study) {
  const auto& stiffness = study.best->stiffness;
  if (!stiffness) return "";
  std::string text = "torsional stiffness " + three_digits(*stiffness * per_degree) + " N m/deg";
  if (study.now.stiffness) {
    text += ", in the file " + three_digits(*study.now.stiffness * per_degree);
  }
  return wrapped("", text + (study.stiffness_asked ? "" : "; no limit asks for it"));
}

std::string with_best(const SizeStudy& study, Paint paint) {
  const SizedDesign& best = *study.best;
  std::string text;
  if (best.worst) {
    text += wrapped("", "nearest its limit: " + in_words(best.worst->check) + " of " +
                            best.worst->item + " in " + best.worst->load_case + ", " +
                            utilisation_text(best.worst->utilisation));
  }
  text += stiffness_line(study);
  text += wrapped("", search_words(study)) + '\n' + choice_table(study, best, paint);
  return text + governs_list(study, paint) + ties_list(study, paint) + next_part(study, paint);
}

std::string design_part(const SizeStudy& study, const std::string& heading,
                        const SizedDesign& design, Paint paint) {
  return '\n' + paint.heading(heading + ", " + mass_words(design.mass) + ": not met are") + '\n' +
         breaks_list(design) + choice_table(study, design, paint);
}

std::string without_best(const SizeStudy& study, Paint paint) {
  std::string text = wrapped("", search_words(study));
  for (const Failure& excess : study.out_of_reach) {
    text += wrapped("", "no size changes " + excess_words(excess) +
                            ": nothing that is sized has to do with it");
  }
  if (study.heaviest) {
    text += design_part(study, "All groups in their heaviest size", *study.heaviest, paint);
  }
  if (study.least_violated) {
    text += design_part(study, "The choice that exceeds its limits least", *study.least_violated,
                        paint);
  }
  return text;
}

std::vector<std::string> size_cautions(const SizeStudy& study) {
  std::vector<std::string> lines = {
      std::string("The proof is of these groups, these sizes and the limits of this file: tubes "
                  "grouped otherwise, or sizes that are not in the list, may be ") +
          lighter_word(study) + ".",
      "Checks that cannot be made of a choice do not keep it from passing here: `check` of the "
      "file "
      "that `-o` writes tells them.",
      "A choice that just meets its limits leaves nothing for what the load cases leave out."};
  for (std::string& line : cautions()) lines.push_back(std::move(line));
  return lines;
}

// JSON
// ----

ordered_json sizes_json(const SizeStudy& study, const SizedDesign& design) {
  ordered_json sizes = ordered_json::object();
  for (std::size_t g = 0; g < study.groups.size(); ++g) {
    sizes[study.groups[g].name] = section_keys(size_of(study.groups[g], design.choice[g]));
  }
  return sizes;
}

ordered_json breaks_json(const SizedDesign& design) {
  ordered_json list = ordered_json::array();
  for (const Failure& excess : design.excesses) list.push_back(excess_words(excess));
  return list;
}

/// `breaks`: whether to say what it does not meet.
ordered_json design_json(const SizeStudy& study, const std::optional<SizedDesign>& design,
                         bool breaks) {
  if (!design) return nullptr;
  ordered_json json = {{"mass", number(design->mass)},
                       {"cost", optional_number(design->cost, 1)},
                       {"sizes", sizes_json(study, *design)}};
  if (breaks) json["breaks"] = breaks_json(*design);
  return json;
}

ordered_json governs_json(const SizeStudy& study) {
  ordered_json governs = ordered_json::object();
  if (!study.best) return governs;
  for (std::size_t g = 0; g < study.groups.size(); ++g) {
    governs[study.groups[g].name] = governs_words(study, g);
  }
  return governs;
}

ordered_json groups_json(const Frame& frame, const SizeStudy& study) {
  ordered_json groups = ordered_json::object();
  for (const SizedTubes& group : study.groups) {
    ordered_json members = ordered_json::array();
    for (const int m : group.members) {
      members.push_back(frame.members[static_cast<std::size_t>(m)].name);
    }
    groups[group.name] = std::move(members);
  }
  return groups;
}

}  // namespace

bool size_passes(const SizeStudy& study) { return study.best.has_value(); }

std::string size_sentence(const SizeStudy& study) {
  const std::string lighter = lighter_word(study);
  if (study.best) {
    const std::string found =
        worth_words(study, *study.best) + against_the_file(study, *study.best);
    if (study.proved) return found + "; no " + lighter + " choice exists: proved";
    return "not proven: best found " + found + "; " + open_bound(study);
  }
  const std::string heaviest =
      study.heaviest ? "; the heaviest sizes break " + first_excess(*study.heaviest) : "";
  if (study.proved) return "no choice of sizes passes: proved" + heaviest;
  return "not proven: no choice that passes was found before the time was up" + heaviest;
}

std::string size_text(const Frame& frame, const SizeStudy& study, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += wrapped("", size_sentence(study));
  if (study.options.fail_safe) {
    text += wrapped("", "with any one weld broken too, at a safety factor of 1");
  }
  text += study.best ? with_best(study, paint) : without_best(study, paint);
  return text + '\n' + list_lines("Bear in mind", size_cautions(study), paint);
}

std::string size_json(const Frame& frame, const SizeStudy& study, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, size_passes(study), warnings, {});
  out.open("size");
  const std::optional<SizedDesign>& best = study.best;
  out.row("mass", best ? number(best->mass) : ordered_json(nullptr));
  out.row("cost", best ? optional_number(best->cost, 1) : ordered_json(nullptr));
  out.row("proved", study.proved);
  out.row("bound", number(study.bound));
  out.row("gap", number(study.gap));
  out.row("minimised", study.options.cheapest ? "cost" : "mass");
  out.row("answer", size_sentence(study));
  out.row("sizes", best ? sizes_json(study, *best) : ordered_json::object());
  out.row("governs", governs_json(study));
  ordered_json ties = ordered_json::array();
  for (const SizedDesign& tie : study.ties) ties.push_back(design_json(study, tie, false));
  out.row("ties", ties);
  out.row("all_ties", study.all_ties);
  out.row("next", design_json(study, study.next, true));
  if (!best) {
    out.row("heaviest", design_json(study, study.heaviest, true));
    out.row("least_violated", design_json(study, study.least_violated, true));
  }
  out.row("rounds", study.rounds);
  out.row("analysed", study.analysed);
  out.row("designs", number(study.designs));
  out.row("mass_now", number(study.now.mass));
  out.row("cost_now", optional_number(study.now.cost, 1));
  out.row("stiffness",
          study.best ? optional_number(study.best->stiffness, per_degree) : ordered_json(nullptr));
  out.row("stiffness_now", optional_number(study.now.stiffness, per_degree));
  out.row("kept_mass", number(study.kept_mass));
  out.row("groups", groups_json(frame, study));
  out.row("without_size", study.without_size);
  out.close();
  return out.finish();
}

std::string size_line(const Frame& /*frame*/, const SizeStudy& study) {
  return size_sentence(study) + '\n';
}

}  // namespace tubewright
