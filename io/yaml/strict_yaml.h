// The YAML that a frame file may be written in, as a tree with places.
//
// One document of maps, lists and plain or quoted scalars; anchors and aliases are allowed, tags,
// merge keys, duplicate keys and keys that are not plain words are not. Depth and size are bounded,
// so no text can exhaust the stack or the memory. Scalars stay text: what they mean is the reader's
// business, so none of YAML's own guesses (`yes`, `010`, `.nan`) apply.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

enum class YamlForm { empty, scalar, list, map };

struct YamlEntry;

struct YamlNode {
  YamlForm form = YamlForm::empty;
  bool in_quotes = false;          ///< a quoted or block scalar
  SourceLocation place;            ///< of an alias: where its anchor stands
  std::string text;                ///< scalar
  std::vector<YamlNode> items;     ///< list
  bool incomplete = false;         ///< a map with keys that were reported and left out
  std::vector<YamlEntry> entries;  ///< map, in file order, every key once
};

struct YamlEntry {
  std::string key;
  SourceLocation place;
  YamlNode value;
};

constexpr int deepest_nesting = 24;
constexpr std::size_t most_bytes = 16U << 20U;  // 100 000 members take about 6 MB
constexpr std::size_t most_nodes = 2'000'000;   // scalars, lists and maps, aliases written out

/// The document in `text`, or nothing if it cannot be read as YAML at all. Faults that leave a
/// tree, such as duplicate keys, are reported and the tree is returned without them.
std::optional<YamlNode> parse_strict_yaml(const std::string& text,
                                          std::vector<Diagnostic>& diagnostics);

}  // namespace tubewright
