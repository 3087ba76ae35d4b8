// The data of report.html: io/report/DATA.md says what each key means.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/verdict/frame_studies.h"
#include "io/yaml/frame_text.h"

namespace tubewright {

/// What a report is written from.
struct ReportSource {
  const FrameStudies& studies;
  const Diagnostics& warnings;
  const FrameText& file;
  std::string date;  ///< YYYY-MM-DD
};

/// Numbers with five significant digits.
nlohmann::ordered_json report_data(const ReportSource& source);

}  // namespace tubewright
