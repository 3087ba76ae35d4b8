#include "viz/rides/film_files.h"

#include <filesystem>

#include "io/text/text_layout.h"
#include "viz/files/pvd_index.h"
#include "viz/files/tube_lines.h"
#include "viz/files/warp_scale.h"
#include "viz/rides/film_wheels.h"

namespace tubewright {

namespace {

std::string time_text(double seconds) { return fixed(seconds, 9); }

/// As the index says it, to the bit.
double time_value(double seconds) { return std::stod(time_text(seconds)); }

CaseDrawing draw_image(const RideResult& ride, const FilmImage& image, int step) {
  // Whatever does not move is as in one of the instants that were checked.
  CaseDrawing drawing = draw_case(ride.instants, ride.instants.cases.front(), step);
  drawing.name = ride.name;
  drawing.time = time_value(image.time);
  for (size_t m = 0; m < drawing.members.size(); ++m) {
    drawing.members[m].stations.clear();
    for (const FilmStation& s : image.members[m]) {
      drawing.members[m].stations.push_back({s.at, s.point, s.displacement, s.rotation, s.forces});
    }
  }
  return drawing;
}

std::string file_name(const RideResult& ride, int step, const char* what) {
  return "ride_" + ride.name + (step < 10 ? "_0" : "_") + std::to_string(step) + "_" + what +
         ".vtp";
}

std::optional<WriteFailure> write_film(const Frame& frame, const RideResult& ride,
                                       const std::filesystem::path& folder) {
  std::vector<CaseDrawing> drawings;
  for (const FilmImage& image : ride.film.images) {
    drawings.push_back(draw_image(ride, image, static_cast<int>(drawings.size()) + 1));
  }
  const double scale = suggested_warp_scale(drawings);
  std::string entries;
  for (size_t k = 0; k < drawings.size(); ++k) {
    const FilmImage& image = ride.film.images[k];
    const std::string tubes = file_name(ride, drawings[k].step, "tubes"),
                      wheels = file_name(ride, drawings[k].step, "wheels");
    auto failure = put_file(folder / tubes, tube_lines_file(frame, drawings[k], scale));
    if (!failure) {
      failure = put_file(folder / wheels,
                         film_wheels_file(*frame.vehicle, image, time_value(image.time), scale));
    }
    if (failure) return failure;
    const std::string time = time_text(image.time);
    entries += index_entry(time, 0, tubes) + index_entry(time, 1, wheels);
  }
  return put_file(folder / ("ride_" + ride.name + ".pvd"), index_file(entries));
}

}  // namespace

std::optional<WriteFailure> write_film_files(const RideStudy& study, const std::string& directory) {
  return fill_directory(directory,
                        [&](const std::filesystem::path& folder) -> std::optional<WriteFailure> {
                          for (const RideResult& ride : study.rides) {
                            if (ride.film.images.empty()) continue;
                            if (auto failure = write_film(study.frame, ride, folder))
                              return failure;
                          }
                          return std::nullopt;
                        });
}

}  // namespace tubewright
