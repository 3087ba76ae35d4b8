// Rides over a road.
#include <cmath>
#include <filesystem>

#include "cases/validate/ride_errors.h"
#include "io/frame_file/frame_parts.h"
#include "io/frame_file/frame_source.h"
#include "io/frame_file/profile_file.h"
#include "io/keys/choice_words.h"
#include "solver/road/road_spectrum.h"

namespace tubewright {
namespace {

constexpr const char* over_keys[] = {"step", "obstacle", "road", "profile"};

std::string in_words(Ground ground) {
  switch (ground) {
    case Ground::step:
      return "a step";
    case Ground::half_sine:
    case Ground::versed_sine:
      return "a hump";
    case Ground::pothole:
      return "a pothole";
    case Ground::drop:
      return "a drop";
    case Ground::random_road:
      return "a random road";
    case Ground::profile:
      break;
  }
  return "a profile";
}

void read_profile_of(const std::string& folder, RideEntry& ride, Diagnostics& diagnostics,
                     const SourceLocation& place) {
  const std::filesystem::path path = std::filesystem::path(folder) / ride.profile_file;
  const auto fail = [&](const std::string& why) {
    diagnostics.push_back(error_at(place, unreadable_profile(ride.name, ride.profile_file, why)));
  };
  if (ride.profile_file.empty() || ride.profile_file == "-") return fail("no file is named");
  const auto source = read_source(path.string());
  if (const std::string* why = source.error()) return fail(*why);
  if (source->text.size() > most_bytes) return fail("it is too long");
  auto rows = read_profile(source->text);
  if (const std::string* why = rows.error()) return fail(*why);
  ride.profile = std::move(*rows);
}

void read_ground(const CheckedValue& v, RideEntry& ride) {
  if (v["step"].given) {
    ride.ground = Ground::step;
    ride.height = v["step"].number;
  } else if (v["obstacle"].given) {
    ride.ground = value_for(obstacle_words, v["obstacle"].text);
    ride.height = v["height"].number;
    ride.length = v["length"].number;
  } else if (v["road"].given) {
    ride.ground = Ground::random_road;
    const CheckedValue& road = v["road"];
    if (road.group != nullptr) {
      ride.roughness = road["Gd"].number;
    } else if (!road.text.empty()) {
      ride.roughness = class_level(road.text.front()).value_or(0);
    }
  } else if (v["profile"].given) {
    ride.ground = Ground::profile;
    ride.profile_file = v["profile"].text;
  }
}

/// Keys that the ground of the ride asks for, and those it has no use of.
void check_ground_keys(const CheckedValue& v, const RideEntry& ride, Diagnostics& diagnostics) {
  const Ground g = ride.ground;
  const bool obstacle = v["obstacle"].given;
  const bool long_one = g == Ground::half_sine || g == Ground::versed_sine || g == Ground::pothole;
  const auto tell = [&](const Diagnostic& what) { diagnostics.push_back(error_at(v.place, what)); };
  if (obstacle && !v["height"].given) tell(ride_lacks(ride.name, in_words(g), "height"));
  if (long_one && !v["length"].given) tell(ride_lacks(ride.name, in_words(g), "length"));
  const auto stray = [&](const char* key, bool useful) {
    if (v[key].given && !useful) {
      diagnostics.push_back(error_at(v[key].place, not_of_this_ride(ride.name, key, in_words(g))));
    }
  };
  stray("height", obstacle);
  stray("length", long_one);
  stray("seed", g == Ground::random_road);
  stray("side", g != Ground::random_road && g != Ground::profile);
  if (g == Ground::step && ride.height == 0 && v["step"].sound) tell(level_step(ride.name));
}

void read_follower(const CheckedValue& v, RideEntry& ride) {
  if (v.group != nullptr) {
    ride.follower = Follower::patch;
    ride.patch = v["patch"].number;
  } else {
    ride.follower = value_for(follower_words, v.text);
  }
}

void read_seed(const CheckedValue& v, RideEntry& ride, Diagnostics& diagnostics) {
  constexpr double most = 2147483646;  // Park and Miller's generator has as many
  if (v.number >= 1 && v.number <= most && v.number == std::floor(v.number)) {
    ride.seed = static_cast<unsigned>(v.number);
  } else if (v.sound) {
    diagnostics.push_back(error_at(v.place, no_seed(ride.name)));
  }
}

RideEntry ride_of(const NamedValue& entry, const std::string& folder, Diagnostics& diagnostics) {
  const CheckedValue& v = entry.value;
  RideEntry ride;
  ride.name = entry.name;
  ride.place = entry.place;
  if (v.group == nullptr) return ride;
  std::vector<std::string> given;
  for (const char* key : over_keys) {
    if (v[key].given) given.emplace_back(key);
  }
  if (given.empty()) diagnostics.push_back(error_at(v.place, ride_over_nothing(ride.name)));
  if (given.size() > 1) {
    diagnostics.push_back(error_at(v.place, ride_over_several(ride.name, given)));
  }
  read_ground(v, ride);
  if (given.size() == 1) check_ground_keys(v, ride, diagnostics);
  ride.speed = v["speed"].number;
  ride.side = value_for(ride_side_words, v["side"].text);
  read_follower(v["follower"], ride);
  ride.duration = number_if_given(v["duration"]);
  read_seed(v["seed"], ride, diagnostics);
  ride.repeat = v["repeat"].number;
  if (ride.ground == Ground::profile && given.size() == 1 && v["profile"].sound) {
    read_profile_of(folder, ride, diagnostics, v["profile"].place);
  }
  return ride;
}

}  // namespace

void read_rides(const CheckedValue& top, const std::string& folder, Frame& frame,
                Diagnostics& diagnostics) {
  for (const NamedValue& entry : top["rides"].entries) {
    frame.rides.push_back(ride_of(entry, folder, diagnostics));
  }
}

}  // namespace tubewright
