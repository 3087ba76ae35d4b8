// What every command that reads a frame file does first, and how it says that it cannot answer.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "io/text/write_file_atomically.h"
#include "io/yaml/frame_text.h"
#include "solver/model/outcome.h"

namespace tubewright {

struct LoadedFrame {
  FrameText file;
  Frame frame;           ///< with the standard load cases of a vehicle whose file names none
  Diagnostics warnings;  ///< from reading, doubts of lint(), panels that are idle in torsion
};

/// Why a frame file could not be loaded: what is wrong in it, or with reading it.
struct NotLoaded {
  FrameText file;
  Diagnostics diagnostics;  ///< with places in the file
  std::optional<Diagnostic> unreadable;
};

/// Reads and validates.
Outcome<LoadedFrame, NotLoaded> try_to_load(const std::string& path);

/// Reads and validates; if that cannot be done, says why and returns the exit code.
Outcome<LoadedFrame, int> load_frame(const std::string& path, bool json);

/// Faults of the request rather than of the frame: no section of the name that an option gives
/// (empty: none is asked for).
Diagnostics errors_of_section(const Frame& frame, const std::string& wanted);

/// Likewise: no cases, or none of a name that was asked for.
Diagnostics errors_of_choice(const Frame& frame, const std::vector<std::string>& wanted_cases);

/// Says what is wrong with a frame, with places in its file; returns the exit code.
int cannot_answer(const Diagnostics& diagnostics, const FrameText& file, bool json);

/// Below the answer, on standard error: the doubts about a frame and what was remarked on the way.
void print_warnings(std::initializer_list<Diagnostics> lists, const FrameText& file);

/// How a file that could not be written is told of.
Diagnostic cannot_write(const WriteFailure& failure);

/// Trouble outside the frame file: unreadable, unwritable.
int cannot_answer(const Diagnostic& trouble, bool json);

}  // namespace tubewright
