// The data of report.html: io/report/DATA.md says what each key means.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/changes/loss_study.h"
#include "cases/changes/rank_study.h"
#include "cases/rides/ride_study.h"
#include "cases/verdict/frame_studies.h"
#include "io/yaml/frame_text.h"

namespace tubewright {

/// What a report is written from.
struct ReportSource {
  const FrameStudies& studies;
  const Diagnostics& warnings;
  const FrameText& file;
  std::string date;                   ///< YYYY-MM-DD
  const RankStudy* rank = nullptr;    ///< null: not asked for
  const LossStudy* losses = nullptr;  ///< likewise
  const RideStudy* rides = nullptr;   ///< null: `studies` are of a check; else take_instants()
};

/// Numbers with five significant digits.
nlohmann::ordered_json report_data(const ReportSource& source);

}  // namespace tubewright
