// Rides out of checked values.
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "io/frame_file/frame_parts.h"
#include "tests/catch.h"

namespace tubewright::read_rides_test {

using Catch::Matchers::WithinRel;

namespace {

struct Read {
  Frame frame;
  std::string faults;  ///< of the reader, one a line
};

Read read(const std::string& ride, const std::string& folder = "") {
  Diagnostics known, found;
  const auto root = parse_strict_yaml(
      "frame: Cart\nnodes: {A: [0, 0, 0]}\nmembers: {m: {from: A, "
      "to: A, section: s}}\nrides: {r: " +
          ride + "}\n",
      known);
  INFO(ride);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, known);
  REQUIRE(top.group != nullptr);
  Read r;
  read_rides(top, folder, r.frame, found);
  for (const Diagnostic& d : found) r.faults += d.message + '\n';
  return r;
}

RideEntry sound(const std::string& ride) {
  const Read r = read(ride);
  INFO(ride);
  CHECK(r.faults.empty());
  REQUIRE(r.frame.rides.size() == 1);
  return r.frame.rides.front();
}

}  // namespace

TEST_CASE("a ride over a step, an obstacle, a road") {
  const RideEntry step = sound("{step: -50, speed: 18, side: left}");
  CHECK(step.ground == Ground::step);
  CHECK_THAT(step.height, WithinRel(-0.05, 1e-12));
  CHECK_THAT(step.speed, WithinRel(5.0, 1e-12));
  CHECK(step.side == RideSide::left);
  CHECK(step.follower == Follower::circle);
  CHECK_FALSE(step.duration);
  const RideEntry hole =
      sound("{obstacle: pothole, height: 50, length: 300, speed: 5 m/s, follower: {patch: 80}}");
  CHECK(hole.ground == Ground::pothole);
  CHECK_THAT(hole.length, WithinRel(0.3, 1e-12));
  CHECK_THAT(hole.speed, WithinRel(5.0, 1e-12));
  CHECK(hole.follower == Follower::patch);
  CHECK_THAT(hole.patch, WithinRel(0.08, 1e-12));
  const RideEntry road = sound("{road: C, speed: 20, duration: 30, seed: 7, repeat: 5000}");
  CHECK(road.ground == Ground::random_road);
  CHECK_THAT(road.roughness, WithinRel(256e-6, 1e-12));  // ISO 8608, from memory
  CHECK(road.duration == 30);
  CHECK(road.seed == 7);
  CHECK(road.repeat == 5000);
  CHECK_THAT(sound("{road: {Gd: 1e-4}, speed: 20}").roughness, WithinRel(1e-4, 1e-12));
  CHECK(sound("{obstacle: drop, height: 50, speed: 9, follower: point}").follower ==
        Follower::point);
}

TEST_CASE("a ride goes over one thing, with the keys of that thing") {
  CHECK_THAT(read("{speed: 10}").faults, ContainsSubstring("does not say what it goes over"));
  CHECK_THAT(read("{speed: 10, step: 50, road: C}").faults,
             ContainsSubstring("several things: `step` and `road`"));
  CHECK_THAT(read("{speed: 10, obstacle: half_sine, height: 20}").faults,
             ContainsSubstring("a hump without `length`"));
  CHECK_THAT(read("{speed: 10, obstacle: drop}").faults,
             ContainsSubstring("a drop without `height`"));
  CHECK_THAT(read("{speed: 10, step: 50, length: 20}").faults,
             ContainsSubstring("`length` says nothing of ride `r`, which goes over a step"));
  CHECK_THAT(read("{speed: 10, step: 50, seed: 3}").faults, ContainsSubstring("`seed` says"));
  CHECK_THAT(read("{speed: 10, road: C, side: left}").faults, ContainsSubstring("`side` says"));
  CHECK_THAT(read("{speed: 10, step: 0}").faults, ContainsSubstring("of no height"));
  for (const char* seed : {"1.5", "2147483647"}) {
    CHECK_THAT(read("{speed: 10, road: C, seed: " + std::string(seed) + "}").faults,
               ContainsSubstring("a `seed` that is none"));
  }
}

TEST_CASE("a profile is looked for beside the frame file") {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("rides" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "track.csv") << "x,left,right\n0,0,0\n500,10,-10\n";
  const Read r = read("{profile: track.csv, speed: 12}", folder.string());
  CHECK(r.faults.empty());
  REQUIRE(r.frame.rides.front().profile.size() == 2);
  CHECK(r.frame.rides.front().profile[1].left == 0.01);
  CHECK_THAT(read("{profile: other.csv, speed: 12}", folder.string()).faults,
             ContainsSubstring("`other.csv` of ride `r` cannot be used: No such file"));
  std::ofstream(folder / "bad.csv") << "0,0,0\n-1,0,0\n";
  CHECK_THAT(read("{profile: bad.csv, speed: 12}", folder.string()).faults,
             ContainsSubstring("line 2 goes back"));
  CHECK_THAT(read("{profile: .., speed: 12}", folder.string()).faults,
             ContainsSubstring("cannot be used"));
  std::filesystem::remove_all(folder);
}

}  // namespace tubewright::read_rides_test
