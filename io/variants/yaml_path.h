// A place in a frame file by its dotted path, "sections.rail.wall", and a value put there.
//
// Steps are keys of maps and places in lists, counted from 0; in a list of three numbers x, y and z
// too. Names may hold dots themselves: every way to part the path is tried, long names first.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "io/variants/set_option.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

struct YamlTarget {
  std::vector<std::size_t> steps;  ///< indices into `entries` and `items`
  std::string new_key;             ///< of the map there, which has no such key yet; or empty

  bool operator==(const YamlTarget&) const = default;
};

/// Where the path leads. Only its last key may be absent. Diagnostics: it leads nowhere, with the
/// nearest name there is.
Result<YamlTarget> find_target(const YamlNode& root, const std::string& path);

/// True if what stands at one holds what stands at the other, or is the same.
bool overlap(const YamlTarget& a, const YamlTarget& b);

/// The names beside an absent key; empty for one that is there.
std::vector<std::string> names_beside(const YamlNode& root, const YamlTarget& target);

/// Puts a scalar there, in place of whatever stands there.
void put(YamlNode& root, const YamlTarget& target, const SetValue& value);

/// Path of the first number of a section, as an example of what can be varied; empty: none.
std::string example_path(const YamlNode& root);

}  // namespace tubewright
