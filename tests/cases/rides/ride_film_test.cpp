#include "cases/rides/ride_film.h"

#include <cmath>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/rides/ride_study.h"
#include "tests/cases/idle_processors.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_film_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double time_step = 2.5e-4;

RideFilm film_of(const Frame& f, const RideEntry& ride, double around, double duration = 3) {
  const NumberedFrame numbered = jointed_model(f);
  const RideModel model = answer_of(ride_model(f, numbered));
  return ride_film(f, numbered, model, ride, {time_step, duration, around});
}

RideResult ridden(Frame f, const RideEntry& ride) {
  f.rides = {ride};
  return answer_of(ride_study(f, tell_nobody, Films::taken)).rides.front();
}

const FilmImage& image_at(const RideFilm& film, double time) {
  const auto found = std::find_if(film.images.begin(), film.images.end(),
                                  [&](const FilmImage& i) { return i.time == time; });
  REQUIRE(found != film.images.end());
  return *found;
}

double length(const std::vector<FilmStation>& bar) {
  const Eigen::Vector3d chord = bar.back().point - bar.front().point;
  return chord.dot(bar.back().displacement - bar.front().displacement) / chord.norm();
}

}  // namespace

TEST_CASE("before a kerb nothing has moved, and the tyres have what they carry at rest") {
  const Frame f = sprung_rider();
  const RideFilm film = film_of(f, kerb_ride(0.05, 1), 0.1);  // it is met at 0.168 s
  const double rest = film.images.front().wheels.front().force;
  CHECK(film.images.front().time == 0);
  for (const FilmImage& image : film.images) {
    if (image.time > 0.16) break;
    for (const auto& member : image.members) {
      for (const FilmStation& s : member) CHECK(s.displacement.norm() < 1e-9);
    }
    for (const FilmWheel& w : image.wheels) CHECK(w.road == 0);
    CHECK_THAT(image.wheels.front().force, WithinRel(rest, 1e-6));
  }
  CHECK(film.images.back().wheels.front().displacement.z() > 0.01);
}

TEST_CASE("a wheel has gone up as far as the road, less what its tyre is squeezed more than then") {
  const RideFilm film = film_of(sprung_rider(), kerb_ride(0.05, 2), 0.14);
  double highest = 0, least = 1;
  for (const FilmImage& image : film.images) {
    for (size_t w = 0; w < image.wheels.size(); ++w) {
      const FilmWheel &now = image.wheels[w], &rest = film.images.front().wheels[w];
      const double risen = now.road - (now.squeezed - rest.squeezed);
      CHECK_THAT(now.displacement.z(), WithinAbs(risen, 1e-8));
      highest = std::max(highest, risen);
      least = std::min(least, now.force);
    }
  }
  CHECK(highest > 0.04);
  CHECK(least == 0);
}

TEST_CASE("a spring has got the force of its rate times what its ends have moved apart") {
  const Frame f = sprung_rider();
  const RideFilm film = film_of(f, kerb_ride(0.05, 2), 0.14);
  double most = 0;
  for (size_t m = 0; m < f.members.size(); ++m) {
    if (f.members[m].kind != MemberKind::spring) continue;
    const double before = film.images.front().members[m].front().forces.N;
    for (const FilmImage& image : film.images) {
      const auto& bar = image.members[m];
      CHECK_THAT(bar.front().forces.N - before, WithinAbs(f.members[m].rate * length(bar), 1e-3));
      most = std::max(most, std::abs(length(bar)));
    }
  }
  CHECK(most > 1e-3);
}

