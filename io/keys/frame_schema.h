// The frame file as a JSON Schema, for editors and for checks by other programs.
#pragma once

#include <string>

namespace tubewright {

/// JSON Schema draft-07, made from the table of keys in io/keys/frame_keys.h, indented, ending with
/// a line end. It knows shapes, words and simple bounds; units of the wrong kind, references and
/// geometry are left to read_frame().
std::string frame_schema();

}  // namespace tubewright
