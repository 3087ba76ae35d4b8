#include "io/rides/ride_output.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cases/rides/ride_verdict.h"
#include "io/results/cautions.h"
#include "io/results/json_parts.h"
#include "io/results/verdict_words.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr double km = 1e3;

double life_damage(const RideStudy& study) {
  const int worst = worn_first(study);
  return worst < 0 ? 0 : *study.life_damage[static_cast<size_t>(worst)];
}

const RideWheel& hardest_wheel(const RideResult& r) {
  return *std::max_element(r.wheels.begin(), r.wheels.end(),
                           [](const auto& a, const auto& b) { return a.factor < b.factor; });
}

std::string worst_words(const RideResult& r) {
  if (!r.worst) return "nothing could be checked";
  return in_words(r.worst->check) + " of " + r.worst->item + " " +
         utilisation_text(*r.worst->utilisation) + " at " + fixed(r.worst->time, 3) + " s";
}

std::string ride_line(const RideResult& r) {
  const RideWheel& wheel = hardest_wheel(r);
  return r.name + ": " + answer_word(r.verdict.answer) + ", " + worst_words(r) + "; " + wheel.name +
         " " + fixed(wheel.factor, 2) + " times its load at rest";
}

std::string wheel_table(const RideResult& r, Paint paint) {
  std::string text = paint.faint("    wheel" + std::string(15, ' ') + right("at rest", 9) +
                                 right("peak", 9) + right("factor", 8) + right("standard", 10) +
                                 right("in the air", 12) + right("tyre", 9)) +
                     '\n';
  for (const RideWheel& w : r.wheels) {
    text += "    " + left(one_line(w.name, 20), 20) + right(fixed(w.standing, 0) + " N", 9) +
            right(fixed(w.peak, 0) + " N", 9) + right(fixed(w.factor, 2), 8) +
            right(w.standard_factor > 0 ? fixed(w.standard_factor, 2) : "-", 10) +
            right(fixed(100 * w.off_ground, 1) + " %", 12) +
            right(millimetres(w.squeezed) + " mm", 9) + '\n';
  }
  return text;
}

std::string mass_table(const RideResult& r, Paint paint) {
  if (r.masses.empty()) return "";
  std::string text = paint.faint("    shaken up and down" + std::string(2, ' ') + right("rms", 13) +
                                 right("at most", 14)) +
                     '\n';
  for (const RideMass& m : r.masses) {
    text += "    " + left(one_line(m.name, 20), 20) + right(fixed(m.rms, 2) + " m/s2", 13) +
            right(fixed(m.peak, 1) + " m/s2", 14) + '\n';
  }
  return text;
}

std::string member_table(const RideResult& r, Paint paint) {
  constexpr size_t most_rows = 6;
  std::string text = paint.faint("    nearest their limits") + '\n';
  for (const RideWorst* worst : nearest_limits(r, most_rows)) {
    text += "    " + left(one_line(worst->item, 28), 28) +
            right(utilisation_text(*worst->utilisation), 8) + "  " + in_words(worst->check) +
            " at " + fixed(worst->time, 3) + " s\n";
  }
  return text;
}

std::string ride_section(const RideStudy& study, const RideResult& r, Paint paint) {
  std::string text = '\n' + paint.heading(ride_line(r)) + '\n';
  text += wrapped("    ", fixed(r.distance, 1) + " m in " + fixed(r.duration, 2) + " s");
  text += wheel_table(r, paint);
  text += mass_table(r, paint);
  text += member_table(r, paint);
  text += wrapped("    ", wear_words(study, r));
  for (const std::string& reason : r.verdict.not_proven)
    text += wrapped("  - not proven: ", reason);
  return text;
}

ordered_json wheels_json(const RideResult& r) {
  ordered_json wheels = ordered_json::object();
  for (const RideWheel& w : r.wheels) {
    wheels[w.name] = {{"standing", number(w.standing)},
                      {"peak", number(w.peak)},
                      {"factor", number(w.factor)},
                      {"standard_factor",
                       w.standard_factor > 0 ? number(w.standard_factor) : ordered_json(nullptr)},
                      {"off_ground", number(w.off_ground)},
                      {"tyre_deflection", number(w.squeezed * mm_per_m)}};
  }
  return wheels;
}

ordered_json worst_json(const RideWorst& w) {
  if (!w.utilisation) return {{"utilisation", nullptr}, {"item", nullptr}, {"time", nullptr}};
  return {{"utilisation", number(*w.utilisation)}, {"item", w.check}, {"time", number(w.time)}};
}

ordered_json pick_ups_json(const RideResult& r) {
  ordered_json peaks = ordered_json::object();
  for (const RidePickUp& p : r.pick_ups) peaks[p.node] = number(p.force);
  return peaks;
}

ordered_json links_json(const RideResult& r) {
  ordered_json links = ordered_json::object();
  for (const RideLink& l : r.links) {
    links[l.member] = {{"least", number(l.least)}, {"greatest", number(l.greatest)}};
  }
  return links;
}

