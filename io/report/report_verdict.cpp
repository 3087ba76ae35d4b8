#include "io/report/report_verdict.h"

#include <cctype>

#include "io/results/json_parts.h"
#include "io/results/verdict_words.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// The page shows the answer by itself: the rest as a sentence of its own.
std::string sentence(const FrameStudies& studies) {
  std::string text = verdict_sentence(studies);
  text.erase(0, text.find(": ") + 2);
  text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text + ".";
}

}  // namespace

ordered_json report_verdict(const FrameStudies& studies) {
  const std::optional<WorstOfAll> worst = worst_of_all(studies.analysis);
  ordered_json v = verdict_json(studies.verdict);
  v["word"] = answer_word(studies.verdict.answer);
  v["coverage"] = coverage_sentence(studies.verdict);
  v["sentence"] = sentence(studies);
  v["worst"] = nullptr;
  if (worst) {
    v["worst"] = {{"case", worst->load_case},
                  {"check", worst->check},
                  {"item", worst->item},
                  {"utilisation", number(worst->utilisation)}};
  }
  return v;
}

}  // namespace tubewright
