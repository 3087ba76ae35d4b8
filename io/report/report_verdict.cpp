#include "io/report/report_verdict.h"

#include <cctype>

#include "io/results/json_parts.h"
#include "io/results/summary.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// The page says PASS or FAIL by itself: the rest as a sentence of its own.
std::string sentence(const FrameStudies& studies) {
  std::string text = verdict_sentence(studies);
  const std::size_t colon = text.find(": ");
  if (colon != std::string::npos && colon < 12) text.erase(0, colon + 2);
  text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text + ".";
}

}  // namespace

ordered_json report_verdict(const FrameStudies& studies) {
  const std::optional<WorstOfAll> worst = worst_of_all(studies.analysis);
  ordered_json v = {{"passes", worst ? ordered_json(studies.passes()) : ordered_json(nullptr)},
                    {"sentence", sentence(studies)},
                    {"worst", nullptr}};
  if (worst) {
    v["worst"] = {{"case", worst->load_case},
                  {"check", worst->check},
                  {"item", worst->item},
                  {"utilisation", number(worst->utilisation)}};
  }
  return v;
}

}  // namespace tubewright
