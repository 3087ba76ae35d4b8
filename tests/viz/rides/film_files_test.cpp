// What the files hold is checked in tests/program/ride_test.py.
#include "viz/rides/film_files.h"

#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include "tests/cases/rides/riders.h"
#include "tests/catch.h"
#include "tests/viz/files/read_vtk.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::film_files_test {

using namespace tubewright::testing;

namespace {

/// Two rides, driven once.
const RideStudy& filmed() {
  static const RideStudy study = [] {
    Frame f = sprung_rider();
    f.rides = {kerb_ride(0.05, 2), kerb_ride(0.03, 3)};
    f.rides.back().name = "low";
    return answer_of(ride_study(f, tell_nobody, Films::taken));
  }();
  return study;
}

}  // namespace

TEST_CASE("each ride has an index of its own, two files an image, in order of time") {
  const Scratch scratch("film_names");
  REQUIRE_FALSE(write_film_files(filmed(), scratch.path.string()));
  const auto files = files_in(scratch.path);
  size_t expected = 0;
  for (const RideResult& ride : filmed().rides) {
    const std::string& index = files.at("ride_" + ride.name + ".pvd");
    size_t after = 0;
    for (size_t k = 1; k <= ride.film.images.size(); ++k) {
      const std::string number = (k < 10 ? "0" : "") + std::to_string(k);
      for (const char* part : {"tubes", "wheels"}) {
        const std::string name = "ride_" + ride.name + "_" + number + "_" + part + ".vtp";
        CHECK(files.count(name) == 1);
        const size_t at = index.find(name);
        REQUIRE(at != std::string::npos);
        CHECK(at > after);
        after = at;
      }
    }
    expected += 1 + 2 * ride.film.images.size();
  }
  CHECK(files.size() == expected);
}

TEST_CASE("tubes are as the film has them, to the point") {
  const Scratch scratch("film_tubes");
  REQUIRE_FALSE(write_film_files(filmed(), scratch.path.string()));
  const RideResult& ride = filmed().rides.front();
  const FilmImage& image = ride.film.images[11];
  const auto data = read_bytes<vtkXMLPolyDataReader, vtkPolyData>(
      bytes_of(scratch.path / "ride_kerb_12_tubes.vtp"));
  vtkFieldData& points = *data->GetPointData();
  vtkIdType at = 0;
  for (const auto& member : image.members) {
    for (const FilmStation& s : member) {
      CHECK((point_at(*data, at) - 1e3 * s.point).norm() < 1e-9);
      CHECK((vector_at(array_of(points, "displacement"), at) - 1e3 * s.displacement).norm() < 1e-9);
      CHECK(array_of(points, "axial_force").GetTuple1(at) == s.forces.N);
      ++at;
    }
  }
  CHECK(at == data->GetNumberOfPoints());
  vtkDataArray& time = array_of(*data->GetFieldData(), "TimeValue");
  CHECK(unit_of(time) == "s");
  CHECK(std::abs(time.GetTuple1(0) - image.time) < 1e-9);
}

TEST_CASE("the same rides give the same bytes, and without a film nothing is written") {
  const Scratch first("film_bytes_1"), second("film_bytes_2"), none("film_none");
  REQUIRE_FALSE(write_film_files(filmed(), first.path.string()));
  REQUIRE_FALSE(write_film_files(filmed(), second.path.string()));
  CHECK(files_in(first.path) == files_in(second.path));
  RideStudy plain = filmed();
  for (RideResult& ride : plain.rides) ride.film.images.clear();
  REQUIRE_FALSE(write_film_files(plain, none.path.string()));
  CHECK(files_in(none.path).empty());
}

TEST_CASE("an image that cannot be written leaves the earlier index of its ride") {
  const Scratch scratch("film_blocked");
  std::ofstream(scratch.path / "ride_kerb.pvd") << "earlier index";
  std::filesystem::create_directories(scratch.path / "ride_kerb_05_wheels.vtp" / "in the way");
  const auto failure = write_film_files(filmed(), scratch.path.string());
  REQUIRE(failure);
  CHECK(std::filesystem::path(failure->path).filename() == "ride_kerb_05_wheels.vtp");
  CHECK(bytes_of(scratch.path / "ride_kerb.pvd") == "earlier index");
}

}  // namespace tubewright::film_files_test
