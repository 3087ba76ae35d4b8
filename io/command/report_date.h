// The date that reports bear.
#pragma once

#include <string>

namespace tubewright {

/// YYYY-MM-DD, UTC; SOURCE_DATE_EPOCH, where it is set, makes it the same every time.
std::string report_date();

}  // namespace tubewright
