// What the user is told about a frame: one type for errors, warnings and notes, with its place in
// the frame file.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "solver/model/outcome.h"

namespace tubewright {

/// Line and column from 1; line 0 = not from a file.
struct SourceLocation {
  int line = 0;
  int column = 0;
};

enum class Severity { error, warning, note };

/// `message` says what is wrong with the offending name in backticks; `advice` what was expected,
/// what to do, or `did you mean ...`. Both start in lower case and end without a full stop.
struct Diagnostic {
  Diagnostic() = default;
  Diagnostic(Severity how_bad, SourceLocation where, std::string what, std::string advised)
      : severity(how_bad), place(where), message(std::move(what)), advice(std::move(advised)) {}
  /// An error of a text, before it is known where the text stands: see error_at().
  Diagnostic(std::string what, std::string advised)
      : message(std::move(what)), advice(std::move(advised)) {}

  Severity severity = Severity::error;
  SourceLocation place;
  std::string message;
  std::string advice;
};

using Diagnostics = std::vector<Diagnostic>;

/// A value, or the diagnostics that say why there is none.
template <class Value>
using Result = Outcome<Value, Diagnostics>;

inline void append(Diagnostics& diagnostics, const Diagnostics& more) {
  diagnostics.insert(diagnostics.end(), more.begin(), more.end());
}

/// The same, known to stand there.
inline Diagnostic error_at(const SourceLocation& place, Diagnostic diagnostic) {
  diagnostic.place = place;
  return diagnostic;
}

}  // namespace tubewright
