#include "tests/fuzz/read_frame_fuzz.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <string>

#include "cases/analysis/analysis.h"
#include "io/frame_file/read_frame.h"
#include "io/text/utf8.h"
#include "io/yaml/render_diagnostics.h"

using namespace tubewright;

namespace {

// Larger frames only cost time here.
constexpr std::size_t most_bytes_read = 20'000;
constexpr std::size_t most_parts_solved = 60;

void promise(bool kept, const char* what, const FrameText& file) {
  if (kept) return;
  std::cerr << "broken promise: " << what << "\n" << file.text << "\n";
  std::abort();
}

void check_problems(const Diagnostics& diagnostics, const FrameText& file) {
  const auto lines = 2 + std::count(file.text.begin(), file.text.end(), '\n');
  for (const Diagnostic& p : diagnostics) {
    promise(!p.message.empty() && !p.advice.empty(), "a problem has a message and advice", file);
    promise(p.place.line >= 0 && p.place.line <= lines, "a problem stands in the file", file);
    promise(p.place.line == 0 || p.place.column >= 1, "a column counts from 1", file);
  }
  const std::string text = render(diagnostics, file);
  promise(diagnostics.empty() == text.empty(), "problems are shown", file);
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = character_length(text, i);
    promise(length > 0, "messages are valid UTF-8", file);
    i += length;
  }
}

void check_results(const Analysis& analysis, const FrameText& file) {
  for (const CaseResult& c : analysis.cases) {
    promise(c.solution.displacements.allFinite(), "displacements are finite", file);
    promise(c.solution.reactions.allFinite(), "reactions are finite", file);
    for (const MemberResult& m : c.members) {
      promise(m.from.allFinite() && m.to.allFinite(), "end forces are finite", file);
      promise(!m.has_stress || std::isfinite(m.worst.stress.von_mises), "stress is finite", file);
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > most_bytes_read) return 0;
  const FrameText file{"fuzz.yaml", std::string(reinterpret_cast<const char*>(data), size)};
  const FrameReading reading = read_frame(file);
  check_problems(reading.diagnostics, file);
  const Frame& frame = reading.frame;
  const std::size_t parts = frame.nodes.size() + frame.members.size() + frame.cases.size();
  if (!reading.sound() || parts > most_parts_solved) return 0;

  const Result<Analysis> outcome = analyse(frame);
  if (const auto* analysis = outcome.get()) {
    check_results(*analysis, file);
    check_problems(analysis->remarks, file);
  } else {
    const Diagnostics& reasons = *outcome.error();
    promise(!reasons.empty(), "a refusal has a reason", file);
    check_problems(reasons, file);
  }
  return 0;
}
