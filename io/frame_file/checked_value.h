// A value of the frame file that has been held against the table of keys: numbers are in SI units,
// words are among those allowed, groups hold known keys only.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "io/keys/frame_keys.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

struct NamedValue;

struct CheckedValue {
  bool sound = false;  ///< present, and nothing was wrong with it or within it
  bool given = false;  ///< present
  SourceLocation place;
  double number = 0;                  ///< quantity, SI
  std::array<double, 3> vector = {};  ///< SI
  std::string text;                   ///< text, name, choice, word instead of a quantity
  int index = -1;                     ///< choice: which of the words, flag: 0 or 1
  std::vector<CheckedValue> items;    ///< list
  std::vector<NamedValue> entries;    ///< map of names, in file order
  const KeyGroup* group = nullptr;    ///< of a group: its keys; `fields` are in their order
  std::vector<CheckedValue> fields;

  /// The value of a key of this group; of an absent key its default, if it has one. Requires: the
  /// group has such a key.
  const CheckedValue& operator[](const char* key) const;
};

struct NamedValue {
  std::string name;
  SourceLocation place;
  CheckedValue value;
};

/// Checks the whole tree below `node` and reports every fault in it. What is faulty comes back
/// unsound, with whatever could be read.
CheckedValue check_frame_keys(const YamlNode& node, Diagnostics& diagnostics);

}  // namespace tubewright
