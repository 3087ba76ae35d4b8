// A frame changed for the sake of comparison: without its sheets, with other tubes in their place.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

Frame without_panels(Frame frame);

enum class RivetBand { low, high };

/// Rivets whose stiffness the file does not give take the end of the usual band.
Frame with_rivets(Frame frame, RivetBand band);

/// True if some panel's rivets have no stiffness of their own.
bool rivets_are_guessed(const Frame& frame);

/// Every panel replaced by one tube from corner to corner with the panel's mass: square,
/// sharp-cornered, with the wall of the thinnest tube round the panel or thinner. `second`: from
/// the second corner to the fourth instead of from the first to the third.
struct DiagonalFrame {
  Frame frame;
  std::vector<std::string> sizes;  ///< of each tube, in words
};
DiagonalFrame with_diagonals(const Frame& frame, bool second);

/// The panels taken away, and the tubes along them made heavier by the same mass: thicker walls, or
/// larger where a wall cannot grow so far.
struct ThickerFrame {
  Frame frame;
  std::vector<std::string> sizes;  ///< "rail: wall 1.5 -> 2.31 mm"
};
ThickerFrame with_thicker_tubes(const Frame& frame);

/// All sheets of this thickness, all rivets at this pitch.
Frame with_sheets(Frame frame, std::optional<double> thickness, std::optional<double> pitch);

/// Every sheet's thickness and its rivets' pitch times a factor.
Frame with_sheets_times(Frame frame, double thickness, double pitch);

/// All sheets bonded as well, with a structural epoxy: 20 mm wide, 0.3 mm thick, G = 1000 MPa.
Frame with_epoxy(Frame frame);

/// Mass of all panels, kg.
double panels_mass(const Frame& frame);

bool has_walls(const Frame& frame);

/// The walls of all tubes times `factor`, outer sizes kept; properties that are given likewise.
Frame with_walls(Frame frame, double factor);

/// Carried masses times `factor`.
Frame with_masses(Frame frame, double factor);

/// The joints `factor` times as soft as their geometry makes them; 0: rigid.
Frame with_joint_flexibility(Frame frame, double factor);

}  // namespace tubewright
