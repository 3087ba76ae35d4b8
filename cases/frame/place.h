// Where something stands in the frame file, and a remark about it.
#pragma once

#include <string>
#include <vector>

namespace tubewright {

/// Line and column from 1; line 0 = not from a file.
struct Place {
  int line = 0;
  int column = 0;
};

enum class Severity { error, warning };

/// One fault or doubt in a frame. `message` says what is wrong with the offending name in
/// backticks; `advice` what was expected, what to do, or `did you mean ...`. Both start in lower
/// case and end without a full stop.
struct Problem {
  Severity severity = Severity::error;
  Place place;
  std::string message;
  std::string advice;
};

using Problems = std::vector<Problem>;

inline void append(Problems& problems, const Problems& more) {
  problems.insert(problems.end(), more.begin(), more.end());
}

}  // namespace tubewright
