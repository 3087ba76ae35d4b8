// The wording of why new sizes cannot be written into a frame file.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// `member`: as the file writes it, here and below; its pieces or its image are to differ.
Diagnostic two_sizes_for_one_entry(const std::string& member);
Diagnostic size_not_writable(const std::string& member);
/// Anchors and aliases: one text stands for what is to differ.
Diagnostic one_text_for_two_sizes();
Diagnostic read_back_otherwise(const std::string& member);

}  // namespace tubewright
