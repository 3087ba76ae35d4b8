#include "io/report/report_rides.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "cases/rides/ride_verdict.h"
#include "io/results/json_parts.h"
#include "io/results/verdict_words.h"
#include "io/rides/ride_output.h"
#include "io/text/text_layout.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr double kmh = 3.6;  // in a m/s

std::string ground_words(const RideEntry& ride) {
  const std::string high = millimetres(ride.height, 0) + " mm",
                    length = millimetres(ride.length, 0) + " mm long";
  switch (ride.ground) {
    case Ground::step:
      return "up a step of " + high;
    case Ground::drop:
      return "down a step of " + high;
    case Ground::half_sine:
    case Ground::versed_sine:
      return "over a hump of " + high + ", " + length;
    case Ground::pothole:
      return "through a hole " + high + " deep, " + length;
    case Ground::random_road:
      return "over a random road of " + three_digits(1e6 * ride.roughness) + "e-6 m\u00b3";
    case Ground::profile:
      break;
  }
  return "over the profile " + ride.profile_file;
}

std::string side_words(RideSide side) {
  if (side == RideSide::left) return ", with the left wheels only";
  if (side == RideSide::right) return ", with the right wheels only";
  return "";
}

std::string what_words(const RideEntry& ride) {
  return ground_words(ride) + side_words(ride.side) + " at " + three_digits(ride.speed * kmh) +
         " km/h";
}

/// Null where no step fell into a part.
ordered_json forces(const std::vector<std::vector<double>>& rows) {
  ordered_json wheels = ordered_json::array();
  for (const std::vector<double>& row : rows) {
    ordered_json list = ordered_json::array();
    for (const double force : row) list.push_back(number(force));
    wheels.push_back(std::move(list));
  }
  return wheels;
}

/// `first`: number of the ride's first instant among the cases.
ordered_json nearest(const RideResult& ride, size_t first) {
  ordered_json list = ordered_json::array();
  for (const RideWorst* w : nearest_limits(ride)) {
    const auto at = std::find(ride.instant_times.begin(), ride.instant_times.end(), w->time);
    list.push_back({{"item", w->item},
                    {"utilisation", number(*w->utilisation)},
                    {"check", w->check},
                    {"time", number(w->time)},
                    {"case", first + static_cast<size_t>(at - ride.instant_times.begin())}});
  }
  return list;
}

ordered_json entry_of(const RideStudy& study, size_t number_of_ride, size_t first) {
  const RideResult& ride = study.rides[number_of_ride];
  ordered_json entry = {{"name", ride.name},
                        {"what", what_words(study.frame.rides[number_of_ride])},
                        {"word", answer_word(ride.verdict.answer)},
                        {"not_proven", ride.verdict.not_proven},
                        {"wear", wear_words(study, ride)},
                        {"nearest", nearest(ride, first)},
                        {"trace",
                         {{"time", ride.trace.time},
                          {"least", forces(ride.trace.least)},
                          {"greatest", forces(ride.trace.greatest)}}}};
  ordered_json part = ride_part(study, ride);
  for (const char* listed : {"members", "sheets_and_fittings"}) part.erase(listed);
  part["fatigue"].erase("members");
  entry.update(part);
  return entry;
}

double per_ride(const RideResult& ride, int member) {
  const auto at = std::find_if(ride.damage.begin(), ride.damage.end(),
                               [&](const RideDamage& d) { return d.member == member; });
  return at == ride.damage.end() ? 0 : at->per_ride;
}

/// Those worn most by all of it together, and by each ride once.
ordered_json worn_members(const RideStudy& study) {
  std::vector<int> order;
  for (size_t m = 0; m < study.life_damage.size(); ++m) {
    if (study.life_damage[m].value_or(0) > 0) order.push_back(static_cast<int>(m));
  }
  const auto damage = [&](int m) { return *study.life_damage[static_cast<size_t>(m)]; };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return damage(a) > damage(b); });
  if (order.size() > items_shown) order.resize(items_shown);
  ordered_json list = ordered_json::array();
  for (const int m : order) {
    ordered_json once = ordered_json::array();
    for (const RideResult& ride : study.rides) once.push_back(number(per_ride(ride, m)));
    list.push_back({{"name", study.frame.members[static_cast<size_t>(m)].name},
                    {"damage", number(damage(m))},
                    {"rides", std::move(once)}});
  }
  return list;
}

}  // namespace

ordered_json report_rides(const RideStudy& study) {
  ordered_json rides = ordered_json::array(), worst = ordered_json::array();
  size_t first = 0;
  for (size_t i = 0; i < study.rides.size(); ++i) {
    rides.push_back(entry_of(study, i, first));
    first += study.rides[i].instant_times.size();
  }
  for (const auto& used : worst_of_members(study)) worst.push_back(optional_number(used, 1));
  return {{"rides", std::move(rides)},
          {"worst", std::move(worst)},
          {"life", {{"sentence", life_sentence(study)}, {"members", worn_members(study)}}}};
}

std::vector<std::string> ride_assumptions(const RideStudy& study) {
  const std::string modes = std::to_string(study.elastic_modes) + " elastic modes up to " +
                            fixed(study.highest_mode, 0) + " Hz";
  return {
      "Tubes are beams between nodes, their shear included. In motion joints give way as welded, "
      "sheets are flat and cables taut.",
      "The vehicle is free: it moves as a rigid body and in " + modes +
          "; what lies above gives way as if at rest.",
      "Its wheels go along their paths at constant speed, on linear tyres that push and never "
      "pull.",
      "At the worst instants the loads of that instant, the inertia of every mass among them, "
      "times the reserve, are solved and checked as a load case is. Displacements are measured "
      "from the frame's own mean motion."};
}

}  // namespace tubewright