TEST_CASE("at the worst instant tubes have the forces that were checked") {
  for (const Frame& f : {rider(), sprung_rider()}) {
    const RideResult r = ridden(f, kerb_ride(0.05, 3));
    REQUIRE(r.worst);
    const FilmImage& image = image_at(r.film, r.worst->time);
    const auto at = std::find(r.instant_times.begin(), r.instant_times.end(), r.worst->time);
    const StaticSolution& checked =
        r.instants.cases[static_cast<size_t>(at - r.instant_times.begin())].solution;
    double most = 0;
    for (const BeamState& b : checked.beams)
      most = std::max(most, std::abs(section_forces(b, 0).N));
    for (size_t m = 0; m < image.members.size(); ++m) {
      const MemberSlot& slot = r.instants.slots[m];
      const auto index = static_cast<size_t>(slot.index);
      if (!slot.is_beam) {
        CHECK_THAT(image.members[m].back().forces.N,
                   WithinAbs(checked.bar_forces[index], 1e-5 * most));
        continue;
      }
      const SectionForces start = section_forces(checked.beams[index], 0),
                          end = section_forces(checked.beams[index], 1, true);
      CHECK_THAT(image.members[m].front().forces.N, WithinAbs(start.N, 1e-5 * most));
      CHECK_THAT(image.members[m].front().forces.My, WithinAbs(start.My, 1e-5 * most));
      CHECK_THAT(image.members[m].back().forces.N, WithinAbs(end.N, 1e-5 * most));
      CHECK_THAT(image.members[m].back().forces.Mz, WithinAbs(end.Mz, 1e-5 * most));
    }
  }
}

TEST_CASE("no wheel of the film is pressed harder than in the ride") {
  const RideResult r = ridden(rider(), kerb_ride(0.05, 3));
  for (const FilmImage& image : r.film.images) {
    for (size_t w = 0; w < r.wheels.size(); ++w) {
      CHECK(image.wheels[w].force <= r.wheels[w].peak);
      CHECK(image.wheels[w].squeezed <= r.wheels[w].squeezed);
    }
  }
}

TEST_CASE("images are 10 ms apart, from 0.15 s before to 0.25 s after, within the ride") {
  const RideEntry kerb = kerb_ride(0.05, 2);
  const RideFilm whole = film_of(rider(), kerb, 0.5);
  REQUIRE(whole.images.size() == 41);
  CHECK_THAT(whole.images.front().time, WithinAbs(0.35, 1e-12));
  CHECK_THAT(whole.images[15].time, WithinAbs(0.5, 1e-12));
  CHECK_THAT(whole.images.back().time, WithinAbs(0.75, 1e-12));
  const RideFilm early = film_of(rider(), kerb, 0.0225), late = film_of(rider(), kerb, 0.9, 1);
  CHECK_THAT(early.images.front().time, WithinAbs(0.0025, 1e-12));
  CHECK(early.images.size() == 2 + 1 + 25);
  CHECK_THAT(late.images.back().time, WithinAbs(1, 1e-12));
  CHECK(late.images.size() == 15 + 1 + 10);
}

TEST_CASE("a vehicle that a kerb pushes back stays where it is: its speed is constant") {
  const RideFilm film = film_of(rider(), kerb_ride(0.05, 3, RideSide::left), 1.5);
  for (const FilmImage& image : film.images) {
    double along = 0;
    for (const FilmWheel& w : image.wheels) along += w.displacement.x() / 4;
    CHECK(std::abs(along) < 0.02);  // what it pitches by, 0.3 m below its centre of mass
  }
}

TEST_CASE("a film is taken only if asked for, and its bits do not depend on who else drives") {
  Frame f = rider();
  f.rides = {kerb_ride(0.05, 3), kerb_ride(0.03, 2)};
  f.rides.back().name = "low";
  CHECK(answer_of(ride_study(f)).rides.front().film.images.empty());
  const RideStudy many = answer_of(ride_study(f, tell_nobody, Films::taken));
  const IdleProcessors none(0);
  const RideStudy one = answer_of(ride_study(f, tell_nobody, Films::taken));
  for (size_t i = 0; i < 2; ++i) {
    const auto &a = one.rides[i].film.images, &b = many.rides[i].film.images;
    REQUIRE(a.size() == b.size());
    for (size_t k = 0; k < a.size(); ++k) {
      CHECK(a[k].wheels[2].force == b[k].wheels[2].force);
      CHECK(a[k].members[0][3].displacement == b[k].members[0][3].displacement);
      CHECK(a[k].members[0][3].forces.My == b[k].members[0][3].forces.My);
    }
  }
}

}  // namespace tubewright::ride_film_test
