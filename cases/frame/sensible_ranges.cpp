#include "cases/frame/sensible_ranges.h"

namespace tubewright {

bool check_range(double value, const Range& range, const std::string& subject,
                 const std::string& what, const SourceLocation& place, Diagnostics& diagnostics) {
  if (within(value, range)) return true;
  add_error(diagnostics, place, subject + " has an impossible " + quoted(what),
            std::string("give ") + range.words);
  return false;
}

}  // namespace tubewright
