#include "io/changes/loss_output.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>

#include "cases/changes/nine_digits.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t most_rows = 12;

/// How many of a kind there are, and how many of them the frame needs.
struct Count {
  int all = 0;
  int needed = 0;
};

Count count_of(const LossStudy& study, const std::function<bool(LossKind)>& counts) {
  Count count;
  for (const Loss& loss : study.losses) {
    if (!counts(loss.kind)) continue;
    ++count.all;
    if (loss.must_hold) ++count.needed;
  }
  return count;
}

bool is_end(LossKind kind) { return kind == LossKind::end; }
bool is_tube(LossKind kind) { return kind == LossKind::tube; }
bool is_of_sheet(LossKind kind) { return kind != LossKind::end && kind != LossKind::tube; }

std::string shown(const Loss& loss) {
  switch (loss.kind) {
    case LossKind::panel:
      return "panel " + loss.name;
    case LossKind::rivets:
      return "rivets of " + loss.name;
    case LossKind::bond:
      return "bond of " + loss.name;
    case LossKind::tube:
    case LossKind::end:
      break;
  }
  return loss.name;
}

/// The case that is worst under a loss: one without an answer before any number.
const ChangedCase* worst_case(const ChangedAnswer& answer) {
  const ChangedCase* worst = nullptr;
  for (const ChangedCase& c : answer.cases) {
    if (!c.solved) return &c;
    if (c.worst && (worst == nullptr || c.worst->utilisation > worst->worst->utilisation)) {
      worst = &c;
    }
  }
  return worst;
}

std::string left_of(const LossStudy& study, const Loss& loss) {
  if (!loss.answer.stiffness) return "none";
  return fixed(100 * *loss.answer.stiffness / *study.whole.stiffness, 0) + " %";
}

std::string used(const Loss& loss) {
  return std::isfinite(loss.worst) ? utilisation_text(loss.worst) : "-";
}

std::string row(const LossStudy& study, const Loss& loss, std::size_t width, bool fatigue) {
  std::string text = "  " + left(shown(loss), width) + right(used(loss), 8);
  if (study.whole.stiffness) text += right(left_of(study, loss), 9);
  if (fatigue) text += right(loss.fatigue ? utilisation_text(*loss.fatigue) : "-", 9);
  return one_line(text + "  " + what_follows(loss), terminal_columns) + '\n';
}

std::string table(const LossStudy& study, const std::string& heading,
                  const std::vector<const Loss*>& losses, bool fatigue, Paint paint) {
  if (losses.empty()) return "";
  std::size_t width = 6;
  const std::size_t rows = std::min(losses.size(), most_rows);
  for (std::size_t i = 0; i < rows; ++i) width = std::max(width, shown(*losses[i]).size());
  width = std::min<std::size_t>(width, 36);
  std::string head = left("", width + 2) + right("worst", 8);
  if (study.whole.stiffness) head += right("torsion", 9);
  if (fatigue) head += right("fatigue", 9);
  std::string text =
      '\n' + paint.heading(heading) + '\n' + paint.faint(head + "  what follows") + '\n';
  for (std::size_t i = 0; i < rows; ++i) text += row(study, *losses[i], width, fatigue);
  if (losses.size() > rows) {
    text += "  and " + std::to_string(losses.size() - rows) + " more\n";
  }
  return text;
}

/// Those of a kind that must hold (`needed`) or need not, the worst first.
std::vector<const Loss*> worst_of(const LossStudy& study,
                                  const std::function<bool(LossKind)>& counts, bool needed) {
  std::vector<const Loss*> list;
  for (const Loss& loss : study.losses) {
    if (counts(loss.kind) && loss.must_hold == needed) list.push_back(&loss);
  }
  std::stable_sort(list.begin(), list.end(), [](const Loss* a, const Loss* b) {
    return nine_digits(a->worst) > nine_digits(b->worst);
  });
  return list;
}

std::string redundancy_lines(const Frame& frame, const LossStudy& study, Paint paint) {
  if (study.redundancy.empty()) return "";
  std::vector<std::size_t> order;
  for (std::size_t m = 0; m < study.redundancy.size(); ++m) order.push_back(m);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return nine_digits(study.redundancy[a]) < nine_digits(study.redundancy[b]);
  });
  std::string least;
  constexpr std::size_t named = 5;
  for (std::size_t i = 0; i < std::min(named, order.size()); ++i) {
    least += (i > 0 ? ", " : "") + frame.members[order[i]].name + " " +
             fixed(study.redundancy[order[i]], 3);
  }
  return '\n' + paint.heading("Redundancy") + '\n' +
         wrapped("  ", "statically indeterminate to the degree " + fixed(study.redundancy_sum, 0) +
                           (study.held_by_supports ? ", as its supports hold it" : ", free") +
                           ": the sum of what each part leaves to the rest, of 6 ways in which a "
                           "tube can carry") +
         wrapped("  ", "least: " + least);
}

std::vector<std::string> loss_cautions() {
  std::vector<std::string> lines = {
      "One part is lost at a time, without a shock: a part that snaps may ask for up to twice the "
      "forces.",
      "At a safety factor of 1; what is over its limit by bending alone may still hang together, "
      "and what is lost may be more than one weld.",
      "A lost tube goes with its weight, the loads along it and the panels along it. Not looked "
      "at: brackets that come off, cracks that stop half-way, ends that are lost while the vehicle "
      "moves on."};
  for (std::string& line : cautions()) lines.push_back(std::move(line));
  return lines;
}

