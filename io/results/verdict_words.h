// The verdict in words: the first and the last line of a summary, and what stands below the first.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/verdict/frame_studies.h"
#include "io/text/terminal.h"

namespace tubewright {

/// "PASS", "NOT PROVEN" or "FAIL".
const char* answer_word(Verdict::Answer answer);

/// "pass", "not_proven" or "fail", as JSON has it.
const char* answer_key(Verdict::Answer answer);

/// One line of at most 100 columns: the answer, and the one thing most worth knowing with it. No
/// line end.
std::string verdict_sentence(const FrameStudies& studies);

/// The same with its first word painted.
std::string verdict(const FrameStudies& studies, Paint paint = {});

/// How much was checked: "24 tube ends: 6 checked by rule, 18 by comparison, none unchecked; ...".
std::string coverage_sentence(const Verdict& verdict);

/// Everything behind the answer, one sentence each: what fails, then what is not proven.
std::vector<std::string> verdict_reasons(const Verdict& verdict);

/// `answer` ("pass", "not_proven", "fail"), how many checks were made and how, `reasons`.
nlohmann::ordered_json verdict_json(const Verdict& verdict);

/// Each limit the file sets: its utilisation, null where none was found.
nlohmann::ordered_json limits_json(const std::vector<LimitCheck>& limits);

/// 0 for a full pass, else 1.
int exit_code(const FrameStudies& studies);

}  // namespace tubewright
