// Single values held against their row in the table of keys.
#pragma once

#include <string>

#include "io/frame_file/checked_value.h"
#include "io/keys/frame_keys.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

/// Letters, digits, `_`, `-` and `.`, and single spaces between them if allowed.
bool valid_name(const std::string& name, bool spaces_allowed);

/// Fills text, index or number of `out`. `key`: what messages call the value. Requires: `node` is a
/// scalar, `kind` a text, name, flag, choice or quantity.
void check_scalar(const ValueKind& kind, const YamlNode& node, const std::string& key,
                  CheckedValue& out, Diagnostics& diagnostics);

/// A quantity, also as a component of a vector.
void check_quantity(const ValueKind& kind, const YamlNode& node, const std::string& key,
                    CheckedValue& out, Diagnostics& diagnostics);

}  // namespace tubewright
