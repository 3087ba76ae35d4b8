// Variants of a frame file: the same file with other values in some places, read as if they stood
// there, so that mirror images, bends and all that refers to a value follow.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "io/variants/set_option.h"
#include "io/variants/yaml_path.h"
#include "io/yaml/frame_text.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

struct FrameVariants {
  YamlNode root;       ///< of the file as it stands
  std::string folder;  ///< where the files it names are looked for
  std::vector<VaryVariable> variables;
  std::vector<YamlTarget> targets;  ///< one a variable
};

/// Diagnostics: every path that leads nowhere, and every value that no variant can have because the
/// reader refuses it alone and with any value of any other variable. Requires: the file is sound.
Result<FrameVariants> frame_variants(const FrameText& file, std::vector<VaryVariable> variables);

/// The frame of a combination with its load cases; or why the reader refuses it: values that do not
/// go together. May be called by several threads at once.
Result<Frame> variant_of(const FrameVariants& variants, std::size_t combination);

/// What is wrong, in one sentence: the first error and how many more there are.
std::string reason_of(const Diagnostics& diagnostics);

}  // namespace tubewright
