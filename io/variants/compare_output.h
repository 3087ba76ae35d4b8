// The answer of `compare` as text and as JSON.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/variants/frame_comparison.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Two frame files and what comes of them side by side.
struct Comparison {
  Pair<std::string> files;  ///< as the user typed them
  Pair<Frame> frames;
  FrameComparison result;
};

/// A row of the table: what it tells of both, and by how much the second is more.
struct ComparedRow {
  std::string what;
  Pair<std::string> value;
  std::string difference;  ///< empty where there is none to tell
};

/// What changes for the one who builds it, in one sentence without a full stop: lighter or heavier,
/// stiffer or softer, the worst item, the verdict.
std::string compare_sentence(const Comparison& c);

/// The table's rows, then those of each load case and of each size of bar.
std::vector<ComparedRow> compared_numbers(const Comparison& c);
std::vector<ComparedRow> compared_cases(const Comparison& c);
std::vector<ComparedRow> compared_bars(const Comparison& c);

/// What was changed, a line each: "resized: arm_l, arm_r: 20.0 x 20.0 x 1.5 S235 -> ...".
std::vector<std::string> change_lines(const Comparison& c);

std::string compare_text(const Comparison& c, Paint paint = {});
/// The sentence alone, with its line end.
std::string compare_line(const Comparison& c);
/// `warnings`: of both files, each with the name of its file.
std::string compare_json(const Comparison& c, const Diagnostics& warnings);

}  // namespace tubewright
