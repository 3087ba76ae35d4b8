// Diagnostics as the user reads them: file, line and column, the source line, a caret, the advice.
//
//   rail.yaml:3:5: error: unknown key `widht`
//      3 |     widht: 25
//        |     ^^^^^ did you mean `width`?
//
// The first line has the form that editors parse. Columns count characters, from 1.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "io/yaml/frame_text.h"

namespace tubewright {

constexpr std::size_t most_diagnostics_shown = 50;
constexpr std::size_t most_places_shown = 10;  // of one kind, besides the first

/// One problem, ending with a line end. A problem without a place is shown without a source line.
std::string render(const Diagnostic& problem, const FrameText& file);

/// All problems, at most most_problems_shown of them, then how many more there are.
std::string render(const Diagnostics& diagnostics, const FrameText& file);

/// Warnings below an answer: each once, those that differ only in names and numbers in one block
/// below the first of them, their advice only where it names something else:
///
///   cart.yaml:56:3: warning: panel `deck_1` closes no torque tube
///     56 |   deck_1: {corners: [A, B, C, D], sheet: deck}
///        |   ^^^^^^ cover the other sides
///   cart.yaml:57:3: likewise: panel `deck_2` closes no torque tube
std::string render_by_kind(const Diagnostics& diagnostics, const FrameText& file);

}  // namespace tubewright
