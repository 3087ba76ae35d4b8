// What `twist` answers, as text and as JSON.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "cases/model/mass_summary.h"
#include "cases/studies/roll_support.h"
#include "cases/studies/torsion.h"
#include "io/text/terminal.h"

namespace tubewright {

struct TorsionAnswer {
  const Frame& frame;
  Torsion torsion;
  std::optional<double> other_hold;      ///< stiffness held the other way, N m/rad
  std::optional<double> without_panels;  ///< N m/rad; none: no panels, or loose without them
  RollSupportOutcome support;
  MassSummary mass;
};

/// The test with all that belongs to it. Keeps a reference to the frame, which has a `torsion`.
std::variant<TorsionAnswer, Problems> torsion_answer(const Frame& frame, bool clamped);

/// False if softer than `limits.torsional_stiffness`.
bool torsion_passes(const TorsionAnswer& answer);

std::string torsion_text(const TorsionAnswer& answer, Paint paint);
std::string torsion_json(const TorsionAnswer& answer, const Problems& warnings);

/// "123 N m/deg (free to warp)"
std::string torsion_line(const TorsionAnswer& answer);

}  // namespace tubewright
