// The data of report.html: io/report/DATA.md says what each key means.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "io/yaml/frame_text.h"

namespace tubewright {

/// A checked frame with what else is known of it; studies that were not made are null.
struct ReportSource {
  const Analysis& analysis;
  const Problems& warnings;
  const FrameText& file;
  std::string date;                      ///< YYYY-MM-DD
  nlohmann::ordered_json torsion;        ///< `torsion` of twist --json
  nlohmann::ordered_json floor;          ///< `floor` of floor --json
  nlohmann::ordered_json modes;          ///< `modes` of modes --json
  nlohmann::ordered_json buckling;       ///< list of {case, factors, members}
  std::vector<std::string> cautions;     ///< those of every study, each once
  nlohmann::ordered_json cut = nullptr;  ///< `cut` of cut --json
};

/// Numbers with five significant digits.
nlohmann::ordered_json report_data(const ReportSource& source);

}  // namespace tubewright
