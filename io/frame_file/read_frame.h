// The frame file: text in, a named frame in SI units and ISO 8855 axes out, with every problem.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "io/yaml/frame_text.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

struct FrameReading {
  Frame frame;              ///< complete, the mirror image included, if no problem is an error
  Diagnostics diagnostics;  ///< errors and warnings in file order

  bool sound() const;  ///< no problem is an error
};

/// Reads and validates. All faults are reported at once; faults that would only follow from a fault
/// of the same entry, or from an unreadable node, are left out.
FrameReading read_frame(const FrameText& file);

/// The same of a tree that has been parsed. `folder`: where the files it names are looked for; the
/// working directory if empty.
FrameReading read_frame(const YamlNode& root, const std::string& folder);

}  // namespace tubewright
