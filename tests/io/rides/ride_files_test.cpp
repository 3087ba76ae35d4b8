#include "io/rides/ride_files.h"

#include <unistd.h>

#include <fstream>
#include <sstream>

#include "tests/catch.h"

namespace tubewright::ride_files_test {

namespace {

RideResult short_ride() {
  RideResult r;
  r.name = "kerb";
  r.wheels = {{"left", 100, 300, 3, 0, 0.01, 0}, {"right", 100, 200, 2, 0, 0.01, 0}};
  r.trace.time = {0.1, 0.2, 0.3};
  r.trace.least = {{90, INFINITY, 0}, {95, INFINITY, 99}};
  r.trace.greatest = {{110, -INFINITY, 300}, {105, -INFINITY, 200}};
  return r;
}

}  // namespace

TEST_CASE("wheel forces are a table over time, without the parts that no step falls into") {
  CHECK(wheel_forces_csv(short_ride()) ==
        "time,left least,left greatest,right least,right greatest\n"
        "0.10000,90.00,110.00,95.00,105.00\n"
        "0.30000,0.00,300.00,99.00,200.00\n");
}

TEST_CASE("the files of rides are the answer and a table a ride") {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("ride_files" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  RideStudy study;
  study.rides = {short_ride()};
  CHECK_FALSE(write_ride_files(study, "{}\n", folder));
  std::stringstream json, csv;
  json << std::ifstream(folder / "rides.json").rdbuf();
  csv << std::ifstream(folder / "ride_kerb.csv").rdbuf();
  CHECK(json.str() == "{}\n");
  CHECK(csv.str() == wheel_forces_csv(study.rides.front()));
  CHECK(write_ride_files(study, "{}\n", folder / "not there"));
  std::filesystem::remove_all(folder);
}

}  // namespace tubewright::ride_files_test
