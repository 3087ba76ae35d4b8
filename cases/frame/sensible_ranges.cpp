#include "cases/frame/sensible_ranges.h"

#include "cases/frame/frame_errors.h"

namespace tubewright {

bool check_range(double value, const Range& range, const std::string& subject,
                 const std::string& what, const SourceLocation& place, Diagnostics& diagnostics) {
  if (within(value, range)) return true;
  add_error(diagnostics, place, impossible_value(subject, what, range.words));
  return false;
}

}  // namespace tubewright