ordered_json fatigue_json(const RideStudy& study, const RideResult& r) {
  ordered_json members = ordered_json::object();
  for (const RideDamage& d : r.damage) {
    const Member& m = study.frame.members[static_cast<size_t>(d.member)];
    members[m.name] = {{"damage", number(d.per_ride)}, {"at", d.end == 0 ? m.from : m.to}};
  }
  const RideDamage* worn = worn_most(r);
  ordered_json fatigue = {{"repeat", number(r.repeat)}};
  const bool lasts = worn != nullptr && worn->per_ride > 0;
  fatigue["damage"] = worn == nullptr ? ordered_json(nullptr) : number(worn->per_ride);
  fatigue["member"] =
      worn == nullptr ? ordered_json(nullptr)
                      : ordered_json(study.frame.members[static_cast<size_t>(worn->member)].name);
  fatigue["repeats"] = lasts ? number(damage_limit / worn->per_ride) : ordered_json(nullptr);
  fatigue["km"] =
      lasts ? number(damage_limit / worn->per_ride * r.distance / km) : ordered_json(nullptr);
  fatigue["members"] = std::move(members);
  return fatigue;
}

}  // namespace

ordered_json ride_part(const RideStudy& study, const RideResult& r) {
  ordered_json masses = ordered_json::object();
  for (const RideMass& m : r.masses) {
    masses[m.name] = {{"rms", number(m.rms)}, {"peak", number(m.peak)}};
  }
  ordered_json members = ordered_json::object(), others = ordered_json::object();
  for (const RideWorst& w : r.members) members[w.item] = worst_json(w);
  for (const RideWorst& w : r.others) others[w.item] = worst_json(w);
  ordered_json worst = nullptr;
  if (r.worst) {
    worst = {{"utilisation", number(*r.worst->utilisation)},
             {"item", r.worst->item},
             {"check", r.worst->check},
             {"time", number(r.worst->time)}};
  }
  return {{"duration", number(r.duration)},
          {"distance", number(r.distance)},
          {"time_step", number(r.time_step)},
          {"wheels", wheels_json(r)},
          {"masses", std::move(masses)},
          {"members", std::move(members)},
          {"sheets_and_fittings", std::move(others)},
          {"worst", std::move(worst)},
          {"pick_ups", pick_ups_json(r)},
          {"links", links_json(r)},
          {"fatigue", fatigue_json(study, r)},
          {"speed_lost", number(r.speed_lost * 3.6)},
          {"change_by_halving", number(r.change_by_halving)},
          {"converged", r.converged},
          {"verdict", verdict_json(r.verdict)}};
}

std::string wear_words(const RideStudy& study, const RideResult& r) {
  const RideDamage* worn = worn_most(r);
  if (worn == nullptr) return "nothing is counted for fatigue";
  const Member& member = study.frame.members[static_cast<size_t>(worn->member)];
  if (!(worn->per_ride > 0)) return "no stress range reaches the cut-off: it wears nothing out";
  const double rides = damage_limit / worn->per_ride;
  return "wears " + member.name + " at " + (worn->end == 0 ? member.from : member.to) +
         " most: of this ride alone it lasts " + three_digits(rides) + ", " +
         three_digits(rides * r.distance / km) + " km";
}

std::string life_sentence(const RideStudy& study) {
  const int worst = worn_first(study);
  if (worst < 0) return "";
  return "all of it together, " + study.life_words + ", uses " +
         utilisation_text(life_damage(study)) + " of the life of " +
         study.frame.members[static_cast<size_t>(worst)].name + " (Miner's sum, 1 at its end)";
}

std::vector<std::string> ride_cautions(const RideStudy& study) {
  std::vector<std::string> lines = {
      "What a person or load does that gives way is not in it: carried masses are rigid. Tyres are "
      "linear and never strike the rim, springs never their stops; no steering, no driving force, "
      "no turning over; the speed is constant and displacements are small.",
      "A random road of ISO 8608 has no potholes and no kerbs: give these as rides of their own.",
      "Fatigue is screened by category " + fixed(study.category / 1e6, 0) +
          " and counted at every tube end; of welds in thin tube no test is known.",
      "It does not replace a drive test."};
  if (!study.all_modes) {
    lines.insert(lines.begin(), "Elastic modes are followed up to " + fixed(study.highest_mode, 0) +
                                    " Hz only; higher ones give way as if at rest.");
  }
  for (std::string& line : cautions()) lines.push_back(std::move(line));
  return lines;
}

std::string ride_lines(const RideStudy& study) {
  std::string text;
  for (const RideResult& r : study.rides) text += ride_line(r) + '\n';
  return text;
}

std::string ride_text(const RideStudy& study, Paint paint) {
  std::string text = paint.heading(one_line(study.frame.title, terminal_columns)) + '\n';
  text += wrapped("", std::to_string(study.elastic_modes) + " elastic modes up to " +
                          fixed(study.highest_mode, 0) +
                          " Hz, what lies above as if at rest; joints as welded, sheets flat");
  for (const RideResult& r : study.rides) text += ride_section(study, r, paint);
  if (const std::string life = life_sentence(study); !life.empty()) {
    text += '\n' + wrapped("", life);
  }
  return text + '\n' + list_lines("Bear in mind", ride_cautions(study), paint);
}

std::string ride_json(const RideStudy& study, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, study.frame, rides_pass(study), warnings, {});
  out.open("rides");
  for (const RideResult& r : study.rides) out.row(r.name, ride_part(study, r));
  out.close();
  ordered_json life = ordered_json::object();
  for (size_t m = 0; m < study.life_damage.size(); ++m) {
    if (study.life_damage[m]) {
      life[study.frame.members[m].name] = number(*study.life_damage[m]);
    }
  }
  out.row("life_damage", life);
  out.row("modes", {{"elastic", study.elastic_modes},
                    {"highest", number(study.highest_mode)},
                    {"all", study.all_modes}});
  return out.finish();
}

}  // namespace tubewright
