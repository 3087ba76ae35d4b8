// The wheels of a ride at one instant: each as a circle, and the road under it as a short line.
#pragma once

#include <string>

#include "cases/frame/frame.h"
#include "cases/rides/ride_film.h"

namespace tubewright {

/// The bytes of a .vtp file, mm and N. Point data: displacement, of a circle that of the wheel's
/// centre, of a line how high the road stands there. Cell data: wheel (index into the field data
/// wheel_names), road (1: the line), tyre_force, tyre_deflection (negative: off the ground).
std::string film_wheels_file(const Vehicle& vehicle, const FilmImage& image, double time,
                             double warp_scale);

}  // namespace tubewright
