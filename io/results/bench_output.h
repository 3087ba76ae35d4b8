// What `bench-test` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/studies/bench_study.h"
#include "io/text/terminal.h"

namespace tubewright {

std::string bench_text(const Frame& frame, const BenchStudy& study, Paint paint);
std::string bench_json(const Frame& frame, const BenchStudy& study, const Diagnostics& warnings);

/// The predicted readings, one a line.
std::string bench_lines(const BenchStudy& study);

}  // namespace tubewright
