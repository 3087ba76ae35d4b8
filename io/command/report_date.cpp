#include "io/command/report_date.h"

#include <cstdlib>
#include <ctime>

namespace tubewright {

std::string report_date() {
  std::time_t now = std::time(nullptr);
  if (const char* given = std::getenv("SOURCE_DATE_EPOCH")) now = std::strtoll(given, nullptr, 10);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%d", &parts);
  return text;
}

}  // namespace tubewright
