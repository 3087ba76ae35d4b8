// Explains the keys of an example from a frame file, line by line, in the words of the key table.
#pragma once

#include <string>

namespace tubewright {

/// `example`: YAML in block style, indented by two, one key a line; what stands in { } or [ ] is a
/// value. Each line gets what the table says of its key as a comment, unless the same has been said
/// before. Requires: every key is one of the table at its place.
std::string with_key_comments(const std::string& example);

}  // namespace tubewright