ordered_json answer_json(const ChangedAnswer& answer) {
  ordered_json cases = ordered_json::object();
  for (const ChangedCase& c : answer.cases) {
    ordered_json entry = {{"utilisation", c.worst ? number(c.worst->utilisation) : nullptr},
                          {"item", c.worst ? ordered_json(c.worst->item) : nullptr},
                          {"check", c.worst ? ordered_json(c.worst->check) : nullptr},
                          {"deflection", c.solved ? number(c.deflection * mm_per_m) : nullptr}};
    if (!c.solved) entry["reason"] = c.why_not;
    cases[c.name] = std::move(entry);
  }
  return cases;
}

ordered_json loss_entry(const LossStudy& study, const Loss& loss) {
  ordered_json entry = {{"mechanism", loss.answer.mechanism}};
  if (loss.kind == LossKind::tube && !study.redundancy.empty()) {
    entry["redundancy"] = number(study.redundancy[static_cast<std::size_t>(loss.member)]);
  }
  entry["stiffness"] = optional_number(loss.answer.stiffness, per_degree);
  entry["utilisation"] = loss.answer.cases.empty() ? nullptr : number(loss.worst);
  entry["must_hold"] = loss.must_hold;
  if (loss.kind == LossKind::end) entry["fatigue"] = optional_number(loss.fatigue, 1);
  entry["cases"] = answer_json(loss.answer);
  return entry;
}

void write_losses(JsonLines& out, const LossStudy& study, const std::string& key,
                  const std::function<bool(LossKind)>& counts) {
  out.open(key);
  for (const Loss& loss : study.losses) {
    if (counts(loss.kind)) out.row(loss.name, loss_entry(study, loss));
  }
  out.close();
}

}  // namespace

std::string what_follows(const Loss& loss) {
  if (loss.answer.mechanism) return "can move freely";
  const ChangedCase* c = worst_case(loss.answer);
  if (c == nullptr) return loss.answer.cases.empty() ? "" : "nothing could be checked";
  if (!c->solved) return "no answer in " + c->name;
  return in_words(c->worst->check) + " of " + c->worst->item + " in " + c->name;
}

std::string loss_sentence(const LossStudy& study) {
  const Count welds = count_of(study, is_end), tubes = count_of(study, is_tube),
              sheets = count_of(study, is_of_sheet);
  const auto of = [](const Count& c, const std::string& noun) {
    return std::to_string(c.needed) + " of " + std::to_string(c.all) + " " + noun;
  };
  const std::string without =
      ": without any one of them the frame moves freely or something is over its limit at a safety "
      "factor of 1";
  if (welds.needed + tubes.needed + sheets.needed == 0) {
    return "the frame bears the loss of any one of its " + std::to_string(welds.all) +
           " welds and " + std::to_string(tubes.all) + " tubes at a safety factor of 1";
  }
  std::string text = of(welds, "welds") + " and " + of(tubes, "tubes");
  if (sheets.needed > 0)
    text = of(welds, "welds") + ", " + of(tubes, "tubes") + " and " + of(sheets, "parts of sheets");
  return text + " must hold" + without;
}

std::string loss_text(const Frame& frame, const LossStudy& study, Paint paint) {
  std::string text = paint.heading(one_line(frame.title, terminal_columns)) + '\n';
  text += wrapped("", loss_sentence(study));
  if (const auto worst = study.whole.worst()) {
    text += wrapped(
        "", "nothing lost, at a safety factor of 1: " + utilisation_text(worst->utilisation) +
                ", " + in_words(worst->check) + " of " + worst->item + " in " + worst->load_case);
  }
  if (study.whole.stiffness) {
    text += "torsional stiffness " + fixed(*study.whole.stiffness * per_degree, 1) +
            " N m/deg with nothing lost\n";
  }
  std::vector<const Loss*> inspect;
  for (const int i : study.inspect) inspect.push_back(&study.losses[static_cast<std::size_t>(i)]);
  text += table(study,
                study.fatigue_screened ? "Welds that must hold, nearest to fatigue first: inspect "
                                         "them in this order"
                                       : "Welds that must hold, the worst first",
                inspect, study.fatigue_screened, paint);
  text += table(study, "Tubes that must not be lost", worst_of(study, is_tube, true), false, paint);
  text += table(study, "Parts of sheets that must hold", worst_of(study, is_of_sheet, true), false,
                paint);
  if (inspect.empty()) {
    text +=
        table(study, "Welds whose loss is felt most", worst_of(study, is_end, false), false, paint);
  }
  text += redundancy_lines(frame, study, paint);
  return text + '\n' + list_lines("Bear in mind", loss_cautions(), paint);
}

std::string loss_json(const Frame& frame, const LossStudy& study, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, losses_pass(study), warnings, {});
  out.open("break");
  write_losses(out, study, "tubes", is_tube);
  write_losses(out, study, "ends", is_end);
  write_losses(out, study, "panels", [](LossKind kind) { return kind == LossKind::panel; });
  write_losses(out, study, "rivets", [](LossKind kind) { return kind == LossKind::rivets; });
  write_losses(out, study, "bonds", [](LossKind kind) { return kind == LossKind::bond; });
  out.row("redundancy_sum",
          study.redundancy.empty() ? ordered_json(nullptr) : number(study.redundancy_sum));
  out.row("redundancy_held", study.held_by_supports ? "supports" : "free");
  ordered_json inspect = ordered_json::array();
  for (const int i : study.inspect) {
    inspect.push_back(study.losses[static_cast<std::size_t>(i)].name);
  }
  out.row("inspect", inspect);
  out.row("whole", {{"stiffness", optional_number(study.whole.stiffness, per_degree)},
                    {"cases", answer_json(study.whole)}});
  out.close();
  return out.finish();
}

}  // namespace tubewright
